import { useEffect } from 'react';
import { Dialog } from '../../parts/Dialog.tsx';
import { PourButton } from '../../parts/Buttons.tsx';
import './pour-more.css';

interface AskProps {
  readonly question: string;
  /** The action of No. */
  readonly noWord: string;
  readonly onAnswer: (yes: boolean) => void;
}

/** A question about an entry that looks like a typo: Y logs it, N does what its button says. */
export function PourAsk({ question, noWord, onAnswer }: AskProps) {
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      const key = event.key.toLowerCase();
      if (key !== 'y' && key !== 'n') return;
      event.preventDefault();
      onAnswer(key === 'y');
    };
    document.addEventListener('keydown', press);
    return () => document.removeEventListener('keydown', press);
  }, [onAnswer]);
  return (
    <Dialog firm title="Check this entry" onClose={() => onAnswer(false)}>
      <p className="pour-more-words">{question}</p>
      <div className="pour-more-pair">
        <PourButton keys="n" onPress={() => onAnswer(false)}>
          {noWord}
        </PourButton>
        <PourButton keys="y" onPress={() => onAnswer(true)}>
          Yes
        </PourButton>
      </div>
    </Dialog>
  );
}
