import psychrolib from 'psychrolib';
import { describe, expect, it } from 'vitest';
import { DEW_MARGIN, dewMargin } from '../../../shared-core/climate/dew-margin.ts';
import { dewPointC } from '../../../shared-core/climate/vapor.ts';
import { saturationPressurePa } from '../../../shared-core/climate/vapor.ts';

const c = (f: number): number => (f - 32) / 1.8;

describe('the margin over the dew point', () => {
  it('requires 62 °F over air of 70 °F and 65% (G1, printed chart)', () => {
    const margin = dewMargin(c(70), 0.65, c(62.8), 'us');
    expect(Math.abs(((margin?.dewPointC ?? 0) + (margin?.leastC ?? 0)) * 1.8 + 32 - 62)).toBeLessThanOrEqual(1);
    expect(margin?.passes).toBe(true);
    expect(dewMargin(c(70), 0.65, c(62.5), 'us')?.passes).toBe(false);
  });

  it('is not met by a floor of 58 °F under air of 80 °F and 50% (G2, printed chart)', () => {
    const margin = dewMargin(c(80), 0.5, c(58), 'us');
    expect(margin?.marginC).toBeLessThan(0);
    expect(margin?.passes).toBe(false);
  });

  it('condenses at 20 °C in air of 30 °C and 55 % (G5)', () => {
    expect(dewMargin(30, 0.55, 20, 'metric')?.dewPointC).toBeCloseTo(20, 1);
  });

  it('starts from a dew point of 45 °F in air of 75 °F and 35 % (G7, a flooring trade page’s rounded figure)', () => {
    expect(Math.abs((dewPointC((75 - 32) / 1.8, 0.35) ?? Number.NaN) * 1.8 + 32 - 45)).toBeLessThan(1);
  });

  it('uses one form of the rule in each unit system, and says which', () => {
    // Air 25 °C and 80 %, floor 24.2 °C: 2.89 °C or 5.20 °F apart.
    expect(dewMargin(25, 0.8, 24.2, 'metric')?.passes).toBe(false);
    expect(dewMargin(25, 0.8, 24.2, 'us')?.passes).toBe(true);
    expect(DEW_MARGIN.metric.rule).toContain('3 °C');
    expect(DEW_MARGIN.us.rule).toContain('5 °F');
    expect(dewMargin(20, 0.65, 16.1, 'metric')?.passes).toBe(false);
    expect(dewMargin(20, 0.65, 16.1, 'us')?.passes).toBe(true);
    expect(dewMargin(20, 0.65, 16.3, 'metric')?.passes).toBe(true);
    expect(dewMargin(20, 0.65, 16.3, 'us')?.passes).toBe(true);
  });

  it.each([40, 50, 60, 70, 80, 90, 100])('leaves 82 to 86%% humidity at a surface 5 °F over it, at %i °F (G8, NACE 6A192)', (surfaceF) => {
    const atSurface = saturationPressurePa(c(surfaceF - 5)) / saturationPressurePa(c(surfaceF));
    expect(atSurface).toBeGreaterThan(0.815);
    expect(atSurface).toBeLessThan(0.865);
  });

  it('agrees with an independent library on the coldest surface allowed', () => {
    psychrolib.SetUnitSystem(psychrolib.SI);
    for (const [tempC, share] of [
      [10, 0.6],
      [18, 0.65],
      [25, 0.7],
      [32, 0.4],
    ] as const) {
      const theirs = psychrolib.GetTDewPointFromRelHum(tempC, share);
      expect(Math.abs((dewMargin(tempC, share, tempC, 'metric')?.dewPointC ?? 99) - theirs)).toBeLessThan(0.05);
    }
  });

  it('is unknown for air without vapor', () => {
    expect(dewMargin(20, 0, 20, 'us')).toBeNull();
  });
});
