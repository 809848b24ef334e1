import type { JobGlance } from '../../../shared-core/standing/read-job.ts';
import type { JobStanding } from '../../../shared-core/standing/room-standing.ts';
import { KeyPlan } from '../KeyPlan.tsx';
import { STATE_WORDS } from '../StateShape.tsx';
import { keyPlanDrawing } from './key-plan-drawing.ts';
import { openingStage, stageWord, stageHref } from './stage-words.ts';

interface JobKeyPlanProps {
  readonly whole: JobGlance['whole'];
  readonly standing: JobStanding;
  readonly roomId: string;
}

/** The job's rooms in outline, the current one hatched, each with its stage. */
export function JobKeyPlan({ whole, standing, roomId }: JobKeyPlanProps) {
  return (
    <KeyPlan
      drawing={keyPlanDrawing(whole.rooms, roomId)}
      rooms={standing.rooms.map((room) => ({
        id: room.roomId,
        name: room.name,
        href: stageHref(whole.job.id, openingStage(room.stage), room.roomId),
        state: room.state,
        words: room.state === 'held' ? `${stageWord(room.stage)}, ${STATE_WORDS.held}` : stageWord(room.stage),
        current: room.roomId === roomId,
      }))}
    />
  );
}
