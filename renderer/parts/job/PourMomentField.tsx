import { useState } from 'react';
import type { PourMove } from '../../../shared-core/agenda/move-pour.ts';
import { MomentField } from '../Fields.tsx';
import { MovePourDialog } from './MovePourDialog.tsx';

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
          zone={zone}
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
