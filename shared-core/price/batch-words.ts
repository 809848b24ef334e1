/** How many batches there are, in the same words on every screen and paper: those of the likely volume, and of all the bags. */
import type { BatchCounts } from '../material/water.ts';
import { countWords } from '../measure/count-words.ts';
import { DEFAULT_LOCALE, formatNumber } from '../measure/number.ts';

const IF_ALL = 'if all bags are used';

/** The count after a label or a noun: `44 likely, 47 if all bags are used`; `44` where both are the same. */
export function batchCountWords({ likely, all }: BatchCounts, locale?: string): string {
  const show = (n: number) => formatNumber(n, { most: 0 }, locale);
  return likely === all ? show(all) : `${show(likely)} likely, ${show(all)} ${IF_ALL}`;
}

/** `44 batches likely, 47 if all bags are used`; `44 batches` where both are the same. */
export function batchWords({ likely, all }: BatchCounts, locale: string): string {
  const batches = countWords(likely, 'batch', locale);
  return likely === all ? batches : `${batches} likely, ${formatNumber(all, { most: 0 }, locale)} ${IF_ALL}`;
}

/** The batches that a time is of: `44 batches (likely)`, `47 batches (if all bags are used)`. */
export function timedBatchWords(counts: BatchCounts, of: keyof BatchCounts, locale = DEFAULT_LOCALE): string {
  const batches = countWords(counts[of], 'batch', locale);
  return counts.likely === counts.all ? batches : `${batches} (${of === 'likely' ? of : IF_ALL})`;
}
