import type { RoomStanding } from '../../../shared-core/standing/room-standing.ts';
import type { Stage } from '../../../shared-core/standing/stage.ts';

export type StageOnSheet = Exclude<Stage, 'done'>;

export const STAGE_NAMES: Readonly<Record<StageOnSheet, string>> = {
  assess: 'Assess',
  prep: 'Prep',
  estimate: 'Estimate',
  quote: 'Quote',
  pour: 'Pour',
  cure: 'Cure',
  handover: 'Handover',
};

/** The address of a room at its current stage. */
export function roomHref(jobId: string, roomId: string): string {
  return `/jobs/${jobId}/now/${roomId}`;
}

export function stageHref(jobId: string, stage: StageOnSheet, roomId: string): string {
  return `/jobs/${jobId}/${stage}/${roomId}`;
}

/** The stage to open for a room: its current one, or the last when it is done. */
export function openingStage(stage: Stage): StageOnSheet {
  return stage === 'done' ? 'handover' : stage;
}

/** Stages that are open in every room that is drawn. */
const BEFORE_POUR: readonly StageOnSheet[] = ['assess', 'prep', 'estimate', 'quote'];

/** The stage to open for another room of the job: the one shown, or the room's own where it has not come to that. */
export function stageInRoom({ stage, stages, drawn }: Pick<RoomStanding, 'stage' | 'stages' | 'drawn'>, shown: StageOnSheet): StageOnSheet {
  const isOpen = (drawn && BEFORE_POUR.includes(shown)) || stages.some((one) => one.stage === shown && one.state !== 'waiting');
  return isOpen ? shown : openingStage(stage);
}

/** A room's stage in words: `Estimate`, `Done`. */
export function stageWord(stage: Stage): string {
  return stage === 'done' ? 'Done' : STAGE_NAMES[stage];
}
