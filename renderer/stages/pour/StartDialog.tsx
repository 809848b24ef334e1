import { useState } from 'react';
import { bagsWords } from '../../../shared-core/documents/log-words.ts';
import { Dialog } from '../../parts/Dialog.tsx';
import { ActionButton, TextButton } from '../../parts/Buttons.tsx';
import { NumberField } from '../../parts/Fields.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

interface StartProps {
  readonly room: string;
  readonly bagsNeeded: number;
  /** Includes the estimate's reserve. */
  readonly bagsToBring: number;
  readonly onStart: (bagsOnSite: number) => void;
  readonly onClose: () => void;
}

/** Asks for the bags on site before the pour, because the bag forecast starts from them. */
export function StartDialog({ room, bagsNeeded, bagsToBring, onStart, onClose }: StartProps) {
  const { locale } = useMeasure();
  const [bags, setBags] = useState<number | null>(null);
  const start = (): void => {
    if (bags !== null) onStart(bags);
  };
  return (
    <Dialog
      title={`Start pour: ${room}`}
      onClose={onClose}
      actions={
        <>
          <TextButton onPress={onClose}>Cancel</TextButton>
          <ActionButton held={bags === null ? 'Enter the bags on site.' : null} onPress={start}>
            Start pour
          </ActionButton>
        </>
      }
    >
      <NumberField
        label="Bags on site"
        value={bags}
        onChange={setBags}
        least={1}
        most={2000}
        whole
        autoFocus
        hint={`The plan needs ${bagsWords(bagsNeeded, locale)}. The estimate has ${bagsWords(bagsToBring, locale)}.`}
      />
      {/* Reserves its space, so that the button does not move while it is pressed. */}
      <p role="alert" className="pour-short">
        {bags !== null && bags < bagsNeeded
          ? `${bagsWords(bagsNeeded - bags, locale)} short of the plan. Get more bags first, or plan where to stop.`
          : ''}
      </p>
      <p className="small">
        Press Space each time a batch is placed. Wear gloves and eye protection, follow the data sheet, and plug mixers into GFCI outlets.
      </p>
    </Dialog>
  );
}
