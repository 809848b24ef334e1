import { firstPourPlan } from '../../../shared-core/agenda/read-pour.ts';
import type { RoomReading } from '../../../shared-core/agenda/read-job.ts';
import type { Crew, JobRoom } from '../../../shared-core/book/job.ts';
import { ChoiceRow } from '../../parts/ChoiceRow.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { NumberField } from '../../parts/NumberField.tsx';
import { BlockPart } from '../../parts/TitleBlock.tsx';

const CARRY = [
  { value: 'cart', word: 'by cart' },
  { value: 'by-hand', word: 'by hand' },
] as const;

interface TryCrewProps {
  readonly at: RoomReading;
  readonly onChange: (how: (room: JobRoom) => JobRoom) => void;
}

/** Who pours, tried: the pour's own sheet keeps the rest of the plan. */
export function TryCrew({ at, onChange }: TryCrewProps) {
  const begin = firstPourPlan(at);
  const { crew } = at.jobRoom.pourPlan ?? begin;
  const set = (to: Partial<Crew>): void =>
    onChange((room) => {
      const plan = room.pourPlan ?? begin;
      return { ...room, pourPlan: { ...plan, crew: { ...plan.crew, ...to }, likelyMinutes: null } };
    });
  return (
    <BlockPart heading="Crew">
      <Fields>
        <NumberField label="Mixing" whole least={1} most={12} value={crew.mixers} onChange={(n) => n !== null && set({ mixers: n })} />
        <NumberField
          label="Carrying"
          whole
          least={0}
          most={12}
          value={crew.carriers}
          onChange={(n) => n !== null && set({ carriers: n })}
        />
        <NumberField
          label="Bags in a batch"
          least={0.25}
          most={20}
          value={crew.bagsPerBatch}
          onChange={(n) => n !== null && set({ bagsPerBatch: n })}
        />
      </Fields>
      <ChoiceRow
        label="Brought"
        captioned
        options={CARRY}
        value={crew.carry}
        onChange={(carry) => set({ carry, carriers: carry === 'by-hand' ? Math.max(1, crew.carriers) : crew.carriers })}
      />
    </BlockPart>
  );
}
