import { describe, expect, it } from 'vitest';
import type { PourPlan } from '../../../shared-core/book/job.ts';
import { judgedWords, summaryWords } from '../../../renderer/stages/pour/advice-words.ts';
import { adviceFrom, changesOf, type AdviceCase } from '../../../shared-core/pour/advice.ts';
import { adviseOn, judgeChange } from './advise-on.ts';
import { chanceOf, quantile } from '../../../shared-core/pour/chance.ts';
import { clocksAt } from '../../../shared-core/pour/clocks.ts';
import { TYPICAL_CREW } from '../../../shared-core/pour/typical-crew.ts';
import { box } from './floors.ts';

const plan: PourPlan = {
  laneWidthM: 1.2,
  angleDeg: 0,
  pattern: 'back-and-forth',
  wayOutId: null,
  joints: [],
  crew: { ...TYPICAL_CREW, cartBatches: 2 },
};
/** A long room with lanes along it: 8 by 3 m, 8 mm deep, bags of 12.7 L. */
const long = (part: Partial<PourPlan> = {}): AdviceCase => ({
  rooms: [{ roomId: 'hall', name: 'Hall', plan: { outline: [...box(0, 0, 8, 3).outline], holes: [], openings: [] }, depth: 0.008 }],
  plans: [{ ...plan, ...part }],
  doorways: [],
  bagYieldM3: 0.0127,
  clocks: clocksAt(null, 21.1),
});
const PLACE = { units: 'us', locale: 'en-US' } as const;
const CHOICE = { runs: 200, seed: 1, chance: 0.05 } as const;

describe('adviseOn', () => {
  const found = adviseOn(long(), CHOICE);
  if (!found.ok) throw new Error(found.problem.kind);
  const advice = found.value;

  it('finds that lanes the long way leave edges open too long', () => {
    expect(advice.now.coldJoint.share).toBeGreaterThan(0.9);
  });

  it('suggests only what makes neither chance worse, and says what it gains', () => {
    expect(advice.better.length).toBeGreaterThan(0);
    for (const judged of advice.better) {
      expect(judged.coldJoint.share).toBeLessThanOrEqual(advice.now.coldJoint.share + 0.005);
      expect(judged.tooOld.share).toBeLessThanOrEqual(advice.now.tooOld.share + 0.005);
      expect(judgedWords(advice, judged, PLACE)).toMatch(/^.+: .*(from \d+(\.\d)?% to \d+(\.\d)?%|instead of).*\.$/);
    }
  });

  it('turns the lanes across the short side, which makes joints younger', () => {
    const turned = changesOf(long()).find((c) => c.kind === 'direction');
    const judged = turned && judgeChange(long(), turned, CHOICE);
    if (!judged?.ok) throw new Error('judged');
    expect(judged.value.joinMin).toBeLessThan(advice.now.joinMin * 0.7);
  });

  it('names the smallest crew that keeps both chances below the chosen one, or says that none does', () => {
    if (advice.leastCrew) {
      expect(advice.leastCrew.coldJoint.share).toBeLessThanOrEqual(CHOICE.chance);
      expect(advice.leastCrew.tooOld.share).toBeLessThanOrEqual(CHOICE.chance);
    } else expect(summaryWords(advice, CHOICE.chance, PLACE)).toContain('No change tried');
    expect(summaryWords(advice, CHOICE.chance, PLACE)).toContain('Cold joint in');
  });

  it('is the same for the same seed', () => {
    const repeated = adviseOn(long(), CHOICE);
    expect(repeated.ok && repeated.value).toEqual(advice);
  });

  it('leaves a sufficient plan unchanged, and says when a smaller crew would do', () => {
    const easy = long();
    const relaxed = adviseOn(
      { ...easy, clocks: { ...easy.clocks, healingMin: 300, workingTimeMin: 300, healingMostMin: 300, workingTimeMostMin: 300 } },
      CHOICE,
    );
    if (!relaxed.ok) throw new Error(relaxed.problem.kind);
    expect(summaryWords(relaxed.value, CHOICE.chance, PLACE)).toContain('Use 1 mixing station fewer also works');
  });

  it('says what is wrong with a plan that has no layout', () => {
    const empty = long();
    const bare = { ...empty, rooms: empty.rooms.map((r) => ({ ...r, plan: { outline: [], holes: [], openings: [] } })) };
    expect(adviseOn(bare, CHOICE)).toMatchObject({ problem: { kind: 'not-drawn' } });
    expect(adviceFrom([], 0.05)).toBeNull();
  });
});

describe('chanceOf', () => {
  it('gives the score interval of Wilson: 81 of 263 is 0.2553 to 0.3662 (Newcombe, Statistics in Medicine 17, 1998, table I; from memory)', () => {
    const { low, high } = chanceOf(81, 263);
    expect(low).toBeCloseTo(0.2553, 4);
    expect(high).toBeCloseTo(0.3662, 4);
  });

  it('gives 0 to 0.2039 for none of 15 (same table, from memory)', () => {
    expect(chanceOf(0, 15)).toMatchObject({ low: 0 });
    expect(chanceOf(0, 15).high).toBeCloseTo(0.2039, 4);
  });

  it('is unknown without runs', () => {
    expect(chanceOf(0, 0)).toEqual({ share: 0, low: 0, high: 1 });
  });
});

describe('quantile', () => {
  it('interpolates linearly between two values', () => {
    expect(quantile([1, 2, 3, 4], 0.5)).toBe(2.5);
    expect(quantile([], 0.5)).toBe(0);
  });
});
