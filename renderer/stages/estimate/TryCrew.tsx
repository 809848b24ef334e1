import type { Update } from '../../book/write.ts';
import { firstPourPlan } from '../../../shared-core/standing/read-pour.ts';
import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import type { Crew, JobRoom } from '../../../shared-core/book/job.ts';
import { CrewFields } from '../../parts/job/CrewFields.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';

interface TryCrewProps {
  readonly roomReading: RoomReading;
  readonly whole: WholeJob;
  readonly onChange: (update: Update<JobRoom>) => void;
}

/** Tries another crew; the Pour screen has the rest of the plan. */
export function TryCrew({ roomReading, whole, onChange }: TryCrewProps) {
  const firstPlan = firstPourPlan(roomReading, whole);
  const { crew } = roomReading.jobRoom.pourPlan ?? firstPlan;
  const set = (to: Partial<Crew>): void =>
    onChange((room) => {
      const plan = room.pourPlan ?? firstPlan;
      return { ...room, pourPlan: { ...plan, crew: { ...plan.crew, ...to }, likelyMinutes: null, likelyVolumeM3: null } };
    });
  return (
    <BlockPart heading="Crew">
      <CrewFields short crew={crew} onCrew={(_label, to) => set(to)} />
    </BlockPart>
  );
}
