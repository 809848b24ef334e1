import { flooringSchema } from '../../../shared-core/book/flooring.ts';
import { describe, expect, it } from 'vitest';
import { worstGap } from '../../../shared-core/survey/flatness.ts';
import { profilesOver } from '../../../shared-core/survey/profile-lines.ts';
import { floorFlatness } from '../../../shared-core/survey/floor-flatness.ts';
import { type FloorRead, readFloor } from '../../../shared-core/survey/read-floor.ts';
import { type GapAlong, gapSearch, widenGap } from '../../../shared-core/survey/straightedge.ts';
import { heightAt } from '../../../shared-core/survey/surface.ts';
import {
  type GapLimit,
  judge,
  limitText,
  publishedRules,
  RULES_FOR,
  rulesFor,
  TOLERANCE_RULES,
  type ToleranceRule,
} from '../../../shared-core/survey/tolerances.ts';
import { BS_8204_MM, DIN_18202_HANDBOOK } from '../../reference/flatness.ts';
import { limitsOf } from '../flooring-limits.ts';
import { gridReadings, numbers, planOf, rectangle, surveyOf } from './floors.ts';
import { simulatedFloor } from './simulated-floors.ts';
import { xy } from '../../outlines.ts';

function gapOn(profile: readonly (readonly [number, number])[], spanM: number): GapAlong {
  const search = gapSearch(profile.length);
  profile.forEach(([t, z], i) => {
    search.along[i] = t;
    search.height[i] = z;
  });
  search.count = profile.length;
  const best: GapAlong = { gapM: 0, contactA: 0, contactB: 0, deepest: 0 };
  widenGap(search, spanM, best);
  return best;
}

const sampled = (from: number, to: number, steps: number, f: (t: number) => number): [number, number][] =>
  Array.from({ length: steps + 1 }, (_, i) => {
    const t = from + ((to - from) * i) / steps;
    return [t, f(t)];
  });

function floorOf(width: number, depth: number, columns: number, rows: number, height: (x: number, y: number) => number): FloorRead {
  const read = readFloor(planOf(rectangle(width, depth)), surveyOf(gridReadings(width, depth, columns, rows, height)), 'metric');
  if (!read.ok) throw new Error(read.message);
  return read.floor;
}

const INCH_M = 0.0254;

describe('a straightedge on a profile of known shape', () => {
  it('spans a sinusoid from crest to crest: the gap is twice the amplitude', () => {
    const wave = sampled(0, 12, 1600, (t) => 0.003 * Math.sin((2 * Math.PI * t) / 1.5));
    const gap = gapOn(wave, 2);
    expect(gap.gapM).toBeCloseTo(0.006, 6);
    expect(gap.contactB - gap.contactA).toBeCloseTo(1.5, 2);
  });

  it('shorter than the wavelength sinks into the trough: 2A sin²(πL / 2λ)', () => {
    // Ends at ±L/2 about the trough: −A cos(πL/λ) less −A.
    const [A, wavelength, L] = [0.004, 4, 1.2];
    const wave = sampled(0, 12, 2400, (t) => -A * Math.cos((2 * Math.PI * t) / wavelength));
    expect(gapOn(wave, L).gapM).toBeCloseTo(A * (1 - Math.cos((Math.PI * L) / wavelength)), 7);
  });

  it('spans a single dip by its depth, and a V shorter than itself by its share', () => {
    const dip = xy('0,0 2,0 2.5,-0.005 3,0 6,0');
    expect(gapOn(dip, 2).gapM).toBeCloseTo(0.005, 12);
    // A valley of slope s on both sides under a length L: both ends at L/2, gap s·L/2. No end rests on a corner.
    const valley = xy('0,0.05 5,0 10,0.05');
    const gap = gapOn(valley, 2);
    expect(gap.gapM).toBeCloseTo(0.01 * 1, 12);
    expect(gap.contactA).toBeCloseTo(4, 9);
    expect(gap.contactB).toBeCloseTo(6, 9);
  });

  it('rests on a single bump and on the floor beside it', () => {
    // A spike 5 mm high: contacts at its tip and the far end 2 m off; the gap beside its foot is 5 mm less the share of the way.
    const bump = xy('0,0 5,0 5.1,0.005 5.2,0 10,0');
    expect(gapOn(bump, 2).gapM).toBeCloseTo(0.005 * (1 - 0.1 / 2), 9);
  });

  it('leans on a step', () => {
    // A step up of 4 mm over 1 cm: from its edge down to the end L away, the gap at its foot is 4 mm (1 − 0.01 / L).
    const step = xy('0,0 5,0 5.01,0.004 10,0.004');
    expect(gapOn(step, 2).gapM).toBeCloseTo(0.004 * (1 - 0.01 / 2), 9);
  });

  it('finds no gap on a plane, on a crown, or with fewer than three points', () => {
    expect(gapOn(xy('0,0 1,0.02 4,0.08'), 2).gapM).toBeLessThan(1e-15);
    expect(
      gapOn(
        sampled(0, 6, 60, (t) => -0.001 * (t - 3) ** 2),
        2,
      ).gapM,
    ).toBe(0);
    expect(
      gapOn(
        [
          [0, 0],
          [4, 0.1],
        ],
        2,
      ).gapM,
    ).toBe(0);
  });

  it('is shorter than the straightedge in a short room: it is laid as far as it goes', () => {
    expect(gapOn(xy('0,0 0.5,-0.004 1,0'), 3).gapM).toBeCloseTo(0.004, 12);
  });

  it('agrees with trying every place of the straightedge by brute force', () => {
    for (let seed = 1; seed <= 25; seed += 1) {
      const next = numbers(seed);
      let t = 0;
      const profile = Array.from({ length: 22 }, (): [number, number] => {
        t += 0.08 + 0.5 * next();
        return [t, 0.02 * t + 0.006 * (next() - 0.5)];
      });
      const spanM = 0.6 + 2 * next();
      const found = gapOn(profile, spanM);
      const brute = bruteGap(profile, spanM);
      expect(found.gapM).toBeGreaterThanOrEqual(brute - 1e-12);
      expect(found.gapM - brute).toBeLessThan(2e-6);
      expect(found.contactB - found.contactA).toBeLessThanOrEqual(spanM + 1e-9);
    }
  });
});

/** The straightedge in fine steps; at each place it rests on the highest chord over every point below. */
function bruteGap(profile: readonly (readonly [number, number])[], spanM: number): number {
  const start = profile[0]?.[0] ?? 0;
  const end = profile[profile.length - 1]?.[0] ?? 0;
  const heightOf = (t: number): number => {
    const i = Math.max(
      1,
      profile.findIndex(([u]) => u >= t - 1e-12),
    );
    const [u0, z0] = profile[i - 1] ?? [0, 0];
    const [u1, z1] = profile[i] ?? [1, 0];
    return z0 + ((t - u0) / (u1 - u0)) * (z1 - z0);
  };
  let worst = 0;
  const places = profile.flatMap(([t]) => [t, t - spanM]).filter((a) => a >= start && a + spanM <= end);
  for (let a = start; a + spanM <= end; a += 0.004) places.push(a);
  for (const a of [...places, end - spanM]) {
    const ts = [a, ...profile.map(([t]) => t).filter((t) => t > a && t < a + spanM), a + spanM];
    for (const x of ts) {
      const zx = heightOf(x);
      for (const l of ts) {
        if (l >= x) break;
        for (const r of ts) {
          if (r <= x) continue;
          worst = Math.max(worst, heightOf(l) + ((x - l) / (r - l)) * (heightOf(r) - heightOf(l)) - zx);
        }
      }
    }
  }
  return worst;
}

describe('the worst gap over a room', () => {
  it('is found at a dip between readings, in place and size', () => {
    const floor = floorOf(6, 4, 12, 8, (x, y) => (Math.abs(x - 3) < 0.01 && Math.abs(y - 2) < 0.01 ? -0.006 : 0));
    const worst = worstGap(floor.profiles, 2);
    expect(worst.gapM).toBeGreaterThan(0.006 * 0.7);
    expect(worst.gapM).toBeLessThanOrEqual(0.006 + 1e-12);
    expect(Math.hypot((worst.point?.xM ?? 0) - 3, (worst.point?.yM ?? 0) - 2)).toBeLessThan(0.16);
  });

  // At 22.5° the crests are 1.62 m apart, so a straightedge of 1.55 m reaches from crest to crest only straight across.
  it('runs across the waves of a corrugated floor and stays the same when the floor is tilted', () => {
    const wave = (x: number): number => 0.003 * Math.sin((2 * Math.PI * x) / 1.5);
    const flat = worstGap(floorOf(6, 4, 60, 8, wave).profiles, 1.55);
    expect(flat.gapM).toBeCloseTo(0.006, 4);
    const across = flat.directionDeg ?? 90;
    expect(Math.min(across, 180 - across)).toBeLessThan(1);
    const tilted = worstGap(floorOf(6, 4, 60, 8, (x, y) => wave(x) + 0.01 * x - 0.02 * y).profiles, 1.55);
    expect(tilted.gapM).toBeCloseTo(flat.gapM, 9);
  });

  it('reads on every line the surface’s own heights, also where lines run along creases and walls', () => {
    for (const height of [(x: number, y: number) => 0.01 * x - 0.02 * y, (x: number, y: number) => 0.005 * Math.sin(2 * x + y)]) {
      const { profiles, surface } = floorOf(6, 4, 120, 8, height);
      let checked = 0;
      for (let k = 0; k < profiles.count; k += 1) {
        const angle = profiles.angles[profiles.direction[k] ?? 0] ?? 0;
        const v = profiles.offset[k] ?? 0;
        for (let i = profiles.start[k] ?? 0; i < (profiles.start[k + 1] ?? 0); i += 1) {
          const u = profiles.along[i] ?? 0;
          const found = heightAt(surface, u * Math.cos(angle) - v * Math.sin(angle), u * Math.sin(angle) + v * Math.cos(angle));
          expect(Math.abs(found.zM - (profiles.height[i] ?? 9))).toBeLessThan(1e-9);
          checked += 1;
        }
      }
      expect(checked).toBeGreaterThan(5000);
    }
  });

  it('comes with contacts no farther apart than the straightedge, and says when the room is shorter', () => {
    const floor = floorOf(2, 1.5, 8, 6, (x, y) => 0.004 * Math.sin(4 * x) * Math.cos(3 * y));
    const worst = worstGap(floor.profiles, 3.048);
    const [a, b] = worst.contacts ?? [];
    expect(Math.hypot((a?.xM ?? 0) - (b?.xM ?? 9), (a?.yM ?? 0) - (b?.yM ?? 9))).toBeLessThanOrEqual(3.048 + 1e-9);
    expect(worst.shorterThanSpan).toBe(true);
    expect(worstGap(floor.profiles, 1).shorterThanSpan).toBe(false);
  });

  it('shows no lip along a wall whose readings stand a little off one line', () => {
    const next = numbers(12);
    // Every other reading of the rows along the walls is up to 2 cm off; the floor is a wave that slopes to the wall.
    const wave = (x: number, y: number): number => 0.004 * Math.sin(2 * x) * Math.cos(y);
    const readings = gridReadings(6, 4, 15, 10, () => 0).map(([x, y]) => {
      const spot = [0.1 + x * 0.96 + 0.02 * next(), 0.1 + y * 0.95 + 0.02 * next()] as const;
      return [...spot, wave(...spot)] as const;
    });
    const read = readFloor(planOf(rectangle(6, 4)), surveyOf(readings), 'metric');
    if (!read.ok) throw new Error(read.message);
    const short = worstGap(read.floor.profiles, 0.3);
    // Under 0.3 m the true wave gaps at most half its curvature times (0.15)²: 0.004 · (4 + 1) / 2 · 0.0225; triangles of 0.4 m add as much
    // again.
    expect(short.gapM).toBeLessThan(2.5 * 0.004 * 2.5 * 0.0225);
  });

  it('never crosses a column: each side is its own floor', () => {
    const column = xy('1.9,-0.5 2.1,-0.5 2.1,1.5 1.9,1.5');
    const outline = rectangle(4, 1);
    const split = column.map(([x, y]) => [x, Math.min(1, Math.max(0, y))] as const);
    const read = readFloor(
      planOf(outline, [split]),
      surveyOf(gridReadings(4, 1, 40, 4, (x) => 0.01 * Math.abs(x - 2)).filter(([x]) => x <= 1.9 || x >= 2.1)),
      'metric',
    );
    if (!read.ok) throw new Error(read.message);
    expect(worstGap(read.floor.profiles, 1).gapM).toBeLessThan(1e-9);
  });

  it('is looked for in eight directions on lines no more than 0.3 m apart', () => {
    const floor = floorOf(6, 4, 6, 4, () => 0);
    const profiles = profilesOver(floor.surface, floor.room);
    expect(profiles.angles.length).toBe(8);
    for (let direction = 0; direction < 8; direction += 1) {
      const offsets = [...profiles.offset].filter((_, k) => profiles.direction[k] === direction).sort((a, b) => a - b);
      const steps = offsets.slice(1).map((offset, i) => offset - (offsets[i] ?? 0));
      expect(Math.max(...steps)).toBeLessThanOrEqual(0.3 + 1e-9);
    }
  });
});

describe('the worst gap that is reported', () => {
  it('is the true worst within 2%, as lines 5 cm apart in 72 directions find it', () => {
    for (const [seed, kind] of [
      [1, 'smooth'],
      [2, 'wavy'],
      [3, 'spiky'],
      [4, 'wavy'],
      [5, 'spiky'],
      [6, 'spiky'],
    ] as const) {
      const floor = simulatedFloor(kind, seed);
      const read = readFloor(floor.plan, floor.survey(1, 0.0015), 'us');
      if (!read.ok) throw new Error(read.message);
      const found = floorFlatness(read.floor, 3.048, { flooring: null, flooringLimits: null, country: 'US' }).worst.gapM;
      const fine = worstGap(profilesOver(read.floor.surface, read.floor.room, { spacingM: 0.05, directions: 72 }), 3.048).gapM;
      expect(found / fine).toBeGreaterThan(0.98);
    }
  });
});

describe('published straightedge tolerances', () => {
  const rule = (key: string): ToleranceRule => {
    const found = TOLERANCE_RULES.find((one) => one.key === key);
    if (!found) throw new Error(key);
    return found;
  };
  const tenFeet = (gapIn: number) => (spanM: number) => (spanM > 3 ? gapIn * INCH_M : 0);

  it('refuse large tile and take small tile at 5/32 in in 10 ft (ANSI A108.02)', () => {
    expect(judge(rule('ansi-a108-02-large'), tenFeet(5 / 32)).meets).toBe(false);
    expect(judge(rule('ansi-a108-02'), tenFeet(5 / 32)).meets).toBe(true);
    expect(judge(rule('ansi-a108-02-large'), tenFeet(1 / 8)).meets).toBe(true);
  });

  it('put 4 mm under 2 m past SR1 and within SR2 (BS 8204)', () => {
    const four = (): number => 0.004;
    expect(judge(rule('bs-8204-sr1'), four).meets).toBe(false);
    expect(judge(rule('bs-8204-sr2'), four).meets).toBe(true);
    for (const grade of ['sr1', 'sr2', 'sr3'] as const) {
      const limit = rule(`bs-8204-${grade}`).limits[0];
      expect(limit?.spanM).toBe(2);
      expect((limit?.gapM ?? 0) * 1000).toBeCloseTo(BS_8204_MM[grade], 12);
    }
  });

  it('follow DIN 18202 Table 3 as the handbook prints it', () => {
    for (const line of [1, 2, 3, 4] as const) {
      const { limits, join } = rule(`din-18202-${line}`);
      expect([join, ...limits.map(({ spanM }) => spanM)]).toEqual(['all', 1, 2, 4]);
      for (const { spanM, gapM, text } of limits) {
        const printed = DIN_18202_HANDBOOK.lines[line][(DIN_18202_HANDBOOK.distancesM as readonly number[]).indexOf(spanM)];
        expect(gapM * 1000).toBeCloseTo(printed ?? -1, 12);
        expect(text).toBe(`${String(printed)} mm in ${spanM} m`);
      }
    }
  });

  it('offer a choice of two limits where the standard says or, and ask both where it says and', () => {
    const onlyShort = (spanM: number): number => (spanM > 3 ? 1 : 0);
    expect(judge(rule('nwfa-nailed'), onlyShort).meets).toBe(true);
    expect(judge(rule('ansi-a108-02'), onlyShort).meets).toBe(false);
  });

  it('are given in the company’s units too, where they are published in others', () => {
    const texts = (units: 'us' | 'metric', limits: readonly GapLimit[]): string[] => limits.map((limit) => limitText(limit, units));
    // 1/8 in. is 3.2 mm, 6 ft is 1.83 m, 3/16 in. is 4.8 mm and 10 ft is 3.05 m.
    expect(texts('metric', rule('nwfa-concrete').limits)).toEqual([
      '1/8 in. in 6 ft (3.2 mm in 1.83 m)',
      '3/16 in. in 10 ft (4.8 mm in 3.05 m)',
    ]);
    expect(texts('us', rule('nwfa-concrete').limits)).toEqual(['1/8 in. in 6 ft', '3/16 in. in 10 ft']);
    expect(texts('metric', rule('bs-8204-sr1').limits)).toEqual(['3 mm in 2 m']);
  });

  it('ask no figures of one floor twice, once as a choice and once together', () => {
    for (const keys of Object.values(RULES_FOR)) {
      const figures = keys.map((key) =>
        rule(key)
          .limits.map(({ text }) => text)
          .toSorted()
          .join(),
      );
      expect(new Set(figures).size, keys.join()).toBe(figures.length);
    }
  });

  it('exist for every flooring, each with its source', () => {
    for (const keys of Object.values(RULES_FOR)) for (const key of keys) expect(rule(key).source.length).toBeGreaterThan(10);
  });

  it('are those of the company’s country: no DIN or BS in the US, and DIN 18202 line 3 in Germany', () => {
    const keys = (country: string) => publishedRules(country).map(({ key }) => key.split('-')[0]);
    expect(new Set(keys('US'))).toEqual(new Set(['ansi', 'nwfa', 'astm', 'usual']));
    expect(new Set(keys('DE'))).toEqual(new Set(['din']));
    expect(new Set(keys('GB'))).toEqual(new Set(['bs']));
    for (const flooring of flooringSchema.options) {
      const of = (country: string) => rulesFor({ flooring, flooringLimits: null, country }).map(({ key }) => key);
      expect(of('US').length, flooring).toBeGreaterThan(0);
      expect(of('US').join(' '), flooring).not.toMatch(/din|bs/);
      expect(of('DE')).toEqual(['din-18202-3']);
      expect(of('GB').join(' ')).toMatch(/^bs-8204-sr[123]$/);
    }
  });

  it('are replaced by the flooring manufacturer’s own limit, named as such', () => {
    const floor = floorOf(4, 4, 40, 40, (x) => 0.002 * Math.sin((2 * Math.PI * x) / 1.5));
    const limits = limitsOf({ flatnessGapM: 0.003, flatnessSpanM: 2, statedIn: 'data sheet' });
    const rated = floorFlatness(floor, 2, { flooring: 'resilient', flooringLimits: limits, country: 'US' });
    expect(rated.forFlooring.map((verdict) => [verdict.rule.key, verdict.meets])).toEqual([['manufacturers-own', false]]);
    expect(rated.forFlooring[0]?.rule).toMatchObject({ source: 'data sheet', sourceStatus: 'stated by the flooring manufacturer' });
    const published = floorFlatness(floor, 2, { flooring: 'resilient', flooringLimits: { ...limits, flatnessSpanM: null }, country: 'US' });
    expect(published.forFlooring.map((verdict) => [verdict.rule.key, verdict.meets])).toEqual([['astm-f710', true]]);
    expect(rated.worst.gapM).toBeCloseTo(0.004, 4);
    // A search that starts from a shorter straightedge's result finds the same gap.
    for (const gap of rated.gaps) expect(gap.gapM).toBe(worstGap(floor.profiles, gap.spanM).gapM);
  });
});
