/** Why an entry left the agenda: done, still valid, or dropped. */
import type { ClearanceTest } from '../book/cure-record.ts';
import { roomsOnRecord } from '../book/job.ts';
import type { Pour } from '../book/pour-record.ts';
import { hasFailedTest } from '../cure/cure-schedule.ts';
import { formatInstant } from '../measure/moment.ts';
import { DEFAULT_LOCALE } from '../measure/number.ts';
import { counts } from '../ledger/account.ts';
import type { LienKind } from '../ledger/lien-deadlines.ts';
import { invoiceOf } from '../ledger/next-invoice.ts';
import { isCanceled } from '../price/quote-state.ts';
import { settledOn } from './money-entries.ts';
import type { EntryKind } from './agenda-entry.ts';
import { type NumberedPour, numberedPours } from './pour-keys.ts';
import { type AgendaBusiness, finishedPours, type JobBundle, roomsOf } from '../standing/job-bundle.ts';
import { roomCure } from '../standing/room-cure.ts';
import { roomPour } from '../standing/room-pour.ts';
import { labAnswer } from '../standing/lab-answer.ts';

export type Became =
  /** Done; `says` is a sentence with the date. `span` is the recorded time, where there is one. */
  | { readonly kind: 'done'; readonly text: string; readonly span: { readonly startAt: string; readonly endAt: string } | null }
  /** Nothing is left to do: the date has passed, or is valid and no longer needed. */
  | { readonly kind: 'stands' }
  | { readonly kind: 'dropped' };

export type Asked = {
  /** An agenda entry's own key. */
  readonly key: string;
  /** The start as last sent. */
  readonly startAt: string;
};

type Case = {
  readonly bundle: JobBundle;
  readonly business: AgendaBusiness;
  /** The part of the key after the kind. */
  readonly name: string;
  readonly startAt: string;
  readonly now: string;
  readonly done: (word: string, instant: string | null) => Became;
};

const DROPPED: Became = { kind: 'dropped' };
const STANDS: Became = { kind: 'stands' };

const latest = (moments: readonly string[]): string | null => [...moments].sort().at(-1) ?? null;

const numbered = (bundle: JobBundle, roomId: string): readonly NumberedPour[] =>
  numberedPours({ roomId, pours: finishedPours(bundle, roomId) });

/**
 * The finished pours of a name such as `room-a+room-b:2`, which is the first pour of room A and lift 2 of room B; null while one of them
 * waits.
 */
function poursOf(bundle: JobBundle, name: string): readonly Pour[] | null {
  const pours = name.split('+').map((room) => {
    const [roomId = '', number = '1'] = room.split(':');
    return numbered(bundle, roomId).find((one) => one.number === number)?.pour;
  });
  return pours.every((pour) => pour !== undefined) ? pours : null;
}

function pouring({ bundle, name, done }: Case): Became {
  const pours = poursOf(bundle, name);
  const startAt = pours?.flatMap((p) => p.startedAt ?? []).sort()[0];
  const endAt = latest(pours?.flatMap((p) => p.finishedAt ?? []) ?? []);
  if (startAt === undefined || endAt === null) return DROPPED;
  const poured = done('Poured', startAt);
  return poured.kind === 'done' ? { ...poured, span: { startAt, endAt } } : poured;
}

function poured({ bundle, name, done }: Case): Became {
  const instant = latest(poursOf(bundle, name)?.flatMap((p) => p.finishedAt ?? []) ?? []);
  return instant === null ? DROPPED : done('Poured', instant);
}

/** Dates that follow from a pour are valid while it is the room's last one, or if they had passed by the next one. */
function afterPour({ bundle, business, name, startAt, now }: Case): Became {
  const [roomId = '', number = '1', flooring] = name.split(':');
  const pours = numbered(bundle, roomId);
  const index = pours.findIndex((one) => one.number === number);
  if (index === -1) return DROPPED;
  const next = pours[index + 1]?.pour;
  if (next !== undefined && (next.startedAt ?? next.finishedAt ?? '') < startAt) return DROPPED;
  if (flooring === undefined) return STANDS;
  const facts = roomsOf(bundle).find((r) => r.room.id === roomId);
  const schedule = facts === undefined ? null : (roomCure(bundle, facts, business)?.schedule ?? null);
  if (schedule !== null && (hasFailedTest(schedule) || (schedule.laidOn !== null && startAt > now))) return DROPPED;
  // Flooring waits for the whole floor, so a part of it has no date.
  if (facts !== undefined && startAt > now && roomPour(bundle, facts).part !== 'whole') return DROPPED;
  return flooring === (bundle.job.rooms.find((r) => r.roomId === roomId)?.flooring ?? '') ? STANDS : DROPPED;
}

function clearanceTest(entryCase: Case): Became {
  const [roomId = '', number = '1', flooring] = entryCase.name.split(':');
  const pour = numbered(entryCase.bundle, roomId).find((one) => one.number === number)?.pour;
  if (pour === undefined) return DROPPED;
  const isOfIt = (t: ClearanceTest): boolean =>
    t.deletedAt === null && t.roomId === roomId && t.flooring === flooring && t.takenAt >= (pour.finishedAt ?? '');
  const instant = latest(entryCase.bundle.clearanceTests.filter(isOfIt).map((t) => t.takenAt));
  return instant === null ? DROPPED : entryCase.done('Tested', instant);
}

function promise({ bundle, name, startAt, now, done }: Case): Became {
  const promised = bundle.promises.find((p) => p.id === name && p.deletedAt === null);
  if (promised === undefined) return DROPPED;
  const again = bundle.promises
    .filter(
      (p) =>
        p.deletedAt === null &&
        p.id !== name &&
        p.roomId === promised.roomId &&
        p.milestone === promised.milestone &&
        p.flooring === promised.flooring &&
        p.madeAt >= promised.madeAt,
    )
    .map((p) => p.madeAt)
    .sort()[0];
  if (again !== undefined) return done('New date promised', again);
  return startAt <= now ? STANDS : DROPPED;
}

function prepVisit({ bundle, done, startAt, now }: Case): Became {
  if (bundle.job.prepVisitAt === null) return DROPPED;
  const signed = roomsOnRecord(bundle.job).flatMap((r) => r.signed.flatMap((s) => (s.withdrawnAt === null ? [s.doneAt] : [])));
  const pours = roomsOf(bundle).flatMap((r) => finishedPours(bundle, r.room.id).flatMap((p) => p.startedAt ?? []));
  const instant = latest(signed) ?? latest(pours);
  // A pour shows that the room's prep was done, as signatures do.
  return instant === null ? (startAt <= now ? STANDS : DROPPED) : done('Prep signed', instant);
}

function handover({ bundle, done }: Case): Became {
  const moments = roomsOf(bundle).map((r) => r.jobRoom.handedOverAt);
  const known = moments.filter((instant) => instant !== null);
  return known.length === 0 || known.length < moments.length ? DROPPED : done('Handed over', latest(known));
}

function finishQuote({ bundle, done }: Case): Became {
  const issued = bundle.quotes.filter((q) => q.deletedAt === null).map((q) => q.issuedAt);
  const instant = [...issued].sort()[0];
  return instant === undefined ? DROPPED : done('Issued', instant);
}

function quoteExpires({ bundle, name, done, startAt, now }: Case): Became {
  const quote = bundle.quotes.find((q) => q.deletedAt === null && String(q.revision) === name);
  if (quote?.state === 'accepted' || quote?.state === 'declined')
    return done(
      quote.state === 'accepted' ? 'Accepted' : isCanceled(quote) ? 'Canceled' : 'Declined',
      quote.history.findLast((h) => h.state === quote.state)?.instant ?? null,
    );
  const isUndecided = quote?.state === 'issued' || quote?.state === 'expired';
  return isUndecided && startAt <= now ? STANDS : DROPPED;
}

function orderWaits({ bundle, name, done }: Case): Became {
  const order = bundle.quotes.flatMap((q) => q.orders).find((candidate) => candidate.id === name);
  if (order?.decidedAt == null || order.state === 'voided') return DROPPED;
  return done(order.state === 'signed' ? 'Signed' : 'Declined', order.decidedAt);
}

function lab({ bundle, name, done }: Case): Became {
  for (const room of bundle.rooms) {
    const sent = room.tests.find((t) => t.id === name);
    if (sent?.kind !== 'lab') continue;
    const answer = labAnswer(room.tests, sent);
    return answer === null ? DROPPED : done('Lab result entered', answer.takenAt);
  }
  return DROPPED;
}

function visit({ bundle, name, done }: Case): Became {
  const stored = bundle.visits.find((v) => v.id === name);
  if (stored === undefined || stored.deletedAt !== null || stored.cancelledAt !== null || stored.doneAt === null) return DROPPED;
  return done('Done', stored.doneAt);
}

function paymentDue({ bundle, name, done }: Case): Became {
  const instant = settledOn(bundle.ledger, name);
  return instant === null ? DROPPED : done('Paid', instant);
}

function refundDue({ bundle, done }: Case): Became {
  const refunded = bundle.ledger.flatMap((entry) => (entry.kind === 'refund' && counts(entry) ? [entry.createdAt] : []));
  return refunded.length === 0 ? DROPPED : done('Refunded', latest(refunded));
}

function invoiceReady({ bundle, name, done }: Case): Became {
  const invoice = invoiceOf(bundle.ledger, name);
  return invoice === undefined ? DROPPED : done('Issued', invoice.createdAt);
}

/** A lien deadline leaves the agenda when it was met or the job was paid. */
function lien(kind: LienKind): (of: Case) => Became {
  return ({ bundle, done, startAt, now }) => (bundle.job.lienDone.includes(kind) ? done('Done', null) : startAt <= now ? STANDS : DROPPED);
}

/** A step of a lead that left the agenda: one whose day has passed stays as it was. */
function leadStep({ startAt, now }: Pick<Case, 'startAt' | 'now'>): Became {
  return startAt <= now ? STANDS : DROPPED;
}

/** What became of a step of a lead; null for an entry of a job. */
export function whatBecameOfLead({ key, startAt }: Asked, now: string): Became | null {
  return /^[^:]+:lead-(visit|step):/.test(key) ? leadStep({ startAt, now }) : null;
}

const BECAME: Readonly<Record<EntryKind, (of: Case) => Became>> = {
  'lead-visit': leadStep,
  'lead-step': leadStep,
  'finish-quote': finishQuote,
  'quote-waits': quoteExpires,
  'quote-expires': quoteExpires,
  'order-waits': orderWaits,
  'lab-result': lab,
  // No calendar has what has no date.
  'quote-expired': () => DROPPED,
  'pour-date': () => DROPPED,
  'handover-date': () => DROPPED,
  'prep-visit': prepVisit,
  'primer-window': poured,
  pour: pouring,
  'walk-on': afterPour,
  'next-lift': poured,
  'clearance-test': clearanceTest,
  cover: afterPour,
  promise,
  visit,
  'invoice-ready': invoiceReady,
  'payment-due': paymentDue,
  'refund-due': refundDue,
  'lien-notice': lien('lien-notice'),
  'lien-deadline': lien('lien-deadline'),
  handover,
};

/**
 * Why an entry left the agenda of its job. @param asked the entry as last sent @param now decides whether a date that is no
 * longer needed has passed
 */
export function whatBecame(bundle: JobBundle, business: AgendaBusiness, asked: Asked, now: string): Became {
  const { job, property } = bundle;
  const [jobId, kind, ...name] = asked.key.split(':');
  if (jobId !== job.id || job.deletedAt !== null || kind === undefined || !Object.hasOwn(BECAME, kind)) return DROPPED;
  const locale = business.locale === '' ? DEFAULT_LOCALE : business.locale;
  return BECAME[kind as EntryKind]({
    bundle,
    business,
    name: name.join(':'),
    startAt: asked.startAt,
    now,
    done: (word, instant) => ({
      kind: 'done',
      text: instant === null ? `${word}.` : `${word} ${formatInstant(instant, property.timeZone, 'full', locale)}.`,
      span: null,
    }),
  });
}
