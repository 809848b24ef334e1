import { describe, expect, it } from 'vitest';
import { newBusiness } from '../../../shared-core/book/typical-business.ts';
import type { CureLog } from '../../../shared-core/book/cure-record.ts';
import { type PourEvent, pourEventSchema } from '../../../shared-core/book/pour-record.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { gatherCure, roomReadings } from '../../../shared-core/cure/gather-cure.ts';
import { jobRoom, POWDER, PRIMER, room } from '../agenda/bundle-fixture.ts';
import { layer, test as floorTest } from '../substrate/a-floor.ts';

const PLACED = '2026-05-12T14:00:00.000Z';
const STAMPS = { createdAt: PLACED, changedAt: PLACED, deletedAt: null };
const HALL = room('room-hall', 'property-1', 'Hall');
const BUSINESS = newBusiness(PLACED, 'America/New_York', 'en-US');

const reading = (seq: number, airTempC: number | null): PourEvent =>
  pourEventSchema.parse({
    ...{ id: `event-${seq}`, pourId: 'pour-1', seq, instant: PLACED, estimated: false, kind: 'reading', airTempC },
    ...{ surfaceTempC: null, waterTempC: null, powderTempC: null, relativeHumidity: 0.5, spreadM: null },
  });
const undone = (seq: number, eventId: string): PourEvent =>
  pourEventSchema.parse({ id: `event-${seq}`, pourId: 'pour-1', seq, instant: PLACED, estimated: false, kind: 'undone', eventId });
const log = (id: string, roomId: string, tempC: number, deletedAt: string | null = null): CureLog => ({
  ...STAMPS,
  ...{ id, jobId: 'job-0001', roomId, source: 'by-hand', name: '', deletedAt },
  readings: [{ instant: PLACED, tempC, relativeHumidity: null }],
});
const air = (takenAt: string, airTempC: number): Room['tests'][number] => ({
  ...{ id: `air-${airTempC}`, kind: 'air', takenAt, by: 'RT', point: null, note: '' },
  ...{ airTempC, relativeHumidity: 0.4, surfaceTempC: null, airSpeedMPerS: null },
});
const tempsOf = (tests: Room['tests'], logs: readonly CureLog[], events: readonly PourEvent[]) =>
  roomReadings({ id: HALL.id, tests }, logs, events, PLACED).map(({ tempC, relativeHumidity }) => [tempC, relativeHumidity]);

describe('the readings of a room’s air', () => {
  it('are those of its pour that were not voided, its own logs, and tests since the pour', () => {
    expect(tempsOf([], [], [reading(1, 20), reading(2, 21), reading(3, null), undone(4, 'event-2')])).toEqual([[20, 0.5]]);
    // Redo voids the voiding, and the reading counts again.
    const redone = [reading(1, 20), undone(2, 'event-1'), undone(3, 'event-2')];
    expect(tempsOf([], [], redone)).toEqual([[20, 0.5]]);
    expect(tempsOf([], [log('log-0001', HALL.id, 18), log('log-0002', 'room-other', 5), log('log-0003', HALL.id, 6, PLACED)], [])).toEqual([
      [18, null],
    ]);
    expect(tempsOf([air(PLACED, 17), air('2026-05-12T13:59:00.000Z', 4)], [], [])).toEqual([[17, 0.4]]);
  });
});

describe('the input of a cure', () => {
  const records = {
    ...{
      business: BUSINESS,
      jobRoom: jobRoom({ roomId: HALL.id }),
      room: HALL,
      timeZone: 'America/New_York',
      yearBuilt: null,
      material: POWDER,
    },
    ...{ lift: 1, isLastLift: true, placedAt: PLACED, depth: { meanM: 0.01, deepestM: 0.02 }, wetBelowM: 0, overSystem: false },
    ...{ sharing: [], logs: [], pourEvents: [], promises: [], tests: [] },
  };
  const over = (layers: Room['layers']) => gatherCure({ ...records, room: { ...HALL, layers } })?.overWood;

  it('is over wood where what stays holds no slab, and is not while no floor is recorded', () => {
    expect(over([layer('plywood'), layer('joists')])).toBe(true);
    expect(over([layer('plywood'), layer('concrete-suspended')])).toBe(false);
    expect(over([layer('plywood', { fate: 'remove' }), layer('concrete-on-ground')])).toBe(false);
    expect(over([layer('plywood'), layer('gypsum', { fate: 'remove' })])).toBe(true);
    // ASTM F2170 tests concrete slabs: a thin bed on wood is none. As the assessment judges it.
    for (const material of ['gypsum', 'screed', 'terrazzo'] as const) {
      expect(over([layer(material), layer('plywood'), layer('joists')]), material).toBe(true);
      expect(over([layer(material), layer('concrete-on-ground')]), material).toBe(false);
    }
    expect(over([layer('plywood'), layer('concrete-suspended'), layer('joists')])).toBe(false);
    expect([over([]), over([layer('carpet', { fate: 'remove' })])]).toEqual([false, false]);
    for (const slab of ['screed', 'concrete-on-ground'] as const)
      expect([slab, over([layer('plywood'), layer(slab)])]).toEqual([slab, false]);
  });

  // 29 CFR 1926.1101(k)(1): presumed by year. ASTM F2170 clause 7.1 warns against drilling such flooring. Heat: common practice, no source.
  it('is not drilled where asbestos may stay or the pour covers heat, and only after heat in the floor is located', () => {
    const circumstances = { ...HALL.circumstances, radiantHeat: 'none' as const };
    const drilling = (change: Partial<Room>) => gatherCure({ ...records, room: { ...HALL, circumstances, ...change } })?.drilling;
    const slab = layer('concrete-on-ground');
    const tile = (change: Parameters<typeof layer>[1]) => [layer('resilient-tile', { id: 'old-tile', ...change }), slab];
    const clear = [floorTest.lab({ layerId: 'old-tile' })];
    expect(drilling({ layers: [slab] })).toBe('allowed');
    expect(drilling({ layers: tile({ yearInstalled: 1970 }) })).toBe('never');
    expect(drilling({ layers: tile({ yearInstalled: 1970 }), tests: clear })).toBe('allowed');
    expect(drilling({ layers: tile({ yearInstalled: 1970, fate: 'remove' }) })).toBe('allowed');
    const inHouseOf = (yearBuilt: number | null) =>
      gatherCure({ ...records, yearBuilt, room: { ...HALL, circumstances, layers: tile({ yearInstalled: null }) } })?.drilling;
    expect([inHouseOf(1980), inHouseOf(1981), inHouseOf(null)]).toEqual(['never', 'allowed', 'never']);
    const found = [floorTest.lab({ layerId: 'old-tile', state: 'found' })];
    expect(drilling({ layers: tile({ yearInstalled: 1995 }), tests: found })).toBe('never');
    const heat = (radiantHeat: Room['circumstances']['radiantHeat']) =>
      drilling({ layers: [slab], circumstances: { ...HALL.circumstances, radiantHeat } });
    expect([heat('electric-in-pour'), heat('hydronic-in-pour'), heat('in-floor'), heat('none')]).toEqual([
      'never',
      'never',
      'heat-located',
      'allowed',
    ]);
    expect([heat(null), heat('unknown')]).toEqual(['heat-located', 'heat-located']);
    expect(drilling({ layers: [layer('radiant-heating'), slab] })).toBe('never');
  });

  // ASTM F2170 reads the slab under the system, which stays damp, in a hole through it. Common practice, no source.
  it('is not drilled through a moisture mitigation system', () => {
    const room = { ...HALL, layers: [layer('concrete-on-ground')], circumstances: { ...HALL.circumstances, radiantHeat: 'none' as const } };
    const drilling = (overSystem: boolean) => gatherCure({ ...records, room, overSystem })?.drilling;
    expect([drilling(true), drilling(false)]).toEqual(['over-system', 'allowed']);
  });

  it('needs a material with a data sheet of a powder', () => {
    expect(gatherCure({ ...records, material: PRIMER })).toBeNull();
    const heat = (radiantHeat: Room['circumstances']['radiantHeat']) =>
      gatherCure({ ...records, room: { ...HALL, circumstances: { ...HALL.circumstances, radiantHeat } } })?.heated;
    expect([heat('in-floor'), heat('electric-in-pour'), heat('none')]).toEqual([true, true, false]);
  });
});
