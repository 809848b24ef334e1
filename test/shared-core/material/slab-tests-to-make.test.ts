import { describe, expect, it } from 'vitest';
import type { JobRoom } from '../../../shared-core/book/job.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { type JudgedBy, roomAmounts } from '../../../shared-core/material/room-amounts.ts';
import { POWDER } from '../agenda/bundle-fixture.ts';
import { layer, powder, test } from '../substrate/a-floor.ts';
import { by, CHOICE, FILL, NEW_SLAB, NOW, room } from './a-room.ts';

const daysAgo = (days: number): string => new Date(Date.parse(NOW) - days * 86_400_000).toISOString();
const RH = (id: string, takenAt: string, change: Parameters<typeof test.humidity>[0] = {}) => test.humidity({ id, takenAt, ...change });
const dish = (id: string, takenAt: string, overLayerId: string | null = null) => test.dish({ id, takenAt, overLayerId });

// ASTM F1869 and F2170, second-hand: three tests in the first 1,000 sq ft, by one method. Thirty days is common practice, no source.
describe('the slab moisture tests still to be made', () => {
  const flooring = { ...CHOICE, flooring: 'wood-glued' as const };
  const missing = (tests: Room['tests'], layers: Room['layers'] = [NEW_SLAB], change: Partial<JudgedBy> = {}) =>
    roomAmounts(room(layers, tests), flooring, FILL, by(change)).moistureTests;
  const three = (takenAt: string, change: Parameters<typeof test.humidity>[0] = {}) => ['a', 'b', 'c'].map((id) => RH(id, takenAt, change));

  it('are none once three count, and all three without any', () => {
    expect(missing([])).toBe(3);
    expect(missing(three(daysAgo(3)))).toBe(0);
    expect(missing(three(daysAgo(0)))).toBe(0);
  });

  it('are shared by the rooms on one slab for the same flooring, at least one in each', () => {
    const rooms = ['hall', 'den', 'bath', 'study'].map((id) => ({ ...room([NEW_SLAB]), id }));
    const made = (floorings: readonly JobRoom['flooring'][]) => {
      const job = { rooms: rooms.map(({ id }, i) => ({ ...CHOICE, roomId: id, flooring: floorings[i] ?? null })) };
      return rooms.map((one, i) => roomAmounts(one, job.rooms[i] ?? CHOICE, FILL, by({ job, rooms })).moistureTests);
    };
    expect(made(['wood-glued', 'wood-glued', 'wood-glued', 'wood-glued'])).toEqual([1, 1, 1, 1]);
    expect(made(['wood-glued', 'resilient', 'carpet', 'floating'])).toEqual([3, 3, 3, 3]);
  });

  it('are made under tile for the limit of the underlayment', () => {
    const underTile = (material: JudgedBy['material'], moistureSystemId: string | null = null) =>
      roomAmounts(room([NEW_SLAB]), { ...CHOICE, flooring: 'tile-large', moistureSystemId }, FILL, by({ material })).moistureTests;
    const sheet = { ...POWDER, powder: powder() };
    expect(underTile(null)).toBe(0);
    expect(underTile(sheet)).toBe(3);
    expect(underTile(sheet, 'system')).toBe(0);
    expect(underTile({ ...POWDER, powder: powder({ slabHumidityMost: null, emissionMostLb: null }) })).toBe(0);
  });

  it('are those that are too old, which a later day makes of them', () => {
    expect(missing(three(daysAgo(42)))).toBe(3);
    expect(missing(three(daysAgo(3)), [NEW_SLAB], { day: '2026-07-12', resultsDay: '2026-07-12' })).toBe(3);
    // A contract keeps the day of its quote.
    expect(missing(three(daysAgo(3)), [NEW_SLAB], { resultsDay: '2026-07-12' })).toBe(0);
  });

  it('are the rest of one method where two were begun', () => {
    expect(missing([RH('a', daysAgo(2)), RH('b', daysAgo(2)), dish('c', daysAgo(2))])).toBe(1);
  });

  // ASTM F2170: 40% of the thickness of a slab that dries from one side. ASTM F1869: bare concrete only.
  it('are those made in the wrong way', () => {
    expect(missing(three(daysAgo(2), { depthM: 0.01 }))).toBe(3);
    const glue = layer('adhesive-other', { yearInstalled: 2005 });
    const dishes = (over: string) => ['a', 'b', 'c'].map((id) => dish(id, daysAgo(2), over));
    expect(missing(dishes(glue.id), [glue, NEW_SLAB])).toBe(3);
    expect(missing(dishes(NEW_SLAB.id), [glue, NEW_SLAB])).toBe(0);
  });
});
