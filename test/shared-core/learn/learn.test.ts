import fc from 'fast-check';
import { mean, sampleStandardDeviation } from 'simple-statistics';
import { describe, expect, it } from 'vitest';
import type { SignedItem } from '../../../shared-core/book/job.ts';
import { signedSpans } from '../../../shared-core/learn/logged-hours.ts';
import { promiseMisses } from '../../../shared-core/learn/job-lessons.ts';
import { proposals } from '../../../shared-core/learn/proposals.ts';
import { PRIOR_JOBS, shrink } from '../../../shared-core/learn/shrink.ts';
import { promised } from '../cure/sheet-fixture.ts';

const value = fc.double({ min: -50, max: 50, noNaN: true });

describe('a factor drawn toward its default', () => {
  it('is the default without jobs, and halfway after as many jobs as the default weighs', () => {
    expect(shrink(10, [])).toMatchObject({ jobs: 0, value: 10, mean: null, spread: null });
    expect(
      shrink(
        10,
        Array.from({ length: PRIOR_JOBS }, () => 20),
      ).value,
    ).toBeCloseTo(15, 12);
  });

  it('agrees with a general statistics library on mean and spread', () => {
    fc.assert(
      fc.property(fc.array(value, { minLength: 2, maxLength: 30 }), (values) => {
        const learned = shrink(1, values);
        expect(learned.mean).toBeCloseTo(mean(values), 8);
        expect(learned.spread).toBeCloseTo(sampleStandardDeviation(values), 6);
      }),
    );
  });

  it('is the precision-weighted mean of a normal with a normal prior', () => {
    // Known variance s², prior variance s²/4: (μ0/τ² + n x̄/s²) / (1/τ² + n/s²), the textbook form.
    const values = [3, 5, 4];
    const s2 = 2;
    const tau2 = s2 / PRIOR_JOBS;
    const textbook = (10 / tau2 + (3 * mean(values)) / s2) / (1 / tau2 + 3 / s2);
    expect(shrink(10, values).value).toBeCloseTo(textbook, 12);
  });

  it('lies between the default and the jobs, nearer the jobs the more there are, whatever their order', () => {
    fc.assert(
      fc.property(value, fc.array(value, { minLength: 1, maxLength: 20 }), (before, values) => {
        const learned = shrink(before, values);
        const m = learned.mean ?? before;
        expect(learned.value).toBeGreaterThanOrEqual(Math.min(before, m) - 1e-9);
        expect(learned.value).toBeLessThanOrEqual(Math.max(before, m) + 1e-9);
        expect(Math.abs(shrink(before, [...values, ...values]).value - m)).toBeLessThanOrEqual(Math.abs(learned.value - m) + 1e-9);
        expect(shrink(before, values.toReversed()).value).toBeCloseTo(learned.value, 9);
      }),
    );
  });
});

describe('prep and promises', () => {
  const signed = (itemKey: string, doneAt: string, withdrawnAt: string | null = null): SignedItem => ({
    itemKey,
    doneAt,
    initials: 'RT',
    note: '',
    signedText: '',
    photoIds: [],
    withdrawnAt,
  });

  it('takes a task’s hours from the signature before it, not over a night and not from a signature after the fact', () => {
    const list = [
      signed('abrade:room1', '2026-05-11T15:30:00.000Z'),
      signed('clear', '2026-05-11T13:00:00.000Z'),
      signed('vacuum', '2026-05-11T15:30:20.000Z'),
      signed('prime', '2026-05-12T13:00:00.000Z'),
      signed('dams', '2026-05-12T13:30:00.000Z', '2026-05-12T13:31:00.000Z'),
    ];
    const inRoom = list.map((item) => ({ item, roomId: 'room0001', who: item.initials }));
    expect(signedSpans(inRoom).map(({ item, hours }) => [item.itemKey, hours])).toEqual([['abrade:room1', 2.5]]);
  });

  it('counts days from the current promise to the test that cleared the floor', () => {
    const promise = promised({ promisedFor: '2026-05-20T12:00:00.000Z' });
    expect(promiseMisses([promise], () => '2026-05-23T12:00:00.000Z')).toEqual([3]);
    expect(promiseMisses([promise], () => null)).toEqual([]);
  });
});

describe('proposals', () => {
  it('appear only when enough jobs agree on a change that matters', () => {
    const propose = (values: number[]) => proposals([{ kind: 'bags', task: null, before: 1, values }])[0];
    expect(propose([1.2, 1.2])?.worthAsking).toBe(false);
    expect(propose([1.2, 1.21, 1.19])?.worthAsking).toBe(true);
    expect(propose([1.01, 1, 1.02])?.worthAsking).toBe(false);
    expect(propose([0.4, 1.9, 1.4])?.worthAsking).toBe(false);
  });

  it('show the figure in use, the jobs’ average, their spread and the suggestion', () => {
    const [found] = proposals([{ kind: 'minutes-a-batch', task: null, before: 4, values: [6, 6, 8, 8] }], 'en-US');
    expect(found?.sentence).toBe('Minutes per batch: now 4. Average of 4 jobs: 7, ± 1.2 from job to job. Suggested: 5.5.');
  });
});
