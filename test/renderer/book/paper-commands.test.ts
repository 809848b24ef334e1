/** Papers noted in a job: each kind counts up by itself, a quote's keeps the quote's number. */
import { beforeEach, describe, expect, it } from 'vitest';
import type { MadeDocument } from '../../../shared-core/book/papers.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { jobRecord } from '../../../shared-core/documents/job-record.ts';
import { sampleBook } from '../../../shared-core/sample/sample-book.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import type { Book } from '../../../renderer/book/database.ts';
import { notePaper } from '../../../renderer/book/paper-commands.ts';
import { undo } from '../../../renderer/book/write.ts';
import { freshBook, NOW } from './fresh-book.ts';

const found = wholeJobsOf(sampleBook(NOW)).find((w) => w.job.id === 'sample-job-abara');
if (found === undefined) throw new Error('The sample has the job of the three floors.');
const sample: WholeJob = { ...found, documents: [] };
const tree = jobRecord(readJob(sample, NOW), [], NOW);

let book: Book;
beforeEach(async () => {
  book = await freshBook();
});
const noted = (): Promise<MadeDocument[]> => book.rowsOf('documents').toArray();

describe('a paper noted', () => {
  it('keeps its content and counts up within its kind', async () => {
    expect((await notePaper(sample, { kind: 'job-record', tree, sha256: null })).ok).toBe(true);
    const whole = { ...sample, documents: await noted() };
    await notePaper(whole, { kind: 'job-record', tree, sha256: null });
    await notePaper(whole, { kind: 'prep-sheet', tree, sha256: null });
    const rows = await noted();
    expect(
      rows
        .filter((row) => row.kind === 'job-record')
        .map((row) => row.revision)
        .sort(),
    ).toEqual([1, 2]);
    expect(rows.filter((row) => row.kind === 'prep-sheet').map((row) => row.revision)).toEqual([1]);
    expect(JSON.parse(rows[0]?.content ?? '')).toEqual(JSON.parse(JSON.stringify(tree)));
  });

  it('of a quote bears the quote’s number', async () => {
    await notePaper(sample, { kind: 'quote', tree, sha256: 'a'.repeat(64), quote: { id: 'quote-7', revision: 3 } });
    expect(await noted()).toMatchObject([{ kind: 'quote', revision: 3, quoteId: 'quote-7', madeAt: expect.any(String) }]);
  });

  it('is taken back by undo', async () => {
    await notePaper(sample, { kind: 'job-record', tree, sha256: null });
    await undo();
    expect((await noted()).filter((row) => row.deletedAt === null)).toEqual([]);
  });
});
