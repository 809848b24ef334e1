import { describe, expect, it } from 'vitest';
import { newBusiness } from '../../../shared-core/book/typical-business.ts';
import { grindPrices, whyNotGround } from '../../../shared-core/price/estimate-room.ts';
import { POWDER } from '../agenda/bundle-fixture.ts';
import { CALM, layer, powder, SLAB, test } from '../substrate/a-floor.ts';

const DAY = '2026-05-04';
const floor = { layers: [...SLAB.layers], tests: [...SLAB.tests], circumstances: CALM };
const tile = layer('resilient-tile', { id: 'tile', yearInstalled: 1971 });
const business = { ...newBusiness('2026-05-04T12:00:00.000Z', 'America/New_York', 'en-US'), usualLossShare: 0.1 };
const bags = (lossFrom: 'typical' | 'bag') => ({
  ...POWDER,
  prices: [{ from: '2026-01-01', minor: 3000, note: '' }],
  powder: powder({ yieldM3: { value: 0.0125, source: 'bag' }, lossShare: { value: 0.02, source: lossFrom } }),
});

describe('a floor is not ground', () => {
  it('over radiant heat in it', () => {
    const heated = { ...floor, circumstances: { ...CALM, radiantHeat: 'in-floor' as const } };
    expect(whyNotGround(heated, DAY)).toMatch(/^Radiant heat/);
    expect(grindPrices(heated, bags('bag'), business, DAY)).toBeNull();
    expect(whyNotGround({ ...floor, circumstances: { ...CALM, radiantHeat: 'none' } }, DAY)).toBeNull();
  });

  // 29 CFR 1926.1101(k)(1): resilient flooring installed no later than 1980 is presumed to contain asbestos.
  it('with a layer presumed to contain asbestos, until a lab has answered for that layer', () => {
    const suspect = { ...floor, layers: [tile, ...floor.layers] };
    expect(whyNotGround(suspect, DAY)).toMatch(/asbestos/);
    const answered = (change: Parameters<typeof test.lab>[0]) => ({ ...suspect, tests: [...suspect.tests, test.lab(change)] });
    expect(whyNotGround(answered({ layerId: 'tile' }), DAY)).toBeNull();
    expect(whyNotGround(answered({ layerId: 'tile', state: 'found' }), DAY)).toMatch(/asbestos/);
    expect(whyNotGround(answered({ layerId: 'another' }), DAY)).toMatch(/asbestos/);
    expect(whyNotGround(answered({ layerId: 'tile', resultOn: '2026-05-05' }), DAY)).toMatch(/asbestos/);
  });
});

describe('what fill and grinding cost', () => {
  it('is a bag’s price with its waste over its yield: $30.00 a bag of 12.5 L, 2% of it wasted, is $2,448 per cubic meter', () => {
    expect(grindPrices(floor, bags('bag'), business, DAY)).toEqual({
      fillM3: expect.closeTo(244_800, 6),
      grindM2: business.costs.grindM2Minor,
      removeM3: business.costs.grindM3Minor,
    });
  });

  it('takes the business’s own waste where the data sheet states none: 10% is $2,640', () => {
    expect(grindPrices(floor, bags('typical'), business, DAY)?.fillM3).toBeCloseTo(264_000, 6);
  });

  it('has no price of fill before the bag’s first price, or without a material', () => {
    expect(grindPrices(floor, bags('bag'), business, '2025-12-31')?.fillM3).toBe(0);
    expect(grindPrices(floor, null, business, DAY)?.fillM3).toBe(0);
  });
});
