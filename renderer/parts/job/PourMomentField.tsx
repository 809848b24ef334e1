import { useState } from 'react';
import { movedWords, type PourMove } from '../../../shared-core/agenda/move-pour.ts';
import { MomentField } from '../Fields.tsx';
import { countWords } from '../../../shared-core/measure/count-words.ts';
import { Dialog } from '../Dialog.tsx';
import { useMeasure } from '../use-measure.ts';

interface PourMomentFieldProps {
  readonly label: string;
  readonly zone: string;
  readonly now: string;
  readonly value: string | null;
  /** Sets a first time, or clears it. */
  readonly onSet: (pourAt: string | null) => void;
  /** The dates and conflicts of a move; null for none. */
  readonly onTry: (toAt: string) => Promise<PourMove | null>;
  readonly onMove: (move: PourMove) => void;
}

/** The planned time of the pour. Moving it shows the dates and conflicts first. */
export function PourMomentField({ label, zone, now, value, onSet, onTry, onMove }: PourMomentFieldProps) {
  const [move, setMove] = useState<PourMove | null>(null);
  const change = (instant: string | null): void => {
    if (instant === null || value === null) return onSet(instant);
    if (instant === value) return undefined;
    void onTry(instant).then((tried) => (tried === null ? onSet(instant) : setMove(tried)));
    return undefined;
  };
  return (
    <>
      {/* Resets the field after a canceled move. */}
      <MomentField
        key={move === null ? 'stands' : 'moving'}
        label={label}
        zone={zone}
        now={now}
        value={value}
        placeholder="Day and time"
        onChange={change}
      />
      {move !== null && (
        <MovePourDialog
          move={move}
          onClose={() => setMove(null)}
          onMove={() => {
            setMove(null);
            onMove(move);
          }}
        />
      )}
    </>
  );
}

interface MovePourDialogProps {
  readonly move: PourMove;
  readonly onMove: () => void;
  readonly onClose: () => void;
}

/** Dates listed one by one. */
const MOST_SHOWN = 8;

function MovePourDialog({ move, onMove, onClose }: MovePourDialogProps) {
  const { locale } = useMeasure();
  const { moved, breaks } = move;
  return (
    <Dialog
      wide
      onClose={onClose}
      title={breaks.length === 0 ? 'Move the pour' : 'Moving the pour causes conflicts'}
      onSave={onMove}
      saveWord={breaks.length === 0 ? 'Move the pour' : 'Move anyway'}
    >
      {breaks.length > 0 && (
        <>
          <h3 className="caption">Conflicts, earliest first</h3>
          <ul>
            {breaks.map((broken) => (
              <li key={`${broken.instant} ${broken.sentence}`} className="late">
                {broken.sentence}
              </li>
            ))}
          </ul>
        </>
      )}
      <h3 className="caption">Dates that move</h3>
      <ul>
        {moved.slice(0, MOST_SHOWN).map((one) => (
          <li key={one.entry.key}>
            <b>{one.entry.verb}</b> {movedWords(one, locale)}
          </li>
        ))}
        {moved.length > MOST_SHOWN && <li>{countWords(moved.length - MOST_SHOWN, 'more date', locale)}</li>}
      </ul>
    </Dialog>
  );
}
