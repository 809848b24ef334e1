import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { runClock, stoodStill } from '../../../shared-core/cure/clock.ts';
import { ageFactor } from '../../../shared-core/cure/strength-dates.ts';
import { cutPiece, HOUR_MS, type Piece } from '../../../shared-core/cure/temperature-history.ts';
import {
  AGE_FACTORS,
  DAY_HISTORY,
  EUROCODE_MATURITY,
  NURSE_SAUL_28_DAYS,
  NURSE_SAUL_TARGET,
  SETTING_HOURS,
} from '../../reference/maturity.ts';
import { xy } from '../../outlines.ts';

/** Steps at a constant temperature, the last without end. */
function steps(list: readonly (readonly [tempC: number, hours: number])[]): Piece[] {
  let atMs = 0;
  const pieces = list.map(([tempC, hours]): Piece => {
    const fromMs = atMs;
    atMs += hours * HOUR_MS;
    return { fromMs, toMs: atMs, fromC: tempC, toC: tempC, fromHumidity: 0.5, toHumidity: 0.5, known: 'read' };
  });
  const lastC = list.at(-1)?.[0] ?? 20;
  return [...pieces, { fromMs: atMs, toMs: Infinity, fromC: lastC, toC: lastC, fromHumidity: 0.5, toHumidity: 0.5, known: 'assumed' }];
}

const endMs = (list: readonly (readonly [number, number])[]) => list.reduce((sum, [, h]) => sum + h, 0) * HOUR_MS;
const NEVER_STILL = -273;

/** EN 1992-1-1 (B.10), in the standard's own form. */
const eurocodeAgeFactor = (tempC: number): number => Math.exp(13.65 - 4000 / (273 + tempC));

/** The factor of Nurse and Saul: the degrees above a datum. */
const degreesAboveDatum = (tempC: number, datumC: number): number => Math.max(0, tempC - datumC);

describe('equivalent age', () => {
  it('gives the total published for EN 1992-1-1 (B.10), term by term', () => {
    const { tempC, days, termsDays, totalDays } = EUROCODE_MATURITY;
    tempC.forEach((t, i) => expect(eurocodeAgeFactor(t) * (days[i] ?? 0)).toBeCloseTo(termsDays[i] ?? 0, 7));
    const list = tempC.map((t, i) => [t, (days[i] ?? 0) * 24] as const);
    expect(runClock(steps(list), eurocodeAgeFactor, NEVER_STILL).hoursAt(endMs(list)) / 24).toBeCloseTo(totalDays, 6);
  });

  it('has the factors worked from the ASTM C1074 form', () => {
    for (const [t, a, b, c, d] of AGE_FACTORS) {
      expect(ageFactor(t, 20, 5000)).toBeCloseTo(a, 4);
      expect(ageFactor(t, 23, 5000)).toBeCloseTo(b, 4);
      expect(ageFactor(t, 20, 33500 / 8.314)).toBeCloseTo(c, 4);
      expect(ageFactor(t, 20, 41500 / 8.314)).toBeCloseTo(d, 4);
    }
  });

  it('agrees with EN 1992-1-1 (B.10), which is its own form at 4000 K and 20.04 °C', () => {
    for (let t = 0; t <= 40; t += 5) expect(ageFactor(t, 4000 / 13.65 - 273, 4000)).toBeCloseTo(eurocodeAgeFactor(t), 10);
  });

  it('gives a day of changing temperature 21.70 h at 20 °C and 18.25 h at 23 °C', () => {
    const hoursAt = (ts: number) => runClock(steps(DAY_HISTORY.steps), (t) => ageFactor(t, ts, 5000), NEVER_STILL).hoursAt(24 * HOUR_MS);
    expect(hoursAt(20)).toBeCloseTo(DAY_HISTORY.ageHoursAt20, 4);
    expect(hoursAt(23)).toBeCloseTo(DAY_HISTORY.ageHoursAt23, 4);
  });
});

describe('temperature-time factor', () => {
  it('adds the degrees above a datum below zero (728, not 112)', () => {
    const { tempC, days, datumC, degreeDays } = NURSE_SAUL_28_DAYS;
    const list = [[tempC, days * 24]] as const;
    expect(runClock(steps(list), (t) => degreesAboveDatum(t, datumC), NEVER_STILL).hoursAt(endMs(list)) / 24).toBeCloseTo(degreeDays, 9);
  });

  it('reaches 3,500 °C·h at 23 °C in 152 hours', () => {
    const { tempC, datumC, degreeHours, hours } = NURSE_SAUL_TARGET;
    const ms = runClock(steps([[tempC, 1]]), (t) => degreesAboveDatum(t, datumC), NEVER_STILL).whenMs(degreeHours);
    expect(Math.abs((ms ?? NaN) / HOUR_MS - hours)).toBeLessThan(0.5);
  });

  it('differs by exactly ten degrees an hour between the datums 0 and −10 °C', () => {
    const sum = (datum: number) =>
      runClock(steps(DAY_HISTORY.steps), (t) => degreesAboveDatum(t, datum), NEVER_STILL).hoursAt(24 * HOUR_MS);
    expect(sum(0)).toBeCloseTo(DAY_HISTORY.degreeHoursDatum0, 9);
    expect(sum(-10)).toBeCloseTo(DAY_HISTORY.degreeHoursDatumMinus10, 9);
    expect(sum(-10) - sum(0)).toBeCloseTo(240, 9);
  });
});

describe('the shape of setting against temperature', () => {
  const hoursAt = (f: number) => SETTING_HOURS.find(([t]) => t === f)?.[1] ?? NaN;

  it('halves from 60 to 80 °F in the printed table, and loses as much again by Arrhenius over 10 °C', () => {
    expect(hoursAt(60) / hoursAt(80)).toBeCloseTo(2, 10); // S3
    expect(hoursAt(70) / hoursAt(90)).toBeCloseTo(2.25, 2); // S4
    expect(hoursAt(50) / hoursAt(70)).toBeCloseTo(1.83, 2);
    expect(hoursAt(30) / hoursAt(50)).toBeCloseTo(1.73, 2);
    expect(1 / ageFactor(10, 20, 5000)).toBeCloseTo(1.83, 2); // S5
  });

  it('doubles about every 20 °F in the table (S1, S2) and Arrhenius stays within a third of the table, 40 to 90 °F', () => {
    const points = SETTING_HOURS.map(([f, h]) => [f, Math.log2(h)] as const);
    const meanF = points.reduce((s, [f]) => s + f, 0) / points.length;
    const meanL = points.reduce((s, [, l]) => s + l, 0) / points.length;
    const slope = points.reduce((s, [f, l]) => s + (f - meanF) * (l - meanL), 0) / points.reduce((s, [f]) => s + (f - meanF) ** 2, 0);
    expect(Math.abs(-1 / slope - 20.3)).toBeLessThan(1);
    for (const [f, h] of SETTING_HOURS.filter(([t]) => t >= 40 && t <= 90)) {
      const ours = hoursAt(70) / ageFactor(((f - 32) * 5) / 9, ((70 - 32) * 5) / 9, 5000);
      expect(ours / h).toBeGreaterThan(0.66);
      expect(ours / h).toBeLessThan(1.4);
    }
  });
});

const temps = fc.array(fc.tuple(fc.double({ min: -5, max: 40, noNaN: true }), fc.double({ min: 0.1, max: 30, noNaN: true })), {
  minLength: 1,
  maxLength: 12,
});
const rate = (t: number) => ageFactor(t, 20, 5000);

describe('the clock', () => {
  /** Linear between readings. */
  function lines(list: readonly (readonly [number, number])[], plusC = 0): Piece[] {
    const flat = steps(list);
    return flat.map((p, i) => ({
      ...p,
      fromC: p.fromC + plusC,
      toC: (Number.isFinite(p.toMs) ? (flat[i + 1]?.fromC ?? p.toC) : p.toC) + plusC,
    }));
  }

  it('is not changed by splitting an interval', () => {
    fc.assert(
      fc.property(temps, fc.nat(), fc.double({ min: 0.01, max: 0.99, noNaN: true }), (list, which, share) => {
        const whole = lines(list);
        const i = which % list.length;
        const cut = whole.flatMap((p, k) => {
          const mid = p.fromMs + (p.toMs - p.fromMs) * share;
          return k === i ? [cutPiece(p, p.fromMs, mid), cutPiece(p, mid, p.toMs)] : [p];
        });
        const end = endMs(list) + 50 * HOUR_MS;
        const a = runClock(whole, rate, 8).hoursAt(end);
        expect(runClock(cut, rate, 8).hoursAt(end)).toBeCloseTo(a, 7);
      }),
    );
  });

  it('integrates linear temperature like a fine midpoint sum', () => {
    fc.assert(
      fc.property(temps, (list) => {
        const pieces = lines(list);
        let sum = 0;
        for (const p of pieces) {
          if (!Number.isFinite(p.toMs)) continue;
          const n = 4000;
          for (let k = 0; k < n; k++) sum += (((p.toMs - p.fromMs) / HOUR_MS) * rate(p.fromC + ((p.toC - p.fromC) * (k + 0.5)) / n)) / n;
        }
        expect(runClock(pieces, rate, NEVER_STILL).hoursAt(endMs(list))).toBeCloseTo(sum, 3);
      }),
      { numRuns: 30 },
    );
  });

  it('is never later for a hotter room', () => {
    fc.assert(
      fc.property(
        temps,
        fc.double({ min: 0, max: 15, noNaN: true }),
        fc.double({ min: 0.5, max: 200, noNaN: true }),
        (list, plus, hours) => {
          const cool = runClock(lines(list), rate, 5).whenMs(hours) ?? Infinity;
          const hot = runClock(lines(list, plus), rate, 5).whenMs(hours) ?? Infinity;
          expect(hot).toBeLessThanOrEqual(cool === Infinity ? Infinity : cool + 1);
        },
      ),
    );
  });

  it('reaches the requested hours at the instant it gives', () => {
    fc.assert(
      fc.property(temps, fc.double({ min: 0.5, max: 200, noNaN: true }), (list, hours) => {
        const clock = runClock(lines(list), rate, 5);
        const ms = clock.whenMs(hours);
        if (ms !== null) expect(clock.hoursAt(ms)).toBeCloseTo(hours, 4);
        else expect(clock.hoursAt(endMs(list) + 1e9)).toBeLessThan(hours);
      }),
    );
  });

  it('pauses below the minimum temperature and lists when', () => {
    const pieces = lines(xy('20,10 0,10 20,5'));
    const still = stoodStill(pieces, 10);
    expect(still).toEqual([{ fromMs: 5 * HOUR_MS, toMs: 15 * HOUR_MS }]);
    const clock = runClock(pieces, rate, 10);
    expect(clock.hoursAt(15 * HOUR_MS)).toBeCloseTo(clock.hoursAt(5 * HOUR_MS), 10);
    expect(clock.hoursAt(25 * HOUR_MS)).toBeGreaterThan(clock.hoursAt(15 * HOUR_MS));
  });

  it('gives no time when the room is assumed below the minimum temperature', () => {
    expect(runClock(steps([[4, 10]]), rate, 5).whenMs(1)).toBeNull();
  });
});
