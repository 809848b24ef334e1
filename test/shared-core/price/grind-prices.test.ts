import { describe, expect, it } from 'vitest';
import { newBusiness } from '../../../shared-core/book/typical-business.ts';
import { grindPrices, whyNotGround } from '../../../shared-core/price/estimate-room.ts';
import { typicalId, typicalMaterials } from '../../../shared-core/material/typical-materials.ts';
import { POWDER } from '../agenda/bundle-fixture.ts';
import { CALM, clearance, layer, powder, ROOM_4_BY_3, SLAB, test } from '../substrate/a-floor.ts';

const DAY = '2026-05-04';
const floor = { layers: [...SLAB.layers], tests: [...SLAB.tests], circumstances: CALM, plan: ROOM_4_BY_3 };
const residue = layer('adhesive-cutback', { id: 'residue', yearInstalled: 1971 });
const business = { ...newBusiness('2026-05-04T12:00:00.000Z', 'America/New_York', 'en-US'), usualLossShare: 0.1 };
const bags = (lossFrom: 'typical' | 'bag') => ({
  ...POWDER,
  prices: [{ from: '2026-01-01', minor: 3000, note: '' }],
  powder: powder({ yieldM3: { value: 0.0125, source: 'bag' }, lossShare: { value: 0.02, source: lossFrom } }),
});

describe('a floor is not ground', () => {
  it('over radiant heat in it', () => {
    const heated = { ...floor, circumstances: { ...CALM, radiantHeat: 'in-floor' as const } };
    expect(whyNotGround(heated, [], DAY)).toMatch(/^Radiant heat/);
    expect(whyNotGround({ ...floor, circumstances: { ...CALM, radiantHeat: 'none' } }, [], DAY)).toBeNull();
    const heat = layer('radiant-heating');
    const unasked = { ...CALM, radiantHeat: null };
    expect(whyNotGround({ ...floor, circumstances: unasked, layers: [layer('screed'), heat, ...floor.layers] }, [], DAY)).toMatch(
      /is in this/,
    );
    expect(whyNotGround({ ...floor, circumstances: unasked, layers: [heat, ...floor.layers] }, [], DAY)).toMatch(/on top of this/);
    const withMats = { ...CALM, radiantHeat: 'electric-in-pour' as const };
    expect(whyNotGround({ ...floor, circumstances: withMats, layers: [layer('screed'), heat, ...floor.layers] }, [], DAY)).toMatch(
      /in this floor/,
    );
    expect(whyNotGround({ ...floor, circumstances: withMats }, [], DAY)).toBeNull();
    expect(whyNotGround({ ...floor, circumstances: unasked }, [], DAY)).toBeNull();
  });

  // 29 CFR 1926.1101(l)(3) for flooring with asbestos; common practice for the rest.
  it('where resilient flooring is poured on, whatever its year', () => {
    const over = (material: 'resilient-tile' | 'sheet-flooring' | 'ceramic-tile', change: Parameters<typeof layer>[1] = {}) =>
      whyNotGround({ ...floor, layers: [layer(material, { yearInstalled: 2005, ...change }), ...floor.layers] }, [], DAY);
    expect(over('resilient-tile')).toMatch(/^Never grind resilient tile/);
    expect(over('sheet-flooring')).toMatch(/^Never grind sheet flooring/);
    expect(over('resilient-tile', { fate: 'remove' })).toBeNull();
    expect(over('ceramic-tile')).toBeNull();
  });

  // Common practice, no source: a steel deck carries by its full thickness. Its surface is abraded, and its high spots stay.
  it('where metal is poured on, and not because metal is under concrete', () => {
    const over = (...materials: readonly Parameters<typeof layer>[0][]) =>
      whyNotGround({ ...floor, layers: materials.map((material) => layer(material)) }, [], DAY);
    expect(over('metal', 'joists')).toMatch(/^Never grind down the high spots of metal\. Nothing is ground\.$/);
    expect(over('metal', 'concrete-on-ground')).toMatch(/^Never grind down/);
    expect(over('concrete-suspended', 'metal', 'joists')).toBeNull();
  });

  it('where a lab detected asbestos in a layer that is not presumed to contain it', () => {
    const late = { ...floor, layers: [layer('ceramic-tile', { id: 'late', yearInstalled: 1985 }), ...floor.layers] };
    expect(whyNotGround(late, [], DAY)).toBeNull();
    expect(whyNotGround({ ...late, tests: [...floor.tests, test.lab({ layerId: 'late', state: 'found' })] }, [], DAY)).toMatch(/asbestos/);
  });

  // 29 CFR 1926.1101(k)(1): flooring installed no later than 1980, its adhesive included, is presumed to contain asbestos.
  it('with a layer presumed to contain asbestos, until a lab has answered for that layer', () => {
    const suspect = { ...floor, layers: [residue, ...floor.layers] };
    expect(whyNotGround(suspect, [], DAY)).toMatch(/asbestos/);
    const undated = { ...floor, layers: [{ ...residue, yearInstalled: null }, ...floor.layers] };
    expect(whyNotGround({ ...undated, yearBuilt: 1994 }, [], DAY)).toBeNull();
    for (const yearBuilt of [1962, null]) expect(whyNotGround({ ...undated, yearBuilt }, [], DAY)).toMatch(/asbestos/);
    const answered = (change: Parameters<typeof test.lab>[0]) => ({ ...suspect, tests: [...suspect.tests, test.lab(change)] });
    expect(whyNotGround(answered({ layerId: 'residue' }), [], DAY)).toBeNull();
    expect(whyNotGround(answered({ layerId: 'residue', state: 'found' }), [], DAY)).toMatch(/asbestos/);
    const overrides = [clearance('residue')];
    const out = { ...residue, fate: 'remove' as const };
    const found = { ...answered({ layerId: 'residue', state: 'found' }), layers: [out, ...floor.layers] };
    expect(whyNotGround(found, [], DAY)).toMatch(/asbestos/);
    expect(whyNotGround(found, overrides, DAY)).toBeNull();
    // A clearance is for the layer that came out: one that stays has asbestos, and so may another.
    expect(whyNotGround({ ...found, layers: [residue, ...floor.layers] }, overrides, DAY)).toMatch(/asbestos/);
    expect(whyNotGround(found, [clearance('another')], DAY)).toMatch(/asbestos/);
    expect(whyNotGround(answered({ layerId: 'another' }), [], DAY)).toMatch(/asbestos/);
    expect(whyNotGround(answered({ layerId: 'residue', resultOn: '2026-05-05' }), [], DAY)).toMatch(/asbestos/);
  });
});

describe('what fill and grinding cost', () => {
  it('is a bag’s price with its waste over its yield: $30.00 a bag of 12.5 L, 2% of it wasted, is $2,448 per cubic meter', () => {
    expect(grindPrices(bags('bag'), business, DAY, null)).toEqual({
      fillM3: expect.closeTo(244_800, 6),
      grindM2: business.costs.grindM2Minor,
      removeM3: business.costs.grindM3Minor,
    });
  });

  it('takes the business’s own waste where the data sheet states none: 10% is $2,640', () => {
    expect(grindPrices(bags('typical'), business, DAY, null).fillM3).toBeCloseTo(264_000, 6);
  });

  // By hand: half of the 22.7 kg of a bag is 11.35 kg of stones, which displace 4.283 L at 2650 kg/m3 and cost a quarter of $8.00.
  it('is the price of a bag and its aggregate over the yield of both: $32.00 for 16.783 L, 2% wasted', () => {
    const found = typicalMaterials(typicalId, '2026-01-01T12:00:00.000Z', 'UTC').find(({ kind }) => kind === 'aggregate');
    if (found?.container == null) throw new Error('There is an aggregate in bags.');
    const container = { ...found.container, unit: 'kg' as const, holds: 45.4 };
    const aggregate = { ...found, container, goes: null, prices: [{ from: '2026-01-01', minor: 800, note: '' }] };
    const extended = { ...bags('bag'), powder: powder({ ...bags('bag').powder, aggregateShare: { value: 0.5, source: 'bag' } }) };
    expect(grindPrices(extended, business, DAY, aggregate).fillM3).toBeCloseTo((3200 * 1.02) / 0.016783, -2);
  });

  it('has no price of fill before the bag’s first price, or without a material', () => {
    expect(grindPrices(bags('bag'), business, '2025-12-31', null).fillM3).toBeNull();
    expect(grindPrices(null, business, DAY, null).fillM3).toBeNull();
  });
});
