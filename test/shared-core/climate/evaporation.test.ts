import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { evaporation, UNO_SI } from '../../../shared-core/climate/evaporation.ts';
import { CHART_CASE, CONDENSING_CASE, EVAPORATION_CASES, LERCH_WIND } from '../../reference/climate-evaporation.ts';

const c = (f: number): number => (f - 32) / 1.8;
const mps = (mph: number): number => mph * 0.44704;
const LB = 0.45359237 / 0.3048 ** 2;
/** Uno 1998 as printed, °F and mph to lb/ft²/h, to check the SI form. */
const unoInchPound = (surfaceF: number, airF: number, share: number, mph: number): number =>
  (surfaceF ** 2.5 - share * airF ** 2.5) * (1 + 0.4 * mph) * 1e-6;

describe('evaporation from a fresh surface', () => {
  it.each(EVAPORATION_CASES)('is the inch-pound equation in SI ($id)', ({ surfaceF, airF, share, mph, lb, kg }) => {
    const rate = evaporation(c(surfaceF), c(airF), share, mps(mph)).kgM2H;
    expect(Math.abs(rate - kg)).toBeLessThan(1e-4);
    expect(Math.abs(rate / LB - lb)).toBeLessThan(1e-4);
  });

  it('reads the arrows of the ACI 305 chart (E1)', () => {
    const rate = evaporation(c(CHART_CASE.surfaceF), c(CHART_CASE.airF), CHART_CASE.share, mps(CHART_CASE.mph)).kgM2H;
    expect(Math.abs(rate / LB - CHART_CASE.lb)).toBeLessThan(CHART_CASE.lbWithin);
    expect(Math.abs(rate - CHART_CASE.kg)).toBeLessThan(CHART_CASE.kgWithin);
  });

  it('has the exact coefficients 5.27507, 17.7778 and 4.02336', () => {
    expect(UNO_SI.scale * 1e6).toBeCloseTo(5.27507, 5);
    expect(UNO_SI.offsetC).toBeCloseTo(17.7778, 4);
    expect(UNO_SI.windOffsetKmH).toBeCloseTo(4.02336, 5);
  });

  it('is on the same side of both units’ limits where the rounded SI form is not (E3b)', () => {
    const rate = evaporation(c(90), c(90), 0.5, mps(11)).kgM2H;
    expect(rate).toBeGreaterThan(1);
    expect(rate / LB).toBeGreaterThan(0.2);
    const rounded = 5 * (1 - 0.5) * (c(90) + 18) ** 2.5 * (11 * 1.609344 + 4) * 1e-6;
    expect(rounded).toBeLessThan(1);
  });

  it('continues in still air (E7, Uno’s exact coefficients; the rounded SI form gives 0.0890)', () => {
    expect(Math.abs(evaporation(20, 20, 0.5, 0).kgM2H - 0.0931)).toBeLessThan(1e-4);
  });

  it('is 0 with a message when water condenses instead (E8)', () => {
    const { surfaceF, airF, share, mph } = CONDENSING_CASE;
    expect(unoInchPound(surfaceF, airF, share, mph)).toBeLessThan(0);
    expect(evaporation(c(surfaceF), c(airF), share, mps(mph))).toEqual({ kgM2H: 0, condenses: true });
  });

  it.each(LERCH_WIND)('is near the PCA table of 1957 at %i mph (from memory)', (mph, lb) => {
    expect(Math.abs(evaporation(c(70), c(70), 0.7, mps(mph)).kgM2H / LB - lb)).toBeLessThan(0.003);
  });

  it('equals the printed equation everywhere', () => {
    const f = fc.double({ min: 32, max: 110, noNaN: true });
    fc.assert(
      fc.property(
        f,
        f,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 40, noNaN: true }),
        (surfaceF, airF, share, mph) => {
          const printed = unoInchPound(surfaceF, airF, share, mph) * LB;
          const ours = evaporation(c(surfaceF), c(airF), share, mps(mph));
          expect(ours.kgM2H).toBeCloseTo(Math.max(0, printed), 9);
        },
      ),
    );
  });
});
