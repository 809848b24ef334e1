/** The stages as the sheets name them, in the order of the work. */
import { type Job, STAGES, type Stage } from '../../../shared-core/book/job.ts';
import type { StateName } from '../StateShape.tsx';

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

/** The address of a room's stage. */
export function stageHref(jobId: string, stage: StageOnSheet, roomId: string): string {
  return `/jobs/${jobId}/${stage}/${roomId}`;
}

/** The stage that opens for a room: where it stands, or the last one when it is done. */
export function openingStage(stage: Stage): StageOnSheet {
  return stage === 'done' ? 'handover' : stage;
}

/** How a stage stands for a room that is at `at`. */
export function stageState(stage: StageOnSheet, at: Stage): StateName {
  const [here, there] = [STAGES.indexOf(at), STAGES.indexOf(stage)];
  return there < here ? 'done' : there === here ? 'under-way' : 'waiting';
}

/** How a job stands, in words. */
export const JOB_STATE_WORDS: Readonly<Record<Job['state'], string>> = {
  open: 'open',
  declined: 'declined',
  finished: 'finished',
  'set-aside': 'set aside',
};

/** A room's stage in words: `estimate`, `handed over`. */
export function roomWords(at: Stage): string {
  return at === 'done' ? 'handed over' : STAGE_NAMES[at].toLowerCase();
}
