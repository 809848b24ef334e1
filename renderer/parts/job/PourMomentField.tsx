import { useState } from 'react';
import type { PourMove } from '../../../shared-core/agenda/move-pour.ts';
import { MomentField } from '../MomentField.tsx';
import { MovePourDialog } from './MovePourDialog.tsx';

interface PourMomentFieldProps {
  readonly label: string;
  readonly zone: string;
  readonly now: string;
  readonly value: string | null;
  /** Sets the first moment, or takes it away. */
  readonly onSet: (pourAt: string | null) => void;
  /** What a move would take along and break; null where nothing hangs on it. */
  readonly onTry: (toAt: string) => Promise<PourMove | null>;
  readonly onMove: (move: PourMove) => void;
}

/** When it is poured. A pour that stands already is moved only after what hangs on it was shown. */
export function PourMomentField({ label, zone, now, value, onSet, onTry, onMove }: PourMomentFieldProps) {
  const [move, setMove] = useState<PourMove | null>(null);
  const change = (at: string | null): void => {
    if (at === null || value === null) return onSet(at);
    if (at === value) return undefined;
    void onTry(at).then((tried) => (tried === null ? onSet(at) : setMove(tried)));
    return undefined;
  };
  return (
    <>
      {/* The field shows what stands: a move not made leaves it as it was. */}
      <MomentField
        key={move === null ? 'stands' : 'moving'}
        label={label}
        zone={zone}
        now={now}
        value={value}
        placeholder="a day and a time"
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
