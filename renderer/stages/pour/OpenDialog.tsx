import { useState } from 'react';
import { Dialog } from '../../parts/Dialog.tsx';
import { ActionButton } from '../../parts/ActionButton.tsx';
import { NumberField } from '../../parts/NumberField.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { bagsWords } from '../../../shared-core/pour/log-words.ts';

interface OpenProps {
  readonly room: string;
  readonly bagsNeeded: number;
  readonly onOpen: (bagsOnSite: number) => void;
  readonly onClose: () => void;
}

/** Asks for the bags on site before the first is opened: what the run-out forecast starts from. */
export function OpenDialog({ room, bagsNeeded, onOpen, onClose }: OpenProps) {
  const { locale } = useMeasure();
  const [bags, setBags] = useState<number | null>(null);
  return (
    <Dialog
      open
      title={`Open the pour of the ${room.toLowerCase()}`}
      onClose={onClose}
      actions={
        <>
          <TextButton onPress={onClose}>Not yet</TextButton>
          <ActionButton
            held={bags === null ? 'Count the bags on site and type how many there are.' : null}
            onPress={() => bags !== null && onOpen(bags)}
          >
            Open the pour
          </ActionButton>
        </>
      }
    >
      <NumberField
        label="Bags on site, counted now"
        value={bags}
        onChange={setBags}
        least={1}
        most={2000}
        whole
        autoFocus
        hint={`By plan it takes ${bagsWords(bagsNeeded, locale)}.`}
      />
      {/* Its place is kept, so that the button does not move away while it is pressed. */}
      <p role="alert" className="pour-short">
        {bags !== null && bags < bagsNeeded
          ? `That is ${bagsWords(bagsNeeded - bags, locale)} short of the plan. The pour will say in time where to stop; better send for the rest first.`
          : ''}
      </p>
      <p className="small">
        Space then logs a batch as landed. Gloves, eye protection and the data sheet’s own cautions stand; power through residual-current
        protection, as local code asks.
      </p>
    </Dialog>
  );
}
