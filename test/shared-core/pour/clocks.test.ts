import { describe, expect, it } from 'vitest';
import { celsiusFromFahrenheit } from '../../../shared-core/measure/temperature.ts';
import {
  clockFactor,
  clocksAt,
  TYPICAL_FLOW_LIFE_MIN,
  TYPICAL_HEALING_MIN,
  TYPICAL_REFERENCE_C,
} from '../../../shared-core/pour/clocks.ts';
import { SETTING_HOURS } from '../../reference/pour.ts';

describe('clockFactor', () => {
  it('is about two for 20 °F colder and a half for 20 °F warmer (National Frame Building Association rule of thumb)', () => {
    const factorAt = (tempF: number) => clockFactor(celsiusFromFahrenheit(tempF), celsiusFromFahrenheit(70));
    expect(factorAt(50)).toBeGreaterThan(1.75);
    expect(factorAt(50)).toBeLessThan(2.25);
    expect(factorAt(90)).toBeGreaterThan(0.45);
    expect(factorAt(90)).toBeLessThan(0.6);
  });

  it('follows the published ratios of setting time (Pennsylvania State University table) within a quarter from 50 to 90 °F', () => {
    const base = SETTING_HOURS.find(([tempF]) => tempF === 70)?.[1] ?? NaN;
    for (const [tempF, hours] of SETTING_HOURS) {
      const factor = clockFactor(celsiusFromFahrenheit(tempF), celsiusFromFahrenheit(70));
      expect(Math.abs(factor / (hours / base) - 1), `${tempF} °F`).toBeLessThan(0.25);
    }
  });

  it('is 1 / 0.5472 at 10 °C against 20 °C, the ASTM C1074 form with Q 5000 K', () => {
    // Computed with 273 instead of 273.15, as ASTM writes it, so the last digit differs.
    expect(clockFactor(10, 20)).toBeCloseTo(1 / 0.5472, 2);
  });
});

describe('clocksAt', () => {
  it('uses typical times and says so when there is no data sheet', () => {
    const clocks = clocksAt(null, TYPICAL_REFERENCE_C);
    expect(clocks.healingMin).toBeCloseTo(TYPICAL_HEALING_MIN, 9);
    expect(clocks.workingTimeMin).toBeCloseTo(TYPICAL_FLOW_LIFE_MIN, 9);
    expect([clocks.healingTypical, clocks.workingTimeTypical]).toEqual([true, true]);
  });

  it('uses the data sheet’s minimum figures and warns outside its temperature range', () => {
    const sheet = {
      workingTimeMin: { value: { least: 12, most: 20 }, source: 'bag' as const },
      healingMin: null,
      referenceTempC: { value: 20, source: 'bag' as const },
      roomTempC: { value: { least: 10, most: 30 }, source: 'bag' as const },
    };
    expect(clocksAt(sheet, 20)).toMatchObject({ workingTimeMin: 12, workingTimeTypical: false, healingTypical: true, outside: null });
    expect(clocksAt(sheet, 5).outside).toBe('colder');
    expect(clocksAt(sheet, 35).outside).toBe('warmer');
  });
});
