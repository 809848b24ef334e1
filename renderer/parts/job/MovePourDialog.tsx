import type { PourMove } from '../../../shared-core/agenda/move-pour.ts';
import { formatInstant } from '../../../shared-core/measure/moment.ts';
import { Dialog } from '../Dialog.tsx';
import { TextButton } from '../TextButton.tsx';
import { useMeasure } from '../use-measure.ts';

interface MovePourDialogProps {
  readonly move: PourMove;
  readonly zone: string;
  readonly onMove: () => void;
  readonly onClose: () => void;
}

/** As many of what moves along are told one by one. */
const MOST_TOLD = 8;

/** What a move of the pour takes along and what it breaks, before it is done. */
export function MovePourDialog({ move, zone, onMove, onClose }: MovePourDialogProps) {
  const { locale } = useMeasure();
  const at = (instant: string): string => formatInstant(instant, zone, 'weekday', locale);
  const { moved, breaks } = move;
  return (
    <Dialog
      open
      wide
      onClose={onClose}
      title={breaks.length === 0 ? 'Move the pour' : 'Moving the pour breaks something'}
      actions={
        <>
          <TextButton onPress={onClose}>Leave it where it is</TextButton>
          <TextButton kind="outlined" onPress={onMove}>
            {breaks.length === 0 ? 'Move the pour' : 'Move it all the same'}
          </TextButton>
        </>
      }
    >
      {breaks.length > 0 && (
        <>
          <h3 className="caption">What breaks, the first first</h3>
          <ul>
            {breaks.map((broken) => (
              <li key={`${broken.at} ${broken.sentence}`} className="late">
                {broken.sentence}
              </li>
            ))}
          </ul>
        </>
      )}
      <h3 className="caption">What moves along</h3>
      <ul>
        {moved.slice(0, MOST_TOLD).map(({ entry, fromAt, toAt }) => (
          <li key={entry.key}>
            <b>{entry.verb}</b> {entry.rest} {at(fromAt)}, then {at(toAt)}.
          </li>
        ))}
        {moved.length > MOST_TOLD && <li>And {moved.length - MOST_TOLD} more dates.</li>}
      </ul>
    </Dialog>
  );
}
