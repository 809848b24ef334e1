/** What the sample gives out with its records: photos whose bytes are those of their records, and documents as the program issues them. */
import { createHash } from 'node:crypto';
import { inflateSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { templateAt, VISIT_TEMPLATES } from '../../../shared-core/agenda/visit-entries.ts';
import { warrantyCertificate } from '../../../shared-core/documents/certificates.ts';
import { DOCUMENTS } from '../../../shared-core/documents/document-list.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import { draftQuote } from '../../../shared-core/documents/issue-quote-document.ts';
import { jobInvoice, jobReceipt } from '../../../shared-core/documents/job-money-papers.ts';
import { jobRecord } from '../../../shared-core/documents/job-record.ts';
import { dataLists } from '../../../shared-core/documents/lists/data-lists.ts';
import { dataCsv } from '../../../shared-core/documents/lists/data-table.ts';
import { readTree } from '../../../shared-core/documents/stored-tree.ts';
import type { ContractTerms } from '../../../shared-core/book/contract-terms.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { samplePictures } from '../../../shared-core/sample/sample-pictures.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { warrantyOf } from '../../../shared-core/standing/warranty-period.ts';
import { acceptedQuote } from '../../../shared-core/price/change-order.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { textOf } from '../documents/tree-text.ts';

const NOW = '2026-05-12T16:00:00.000Z';
const book = sampleAt(NOW);
const wholes = wholeJobsOf(book);
const of = (id: string): WholeJob => {
  const whole = wholes.find(({ job }) => job.id === id);
  if (whole === undefined) throw new Error(`The sample has the job ${id}.`);
  return whole;
};

describe('the sample', () => {
  it('has a picture for each photo, under the SHA-256 of its bytes, that a PNG reader unpacks to its size', () => {
    const pictures = new Map(samplePictures().map(({ sha256, bytes }) => [sha256, Buffer.from(bytes)]));
    for (const [sha256, bytes] of pictures) {
      expect(createHash('sha256').update(bytes).digest('hex')).toBe(sha256);
      // ISO/IEC 15948: width, height, bit depth and color type in IHDR; a filter byte before each row.
      const [width, height] = [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
      const at = bytes.indexOf('IDAT');
      const pixels = inflateSync(bytes.subarray(at + 4, at + 4 + bytes.readUInt32BE(at - 4)));
      expect(pixels).toHaveLength(height * (width / 2 + 1));
    }
    expect(book.photos.length).toBeGreaterThan(0);
    for (const photo of book.photos) {
      expect(pictures.get(photo.sha256)?.readUInt32BE(16)).toBe(photo.widthPx);
      expect((photo.takenAt ?? '') < NOW).toBe(true);
    }
  });

  it('has given out each invoice and receipt, as the program makes it now', () => {
    let compared = 0;
    for (const whole of wholes)
      for (const entry of whole.ledger) {
        if (entry.kind !== 'invoice' && entry.kind !== 'payment') continue;
        const tree = entry.kind === 'invoice' ? jobInvoice(whole, entry, NOW) : jobReceipt(whole, entry, NOW);
        const stored = whole.documents.filter(({ title }) => title === tree.title);
        expect(stored, tree.title).toHaveLength(1);
        // What a receipt leaves to pay is not what it is now; an invoice says what was agreed and invoiced by then.
        const lasting = (t: typeof tree): string =>
          textOf(entry.kind === 'invoice' ? t : { ...t, blocks: t.blocks.filter(({ kind }) => kind === 'table') });
        const given = readTree(stored[0]?.content ?? '');
        expect(given === null ? '' : lasting(given)).toBe(lasting(tree));
        compared += 1;
      }
    expect(compared).toBeGreaterThan(10);
  });

  it('has invoiced each contract only once its quote was accepted', () => {
    const invoices = wholes.flatMap(({ ledger, quotes }) =>
      ledger.flatMap((entry) => (entry.kind === 'invoice' ? [{ entry, accepted: acceptedQuote(quotes) }] : [])),
    );
    expect(invoices.length).toBeGreaterThan(5);
    for (const { entry, accepted } of invoices) {
      const acceptedAt = accepted?.history.find(({ state }) => state === 'accepted')?.instant ?? '';
      expect(Date.parse(entry.createdAt), entry.number).toBeGreaterThan(Date.parse(acceptedAt));
    }
  });

  it('has numbered each job in the year it was created, also when it is opened early in another', () => {
    const opened = sampleAt('2027-01-15T16:00:00.000Z').jobs;
    expect(new Set(opened.map(({ number }) => number.slice(0, 2)))).toEqual(new Set(['26', '27']));
    for (const { number, createdAt } of [...book.jobs, ...opened]) expect(number.slice(0, 2)).toBe(createdAt.slice(2, 4));
  });

  it('has bought the primer of the room that was poured', () => {
    const bought = wholes.flatMap(({ job, ledger, materials }) =>
      ledger.flatMap((entry) =>
        entry.kind === 'purchase' && entry.category === 'Materials' ? [[job, entry.lines[1]?.text, materials] as const] : [],
      ),
    );
    expect(bought.length).toBe(book.pours.length);
    for (const [job, text, materials] of bought) {
      const primers = new Set(job.rooms.map(({ primerId }) => materials.find(({ id }) => id === primerId)?.name));
      expect(primers, job.id).toContain(text);
    }
    // The sunroom was poured over tile, the back office over plywood.
    expect(new Set(bought.map(([, text]) => text)).size).toBe(3);
  });

  it('has a lab result from before the quote for each old layer under wood flooring that was removed', () => {
    const whole = of('sample-job-abara');
    const quotedOn = whole.quotes[0]?.issuedAt.slice(0, 10) ?? '';
    for (const room of whole.rooms) {
      const old = room.layers.find(({ material, fate }) => material === 'wood-flooring' && fate === 'remove');
      const found = room.tests.filter((test) => test.kind === 'lab' && test.layerId === old?.id);
      expect(found, room.id).toMatchObject([{ question: 'asbestos', state: 'none-found' }]);
      const results = found.map((test) => (test.kind === 'lab' ? test.resultOn : null));
      expect([...results, quotedOn]).toEqual([...results, quotedOn].toSorted());
    }
    expect(JSON.stringify(jobRecord(readJob(whole, NOW), [], NOW, 1))).not.toContain('after a lab sample');
  });

  it('writes every phone number as the program does', () => {
    const numbers = [...book.customers.flatMap(({ phone, contacts }) => [phone, ...contacts.map((one) => one.phone)])];
    for (const number of [...numbers, book.business[0]?.phone]) expect(number).toMatch(/^555-01\d\d$/);
  });

  it('has given out the handover sheet of each finished job, as of its day', () => {
    const finished = wholes.filter(({ job }) => job.state === 'finished');
    expect(finished.length).toBeGreaterThan(0);
    for (const { job, documents } of finished) {
      const sheets = documents.filter(({ kind }) => kind === 'handover');
      expect(sheets.map(({ madeAt }) => madeAt)).toEqual([job.rooms[0]?.handedOverAt]);
      const words = readTree(sheets[0]?.content ?? '')?.head.right.join() ?? '';
      expect(words).toContain(`Job ${job.number}, revision 1`);
    }
  });
});

describe('the warranty', () => {
  const fieldsOf = (whole: WholeJob): (string | undefined)[] =>
    warrantyCertificate(input(whole)).blocks.flatMap((b) =>
      b.kind === 'fields' && b.fields[0]?.label === 'Starts' ? b.fields.map(({ value }) => value) : [],
    );
  /** The company's terms as they are in Settings now. */
  const inSettings = (whole: WholeJob, terms: Partial<ContractTerms>): WholeJob => ({
    ...whole,
    business: { ...whole.business, contract: { ...whole.business.contract, ...terms } },
  });
  /** The same while nothing was accepted. */
  const unsold = (whole: WholeJob, terms: Partial<ContractTerms>): WholeJob => ({ ...inSettings(whole, terms), quotes: [] });
  const input = (whole: WholeJob) => ({ reading: readJob(whole, NOW), photos: [], now: NOW, revision: 1, changes: [] });
  const handedOver = (): WholeJob =>
    wholes.find(({ job }) => job.rooms.every(({ handedOverAt }) => handedOverAt !== null)) ?? expect.fail('no job is handed over');

  it('says in words when it starts and how long it lasts before the handover, and in days after it', () => {
    const open = of('sample-job-abara');
    expect(fieldsOf(open)).toEqual(['On the day of handover', '12 months after the handover']);
    expect(fieldsOf(unsold(open, { warrantyMonths: 1 }))).toEqual(['On the day of handover', '1 month after the handover']);
    const done = handedOver();
    const day = /^[A-Z][a-z]+day, [A-Z][a-z]+ \d{1,2}, \d{4}$/;
    expect(fieldsOf(done)).toEqual([expect.stringMatching(day), expect.stringMatching(day)]);
  });

  // A year from February 29 ends on February 28, the last day of the shorter month. Common practice, no source.
  it('ends on one day in the certificate, the job record, the list of jobs and its visit', () => {
    const done = handedOver();
    const rooms = done.job.rooms.map((room) => ({ ...room, handedOverAt: '2028-02-29T17:00:00.000Z' }));
    // Sold with 12 months. What Settings say since does not change that.
    const whole = inSettings({ ...done, job: { ...done.job, rooms } }, { warrantyMonths: 6 });
    expect(fieldsOf(whole)).toEqual(['Tuesday, February 29, 2028', 'Wednesday, February 28, 2029']);
    expect(JSON.stringify(jobRecord(readJob(whole, NOW), [], NOW, 1))).toContain('Warranty through Wednesday, February 28, 2029.');
    const jobs = dataLists({ ...book, business: [whole.business], jobs: [whole.job], quotes: [...whole.quotes] }).find(
      ({ name }) => name === 'jobs',
    );
    expect(jobs === undefined ? '' : dataCsv(jobs)).toContain('2029-02-28');
    const visit = VISIT_TEMPLATES.find(({ from }) => from === 'defects');
    const anchors = { pouredAt: null, testOn: null, failedAt: null, warrantyEnds: warrantyOf(whole).ends };
    const place = { clock: '09:00', timeZone: 'UTC', week: { days: [1, 2, 3, 4, 5], country: 'US' } };
    // By hand: two weeks before it, a Wednesday.
    expect(visit === undefined ? null : templateAt(visit, anchors, place)).toBe('2029-02-14T09:00:00.000Z');
  });

  it('is not offered where none is given', () => {
    const entry = DOCUMENTS.find(({ kind }) => kind === 'warranty-certificate');
    const open = of('sample-job-abara');
    expect(entry?.missing(readJob(open, NOW))).toBeNull();
    expect(entry?.missing(readJob(unsold(open, { warrantyMonths: null }), NOW))).toMatch(/Enter the warranty period/);
    // Sold without one: a period entered in Settings later does not reach the job.
    const quotes = open.quotes.map((quote) => ({
      ...quote,
      frozen: { ...quote.frozen, business: inSettings(open, { warrantyMonths: null }).business },
    }));
    const without = { ...open, quotes };
    expect(entry?.missing(readJob(without, NOW))).toMatch(/sold without a warranty/);
    expect(entry?.missing(readJob({ ...without, job: { ...open.job, defectsUntil: '2028-11-29' } }, NOW))).toBeNull();
  });

  it('has the same words in the quote, the certificate and the handover sheet', () => {
    const own = 'We come back free of charge {warranty}. Scratches are not covered.';
    const done = unsold(handedOver(), { warrantyMonths: 24, clauses: [{ topic: 'warranty', text: own }] });
    const draft = JSON.stringify(draftQuote(readJob(done, NOW), NOW));
    const certificate = JSON.stringify(warrantyCertificate(input(done)));
    const sheet = JSON.stringify(handoverSheet(readJob(done, NOW), { now: NOW, revision: 1, changes: [] }));
    for (const printed of [draft, certificate, sheet])
      expect(printed).toContain('We come back free of charge for 24 months from the day of handover. Scratches are not covered.');
    // The words of a sold job stay those it was sold on.
    const sold = inSettings(handedOver(), { clauses: [{ topic: 'warranty', text: own }] });
    const starter = 'We repair defects in our work at no charge for 12 months from the day of handover.';
    expect(JSON.stringify(warrantyCertificate(input(sold)))).toContain(starter);
    expect(JSON.stringify(handoverSheet(readJob(sold, NOW), { now: NOW, revision: 1, changes: [] }))).not.toContain('Scratches');
  });
});
