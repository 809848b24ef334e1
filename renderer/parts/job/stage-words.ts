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

/** A room's stage in words: `Estimate`, `Done`. */
export function stageWord(stage: Stage): string {
  return stage === 'done' ? 'Done' : STAGE_NAMES[stage];
}
