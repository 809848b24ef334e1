/** Formats disk space. Decimal prefixes (IEC 80000-13: MB is a million bytes). */
import { formatNumber } from './number.ts';

const STEPS = ['bytes', 'kB', 'MB', 'GB', 'TB'] as const;

/** A number of bytes in the largest unit that gives a figure of at least one: `312 kB`, `4.2 GB`; a line never breaks inside it. */
export function formatDataSize(bytes: number, locale?: string): string {
  let [value, step] = [Math.max(0, bytes), 0];
  // 999.5 and above would round to four digits.
  while (value >= 999.5 && step < STEPS.length - 1) [value, step] = [value / 1000, step + 1];
  return `${formatNumber(value, { most: step > 0 && value < 9.95 ? 1 : 0 }, locale)}\u00a0${STEPS[step] ?? 'bytes'}`;
}
