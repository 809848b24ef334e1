/** Lien deadlines of a job, from the days the owner entered for the state. The program states no law. */
import type { LienRule } from '../book/business.ts';
import { type Job, roomsOnRecord } from '../book/job.ts';
import type { LedgerEntry } from '../book/ledger.ts';
import type { Pour } from '../book/pour-record.ts';
import type { Property } from '../book/property.ts';
import { addDaysToDay } from '../measure/day.ts';
import { dayOfInstant } from '../measure/moment.ts';
import { counts } from './account.ts';

export type LienKind = Job['lienDone'][number];

/** One deadline. */
export type LienDeadline = { readonly kind: LienKind; readonly onDay: string; readonly isDone: boolean };

type Of = {
  readonly job: Job;
  readonly property: Pick<Property, 'address' | 'timeZone'>;
  readonly pours: readonly Pour[];
  readonly ledger: readonly LedgerEntry[];
};

/** Days on which work is on record: signed prep, also in rooms withdrawn since, pours, hours and the handover. Oldest first. */
export function workDays({ job, property, pours, ledger }: Of): string[] {
  const rooms = roomsOnRecord(job);
  const instants = [
    ...rooms.flatMap((room) => room.signed.flatMap((item) => (item.withdrawnAt === null ? [item.doneAt] : []))),
    ...rooms.flatMap((room) => room.handedOverAt ?? []),
    ...pours.flatMap((pour) => (pour.deletedAt === null ? [pour.startedAt ?? [], pour.finishedAt ?? []].flat() : [])),
  ];
  const hours = ledger.flatMap((entry) => (entry.kind === 'hours' && counts(entry) ? [entry.onDay] : []));
  return [...new Set([...instants.map((instant) => dayOfInstant(instant, property.timeZone)), ...hours])].sort();
}

/** The deadlines of a job by the rule of its state: the notice from the first day of work, the lien from the last. */
export function lienDeadlines(records: Of, rules: readonly LienRule[]): LienDeadline[] {
  const plain = (state: string): string => state.trim().toLocaleUpperCase('en-US');
  const rule = rules.find(({ state }) => plain(state) !== '' && plain(state) === plain(records.property.address.region));
  const days = workDays(records);
  const [first, last] = [days[0], days.at(-1)];
  if (rule === undefined || first === undefined || last === undefined) return [];
  const deadline = (kind: LienKind, from: string, after: number | null): LienDeadline[] =>
    after === null ? [] : [{ kind, onDay: addDaysToDay(from, after), isDone: records.job.lienDone.includes(kind) }];
  return [...deadline('lien-notice', first, rule.noticeDays), ...deadline('lien-deadline', last, rule.lienDays)];
}
