import { useState } from 'react';
import { useLocation } from 'wouter';
import { formatInstant } from '../../shared-core/measure/moment.ts';
import { beginLooking } from '../book/look-book.ts';
import { useBusiness } from '../book/use-records.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { BringDialog } from './BringDialog.tsx';
import { bringPictures, copyHolds, copyPieces, type OpenedCopy, restoreCopy } from './open-copy.ts';

interface CopyDialogProps {
  readonly copy: OpenedCopy;
  readonly onClose: () => void;
  readonly onSay: (good: boolean, words: string) => void;
}

/** What a copy holds, and what can be done with it: look around, bring some of it in, or put it in place of the book. */
export function CopyDialog({ copy, onClose, onSay }: CopyDialogProps) {
  const [step, setStep] = useState<'ways' | 'whole' | 'some'>('ways');
  const [busy, setBusy] = useState(false);
  const business = useBusiness();
  const [, go] = useLocation();
  const made = business === undefined ? '' : formatInstant(copy.madeAt, business.timeZone, 'weekday', business.locale);
  const restore = async (): Promise<void> => {
    setBusy(true);
    const outcome = await restoreCopy(copy);
    onClose();
    if (!outcome.ok) return onSay(false, outcome.message);
    const lost = outcome.value === 0 ? '' : ` ${outcome.value === 1 ? 'One photo' : `${outcome.value} photos`} of it could not be read.`;
    onSay(true, `The book of ${made} is back.${lost} The one before it stands among the copies.`);
  };
  const look = async (): Promise<void> => {
    setBusy(true);
    const begun = await beginLooking(copyPieces(copy), copy.madeAt);
    if (!begun.ok) {
      onClose();
      return onSay(false, begun.message);
    }
    go('/');
    // Its photos follow while one looks.
    await bringPictures(copy, copy.pictures);
  };
  if (step === 'some') return <BringDialog copy={copy} made={made} onClose={onClose} onSay={onSay} />;
  if (step === 'whole')
    return (
      <Dialog
        open
        firm
        onClose={onClose}
        title="Put this copy in place of the book?"
        actions={
          <>
            <TextButton disabled={busy} onPress={onClose}>
              Go back
            </TextButton>
            <TextButton kind="outlined" disabled={busy} onPress={() => void restore()}>
              {busy ? 'Restoring…' : 'Restore it'}
            </TextButton>
          </>
        }
      >
        <p>
          Made {made}: {copyHolds(copy)}.
        </p>
        <p>The present book is copied first. Undo does not reach back past a restore; that copy does.</p>
      </Dialog>
    );
  return (
    <Dialog open onClose={onClose} title={`The copy of ${made}`} actions={<TextButton onPress={onClose}>Go back</TextButton>}>
      <p>It is whole, and holds {copyHolds(copy)}.</p>
      <ul className="backup-ways">
        <li>
          <TextButton kind="outlined" disabled={busy} onPress={() => void look()}>
            {busy ? 'Opening…' : 'Look around in it'}
          </TextButton>
          <span className="small">Every sheet as it was then; nothing can be changed.</span>
        </li>
        <li>
          <TextButton kind="outlined" disabled={busy} onPress={() => setStep('some')}>
            Bring in some of it
          </TextButton>
          <span className="small">Customers and jobs you choose, beside what the book has.</span>
        </li>
        <li>
          <TextButton kind="outlined" disabled={busy} onPress={() => setStep('whole')}>
            Put it in place of the book
          </TextButton>
          <span className="small">The whole of it; the present book is copied first.</span>
        </li>
      </ul>
    </Dialog>
  );
}
