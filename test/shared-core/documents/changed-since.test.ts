/** Whether a saved document is out of date: what it prints against what it would print today. Common practice, no source. */
import { describe, expect, it } from 'vitest';
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { changedSince } from '../../../shared-core/documents/changed-since.ts';
import { DOCUMENTS } from '../../../shared-core/documents/document-list.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { payment } from '../ledger/entries.ts';

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
      // The record lists the other documents.
      const documents = all.documents.filter(({ kind }) => kind === 'job-record');
      expect(changes({ documents }, { ...job, documents: [...job.documents, ...documents] }, at)).toEqual({});
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
