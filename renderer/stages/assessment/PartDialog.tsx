import { useState } from 'react';
import type { Point } from '../../../shared-core/book/fields.ts';
import type { Plan } from '../../../shared-core/book/plan-fields.ts';
import { type RoomStretch, stretchOf, stretchOfRoom } from '../../../shared-core/plan/part-of-room.ts';
import { ChoiceRow } from '../../parts/ChoiceRow.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { Notice } from '../../parts/Notice.tsx';
import { QuantityField } from '../../parts/QuantityField.tsx';
import { TextButton } from '../../parts/TextButton.tsx';

/** The sides by their place on the drawn plan. */
export const SIDE_WORDS: Readonly<Record<RoomStretch['side'], string>> = { left: 'left', right: 'right', top: 'top', bottom: 'bottom' };

const PLACES = [
  { value: 'whole', word: 'Whole room' },
  { value: 'left', word: 'Left' },
  { value: 'right', word: 'Right' },
  { value: 'top', word: 'Top' },
  { value: 'bottom', word: 'Bottom' },
] as const;

interface PartDialogProps {
  readonly plan: Pick<Plan, 'outline'>;
  /** What lies there: `concrete on ground`. */
  readonly of: string;
  readonly area: readonly Point[] | null;
  readonly onKeep: (area: Point[] | null) => void;
  readonly onClose: () => void;
}

/** Where a layer lies: the whole room, or a stretch along one side of the plan. */
export function PartDialog({ plan, of, area, onKeep, onClose }: PartDialogProps) {
  const was = area === null ? null : stretchOf(plan, area);
  const [side, setSide] = useState<RoomStretch['side'] | 'whole'>(was?.side ?? 'whole');
  const [depthM, setDepthM] = useState<number | null>(was?.depthM ?? null);
  const [problem, setProblem] = useState<string | null>(null);
  const keep = (): void => {
    if (side === 'whole') return onKeep(null);
    const made = stretchOfRoom(plan, { side, depthM: depthM ?? 0 });
    return made.ok ? onKeep(made.value) : setProblem(made.message);
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title={`Where ${of} lies`}
      actions={
        <>
          <TextButton onPress={onClose}>Back</TextButton>
          <TextButton kind="outlined" onPress={keep}>
            Keep it there
          </TextButton>
        </>
      }
    >
      <p className="caption">Sides as on the plan. Where a floor changes, write how far each part reaches from its wall.</p>
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      <ChoiceRow label="Where it lies" options={PLACES} value={side} onChange={setSide} />
      {side !== 'whole' && (
        <QuantityField kind="length" label={`From the ${SIDE_WORDS[side]} wall`} value={depthM} onChange={setDepthM} autoFocus />
      )}
    </Dialog>
  );
}
