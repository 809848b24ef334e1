import * as fc from 'fast-check';
import psychrolib from 'psychrolib';
import { beforeAll, describe, expect, it } from 'vitest';
import { dewPointC, saturationPressurePa, vaporPressurePa } from '../../../shared-core/climate/vapor.ts';
import {
  CHART_A_COLUMNS_F,
  CHART_A_F,
  CHART_B_C,
  CHART_B_COLUMNS,
  DEW_POINTS_C,
  HUMIDITY_FROM_DEW,
  HUMIDITY_WMO,
  SATURATION_HPA,
  SATURATION_PA,
} from '../../reference/climate-psychrometrics.ts';

const dewOf = (tempC: number, share: number): number => dewPointC(tempC, share) ?? Number.NaN;

describe('water vapor in air', () => {
  beforeAll(() => psychrolib.SetUnitSystem(psychrolib.SI));

  it.each(SATURATION_PA)('saturates at $tempC °C as ASHRAE Table 3 prints ($id)', ({ tempC, pressurePa }) => {
    // The Magnus form is up to 0.31% below the ASHRAE formulas between 0 and 50 °C, with little effect on the dew point.
    expect(Math.abs(saturationPressurePa(tempC) / pressurePa - 1)).toBeLessThan(0.0035);
  });

  it.each(SATURATION_HPA)('saturates at $tempC °C as MetPy has it', ({ tempC, hPa }) => {
    expect(Math.abs(saturationPressurePa(tempC) / 100 / hPa - 1)).toBeLessThan(0.0035);
  });

  it.each(HUMIDITY_FROM_DEW)('knows the humidity of a dew point ($id, MetPy)', ({ tempC, dewC, percent }) => {
    expect(Math.abs((saturationPressurePa(dewC) / saturationPressurePa(tempC)) * 100 - percent)).toBeLessThan(0.1);
  });

  it.each(HUMIDITY_WMO)(
    'agrees to the last digit with the WMO coefficients at $tempC °C (pvlib), both ways',
    ({ tempC, dewC, percent }) => {
      expect((saturationPressurePa(dewC) / saturationPressurePa(tempC)) * 100).toBeCloseTo(percent, 9);
      expect(dewOf(tempC, percent / 100)).toBeCloseTo(dewC, 9);
    },
  );

  it.each(DEW_POINTS_C)('has the published dew point ($id)', ({ tempC, share, dewC }) => {
    expect(Math.abs(dewOf(tempC, share) - dewC)).toBeLessThan(0.1);
  });

  it('keeps within 0.05 °C of an independent library for dew points from 0 °C up', () => {
    let checked = 0;
    for (let tempC = 0; tempC <= 50; tempC += 1) {
      for (let percent = 10; percent <= 100; percent += 5) {
        const theirs = psychrolib.GetTDewPointFromRelHum(tempC, percent / 100);
        if (theirs < 0.01) continue;
        checked += 1;
        expect(Math.abs(dewOf(tempC, percent / 100) - theirs)).toBeLessThan(0.05);
      }
    }
    expect(checked).toBeGreaterThan(500);
  });

  it('has the vapor pressure of ASHRAE Table 3 times the humidity (P10)', () => {
    expect(Math.abs(vaporPressurePa(25, 0.8) / 2535.76 - 1)).toBeLessThan(0.0035);
  });

  it('reads no lower than the printed Fahrenheit chart allows, which drops fractions', () => {
    for (const [percent, row] of Object.entries(CHART_A_F)) {
      row.forEach((printed, i) => {
        const airF = CHART_A_COLUMNS_F[i] ?? 0;
        const ours = dewOf((airF - 32) / 1.8, Number(percent) / 100) * 1.8 + 32;
        // Below freezing the chart uses frost, which is half a degree Celsius higher.
        if (ours < 32) return;
        expect(printed).toBeLessThanOrEqual(ours + 0.5);
        expect(printed).toBeGreaterThanOrEqual(ours - 2.5);
      });
    }
  });

  it('reads no lower than the printed Celsius chart allows', () => {
    for (const [airC, row] of Object.entries(CHART_B_C)) {
      row.forEach((printed, i) => {
        const ours = dewOf(Number(airC), CHART_B_COLUMNS[i] ?? 0);
        if (ours < 0) return;
        expect(printed).toBeLessThanOrEqual(ours + 0.1);
        expect(printed).toBeGreaterThanOrEqual(ours - 2.1);
      });
    }
  });

  it('is the air’s own temperature when the air is full', () => {
    fc.assert(fc.property(fc.double({ min: -40, max: 60, noNaN: true }), (tempC) => Math.abs(dewOf(tempC, 1) - tempC) < 1e-9));
  });

  it('rises with the humidity', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 50, noNaN: true }),
        fc.double({ min: 0.05, max: 0.9, noNaN: true }),
        (tempC, share) => dewOf(tempC, share + 0.05) > dewOf(tempC, share),
      ),
    );
  });

  it('is null for air without vapor', () => {
    expect(dewPointC(20, 0)).toBeNull();
  });
});
