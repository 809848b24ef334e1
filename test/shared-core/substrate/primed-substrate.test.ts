import { describe, expect, it } from 'vitest';
import type { FloorTest, Layer } from '../../../shared-core/book/layer.ts';
import { substrateClass } from '../../../shared-core/substrate/primed-substrate.ts';
import { layer, ROOM_4_BY_3, test } from './a-floor.ts';

const dropAt = (takenAt: string, seconds: number | null): FloorTest => ({ ...test.drop(`drop-${takenAt}`, seconds), takenAt });
const BEFORE = '2026-05-04T12:00:00Z';
const AFTER = '2026-05-04T16:00:00Z';
const classOf = (top: Layer['material'], tests: readonly FloorTest[], change: Partial<Layer> = {}) =>
  substrateClass({ layers: [layer(top, change), layer('concrete-on-ground')], tests, plan: ROOM_4_BY_3 });

// ASTM F3191, from memory: the water drop test is made on the prepared surface, and repeated after grinding.
describe('a floor whose water drops stay', () => {
  it('is expected to be porous once it is abraded, until the test after that', () => {
    for (const top of ['concrete-on-ground', 'screed', 'paint-or-sealer'] as const)
      expect(classOf(top, [dropAt(BEFORE, null)]), top).toEqual({ substrate: 'porous', by: 'expected' });
  });

  it('is primed by the test after abrading, whichever way it falls', () => {
    expect(classOf('screed', [dropAt(BEFORE, null), dropAt(AFTER, 20)])).toEqual({ substrate: 'porous', by: 'drops' });
    expect(classOf('screed', [dropAt(BEFORE, null), dropAt(AFTER, null)])).toEqual({ substrate: 'non-porous', by: 'drops' });
    // Several drops of one visit are one test.
    expect(classOf('screed', [dropAt(BEFORE, null), dropAt('2026-05-04T12:20:00Z', null)]).by).toBe('expected');
  });

  it('is non-porous where it is not abraded: gypsum, or under asbestos that stays', () => {
    expect(classOf('gypsum', [dropAt(BEFORE, null)])).toEqual({ substrate: 'non-porous', by: 'drops' });
    const asbestos = layer('adhesive-cutback', { yearInstalled: 1962 });
    const room = { layers: [layer('screed'), asbestos], tests: [dropAt(BEFORE, null)], plan: ROOM_4_BY_3 };
    expect(substrateClass(room).substrate).toBe('non-porous');
  });
});
