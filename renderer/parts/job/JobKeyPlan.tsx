import type { Stage } from '../../../shared-core/book/job.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { KeyPlan } from '../KeyPlan.tsx';
import { keyPlanDrawing } from './key-plan-drawing.ts';
import { openingStage, roomWords, type StageOnSheet, stageHref } from './stage-words.ts';

interface JobKeyPlanProps {
  readonly whole: WholeJob;
  readonly roomId: string;
  readonly stage: StageOnSheet;
  readonly heldAt: Stage | null;
}

/** The rooms of the job in outline, the one at hand hatched, and where each stands. */
export function JobKeyPlan({ whole, roomId, heldAt }: JobKeyPlanProps) {
  const { job } = whole;
  return (
    <KeyPlan
      drawing={keyPlanDrawing(whole.rooms, roomId)}
      rooms={job.rooms.map((jobRoom) => {
        const current = jobRoom.roomId === roomId;
        const held = current && heldAt !== null;
        return {
          id: jobRoom.roomId,
          name: whole.rooms.find((r) => r.id === jobRoom.roomId)?.name ?? 'Room',
          href: stageHref(job.id, openingStage(jobRoom.stage), jobRoom.roomId),
          state: held ? 'held' : jobRoom.stage === 'done' ? 'done' : jobRoom.stage === 'assess' ? 'waiting' : 'under-way',
          words: held ? `${roomWords(jobRoom.stage)}, held` : roomWords(jobRoom.stage),
          current,
        };
      })}
    />
  );
}
