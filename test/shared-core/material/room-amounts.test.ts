import { describe, expect, it } from 'vitest';
import type { Room } from '../../../shared-core/book/room.ts';
import { roomAmounts, substrateClass } from '../../../shared-core/material/room-amounts.ts';
import { sampleAt } from '../../sample-at.ts';
import { layer, LEFT_HALF, ROOM_4_BY_3, SLAB, STRIP, test } from '../substrate/a-floor.ts';

const NOW = '2026-05-12T12:00:00.000Z';
const from = sampleAt(NOW).rooms[0];
if (from === undefined) throw new Error('The sample has rooms.');
const room = (layers: Room['layers'], tests: Room['tests'] = []): Room => ({
  ...from,
  layers,
  tests,
  marks: [],
  plan: { ...from.plan, ...ROOM_4_BY_3 },
});
const FILL = { areaM2: 12, perimeterM: 14, volume: null, depths: null, grind: { areaM2: 0, volumeM3: 0 } };
const CHOICE = { flooring: null, flooringLimits: null, moistureSystemId: null };
const amounts = (layers: Room['layers']) => roomAmounts(room(layers), CHOICE, FILL, 1998, '2026-05-12');
const slab = layer('concrete-on-ground');

// Areas by hand: the room is 4 m by 3 m, a half 6 m², the strip 3 m².
describe('the amounts of a room', () => {
  it('abrade and reinforce only the parts of a floor that need it', () => {
    expect(amounts([slab]).abradeM2).toBe(12);
    expect(amounts([layer('resilient-tile', { area: STRIP, yearInstalled: 2005 }), slab]).abradeM2).toBeCloseTo(9, 9);
    const half = amounts([layer('plywood', { area: LEFT_HALF }), slab]);
    expect([half.abradeM2, half.reinforceM2]).toEqual([expect.closeTo(6, 9), expect.closeTo(6, 9)]);
    expect(amounts([layer('plywood'), layer('joists')]).reinforceM2).toBe(12);
  });

  // 29 CFR 1926.1101(l)(3): no sanding or abrading where the surface may hold asbestos. 1980 is its last year.
  it('abrade nothing where a part of the surface may hold asbestos', () => {
    const strip = layer('resilient-tile', { area: STRIP, yearInstalled: 1980 });
    const abraded = (state: 'found' | 'none-found', yearInstalled: number) =>
      roomAmounts(room([{ ...strip, yearInstalled }, slab], [test.lab({ layerId: strip.id, state })]), CHOICE, FILL, 1998, '2026-05-12')
        .abradeM2;
    expect(amounts([strip, slab]).abradeM2).toBe(0);
    expect(abraded('found', 2005)).toBe(0);
    expect(abraded('none-found', 1980)).toBeCloseTo(9, 9);
    expect(amounts([{ ...strip, fate: 'remove' }, slab]).abradeM2).toBe(12);
  });

  it('prime for what is poured on over most of the room', () => {
    expect(substrateClass(room([layer('plywood', { area: STRIP }), slab])).substrate).toBe('porous');
    expect(substrateClass(room([layer('resilient-tile', { area: STRIP }), layer('plywood'), layer('joists')])).substrate).toBe('wood');
  });

  it('prime and reinforce the plywood under mats, not the mats', () => {
    const layers = [layer('radiant-heating'), layer('plywood'), layer('joists')];
    expect(substrateClass(room(layers))).toEqual({ substrate: 'wood', tested: true });
    expect(amounts(layers).reinforceM2).toBe(12);
  });

  // ASTM F3191: test again after any grinding. The drops before it say nothing of the new surface.
  it('prime by the water drops of the last visit, as the assessment does', () => {
    const drop = (id: string, seconds: number | null, takenAt: string) => ({ ...test.drop(id, seconds), takenAt });
    const before = ['a', 'b', 'c'].map((id) => drop(id, null, '2026-05-02T12:00:00.000Z'));
    const after = ['d', 'e', 'f'].map((id) => drop(id, 20, '2026-05-03T12:00:00.000Z'));
    expect(substrateClass(room([...SLAB.layers], before)).substrate).toBe('non-porous');
    expect(substrateClass(room([...SLAB.layers], [...before, ...after]))).toEqual({ substrate: 'porous', tested: true });
    const unwatched = { ...drop('g', null, '2026-05-04T12:00:00.000Z'), watchedSeconds: 30 };
    expect(substrateClass(room([...SLAB.layers], [...before, unwatched])).substrate).toBe('non-porous');
  });
});
