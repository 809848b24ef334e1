/**
 * Every document of the sample data, word by word, as it was last read and approved: a guard against a change that nobody meant. Whether
 * a figure is right is checked elsewhere, against published values. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/documents/approved -u` and read the difference.
 */
import { describe, expect, it } from 'vitest';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { dayShoppingPaper, issuedPapers, jobPapers, type NamedPaper } from './paper-set.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { dataLists } from '../../../shared-core/documents/lists/data-lists.ts';
import { backward } from '../backward.ts';
import { factLines } from '../fact-lines.ts';
import { NOW, VARIANTS, wholeOf } from '../job-variants.ts';
import { treeDump } from './tree-dump.ts';

const approved = (name: string): string => `./approved/${name}.txt`;
const papersOf = (whole: WholeJob, now: string): readonly NamedPaper[] => jobPapers(readJob(whole, now), now);
/** A draft is read beside its quote. */
const kindOf = ({ kind }: NamedPaper): string => kind.replace('-draft', '');

type Dumped = { readonly name: string; readonly kind: string; readonly lines: readonly string[] };
const dumped = (papers: readonly NamedPaper[]): readonly Dumped[] =>
  papers.map((paper) => ({ name: paper.name, kind: kindOf(paper), lines: treeDump(paper.tree).split('\n') }));
const asItIs = new Map<string, readonly Dumped[]>();
function jobAsItIs(jobNumber: string): readonly Dumped[] {
  const papers = asItIs.get(jobNumber) ?? dumped(papersOf(wholeOf(jobNumber), NOW));
  asItIs.set(jobNumber, papers);
  return papers;
}

/** Documents without the lines of earlier documents of the same kind. */
function fresh(papers: readonly Dumped[], earlier: readonly Dumped[]): string {
  const seen = new Map<string, Set<string>>();
  for (const { kind, lines } of earlier) seen.set(kind, new Set([...(seen.get(kind) ?? []), ...lines]));
  return papers
    .map(({ kind, lines }) => {
      const before = seen.get(kind) ?? new Set();
      seen.set(kind, new Set([...before, ...lines]));
      return lines.filter((line, i) => i === 0 || line === '' || !before.has(line)).join('\n');
    })
    .join('\n');
}

/** What a variant says that the job as it is does not, document by document. */
function difference(jobNumber: string, variant: WholeJob, now: string): string {
  return dumped(papersOf(variant, now))
    .map(({ name, lines: all }) => {
      const before = new Set(jobAsItIs(jobNumber).find((paper) => paper.name === name)?.lines);
      const lines = all.filter((line) => !before.has(line));
      return `= ${name}: ${lines.length} of ${all.length} lines\n${lines.join('\n')}\n`;
    })
    .join('\n');
}

/** Documents of other jobs repeat what those of these two say. */
const FIRST_JOBS = ['26-031', '26-028'];

describe('the documents of the sample', () => {
  it.each([...FIRST_JOBS, '26-029', '26-024', '26-022'])('job %s', async (jobNumber) => {
    const earlier = FIRST_JOBS.slice(0, FIRST_JOBS.includes(jobNumber) ? FIRST_JOBS.indexOf(jobNumber) : FIRST_JOBS.length);
    const whole = wholeOf(jobNumber);
    const papers = dumped([...papersOf(whole, NOW), ...issuedPapers(sampleAt(NOW), whole.job.id)]);
    await expect(fresh(papers, earlier.flatMap(jobAsItIs))).toMatchFileSnapshot(approved(jobNumber));
  });

  it('the shopping list of a day', async () => {
    const readings = wholeJobsOf(sampleAt(NOW)).map((whole) => readJob(whole, NOW));
    await expect(treeDump(dayShoppingPaper(readings, NOW).tree)).toMatchFileSnapshot(approved('day-shopping-list'));
  });
});

it.each(['26-028', '26-024'])('the documents of job %s are the same for its records in any order', (jobNumber) => {
  const byName = (papers: readonly Dumped[]) =>
    papers.toSorted((a, b) => a.name.localeCompare(b.name)).map(({ name, lines }) => [name, lines]);
  // A receipt is named by its place among the payments.
  expect(byName(dumped(papersOf(backward(wholeOf(jobNumber)), NOW)))).toEqual(byName(jobAsItIs(jobNumber)));
});

describe('the exported lists', () => {
  it('of the sample', async () => {
    const lists = dataLists(sampleAt(NOW)).flatMap(({ name, about, columns, rows }) => {
      const first: unknown[] = [];
      for (const row of rows) if (first.push(row) > 60) break;
      return factLines({ [name]: { about, rows: rows.length }, [`${name}, columns`]: columns, [`${name}, rows`]: first });
    });
    await expect(`${lists.join('\n')}\n`).toMatchFileSnapshot(approved('lists'));
  });
});

describe('what other jobs say', () => {
  it.each(VARIANTS)('%s (job %s)', async (name, jobNumber, change, now) => {
    const file = name.replaceAll(/[^a-z]+/gi, '-');
    await expect(difference(jobNumber, change(wholeOf(jobNumber)), now)).toMatchFileSnapshot(approved(file));
  });
});
