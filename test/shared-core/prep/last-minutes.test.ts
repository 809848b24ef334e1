import { describe, expect, it } from 'vitest';
import { lastMinutes, stillToTick, ticksInForce } from '../../../shared-core/prep/last-minutes.ts';

const plan = {
  bagsPlanned: 12,
  buckets: 12,
  mixers: 2,
  helpers: 1,
  lanes: 6,
  dams: 3,
  damHeight: '1 1/4 in.',
  carry: 'cart',
  heatedFloor: false,
  overHeat: false,
  nothingStuckIn: false,
  deepOnly: false,
  withAggregate: false,
} as const;
const linesOf = (change: Partial<Parameters<typeof lastMinutes>[0]> = {}) =>
  lastMinutes({ ...plan, ...change })
    .map((line) => line.text)
    .join('\n');

describe('the pre-pour checklist (common practice, no source)', () => {
  it('counts bags, water, dams, mixers, helpers and lanes from the plan', () => {
    expect(linesOf()).toContain('12 bags counted');
    expect(linesOf()).toContain('12 buckets of measured water');
    expect(linesOf()).toContain('3 dams tight, at least 1 1/4 in. high');
    expect(linesOf({ damHeight: null })).toContain('3 dams tight\n');
    // On concrete as on wood, because the list does not depend on the substrate.
    expect(linesOf({ dams: 0 })).toContain('Gaps, cracks, pipe holes, and wall edges sealed');
    expect(linesOf()).toContain('1 helper briefed');
    expect(linesOf()).toContain('6 lanes');
    expect(linesOf({ helpers: 3, lanes: 1 })).toContain('3 helpers briefed on station and order of 1 lane');
    // The owner alone has nobody to brief.
    expect(linesOf({ helpers: 0 })).toContain('Order of 6 lanes reviewed');
    expect(linesOf({ helpers: 0 })).not.toContain('briefed');
  });

  it('has no sieve for a mix with aggregate, which it would hold back', () => {
    expect(linesOf()).toContain('sieve');
    expect(linesOf({ withAggregate: true })).not.toMatch(/sieve/i);
  });

  it('sets height pins, not the gauge rake, in a lift that only fills the deep places', () => {
    expect(linesOf()).toContain('gauge rake set');
    expect(linesOf({ deepOnly: true })).toContain('Spiked shoes, height pins set');
    expect(linesOf({ deepOnly: true, nothingStuckIn: true })).toContain('Height markers set');
    expect(linesOf({ deepOnly: true })).not.toContain('gauge rake');
  });

  it('says where the plan has no count yet, and never shows a wrong one', () => {
    expect(linesOf({ bagsPlanned: null })).toContain('bags (number not planned yet)');
    expect(linesOf({ bagsPlanned: null, buckets: null, mixers: null, helpers: null, lanes: null, carry: null })).not.toMatch(
      /null|NaN|undefined/,
    );
  });

  it('tests the cart’s outlet with water only where there is a cart, and describes the valve', () => {
    const outlet = lastMinutes(plan).find((line) => line.key === 'outlet');
    expect(outlet?.text).toBe('Cart outlet closed and tested with water');
    expect(outlet?.note).toContain('ball valve');
    expect(lastMinutes({ ...plan, carry: 'by-hand' }).map((line) => line.key)).not.toContain('outlet');
  });

  it('has the heat tested, and nothing with metal spikes, where the pour covers mats or tubing', () => {
    const over = linesOf({ heatedFloor: true, overHeat: true, nothingStuckIn: true });
    expect(over).toMatch(/resistance or .* pressure tested and written down/);
    expect(over).toMatch(/^Gauge rake set, smoother, flow ring, .*\. No metal spikes or rake pins$/m);
    expect(over).not.toContain('Spiked shoes');
    // Heat in the floor below, and asbestos that stays, have nothing to test on the day.
    const stuck = linesOf({ nothingStuckIn: true });
    expect(stuck).toMatch(/^Gauge rake set, .*\. No metal spikes or rake pins$/m);
    expect(stuck).not.toMatch(/Spiked shoes|resistance/);
    expect(lastMinutes({ ...plan, nothingStuckIn: true }).find(({ key }) => key === 'dams')?.note).toContain('glued down');
    expect(linesOf()).toContain('Spiked shoes');
  });

  it('is short, with a different key for each line', () => {
    const keys = lastMinutes(plan).map((line) => line.key);
    expect(new Set(keys).size).toBe(keys.length);
    expect(keys.length).toBeLessThanOrEqual(15);
  });

  it('shows what is still to check', () => {
    const lines = lastMinutes(plan);
    expect(
      stillToTick(
        lines,
        lines.slice(1).map((line) => ({ itemKey: line.key })),
      ),
    ).toEqual([lines[0]]);
  });

  it('is checked for one pour on one day: not after another pour, not for another day, not when a line says something else', () => {
    const MONDAY = '2026-05-11T13:00:00.000Z';
    const ticks = lastMinutes(plan).map(({ key, text }) => ({ itemKey: key, text, instant: MONDAY, initials: 'MP' }));
    const counted = (now: string, change: Partial<Parameters<typeof lastMinutes>[0]> = {}, lastEnd: string | null = null) =>
      ticksInForce(ticks, lastMinutes({ ...plan, ...change }), lastEnd, now).map(({ itemKey }) => itemKey);
    const all = ticks.map(({ itemKey }) => itemKey);
    expect(counted('2026-05-11T21:00:00.000Z')).toEqual(all);
    expect(counted('2026-05-14T13:30:00.000Z')).toEqual([]);
    expect(counted('2026-05-11T21:00:00.000Z', {}, '2026-05-11T17:00:00.000Z')).toEqual([]);
    expect(counted('2026-05-11T14:00:00.000Z', { dams: 4, bagsPlanned: 20 })).toEqual(
      all.filter((key) => key !== 'dams' && key !== 'bags'),
    );
  });
});
