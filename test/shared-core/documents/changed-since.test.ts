/** Whether a saved document is out of date: what it prints against what it would print today. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { changedSince, invoiceChanges, prepSheetInUse, quoteChanges } from '../../../shared-core/documents/changed-since.ts';
import { DOCUMENTS } from '../../../shared-core/documents/document-list.ts';
import { givenOut } from '../../../shared-core/sample/sample-documents.ts';
import { issueQuoteWithDocument } from '../../../shared-core/documents/issue-quote-document.ts';
import { prepSheet } from '../../../shared-core/documents/prep-sheet.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { payment } from '../ledger/entries.ts';
import { test } from '../substrate/a-floor.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const LATER = '2026-05-15T15:00:00.000Z';
const jobs = wholeJobsOf(sampleAt(NOW));

/** A job with every document it can have saved at once, and those. */
function saved(whole: WholeJob): { readonly whole: WholeJob; readonly documents: readonly MadeDocument[] } {
  const reading = readJob(whole, NOW);
  const documents = DOCUMENTS.filter((entry) => entry.missing(reading) === null).map(({ kind, build }): MadeDocument => {
    const tree = build({ reading, photos: [], now: NOW, revision: 1, changes: ['Back hall: average ⅜″ (was ¼″).'] });
    return {
      ...{ id: `saved-${kind}`, createdAt: NOW, changedAt: NOW, deletedAt: null, jobId: whole.job.id, kind, revision: 1 },
      ...{ title: tree.title, madeAt: NOW, changes: [], content: JSON.stringify(tree), quoteId: null, entryId: null, sha256: null },
      ...{ programVersion: '', sent: [], signatures: [] },
    };
  });
  return { whole: { ...whole, documents: [...whole.documents, ...documents] }, documents };
}

/** What each saved document says changed, by its kind; those that are up to date are left out. */
function changes({ documents }: { readonly documents: readonly MadeDocument[] }, whole: WholeJob, at = LATER): Record<string, string> {
  const reading = readJob(whole, at);
  return Object.fromEntries(
    documents.flatMap((document) => {
      const words = changedSince(reading, document, []);
      return words.length === 0 ? [] : [[document.kind, words.join(' ')]];
    }),
  );
}

const found = jobs.find(({ job }) => job.id === 'sample-job-abara');
if (found === undefined) throw new Error('The sample has the job of the three floors.');
const three = saved(found);
const { whole } = three;

describe('a saved document', () => {
  it.each(jobs.map((job) => [job.job.number, job] as const))('of job %s is up to date while nothing changes but the day', (_, job) => {
    const all = saved(job);
    expect(all.documents.length).toBeGreaterThan(0);
    for (const at of [NOW, LATER]) {
      expect(changes({ documents: all.documents.filter(({ kind }) => kind !== 'job-record') }, all.whole, at)).toEqual({});
      // The record lists the other documents; one that is saved after it is no change of it.
      const documents = all.documents.filter(({ kind }) => kind === 'job-record');
      const later = all.documents.filter(({ kind }) => kind !== 'job-record').map((one) => ({ ...one, madeAt: LATER }));
      expect(changes({ documents }, { ...job, documents: [...job.documents, ...documents, ...later] }, at)).toEqual({});
    }
  });

  it('is up to date in other units and another language, and still says what else changed', () => {
    const change = { units: 'metric', locale: 'de-DE', paper: 'a4' } as const;
    for (const job of jobs) {
      const all = saved(job);
      const documents = all.documents.filter(({ kind }) => kind !== 'job-record');
      expect(changes({ documents }, { ...job, business: { ...job.business, ...change } })).toEqual({});
    }
    const called = changes(three, { ...whole, business: { ...whole.business, ...change, phone: '555-0199' } });
    expect(called['installer-page']).toMatch(/^Now: 555-0199/);
  });

  it('says what was paid since it was made, though no table has it', () => {
    const paid = { ...payment('later', 444_928), onDay: '2026-05-14', createdAt: LATER, jobId: whole.job.id };
    expect(changes(three, { ...whole, ledger: [...whole.ledger, paid] })['handover']).toMatch(/^Now: Contract total .*Paid \$/);
  });

  it('says that another phone is to be called, on every document that has one', () => {
    const called = changes(three, { ...whole, business: { ...whole.business, phone: '555-0199' } });
    expect(Object.keys(called).toSorted()).toEqual(three.documents.map(({ kind }) => kind).toSorted());
    expect(called['installer-page']).toMatch(/Now: 555-0199, .*Now: Questions: call .*555-0199/);
  });

  it('says that the customer has another name, and another floor is allowed its flooring on another day', () => {
    const named = changes(three, { ...whole, customer: { ...whole.customer, name: 'Ines Okafor' } });
    expect(named['handover']).toContain('Ines Okafor');
    const rooms = whole.job.rooms.map((room) => ({ ...room, expectedAir: { tempC: 12, relativeHumidity: 0.6, enteredAt: NOW } }));
    expect(changes(three, { ...whole, job: { ...whole.job, rooms } })['installer-page']).toMatch(/ready .+ \(was .+\)/);
  });

  it('is not aged by the handover it is signed for', () => {
    const rooms = whole.job.rooms.map((room) => ({ ...room, handedOverAt: LATER, handedOverTo: 'Ines Okafor' }));
    const aged = changes(three, { ...whole, job: { ...whole.job, rooms } });
    expect(Object.keys(aged).filter((kind) => kind !== 'job-record')).toEqual([]);
  });
});

describe('an invoice', () => {
  const billed = jobs.flatMap((job) => job.ledger.flatMap((entry) => (entry.kind === 'invoice' ? [{ job, entry }] : [])));

  it('of the sample is as issued, whatever was paid, voided or signed since', () => {
    expect(billed.length).toBeGreaterThan(4);
    for (const { job, entry } of billed) expect(invoiceChanges(job, entry.id)).toEqual([]);
  });

  it('says the name, the address and the way to pay that are other by now, and nothing once it is void', () => {
    const [first] = billed;
    if (first === undefined) throw new Error('The sample has an invoice.');
    const { job, entry } = first;
    const address = { ...job.property.address, line: '40 Cedar Lane' };
    const contract = { ...job.business.contract, paymentMethods: 'Card at the door' };
    const moved = { ...job, customer: { ...job.customer, name: 'Ines Okafor', address }, business: { ...job.business, contract } };
    expect(invoiceChanges(moved, entry.id).join(' ')).toMatch(/Invoice .*: changed/);
    expect(invoiceChanges({ ...job, customer: { ...job.customer, name: 'Ines Okafor' } }, entry.id)).toEqual(['Now: Ines Okafor']);
    const ledger = job.ledger.map((one) => (one.id === entry.id ? { ...one, voidedAt: LATER, voidReason: 'Wrong name' } : one));
    expect(invoiceChanges({ ...moved, ledger }, entry.id)).toEqual([]);
  });
});

describe('a quote', () => {
  const quotes = jobs.flatMap((job) => job.quotes.map((quote) => ({ job, quote })));
  const waiting = quotes.find(({ quote }) => quote.state === 'issued');
  const changed = (job: WholeJob): WholeJob => ({
    ...job,
    customer: { ...job.customer, name: 'Ines Okafor' },
    business: { ...job.business, phone: '555-0199' },
  });

  it('of the sample is as issued', () => {
    for (const { job, quote } of quotes) expect(quoteChanges(job, quote)).toEqual([]);
  });

  it('of three options, each with the same doorways, names its customer’s new name and nothing else', () => {
    const whole = jobs.find(({ job }) => job.id === 'sample-job-odell');
    if (whole === undefined) throw new Error('The sample has this job.');
    const issued = issueQuoteWithDocument(readJob(whole, NOW), { id: 'quote-one', instant: NOW, by: 'Ros Teague', note: '' });
    if (!issued.ok) throw new Error(issued.message);
    const { quote } = issued.value;
    expect(quote.priced.options.length).toBe(3);
    expect(quoteChanges(whole, quote)).toEqual([]);
    const renamed = { ...whole, customer: { ...whole.customer, name: 'Ines Okafor' } };
    expect(quoteChanges(renamed, quote)).toEqual([
      'Now: Ines Okafor, 41 Pennant Hill Road, Tarrow Falls, NY',
      'Now: Printed name: Ines Okafor',
    ]);
  });

  it('that waits for an answer says the name and the phone that are other by now; a decided one stays as it is', () => {
    if (waiting === undefined) throw new Error('The sample has a quote that waits.');
    expect(quoteChanges(changed(waiting.job), waiting.quote).join(' ')).toMatch(/^Now: 555-0199, .*Now: Ines Okafor, /);
    expect(quoteChanges(changed(waiting.job), { ...waiting.quote, state: 'accepted' })).toEqual([]);
  });

  it('says that its pour is on another day, and not that a pour was planned since', () => {
    if (waiting === undefined) throw new Error('The sample has a quote that waits.');
    const { job, quote } = waiting;
    const dated = (of: WholeJob['job'], pourAt: string | null) => ({ ...of, rooms: of.rooms.map((room) => ({ ...room, pourAt })) });
    const planned = { ...quote, frozen: { ...quote.frozen, job: dated(quote.frozen.job, '2026-06-02T13:00:00.000Z') } };
    const moved = { ...job, job: dated(job.job, '2026-06-09T13:00:00.000Z') };
    expect(quoteChanges(moved, planned).join(' ')).toContain('June 9');
    const open = { ...quote, frozen: { ...quote.frozen, job: dated(quote.frozen.job, null) } };
    expect(quoteChanges(moved, open)).toEqual([]);
  });
});

describe('a prep sheet', () => {
  const all = jobs.flatMap((job) => {
    const reading = readJob(job, NOW);
    return reading.rooms.flatMap((roomReading) => {
      if (roomReading.preparation.lines.length === 0) return [];
      const tree = prepSheet({ reading, roomReading, madeAt: NOW, revision: 1 });
      const id = `prep-${roomReading.room.id}`;
      const sheet = givenOut({ id, jobId: job.job.id, kind: 'prep-sheet', revision: 1, tree, instant: NOW, by: 'print' });
      return [{ whole: { ...job, documents: [...job.documents, sheet] }, room: roomReading.room, roomReading, sheet }];
    });
  });
  const inUse = all.filter(({ whole, room }) => prepSheetInUse(whole, room) !== null);
  const since = (of: WholeJob, sheet: MadeDocument): string => changedSince(readJob(of, LATER), sheet, []).join(' ');
  const [one] = inUse.filter(({ roomReading }) =>
    roomReading.preparation.lines.some(({ state, item }) => state === 'open' && item !== null),
  );
  if (one === undefined) throw new Error('The sample has a room with prep to do.');

  it('is in use until its pour begins, and up to date while nothing changes but the day', () => {
    expect(inUse.length).toBeGreaterThan(1);
    expect(inUse.length).toBeLessThan(all.length);
    for (const { whole, sheet } of inUse) expect(since(whole, sheet)).toBe('');
  });

  it('stays up to date while its lines are signed, the room primed and its air measured', () => {
    const { whole, room, sheet, roomReading } = one;
    const line = roomReading.preparation.lines.find(({ state, item }) => state === 'open' && item !== null);
    const signature = {
      ...{ itemKey: line?.key ?? '', text: 'Line', signedText: 'Line', doneAt: LATER, initials: 'KD', note: '', photoIds: [] },
      withdrawnAt: null,
    };
    const rooms = whole.job.rooms.map((jobRoom) =>
      jobRoom.roomId === room.id ? { ...jobRoom, signed: [...jobRoom.signed, signature], primedAt: LATER, primerCoatsDone: 1 } : jobRoom,
    );
    const air = test.air({ takenAt: LATER });
    const read = whole.rooms.map((other) => (other.id === room.id ? { ...other, tests: [...other.tests, air] } : other));
    expect(since({ ...whole, rooms: read, job: { ...whole.job, rooms } }, sheet)).toBe('');
  });

  it('says which line was added since, by its words alone, and that the pour was moved', () => {
    const { whole, room, sheet } = one;
    const [from, to] = room.plan.outline;
    if (from === undefined || to === undefined) throw new Error('The room is drawn.');
    const crack = { id: 'crack-1', kind: 'crack' as const, moves: 'moving' as const, shape: 'line' as const, widthM: 0.002, note: '' };
    const cracked = whole.rooms.map((one) =>
      one.id === room.id
        ? { ...one, marks: [...one.marks, { ...crack, points: [from, { xM: (from.xM + to.xM) / 2, yM: (from.yM + to.yM) / 2 }] }] }
        : one,
    );
    const jobRooms = whole.job.rooms.map((jobRoom) => ({ ...jobRoom, pourAt: '2026-06-20T13:00:00.000Z' }));
    const words = since({ ...whole, rooms: cracked, job: { ...whole.job, rooms: jobRooms } }, sheet);
    expect(words).toMatch(/Pour planned for .*June 20/);
    expect(words).toMatch(/[Cc]rack.* was added\./);
    // The lines after it have another number and are the same.
    expect(words).not.toContain('was removed');
  });
});
