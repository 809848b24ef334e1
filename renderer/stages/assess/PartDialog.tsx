import { useState } from 'react';
import type { Point } from '../../../shared-core/book/fields.ts';
import type { Plan } from '../../../shared-core/book/plan-fields.ts';
import { drawnPart, type RoomStretch, stretchOf, stretchOfRoom } from '../../../shared-core/plan/part-of-room.ts';
import { Dialog } from '../../parts/Dialog.tsx';
import { Notice } from '../../parts/Notice.tsx';
import { QuantityField } from '../../parts/Fields.tsx';
import { SelectField } from '../../parts/Choices.tsx';
import { DrawnPart } from './DrawnPart.tsx';

/** Sides by their place on the plan. */
export const SIDE_WORDS: Readonly<Record<RoomStretch['side'], string>> = { left: 'left', right: 'right', top: 'top', bottom: 'bottom' };

const PLACES = {
  whole: 'whole room',
  left: 'along the left wall',
  right: 'along the right wall',
  top: 'along the top wall',
  bottom: 'along the bottom wall',
  drawn: 'area drawn on the plan',
};

interface PartDialogProps {
  readonly plan: Pick<Plan, 'outline' | 'holes' | 'openings'>;
  /** The layer: `slab on grade`. */
  readonly of: string;
  readonly area: readonly Point[] | null;
  readonly onSave: (area: Point[] | null) => void;
  readonly onClose: () => void;
}

/** Extent of a layer: the whole room, a strip along one side of the plan, or an area drawn by corners. */
export function PartDialog({ plan, of, area, onSave, onClose }: PartDialogProps) {
  const stretch = area === null ? null : stretchOf(plan, area);
  const [side, setSide] = useState<RoomStretch['side'] | 'whole' | 'drawn'>(stretch?.side ?? (area === null ? 'whole' : 'drawn'));
  const [depthM, setDepthM] = useState<number | null>(stretch?.depthM ?? null);
  const [corners, setCorners] = useState<readonly Point[]>(area ?? []);
  const [problem, setProblem] = useState<string | null>(null);
  const save = (): void => {
    if (side === 'whole') return onSave(null);
    const part = side === 'drawn' ? drawnPart(plan, corners) : stretchOfRoom(plan, { side, depthM: depthM ?? 0 });
    return part.ok ? onSave(part.value) : setProblem(part.message);
  };
  return (
    <Dialog wide={side === 'drawn'} onClose={onClose} title={`Extent of ${of}`} onSave={save}>
      <p className="caption">
        Sides are as on the plan. Where the floor changes, enter how far each part extends from its wall, or draw it by its corners.
      </p>
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      <SelectField
        label="Extent"
        options={PLACES}
        value={side}
        onChange={(to) => {
          setSide(to);
          setProblem(null);
        }}
      />
      {side === 'drawn' && <DrawnPart plan={plan} corners={corners} onChange={setCorners} />}
      {side !== 'whole' && side !== 'drawn' && (
        <QuantityField kind="length" label={`From the ${SIDE_WORDS[side]} wall`} value={depthM} onChange={setDepthM} autoFocus />
      )}
    </Dialog>
  );
}
