/** Words of the pour screens: problems with their keys, and the simulation's result. */
import type { Defect, IncidentKind } from '../../../shared-core/book/pour-record.ts';
import { joinWords } from '../../../shared-core/drawing/pour-edges.ts';
import { formatPercent } from '../../../shared-core/measure/percent.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import { formatListAnd } from '../../../shared-core/measure/list.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import type { UnitSystem } from '../../../shared-core/measure/unit-system.ts';
import { bagsWords } from '../../../shared-core/documents/log-words.ts';
import type { PourForecast } from '../../../shared-core/pour/forecast.ts';
import type { LeakAlarm } from '../../../shared-core/pour/leak.ts';
import type { PourOutlook, WaitOutlook } from '../../../shared-core/pour/outlook.ts';
import type { PourState } from '../../../shared-core/pour/pour-state.ts';
import type { RunOut, RunOutChoice } from '../../../shared-core/pour/run-out.ts';
import type { StopPlan } from '../../../shared-core/pour/stop-plan.ts';

/** Whether a key of the problem list logs at once or opens a page. */
export type TroublePage = 'bad-batch' | 'stop' | 'short' | 'other';

/** A problem with the key that logs it. */
export const TROUBLES: readonly {
  readonly incident: IncidentKind;
  readonly key: string;
  readonly word: string;
  readonly page: TroublePage | null;
}[] = [
  { incident: 'wrong-water', key: '1', word: 'Bad batch', page: 'bad-batch' },
  { incident: 'power-lost', key: '2', word: 'Stop: power, water, crew, edge', page: 'stop' },
  { incident: 'short-of-bags', key: '3', word: 'Short of bags', page: 'short' },
  { incident: 'leak', key: '4', word: 'Leak', page: null },
  { incident: 'blocked-outlet', key: '5', word: 'Blocked outlet', page: null },
  { incident: 'spill', key: '6', word: 'Spill', page: null },
  { incident: 'dry-spot', key: '7', word: 'Dry spot', page: null },
  { incident: 'other', key: '8', word: 'Other trouble', page: 'other' },
];

/** `Cold joint in 4% of simulated pours, most often at lane 2 beside lane 3.` Leaves out the place where there is no space. */
export function chanceWords(outlook: PourOutlook, locale: string, hasPlace = true): string {
  const { share } = outlook.coldJoint;
  const percent = formatPercent(share, share > 0 && share < 0.01 ? 1 : 0, locale);
  const where = !hasPlace || outlook.worstJoin === null || share === 0 ? '' : `, most often at ${joinWords(outlook.worstJoin.join)}`;
  return `Cold joint in ${percent} of simulated pours${where}.`;
}

/** Waiting in a simulated pour, as a sentence. */
export function waitWords({ who, waitsFor }: Pick<WaitOutlook, 'who' | 'waitsFor'>): string {
  if (who === 'mixers') return `Mixed batches wait for ${waitsFor === 'cart' ? 'the cart' : 'a carrier'}.`;
  if (who === 'spreaders') return 'The spreader waits for material.';
  if (waitsFor === 'mixers') return 'The cart waits at the mixers until it is full.';
  return `${who === 'cart' ? 'The full cart waits' : 'Full buckets wait'} for the spreader.`;
}

/** Defects of a placed floor, as the start of a sentence. */
export const DEFECT_WORDS: Readonly<Record<Defect, string>> = {
  pinholes: 'Pinholes',
  ridge: 'Ridge',
  hollow: 'Hollow spot',
  'low-spot': 'Low spot',
};

const SOON_BATCHES = 2;

/** Where to stop, in one or two sentences. */
export function stopWords(plan: StopPlan, lengthText: (lengthM: number) => string): string {
  const minutes = plan.leftMin === null ? null : Math.floor(plan.leftMin);
  // The minutes are those of the edge that is open now: they say nothing of an edge many batches on.
  const within = minutes === null || plan.batches > SOON_BATCHES ? '' : minutes <= 0 ? ' now' : ` within ${minutes} min`;
  if (plan.kind === 'wait') return `Wait. The edges allow ${minutes ?? 0} min. Do not mix another batch. Keep working the wet edge.`;
  if (plan.lane === null) return 'Do not start. Nothing is placed yet.';
  const first = plan.batches === 0 ? '' : plan.batches === 1 ? 'Place 1 more batch. ' : `Place ${plan.batches} more batches. `;
  const damM = plan.dams.reduce((sum, dam) => sum + dam.lengthM, 0);
  const dam = damM < 0.01 ? 'No dam is needed: the wall is the end.' : `Set ${lengthText(damM)} of dam${within}.`;
  return plan.kind === 'lane-end'
    ? `${first}Stop at the end of lane ${plan.lane}. ${dam}`
    : `${first}Stop in lane ${plan.lane} at the front. ${dam} Square the edge; do not feather it.`;
}

/** The run-out forecast: a word shown large, the bags, and each choice as a sentence. */
export type RunOutWords = { readonly head: string; readonly bags: string; readonly choices: readonly string[] };

/** The last choice, where the bags will not last. */
const STOP_NOW = 'Stop at the wet edge, set a dam, and pour the rest another day.';

const HEADS = { enough: 'Enough.', tight: 'Tight.', short: 'Short.' } as const;

export function runOutWords(
  { verdict, choices }: RunOut,
  { needed, bagsLeft }: PourForecast,
  units: UnitSystem,
  locale: string,
): RunOutWords {
  const whole = (n: number): string => formatNumber(n, { most: 0 }, locale);
  const [low, high] = [whole(Math.floor(needed.low)), whole(Math.ceil(needed.high))];
  const isMissing = verdict === 'short' && needed.likely > bagsLeft;
  const says = choices.map((choice) => choiceWords(choice, units, locale));
  return {
    head: HEADS[verdict],
    bags: `${bagsWords(Math.max(0, bagsLeft), locale)} left. ${low === high ? high : `${low} to ${high}`} needed.`,
    choices: verdict !== 'enough' && says.length === 0 ? [isMissing ? STOP_NOW : 'Count the stack.'] : says,
  };
}

function choiceWords(choice: RunOutChoice, units: UnitSystem, locale: string): string {
  const by = `before batch ${choice.beforeBatch}.`;
  if (choice.kind === 'thin') {
    const { lanes } = choice;
    const where = lanes.length === 1 ? `lane ${lanes[0]}` : `lanes ${lanes[0]} to ${lanes.at(-1)}`;
    return `Pour ${where} ${formatDepth(choice.byM, units, locale)} thinner. Decide ${by}`;
  }
  if (choice.kind === 'fetch') {
    const bags = choice.bags === 1 ? '1 more bag' : `${choice.bags} more bags`;
    const [trip, last] = [choice.fetchMin, choice.bagsLastMin].map(Math.round);
    const edge = choice.edgeMin === null ? '' : `, the edges ${Math.floor(choice.edgeMin)} min more`;
    return `Send for ${bags}: ${trip} min round trip. Bags last ${last} min${edge}. Send ${by}`;
  }
  return `Stop ${choice.isJoint ? `at the joint after lane ${choice.lane}` : `after lane ${choice.lane} and set a dam there`}. Decide ${by}`;
}

/** Where the mix leaves a floor, most frequent first. Common practice, no source. */
const LEAK_PLACES = ['gaps at walls', 'pipe holes', 'cracks', 'dams'];

/**
 * The alarm, and what to check.
 * @param of.isBrief leaves the checks out, where another alarm needs the room
 * @param of.isOverOpen there is a room or an open space below the floor
 */
export function leakWords(
  { lane, usedBags, plannedBags, upTo }: LeakAlarm,
  locale: string,
  { isBrief = false, isOverOpen = false }: { readonly isBrief?: boolean; readonly isOverOpen?: boolean } = {},
): string {
  const [used, planned] = [bagsWords(usedBags, locale), bagsWords(plannedBags, locale)];
  const checks = isBrief ? '' : ` Check ${formatListAnd([...LEAK_PLACES, ...(isOverOpen ? ['below the floor'] : [])])}.`;
  if (upTo === 'plan')
    return `Lane ${lane} is full by the plan: ${planned} to its end, ${used} placed. If it is not, look for a leak.${checks}`;
  const figures = `Lane ${lane} has taken ${used}. The plan was ${planned}.`;
  return upTo === 'open'
    ? `${figures} If the lane is full, log it as finished. If not, look for a leak.${checks}`
    : `${figures} Look for a leak.${checks}`;
}

/** Warns when an edge is this near its healing time, min. Our choice. */
const EDGE_WARNING_MIN = 3;

/**
 * Alarms, each a sentence to act on. The most urgent is first, because a low screen shows one: an edge past healing, a batch past its
 * working time, a leak, an edge close to healing, a room too cold or too warm. The order is common practice, no source.
 * @param says leak alarm, and where to stop at an edge past its healing time; null where there is none;
 * `outside`: the room is outside the temperatures of the data sheet
 */
export function alarmWords(
  state: Pick<PourState, 'oldestEdge' | 'inHand'>,
  says: { readonly leak: string | null; readonly stop: string | null; readonly outside: string | null },
): string[] {
  const edge = state.oldestEdge;
  const late = state.inHand.filter((b) => b.tooOld).map((b) => `Batch ${b.number} is past its working time. Throw it out.`);
  const isCold = edge !== null && edge.leftMin < 0;
  const isClose = edge !== null && !isCold && edge.leftMin <= EDGE_WARNING_MIN;
  return [
    ...(isCold ? [`The edge at batch ${edge.besideBatch} is past healing: cold joint. ${says.stop ?? 'Set a dam at the edge.'}`] : []),
    ...late,
    ...(says.leak === null ? [] : [says.leak]),
    ...(isClose ? [`The edge at batch ${edge.besideBatch} is close to its healing time. Meet it next.`] : []),
    ...(says.outside === null ? [] : [says.outside]),
  ];
}
