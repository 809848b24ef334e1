import { describe, expect, it } from 'vitest';
import { newJobRoom } from '../../../shared-core/book/new-records.ts';
import { newBusiness } from '../../../shared-core/book/typical-business.ts';
import { roomAmounts } from '../../../shared-core/material/room-amounts.ts';
import { type RoomTakeoff, takeoff } from '../../../shared-core/material/takeoff.ts';
import { typicalId, typicalMaterials } from '../../../shared-core/material/typical-materials.ts';
import { sampleAt } from '../../sample-at.ts';
import { CU_FT_M3, IN_M, LB_KG } from '../../reference/material-facts.ts';

const NOW = '2026-05-12T12:00:00.000Z';
const [room] = sampleAt(NOW).rooms;
const material = typicalMaterials(typicalId, NOW, 'UTC').find(({ kind }) => kind === 'cement-underlayment');
if (room === undefined || material === undefined) throw new Error('There is a room, and an underlayment.');
const someRoom = room;
const BY = {
  business: newBusiness(NOW, 'America/New_York', 'en-US'),
  property: { yearBuilt: 1998, timeZone: 'America/New_York' },
  ...{ day: '2026-05-12', resultsDay: '2026-05-12', material: null },
};
const AREA_M2 = 12;

/** A floor of 12 m², 1 1/4 to 2 1/4 in. deep, 2 in. on average. */
function floorOf(withAggregate: boolean): RoomTakeoff {
  const depths = { leastM: 1.25 * IN_M, meanM: 2 * IN_M, mostM: 2.25 * IN_M };
  const volume = { likelyM3: AREA_M2 * 2 * IN_M, sdM3: 0.01 };
  const fill = { areaM2: AREA_M2, perimeterM: 14, volume, depths, grind: { areaM2: 0, volumeM3: 0 } };
  return takeoff(roomAmounts(someRoom, newJobRoom(someRoom.id), fill, BY), {
    ...{ material: material ?? null, primer: null, withAggregate, usualLossShare: 0.05, bagPercentile: 0.8 },
    ...{ bagsPerBatch: 1, bucketL: 60, mixers: 1, helpers: 1, laterSections: 0, isTakenAlong: false, plannedMinutes: null },
  });
}

// A typical 50 lb bag of 0.45 cu ft with half of its weight in stones of 2650 kg/m3 (quartz, from memory).
// Common practice, no source: a cap of 1/4 in. without aggregate over all of the floor.
describe('a deep fill with aggregate', () => {
  const neatM3 = 0.45 * CU_FT_M3;
  const stonesKg = 25 * LB_KG;
  const mixM3 = neatM3 + stonesKg / 2650;
  const capBags = (AREA_M2 * 0.25 * IN_M) / neatM3;
  const mixedBags = (AREA_M2 * 1.75 * IN_M) / mixM3;
  const taken = floorOf(true);

  it('takes bags for the fill and for its cap, and stones for the fill alone', () => {
    expect(taken.bags?.exactBags).toBeCloseTo((mixedBags + capBags) * 1.05, 6);
    const quoted = taken.bags?.quotedBags ?? Number.NaN;
    expect(taken.aggregate?.totalKg).toBeCloseTo((quoted * stonesKg * mixedBags) / (mixedBags + capBags), 6);
    expect(taken.water?.batchM3).toBeCloseTo(mixM3, 9);
  });

  it('counts the cap as a lift, with its priming and its set-up', () => {
    expect([taken.lifts?.count, taken.primings, taken.setUps]).toEqual([2, 2, 2]);
  });

  it('is only where it is asked for', () => {
    const neat = floorOf(false);
    expect(neat.aggregate).toBeNull();
    expect(neat.bags?.exactBags).toBeCloseTo(((AREA_M2 * 2 * IN_M) / neatM3) * 1.05, 6);
    expect(neat.lifts?.count).toBe(3);
  });
});
