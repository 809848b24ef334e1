import { describe, expect, it } from 'vitest';
import { newJobRoom } from '../../../shared-core/book/new-records.ts';
import { newBusiness } from '../../../shared-core/book/typical-business.ts';
import { restTakeoff } from '../../../shared-core/material/rest-takeoff.ts';
import { roomAmounts } from '../../../shared-core/material/room-amounts.ts';
import { shoppingList } from '../../../shared-core/material/shopping.ts';
import { type RoomTakeoff, takeoff } from '../../../shared-core/material/takeoff.ts';
import { typicalId, typicalMaterials } from '../../../shared-core/material/typical-materials.ts';
import { hoursFor } from '../../../shared-core/prep/task-hours.ts';
import { sampleAt } from '../../sample-at.ts';
import { POWDER } from '../agenda/bundle-fixture.ts';
import { powder, SLAB } from '../substrate/a-floor.ts';

const NOW = '2026-05-12T12:00:00.000Z';
const [from] = sampleAt(NOW).rooms;
const found = typicalMaterials(typicalId, NOW, 'UTC').find(({ primer: uses }) => uses.some(({ substrate }) => substrate === 'porous'));
if (from === undefined || found === undefined) throw new Error('There is a room, and a primer for porous floors.');
const primer = found;
const room = { ...from, layers: [...SLAB.layers], tests: [], marks: [], plan: { ...from.plan, ...SLAB.plan } };
const BY = {
  business: newBusiness(NOW, 'America/New_York', 'en-US'),
  property: { yearBuilt: 1998, timeZone: 'America/New_York' },
  ...{ day: '2026-05-12', resultsDay: '2026-05-12', material: null },
};

/** A floor of 12 m², this deep at its deepest, with lifts of at most 38 mm. */
function floorOf(mostM: number): RoomTakeoff {
  const depths = { leastM: 0.003, meanM: 0.02, mostM };
  const volume = { likelyM3: 0.24, sdM3: 0.01 };
  const fill = { areaM2: 12, perimeterM: 14, volume, depths, grind: { areaM2: 0, volumeM3: 0 } };
  return takeoff(roomAmounts(room, newJobRoom(room.id), fill, BY), {
    ...{ material: { ...POWDER, powder: powder() }, primer, withAggregate: false, usualLossShare: 0.05, bagPercentile: 0.8 },
    ...{ bagsPerBatch: 1, bucketL: 60, mixers: 1, helpers: 1, laterSections: 0, isTakenAlong: false, plannedMinutes: null },
  });
}
const primingHours = ({ hours }: RoomTakeoff): number => hours.find(({ key }) => key === 'prime')?.ownHours ?? 0;
const litersOf = (taken: RoomTakeoff): number =>
  shoppingList([taken], [], [primer]).items.find(({ materialId }) => materialId === primer.id)?.need ?? 0;

// Common practice, no source: the skin of a lift is abraded, vacuumed and primed again before the next.
describe('a floor in several lifts is primed before each', () => {
  const [one, three] = [floorOf(0.03), floorOf(0.1)];
  const coats = one.primer?.coats ?? 0;

  it('in liters and in hours', () => {
    expect([one.lifts?.count, three.lifts?.count]).toEqual([1, 3]);
    expect(litersOf(one)).toBeCloseTo(one.primer?.neatL ?? Number.NaN, 9);
    expect(litersOf(three)).toBeCloseTo(3 * litersOf(one), 9);
    expect(primingHours(one)).toBeCloseTo(hoursFor('primeCoat', 12 * coats), 9);
    expect(primingHours(three)).toBeCloseTo(3 * primingHours(one), 9);
  });

  it('and once for the next lift, or for half of a floor', () => {
    const next = { openShare: 1, pourShare: 1, plannedBags: null, hasReserve: true, isSetUp: true, withAggregate: false, prepHours: 0 };
    const lift = restTakeoff(three, next);
    expect(litersOf(lift)).toBeCloseTo(litersOf(one), 9);
    expect(primingHours(lift)).toBeCloseTo(primingHours(one), 9);
    const half = restTakeoff(three, { ...next, openShare: 0.5 });
    expect(litersOf(half)).toBeCloseTo(litersOf(one) / 2, 9);
    expect(primingHours(half)).toBeCloseTo(primingHours(one) / 2, 9);
  });
});
