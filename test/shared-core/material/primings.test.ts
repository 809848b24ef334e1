import { describe, expect, it } from 'vitest';
import type { Layer } from '../../../shared-core/book/layer.ts';
import type { Material } from '../../../shared-core/book/material.ts';
import { newJobRoom } from '../../../shared-core/book/new-records.ts';
import { newBusiness } from '../../../shared-core/book/typical-business.ts';
import { restTakeoff } from '../../../shared-core/material/rest-takeoff.ts';
import { roomAmounts } from '../../../shared-core/material/room-amounts.ts';
import { shoppingList } from '../../../shared-core/material/shopping.ts';
import { primerNeatL, primingCoats, type RoomTakeoff, takeoff } from '../../../shared-core/material/takeoff.ts';
import { typicalId, typicalMaterials } from '../../../shared-core/material/typical-materials.ts';
import { costLines } from '../../../shared-core/price/cost-lines.ts';
import { doubtWords } from '../../../shared-core/price/takeoff-words.ts';
import { hoursFor } from '../../../shared-core/prep/task-hours.ts';
import type { NextPour } from '../../../shared-core/prep/prep-input.ts';
import { sampleAt } from '../../sample-at.ts';
import { POWDER } from '../agenda/bundle-fixture.ts';
import { line, listOf } from '../prep/prep-lines.ts';
import { BOARDS, powder, SLAB } from '../substrate/a-floor.ts';

const NOW = '2026-05-12T12:00:00.000Z';
const [from] = sampleAt(NOW).rooms;
const found = typicalMaterials(typicalId, NOW, 'UTC').find(({ primer: uses }) => uses.some(({ substrate }) => substrate === 'porous'));
if (from === undefined || found === undefined) throw new Error('There is a room, and a primer for porous floors.');
const porous = found;
const room = { ...from, layers: [...SLAB.layers], tests: [], marks: [], plan: { ...from.plan, ...SLAB.plan } };
const BY = {
  business: newBusiness(NOW, 'America/New_York', 'en-US'),
  property: { yearBuilt: 1998, timeZone: 'America/New_York' },
  ...{ day: '2026-05-12', resultsDay: '2026-05-12', material: null },
};

/** A floor of 12 m², this deep at its deepest, with lifts of at most 38 mm. */
function floorOf(mostM: number, layers: readonly Layer[] = room.layers, primer = porous): RoomTakeoff {
  const depths = { leastM: 0.003, meanM: 0.02, mostM };
  const volume = { likelyM3: 0.24, sdM3: 0.01 };
  const fill = { areaM2: 12, perimeterM: 14, volume, depths, grind: { areaM2: 0, volumeM3: 0 } };
  return takeoff(roomAmounts({ ...room, layers: [...layers] }, newJobRoom(room.id), fill, BY), {
    ...{ material: { ...POWDER, powder: powder() }, primer, withAggregate: false, usualLossShare: 0.05, bagPercentile: 0.8 },
    ...{ bagsPerBatch: 1, bucketL: 60, mixers: 1, helpers: 1, laterSections: 0, isTakenAlong: false, plannedMinutes: null },
  });
}
const primingHours = ({ hours }: RoomTakeoff): number => hours.find(({ key }) => key === 'prime')?.ownHours ?? 0;
const litersOf = (taken: RoomTakeoff): number =>
  shoppingList([taken], [], [porous]).items.find(({ materialId }) => materialId === porous.id)?.need ?? 0;

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
    const next = {
      isOverLift: true,
      openShare: 1,
      pourShare: 1,
      plannedBags: null,
      hasReserve: true,
      isSetUp: true,
      withAggregate: false,
      prepHours: 0,
    };
    const lift = restTakeoff(three, next);
    expect(litersOf(lift)).toBeCloseTo(litersOf(one), 9);
    expect(primingHours(lift)).toBeCloseTo(primingHours(one), 9);
    const half = restTakeoff(three, { ...next, openShare: 0.5 });
    expect(litersOf(half)).toBeCloseTo(litersOf(one) / 2, 9);
    expect(primingHours(half)).toBeCloseTo(primingHours(one) / 2, 9);
  });
});

// Common practice, no source: fresh underlayment draws water, so it is primed as a porous substrate. Coverage by hand.
describe('later lifts over wood are primed as new underlayment', () => {
  const use = (substrate: 'wood' | 'porous', coats: number, coverageM2PerL: number) => ({
    ...{ substrate, coats, coverageM2PerL, waterParts: 0, dryHoursLeast: 1, dryHoursMost: 24 },
  });
  const both: Material = { ...porous, primer: [use('wood', 1, 4), use('porous', 2, 8)] };
  const woodOnly: Material = { ...both, primer: [use('wood', 1, 4)] };

  it('in coats, liters and hours', () => {
    const two = floorOf(0.07, BOARDS.layers, both);
    expect(two.lifts?.count).toBe(2);
    expect(primingCoats(two)).toEqual([1, 2]);
    // 12 m² at 4 m²/L once, and twice at 8 m²/L.
    expect(primerNeatL(two)).toBeCloseTo(3 + 3, 9);
    expect(primingHours(two)).toBeCloseTo(hoursFor('primeCoat', 12 * 3), 9);
    const next = { pourShare: 1, plannedBags: null, hasReserve: true, isSetUp: true, withAggregate: false, prepHours: 0 };
    const half = (isOverLift: boolean) => restTakeoff(two, { ...next, isOverLift, openShare: 0.5 });
    expect([half(false).primer?.substrate, half(true).primer?.substrate]).toEqual(['wood', 'porous']);
    expect(primingHours(half(true))).toBeCloseTo(2 * primingHours(half(false)), 9);
  });

  it('and ask for a primer where the one chosen is for wood alone', () => {
    const stopping = (mostM: number) => floorOf(mostM, BOARDS.layers, woodOnly).problems.filter(({ stops }) => stops);
    expect(stopping(0.03)).toEqual([]);
    const [problem, ...others] = stopping(0.07);
    expect([problem?.kind, others]).toEqual(['lift-primer', []]);
    expect(problem === undefined ? '' : doubtWords(problem, 'us')).toMatch(/is for wood\. Lifts after the first go on new underlayment/);
    expect(primerNeatL(floorOf(0.07, BOARDS.layers, woodOnly))).toBeCloseTo(3, 9);
  });
});

// Common practice, no source. Rates are the program's own, of one table: the prep line takes what the estimate counts.
it('a floor is abraded and vacuumed again between lifts', () => {
  const [one, three] = [floorOf(0.03), floorOf(0.1)];
  const vacuumHours = ({ hours }: RoomTakeoff) => hours.find(({ key }) => key === 'vacuum')?.ownHours ?? 0;
  expect([one.betweenLiftsM2, three.betweenLiftsM2]).toEqual([0, 24]);
  expect(vacuumHours(three)).toBeCloseTo(3 * vacuumHours(one), 9);
  const between = (lifts: number, pour: NextPour = {}) => line(listOf({ ...SLAB, lifts }, pour), 'between-lifts');
  for (const taken of [floorOf(0.07), three]) {
    const { betweenLiftsM2: m2, primings } = taken;
    const later = Array.from({ length: primings - 1 }, (_, i) => between(primings, { liftsUnder: i + 1 }));
    expect(later.reduce((sum, line) => sum + (line?.amount?.value ?? Number.NaN), 0)).toBeCloseTo(m2, 9);
    const hours = later.reduce((sum, line) => sum + (line?.hours ?? Number.NaN), 0);
    expect(hours).toBeCloseTo(hoursFor('abrade', m2) + hoursFor('vacuum', m2), 9);
  }
  // Of 12 m², the rest of the last lift is 0.4. A rest of the first lift lies on the substrate.
  const rest = { pourShare: 0.4, plannedBags: null, hasReserve: true, isSetUp: true, withAggregate: false, prepHours: 0, openShare: 0.4 };
  const restOf = (liftsUnder: number) => restTakeoff(three, { ...rest, isOverLift: liftsUnder > 0 }).betweenLiftsM2;
  expect([restOf(0), restOf(2)]).toEqual([0, expect.closeTo(4.8, 9)]);
  const betweenM2 = (liftsUnder: number, openShare: number) => between(3, { liftsUnder, openShare })?.amount?.value;
  expect(betweenM2(2, 0.4)).toBeCloseTo(restOf(2), 9);
  expect([betweenM2(0, 0.4), betweenM2(1, 0.4), betweenM2(1, 1), betweenM2(2, 1)]).toEqual([undefined, expect.closeTo(4.8, 9), 12, 12]);
  const primed = (openShare: number) => line(listOf(SLAB, { openShare }), 'prime')?.hours ?? Number.NaN;
  expect(primed(0.5)).toBeCloseTo(primed(1) / 2, 9);
  const costs = (room: RoomTakeoff) =>
    costLines({
      business: BY.business,
      materials: [],
      rooms: [room],
      roomKey: () => 'room',
      added: [],
      travelKm: null,
      days: 1,
      day: BY.day,
    });
  const abraded = (room: RoomTakeoff) => costs(room).lines.find(({ key }) => key === 'room/abrade')?.costMinor ?? 0;
  expect(abraded(one)).toBeGreaterThan(0);
  expect(abraded(three)).toBe(3 * abraded(one));
});
