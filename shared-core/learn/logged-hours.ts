/** Hours from the prep signatures and the pour log, to be checked and recorded. */
import type { Hours } from '../book/ledger.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { counts } from '../ledger/account.ts';
import type { TaskKey } from '../material/crew-hours.ts';
import { TASK_NAMES } from '../price/hours-words.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { SignedItem } from '../book/job.ts';

/** Hours of one person at one task on one day. `readFrom` names the log they come from. */
export type LoggedHours = Pick<Hours, 'who' | 'task' | 'minutes' | 'onDay' | 'readFrom'>;

/** One entry holds a day at most. */
const MAX_MINUTES = 24 * 60;

/** Prep lines by the task that estimates count them under; other lines are work on the surface, or small things together. */
const TASK_OF_LINE: Readonly<Record<string, TaskKey>> = {
  clear: 'protect',
  gas: 'protect',
  dust: 'protect',
  baseboard: 'protect',
  'cover-trim': 'protect',
  remove: 'remove',
  vacuum: 'vacuum',
  clean: 'vacuum',
  'isolation-strip': 'edges',
  dams: 'edges',
  feathers: 'edges',
  drains: 'edges',
  fixtures: 'edges',
  gaps: 'edges',
  'fill-cracks': 'cracks',
  'carry-joints': 'cracks',
  reinforce: 'reinforce',
  'moisture-system': 'mitigate',
  'moisture-sand': 'mitigate',
  prime: 'prime',
  'between-lifts': 'prime',
  stage: 'stage',
  water: 'stage',
  'lead-contain': 'lead-safe',
  'lead-verify': 'lead-safe',
  retest: 'tests',
  'heat-test': 'tests',
};
const ON_SURFACE: ReadonlySet<string> = new Set(['refasten', 'hollow', 'contaminated', 'grind', 'abrade', 'topping-sand']);

/** The task of a signed line, as hours are recorded by it. */
export function taskOfLine(itemKey: string): string {
  const line = taskOf(itemKey);
  const task = TASK_OF_LINE[line];
  if (task !== undefined) return TASK_NAMES[task];
  return ON_SURFACE.has(line) ? 'Prepare the surface' : 'Other prep';
}

/** The crew name of some initials; the initials themselves where no name fits. */
export function nameOf(initials: string, names: readonly string[]): string {
  const plain = initials.trim().toLocaleLowerCase();
  const match = names.find((name) => {
    const words = name.toLocaleLowerCase().split(/\s+/);
    return words[0] === plain || words.map((word) => word.charAt(0)).join('') === plain;
  });
  return match ?? initials.trim();
}

type Of = Pick<WholeJob, 'business' | 'property' | 'job' | 'pours' | 'ledger'>;

/**
 * Hours from the logs that are not in the ledger yet, oldest first. Prep: the time between signatures, by who signed. Pours: from
 * start to finish, for the owner and the named crew. Hours entered by hand for a person and day replace the logs there. Voided hours
 * come back, to be corrected.
 */
export function loggedHours({ business, property, job, pours, ledger }: Of): LoggedHours[] {
  const names = [business.ownerName, ...job.crewNames].filter((name) => name !== '');
  const dayOf = (instant: string): string => dayOfInstant(instant, property.timeZone);
  const all = new Map<string, LoggedHours>();
  for (const { signed } of job.rooms) {
    for (const { item, hours } of signedSpans(signed)) {
      const worked = { who: nameOf(item.initials, names), task: taskOfLine(item.itemKey), onDay: dayOf(item.doneAt) };
      const readFrom = `prep/${worked.onDay}/${worked.who}/${worked.task}`.slice(0, 200);
      const before = all.get(readFrom)?.minutes ?? 0;
      all.set(readFrom, { ...worked, readFrom, minutes: before + Math.round(hours * 60) });
    }
  }
  for (const pour of pours) {
    if (pour.deletedAt !== null || pour.startedAt === null || pour.finishedAt === null) continue;
    const minutes = Math.round((Date.parse(pour.finishedAt) - Date.parse(pour.startedAt)) / 60_000);
    for (const person of new Set(names)) {
      const readFrom = `pour/${pour.id}/${person}`.slice(0, 200);
      if (minutes > 0) all.set(readFrom, { who: person, task: TASK_NAMES.pour, onDay: dayOf(pour.startedAt), minutes, readFrom });
    }
  }
  const live = ledger.flatMap((entry) => (entry.kind === 'hours' && counts(entry) ? [entry] : []));
  const recorded = new Set(live.map(({ readFrom }) => readFrom));
  const byHand = new Set(live.filter(({ readFrom }) => readFrom === '').map(({ onDay, who }) => `${onDay}/${who}`));
  return [...all.values()]
    .filter(({ readFrom, minutes, onDay, who }) => {
      const isKnown = recorded.has(readFrom) || byHand.has(`${onDay}/${who}`);
      return minutes > 0 && minutes <= MAX_MINUTES && !isKnown;
    })
    .sort((a, b) => a.onDay.localeCompare(b.onDay) || a.readFrom.localeCompare(b.readFrom));
}

/** Signatures farther apart than this had a break or a night between them and are left out. Common practice, no source. */
const MOST_HOURS_BETWEEN = 5;

/** The kind of work of a line: its key up to the first colon. */
function taskOf(itemKey: string): string {
  return itemKey.split(':')[0] ?? itemKey;
}

/**
 * Hours of each signed line since the line signed before it on the same visit. The first of a visit is left out, because its start
 * is unknown. Lines signed within one minute were checked off afterwards, and are left out too.
 */
export function signedSpans(signed: readonly SignedItem[]): readonly { readonly item: SignedItem; readonly hours: number }[] {
  const inOrder = signed.filter((s) => s.withdrawnAt === null).sort((a, b) => Date.parse(a.doneAt) - Date.parse(b.doneAt));
  return inOrder.flatMap((item, i) => {
    const before = inOrder[i - 1];
    if (before === undefined) return [];
    const hours = (Date.parse(item.doneAt) - Date.parse(before.doneAt)) / 3_600_000;
    return hours < 1 / 60 || hours > MOST_HOURS_BETWEEN ? [] : [{ item, hours }];
  });
}
