import { useEffect } from 'react';
import { Dialog } from '../../parts/Dialog.tsx';
import { PourButton } from '../../parts/PourButton.tsx';
import './pour-else.css';

/** A question about an entry that looks like a slip: Y writes it all the same, N leaves it. */
export function PourAsk({ question, onAnswer }: { readonly question: string; readonly onAnswer: (yes: boolean) => void }) {
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
    <Dialog open firm title="Is that so?" onClose={() => onAnswer(false)}>
      <p className="pour-else-words">{question}</p>
      <div className="pour-else-pair">
        <PourButton keys="n" onPress={() => onAnswer(false)}>
          No, leave it
        </PourButton>
        <PourButton keys="y" onPress={() => onAnswer(true)}>
          Yes, log it
        </PourButton>
      </div>
    </Dialog>
  );
}
