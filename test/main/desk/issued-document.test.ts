/** Issued documents do not change: a reprint with other arithmetic has the same text and total. Read back by pdftotext. */
import { execFileSync } from 'node:child_process';
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { inkDocument } from '../../../main/desk/ink/ink-document.ts';
import type * as bagCounts from '../../../shared-core/material/bag-count.ts';
import { issueQuoteWithDocument } from '../../../shared-core/documents/issue-quote-document.ts';
import { readTree, storedTree } from '../../../shared-core/documents/stored-tree.ts';
import type { Quote } from '../../../shared-core/book/quote.ts';
import type { DocumentTree } from '../../../shared-core/documents/tree.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { testFonts } from './working-desk.ts';
import { scratchFolder } from '../../scratch-folder.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const found = wholeJobsOf(sampleAt(NOW)).find(({ job }) => job.number === '26-031');
if (found === undefined) throw new Error('the sample has no such job');
const whole = { ...found, quotes: [] };
const folder = scratchFolder('issued');
const textOf = async (tree: DocumentTree, name: string): Promise<string> => {
  const path = join(folder, name);
  writeFileSync(path, (await inkDocument(tree, testFonts())).pdf);
  return execFileSync('pdftotext', ['-layout', path, '-'], { encoding: 'utf8' });
};

const BAG_COUNT = '../../../shared-core/material/bag-count.ts';
type BagCounts = typeof bagCounts;

/** Issues the same job with the program's modules loaded again and one bag more in every count. */
async function issuedWithMoreBags(): Promise<Quote> {
  vi.resetModules();
  vi.doMock(BAG_COUNT, async (original) => {
    const real = await original<BagCounts>();
    return {
      ...real,
      bagCount: (...input: Parameters<BagCounts['bagCount']>) => {
        const counted = real.bagCount(...input);
        return counted.ok ? { ...counted, value: { ...counted.value, quotedBags: counted.value.quotedBags + 1 } } : counted;
      },
    };
  });
  const changed = await import('../../../shared-core/documents/issue-quote-document.ts');
  const reading = (await import('../../../shared-core/standing/read-job.ts')).readJob(whole, NOW);
  const issued = changed.issueQuoteWithDocument(reading, { id: 'quote-two', instant: NOW, by: 'Owner', note: '' });
  if (!issued.ok) throw new Error(issued.message);
  return issued.value.quote;
}
afterEach(() => {
  vi.doUnmock(BAG_COUNT);
  vi.resetModules();
});

describe('an issued quote', () => {
  it('prints again with the same text and total when the arithmetic has changed', async () => {
    const issued = issueQuoteWithDocument(readJob(whole, NOW), { id: 'quote-one', instant: NOW, by: 'Owner', note: '' });
    if (!issued.ok) throw new Error(issued.message);
    const { quote, tree } = issued.value;
    const stored = storedTree(tree, new Map());
    const first = await textOf(tree, 'first.pdf');
    const changed = await issuedWithMoreBags();
    expect(changed.totalMinor).toBeGreaterThan(quote.totalMinor);
    const back = readTree(stored);
    if (back === null) throw new Error('the stored document cannot be read');
    const reprint = await textOf(back, 'reprint.pdf');
    expect(reprint).toBe(first);
    expect(reprint).toContain(formatMoney(quote.totalMinor, quote.currency, 'en-US'));
    expect(reprint).not.toContain(formatMoney(changed.totalMinor, quote.currency, 'en-US'));
  }, 120_000);
});
