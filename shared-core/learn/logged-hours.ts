/** Hours from the prep signatures and the pour log, to be checked and recorded. */
import type { Hours } from '../book/ledger.ts';
import type { WholeJob } from '../book/whole-job.ts';
import { counts } from '../ledger/account.ts';
import type { TaskKey } from '../material/crew-hours.ts';
import { helpersIn } from '../pour/crew-names.ts';
import { workSpans } from '../pour/log-time.ts';
import { TASK_NAMES } from '../price/hours-words.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { roomsOnRecord, type SignedItem } from '../book/job.ts';

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
  scrape: 'remove',
  refasten: 'fasten',
  plywood: 'fasten',
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
  stage: 'stage',
  water: 'stage',
  'lead-contain': 'lead-safe',
  'lead-verify': 'lead-safe',
  retest: 'tests',
  'heat-test': 'tests',
};
const ON_SURFACE: ReadonlySet<string> = new Set(['hollow', 'contaminated', 'grind', 'abrade', 'between-lifts', 'topping-sand']);

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

type Of = Pick<WholeJob, 'business' | 'property' | 'job' | 'pours' | 'pourEvents' | 'ledger'>;

/**
 * Hours from the logs that are not in the ledger yet, oldest first. Prep: the time between signatures, by who signed. Pours: from
 * start to the end of the work, for the owner and the named crew, or as many unnamed helpers as the pour was planned with. Lines signed and pours resumed after hours were recorded are offered on
 * their own. Hours entered by hand for a person and day replace the logs there. Voided hours come back, to be corrected.
 */
export function loggedHours({ business, property, job, pours, pourEvents, ledger }: Of): LoggedHours[] {
  const names = [business.ownerName, ...job.crewNames].filter((name) => name !== '');
  const dayOf = (instant: string): string => dayOfInstant(instant, property.timeZone);
  const entered = ledger.flatMap((entry) => (entry.kind === 'hours' ? [entry] : []));
  const live = entered.filter(counts);
  const ms = (instant: string): number => Date.parse(instant);
  // What was done belongs to the first entry recorded after it. Where that is voided, it counts once it is recorded again.
  const isRecorded = (from: string, doneAt: string): boolean => {
    const own = entered.filter(({ readFrom, createdAt }) => readFrom === from && ms(createdAt) >= ms(doneAt));
    const first = own.toSorted((a, b) => ms(a.createdAt) - ms(b.createdAt))[0];
    if (first === undefined) return false;
    const endedAt = first.voidedAt ?? first.deletedAt ?? first.createdAt;
    return counts(first) || own.some((entry) => counts(entry) && ms(entry.createdAt) >= ms(endedAt));
  };
  // Helpers entered by hand are those of that day.
  const unnamedOn = ({ plans }: WholeJob['pours'][number], day: string): string[] => {
    const isEntered = live.some(({ readFrom, onDay, who }) => readFrom === '' && onDay === day && who !== business.ownerName);
    if (job.crewNames.length > 0 || isEntered) return [];
    const count = Math.max(0, ...(plans ?? []).map(({ plan }) => helpersIn(plan)));
    return Array.from({ length: count }, (_, i) => `Helper ${i + 1}`);
  };
  const all = new Map<string, LoggedHours>();
  const signed = roomsOnRecord(job).flatMap(({ roomId, signed: items }) =>
    items.map((item) => ({ item, roomId, who: nameOf(item.initials, names) })),
  );
  for (const { item, who, hours } of signedSpans(signed)) {
    const worked = { who, task: taskOfLine(item.itemKey), onDay: dayOf(item.doneAt) };
    const readFrom = `prep/${worked.onDay}/${worked.who}/${worked.task}`.slice(0, 200);
    if (isRecorded(readFrom, item.doneAt)) continue;
    const before = all.get(readFrom)?.minutes ?? 0;
    all.set(readFrom, { ...worked, readFrom, minutes: before + Math.round(hours * 60) });
  }
  for (const pour of pours) {
    if (pour.deletedAt !== null || pour.startedAt === null || pour.finishedAt === null) continue;
    for (const { from, until } of workSpans(
      pour.startedAt,
      pourEvents.filter(({ pourId }) => pourId === pour.id),
    )) {
      const minutes = Math.round((ms(until) - ms(from)) / 60_000);
      const onDay = dayOf(from);
      for (const who of new Set([...names, ...unnamedOn(pour, onDay)])) {
        const readFrom = `pour/${pour.id}/${onDay}/${who}`.slice(0, 200);
        const before = all.get(readFrom)?.minutes ?? 0;
        if (minutes > 0 && !isRecorded(readFrom, until))
          all.set(readFrom, { who, task: TASK_NAMES.pour, onDay, minutes: before + minutes, readFrom });
      }
    }
  }
  const byHand = new Set(live.filter(({ readFrom }) => readFrom === '').map(({ onDay, who }) => `${onDay}/${who}`));
  return [...all.values()]
    .filter(({ minutes, onDay, who }) => minutes > 0 && minutes <= MAX_MINUTES && !byHand.has(`${onDay}/${who}`))
    .sort((a, b) => a.onDay.localeCompare(b.onDay) || a.readFrom.localeCompare(b.readFrom));
}

/** Signatures farther apart than this had a break or a night between them and are left out. Common practice, no source. */
const MOST_HOURS_BETWEEN = 5;

/** The kind of work of a line: its key up to the first colon. */
function taskOf(itemKey: string): string {
  return itemKey.split(':')[0] ?? itemKey;
}

/** A signed line, its room and who signed it. */
export type Signed = { readonly item: SignedItem; readonly roomId: string; readonly who: string };

/**
 * Hours of each signed line since the line signed before it on the same visit, in the same room or by the same person in any room:
 * nobody's time is counted twice. The first of a visit is left out, because its start is unknown. Lines signed within one minute
 * were checked off afterwards, and are left out too.
 * @param signed the lines of every room of a job
 */
export function signedSpans(signed: readonly Signed[]): readonly (Signed & { readonly hours: number })[] {
  const inOrder = signed
    .filter(({ item }) => item.withdrawnAt === null)
    .sort((a, b) => Date.parse(a.item.doneAt) - Date.parse(b.item.doneAt));
  return inOrder.flatMap((one, i) => {
    const before = inOrder.slice(0, i).findLast(({ roomId, who }) => roomId === one.roomId || who === one.who);
    if (before === undefined) return [];
    const hours = (Date.parse(one.item.doneAt) - Date.parse(before.item.doneAt)) / 3_600_000;
    return hours < 1 / 60 || hours > MOST_HOURS_BETWEEN ? [] : [{ ...one, hours }];
  });
}
