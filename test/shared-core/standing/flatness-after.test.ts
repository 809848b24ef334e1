import { describe, expect, it } from 'vitest';
import type { Quote } from '../../../shared-core/book/quote.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { flatnessAfter, promisedGapM } from '../../../shared-core/standing/flatness-after.ts';

const NOW = '2026-05-12T12:00:00.000Z';
const whole = wholeJobsOf(sampleAt(NOW)).find((w) => w.job.id === 'sample-job-lindqvist');
const room = whole?.rooms.find((r) => r.id === 'sample-family');
const accepted = whole?.quotes.find((q) => q.state === 'accepted');
if (whole === undefined || room === undefined || accepted === undefined) throw new Error('The sample has the job that is poured today.');

/** The accepted quote with this promised flatness. */
const promising = (gapM: number | null): Quote[] => [
  {
    ...accepted,
    priced: { ...accepted.priced, options: accepted.priced.options.map((option) => ({ ...option, gapM })) },
  },
];
const LATER = '2026-05-15T12:00:00.000Z';
const PLACED = '2026-05-13T16:00:00.000Z';
const of = (gapM: number | null) => ({ quotes: promising(gapM), placedAt: PLACED, units: 'us' as const, country: 'US' });
const noFlooring = { flooring: null, flooringLimits: null };

/** The room measured on a grid after the pour, level except for a dip in its center. */
const readAfter = (dipM: number, takenAt: string) => {
  const readings = Array.from({ length: 49 }, (_, i) => ({
    id: `after-${i}`,
    xM: 0.2 + (i % 7) * 0.98,
    yM: 1 + Math.floor(i / 7) * 0.65,
    valueM: i === 24 ? 1 - dipM : 1,
    note: null,
    confirmed: false,
  }));
  return { ...room, surveyAfter: { ...room.survey, method: 'height' as const, takenAt, readings } };
};

describe('flatness after the pour', () => {
  it('is judged by the gap that the accepted quote promised', () => {
    expect(promisedGapM(promising(0.0048))).toBe(0.0048);
    expect(flatnessAfter(readAfter(0.002, LATER), noFlooring, of(0.0048)).verdict).toBe('kept');
    const over = flatnessAfter(readAfter(0.008, LATER), noFlooring, of(0.0048));
    expect(over.verdict).toBe('over-promise');
    // The widest gap is at the dip.
    expect(over.worst?.gapM ?? 0).toBeGreaterThan(0.006);
    expect(Math.abs((over.worst?.point?.xM ?? 0) - 3.14)).toBeLessThan(0.7);
    // Half an inch under 10 ft: no published limit is as wide (floors.md, tables of tolerances).
    expect(flatnessAfter(readAfter(0.0127, LATER), { flooring: 'tile-large', flooringLimits: null }, of(null)).verdict).toBe('over-limit');
  });

  it.each(['us', 'metric'] as const)('is one verdict for one floor, in %s units too', (units) => {
    const verdict = (dipM: number, promisedM: number) => {
      return flatnessAfter(readAfter(dipM, LATER), noFlooring, { ...of(promisedM), units }).verdict;
    };
    const gapM = flatnessAfter(readAfter(0.004, LATER), noFlooring, of(1)).worst?.gapM ?? Number.NaN;
    // Half of the sixteenth of an inch that a tape is read to: common practice, no source.
    expect(verdict(0.004, gapM - 0.0007)).toBe('kept');
    expect(verdict(0.004, gapM - 0.0009)).toBe('over-promise');
  });

  it('is not measured without readings, and with those of an earlier pour alone', () => {
    expect(flatnessAfter({ ...room, surveyAfter: null }, noFlooring, of(0.0048)).verdict).toBe('not-measured');
    expect(flatnessAfter(readAfter(0, '2026-05-13T15:00:00.000Z'), noFlooring, of(0.0048)).verdict).toBe('not-measured');
  });
});
