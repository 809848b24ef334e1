import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ageFactor } from '../../../shared-core/cure/strength-dates.ts';
import { runClock } from '../../../shared-core/cure/clock.ts';
import { KEPT_READINGS, keptReadings } from '../../../shared-core/cure/log-means.ts';
import { HOUR_MS, temperatureHistory } from '../../../shared-core/cure/temperature-history.ts';

const START = Date.UTC(2026, 4, 11);
const reads = (count: number, stepMs: number, tempC: (i: number) => number) =>
  Array.from({ length: count }, (_, i) => ({ atMs: START + i * stepMs, tempC: tempC(i), humidity: i % 2 === 0 ? 0.5 : null }));

describe('a long log', () => {
  it('is stored unchanged up to ten thousand readings', () => {
    const { readings, everyMin } = keptReadings(reads(KEPT_READINGS, 60_000, (i) => i % 7));
    expect([readings.length, everyMin]).toEqual([KEPT_READINGS, null]);
  });

  it('beyond that is stored as averages in order, with the average of all and a humidity where one was read', () => {
    const { readings, everyMin } = keptReadings(reads(60_000, 1000, (i) => 15 + (i % 5)));
    expect([readings.length, everyMin]).toEqual([1000, 1]);
    expect(readings.every((r, i) => i === 0 || r.instant > (readings[i - 1]?.instant ?? ''))).toBe(true);
    expect(readings.reduce((sum, r) => sum + r.tempC, 0) / readings.length).toBeCloseTo(17, 9);
    expect(new Set(readings.map((r) => r.relativeHumidity?.toFixed(6)))).toEqual(new Set(['0.500000']));
  });

  it('dates a floor as all single readings would, to a minute in four days', () => {
    const ageAt = (readings: Parameters<typeof temperatureHistory>[0]['readings']): number =>
      runClock(
        temperatureHistory({ startMs: START, readings, assumed: { tempC: 20, humidity: 0.5 }, gaps: 'line' }),
        (tempC) => ageFactor(tempC, 20, 5000),
        5,
      ).hoursAt(START + 96 * HOUR_MS);
    fc.assert(
      fc.property(fc.double({ min: 8, max: 25, noNaN: true }), fc.double({ min: 0, max: 12, noNaN: true }), (mean, swing) => {
        const all = reads(23_040, 15_000, (i) => mean + swing * Math.sin((i / 5760) * 2 * Math.PI));
        const whole = all.map((r) => ({ instant: new Date(r.atMs).toISOString(), tempC: r.tempC, relativeHumidity: r.humidity }));
        expect(Math.abs(ageAt(keptReadings(all).readings) - ageAt(whole)) * 60).toBeLessThan(1);
      }),
      { numRuns: 5 },
    );
  });
});
