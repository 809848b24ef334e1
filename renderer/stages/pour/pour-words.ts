/** Words of the pour screens: problems with their keys, and the simulation's result. */
import type { Defect, IncidentKind } from '../../../shared-core/book/pour-record.ts';
import { joinWords } from '../../../shared-core/drawing/pour-edges.ts';
import { formatPercent } from '../../../shared-core/measure/percent.ts';
import type { LeakAlarm } from '../../../shared-core/pour/leak.ts';
import type { PourOutlook } from '../../../shared-core/pour/outlook.ts';
import type { StopPlan } from '../../../shared-core/pour/stop-plan.ts';

/** Whether a key of the problem list logs at once or opens a page. */
export type TroublePage = 'bad-batch' | 'stop' | 'short' | 'other';

/** A problem with the key that logs it. */
export const TROUBLES: readonly {
  readonly what: IncidentKind;
  readonly key: string;
  readonly word: string;
  readonly page: TroublePage | null;
}[] = [
  { what: 'wrong-water', key: '1', word: 'Bad batch', page: 'bad-batch' },
  { what: 'power-lost', key: '2', word: 'Stop: power, water, crew, edge', page: 'stop' },
  { what: 'short-of-bags', key: '3', word: 'Short of bags', page: 'short' },
  { what: 'leak', key: '4', word: 'Leak', page: null },
  { what: 'blocked-outlet', key: '5', word: 'Blocked outlet', page: null },
  { what: 'spill', key: '6', word: 'Spill', page: null },
  { what: 'dry-spot', key: '7', word: 'Dry spot', page: null },
  { what: 'other', key: '8', word: 'Other trouble', page: 'other' },
];

/** `Cold joint in 4% of simulated pours, most often at lane 2 beside lane 3.` Leaves out the place where there is no space. */
export function chanceWords(outlook: PourOutlook, locale: string, hasPlace = true): string {
  const { share } = outlook.coldJoint;
  const percent = formatPercent(share, share > 0 && share < 0.01 ? 1 : 0, locale);
  const where = !hasPlace || outlook.worstJoin === null || share === 0 ? '' : `, most often at ${joinWords(outlook.worstJoin.join)}`;
  return `Cold joint in ${percent} of simulated pours${where}.`;
}

/** Defects of a placed floor, as the start of a sentence. */
export const DEFECT_WORDS: Readonly<Record<Defect, string>> = {
  pinholes: 'Pinholes',
  ridge: 'Ridge',
  hollow: 'Hollow spot',
  'low-spot': 'Low spot',
};

/** Where to stop, in one or two sentences. */
export function stopWords(plan: StopPlan, lengthText: (lengthM: number) => string): string {
  const minutes = plan.leftMin === null ? null : Math.floor(plan.leftMin);
  const within = minutes === null ? '' : minutes <= 0 ? ' now' : ` within ${minutes} min`;
  if (plan.kind === 'wait') return `Wait. The edge stays open ${minutes ?? 0} min. Wet nothing and keep the edge moving.`;
  if (plan.lane === null) return 'Do not start. Nothing is placed yet.';
  const first = plan.batches === 0 ? '' : plan.batches === 1 ? 'Place 1 more batch. ' : `Place ${plan.batches} more batches. `;
  const damM = plan.dams.reduce((sum, dam) => sum + dam.lengthM, 0);
  const dam = damM < 0.01 ? `The wall closes it.` : `Set ${lengthText(damM)} of dam${within}.`;
  return plan.kind === 'lane-end'
    ? `${first}Stop at the end of lane ${plan.lane}. ${dam}`
    : `${first}Stop in lane ${plan.lane} at the front. ${dam} Square the edge; do not feather it.`;
}

/** What to check, most frequent cause first. Common practice, no source. */
const LEAK_CHECKS = 'Check gaps at walls, pipe holes, cracks, dams, and the room below.';

export function leakWords(alarm: LeakAlarm, bagsText: (bags: number) => string): string {
  const figures = `Lane ${alarm.lane} has taken ${bagsText(alarm.usedBags)}. The plan was ${bagsText(alarm.plannedBags)}.`;
  return alarm.isOpen
    ? `${figures} If the lane is full, log it as finished. If not, look for a leak. ${LEAK_CHECKS}`
    : `${figures} Look for a leak. ${LEAK_CHECKS}`;
}
