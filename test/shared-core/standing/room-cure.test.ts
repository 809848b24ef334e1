/** Dates of a floor finished in a second pour with another product. */
import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { ribbonView } from '../../../shared-core/agenda/today.ts';
import type { Promised } from '../../../shared-core/book/cure-record.ts';
import type { Material } from '../../../shared-core/book/material.ts';
import { type Pour, type PourEvent, pourEventSchema } from '../../../shared-core/book/pour-record.ts';
import { storedLayout } from '../../../shared-core/pour/stored-layout.ts';
import { TYPICAL_CREW } from '../../../shared-core/pour/typical-crew.ts';
import type { JobBundle } from '../../../shared-core/standing/job-bundle.ts';
import { roomsOf } from '../../../shared-core/standing/job-bundle.ts';
import { owedPromises, roomCure } from '../../../shared-core/standing/room-cure.ts';
import { points } from '../../outlines.ts';
import { bundle, BUSINESS, pour, POWDER, promised, summary } from '../agenda/bundle-fixture.ts';
import { cover, SHEET } from '../cure/sheet-fixture.ts';
import { bay, laidOut, rectangle } from '../pour/floors.ts';

const ROOM = 'room-hall';
const placed = (pourId: string, finishedAt: string, batches: number): PourEvent[] =>
  Array.from({ length: batches }, (_, i) =>
    pourEventSchema.parse({
      kind: 'placed',
      batch: i + 1,
      roomId: ROOM,
      lane: null,
      bags: 2,
      id: `${pourId}-${i}`,
      pourId,
      estimated: false,
      seq: i + 1,
      instant: new Date(Date.parse(finishedAt) - (batches - i) * 180_000).toISOString(),
    }),
  );

/** A product whose hours are those of the fixture's data sheet times a factor. */
const product = (name: string, factor: number): Material => ({
  ...POWDER,
  id: `mat-${name}`,
  name,
  powder: {
    ...SHEET,
    milestones: SHEET.milestones.map((m) => ({ ...m, hoursLeast: m.hoursLeast * factor, hoursMost: m.hoursMost * factor })),
  },
});
const SLOW = product('slow', 3);
const FAST = {
  ...product('fast', 0.5),
  powder: { ...SHEET, milestones: [...SHEET.milestones.filter((m) => m.kind !== 'cart'), cover('carpet', 0.01, 1, 2)] },
};

/** Lanes of 4 m by 1 m, two batches each: two of three placed in one pour, the third the next day. */
const first = (material: Material): Pour =>
  withFloor(pour('pour-1', [ROOM], '2026-05-11T14:00:00.000Z', '2026-05-11T15:00:00.000Z'), material, 3);
const rest = (material: Material): Pour =>
  withFloor(pour('pour-2', [ROOM], '2026-05-12T14:00:00.000Z', '2026-05-12T15:00:00.000Z'), material, 1);

function withFloor(of: Pour, material: Material, lanes: 1 | 3): Pour {
  const floor = rectangle(4, 3, 3).slice(-lanes);
  return {
    ...of,
    materialId: material.id,
    asPoured: {
      ...of.asPoured,
      material,
      rooms: of.asPoured.rooms.map((room) => ({
        ...room,
        depth: { meanM: 0.01, deepestM: 0.01 },
        plan: { ...room.plan, outline: points('0,0 4,0 4,3 0,3') },
        isRest: lanes === 1,
      })),
      layout: storedLayout(laidOut([bay(ROOM, floor)], 0.02, 'back-and-forth', 2)),
    },
  };
}

function cureOf(
  pours: readonly Pour[],
  pourEvents: readonly PourEvent[],
  pourAt: string | null = null,
  promises: readonly Promised[] = [],
) {
  const of: JobBundle = { ...bundle({ id: 'a', rooms: [{ roomId: ROOM, name: 'Hall', pourAt }], pours, promises }), pourEvents };
  const [facts] = roomsOf(of);
  const cure = facts === undefined ? null : roomCure(of, facts, BUSINESS);
  if (cure === null) throw new Error('The hall is curing.');
  const statedAt = (kind: string): string | null | undefined => cure.schedule.milestones.find((m) => m.kind === kind)?.statedAt;
  return { cure, statedAt };
}

describe('a floor finished with a second product', () => {
  const day1 = placed('pour-1', '2026-05-11T15:00:00.000Z', 4);
  const both = [...day1, ...placed('pour-2', '2026-05-12T15:00:00.000Z', 2)];
  const alone = (material: Material) => cureOf([first(material)], placed('pour-1', '2026-05-11T15:00:00.000Z', 6));

  it('keeps the dates of the first where those are later, though the second product is quicker', () => {
    const { cure, statedAt } = cureOf([first(SLOW), rest(FAST)], both);
    expect(cure).toMatchObject({ poured: true, whole: true });
    expect(cure.parts.map(({ areaM2 }) => Math.round(areaM2))).toEqual([8, 4]);
    expect(cure.schedule.cover?.statedAt).toBe(alone(SLOW).cure.schedule.cover?.statedAt);
    expect(statedAt('furniture')).toBe(alone(SLOW).statedAt('furniture'));
  });

  it('takes each part by its own product, and the later one for the room', () => {
    const { cure, statedAt } = cureOf([first(FAST), rest(SLOW)], both);
    const partly = cure.parts.map(({ schedule }) => schedule.milestones.find((m) => m.kind === 'furniture')?.statedAt ?? '');
    expect(partly[0]).toBe(alone(FAST).statedAt('furniture'));
    expect((partly[0] ?? '') < (partly[1] ?? '')).toBe(true);
    expect(statedAt('furniture')).toBe(partly[1]);
  });

  it('gives no date that one of the data sheets has no hours for', () => {
    expect(alone(SLOW).statedAt('cart')).toBeDefined();
    expect(cureOf([first(SLOW), rest(FAST)], both).statedAt('cart')).toBeUndefined();
  });
});

describe('a date promised for flooring while part of the floor is not placed', () => {
  const PROMISED = [promised('promise-1', ROOM, '2026-06-03T11:00:00.000Z')];
  const verdict = (pourAt: string | null, pours = [first(POWDER)], now = '2026-05-12T16:00:00.000Z') => {
    const partly = placed('pour-1', '2026-05-11T15:00:00.000Z', 4);
    const { cure } = cureOf(pours, partly, pourAt, PROMISED);
    const [owed] = owedPromises(cure, now);
    return { whole: cure.whole, state: owed?.state, awaitsRest: owed?.awaitsRest, stated: owed?.milestone.statedAt?.slice(0, 10) };
  };

  it('stays owed, without a date until the rest is planned', () => {
    expect(verdict(null)).toEqual({ whole: false, state: 'on-hold', awaitsRest: true, stated: undefined });
    // A date set for the day of the first pour was for that pour.
    expect(verdict('2026-05-11T14:00:00.000Z').state).toBe('on-hold');
  });

  it('is judged by the pour planned for the rest: glued wood takes 7 to 10 days by the sheet', () => {
    expect(verdict('2026-05-12T14:00:00.000Z')).toMatchObject({ state: 'on-track', awaitsRest: true });
    // A pour that was planned and not done keeps no promise.
    expect(verdict('2026-05-12T14:00:00.000Z', undefined, '2026-06-10T12:00:00.000Z')).toMatchObject({ state: 'late', awaitsRest: true });
    expect(verdict('2026-06-05T14:00:00.000Z')).toMatchObject({ state: 'late', awaitsRest: true });
    expect(verdict('2026-06-05T14:00:00.000Z').stated?.slice(0, 7)).toBe('2026-06');
  });

  it('is judged by the rest that is being poured', () => {
    const running = { ...rest(POWDER), startedAt: '2026-06-05T14:00:00.000Z', finishedAt: null };
    expect(verdict(null, [first(POWDER), running])).toMatchObject({ whole: false, state: 'late' });
  });
});

/**
 * Counted by hand from the fixture's data sheet: 16 hours to the next lift and 6 to foot traffic at 20 °C, each lift 90 minutes.
 * The hours are divided by the equivalent age of ASTM C1074 at 6000 K, 2 °C colder than expected: 0.869 at 18 °C, 0.563 at 12 °C.
 */
describe('a floor planned in lifts', () => {
  const business = { ...BUSINESS, hours: { from: '07:30', to: '17:00', days: [1, 2, 3, 4, 5] } };
  const planned = (pourAt: string, lifts: number, tempC: number) => {
    const expectedAir = { tempC, relativeHumidity: 0.5, enteredAt: pourAt };
    const rooms = [{ roomId: ROOM, name: 'Hall', pourAt, expectedAir }];
    const of = bundle({ id: 'a', rooms, summaries: [summary(ROOM, { lifts, pourMinutes: 90 * lifts })] });
    const [facts] = roomsOf(of);
    const cure = facts === undefined ? null : roomCure(of, facts, business);
    const walk = cure?.schedule.milestones.find(({ kind }) => kind === 'walk-on');
    return [cure?.schedule.placedAt, walk?.statedAt];
  };
  const lifts = (pourMinutes: number, count: number): JobBundle =>
    bundle({ id: 'a', rooms: [{ roomId: ROOM, name: 'Hall', pourAt: FRIDAY }], summaries: [summary(ROOM, { lifts: count, pourMinutes })] });
  const FRIDAY = '2026-05-15T13:40:00.000Z';
  const MONDAY = '2026-05-18T13:40:00.000Z';

  it('has its later lifts poured on working days, in working hours', () => {
    // One lift is down Friday at 11:10 am; 6.9 hours later it is past 5 pm.
    expect(planned(FRIDAY, 1, 20)).toEqual(['2026-05-15T15:10:00.000Z', '2026-05-16T11:30:00.000Z']);
    // It takes the next 18.4 hours later, on Saturday: that one is poured Monday from 7:30 am, and open at 4 pm.
    expect(planned(FRIDAY, 2, 20)).toEqual(['2026-05-18T13:00:00.000Z', '2026-05-18T20:00:00.000Z']);
    // A third one follows on Tuesday from 7:30 am.
    expect(planned(FRIDAY, 3, 20)).toEqual(['2026-05-19T13:00:00.000Z', '2026-05-19T20:00:00.000Z']);
  });

  // Common practice, no source: nobody pours through the night.
  it('is counted in working hours where its pour is longer than a working day', () => {
    const placedAt = (pourMinutes: number) => {
      const of = lifts(pourMinutes, 1);
      const [facts] = roomsOf(of);
      return facts === undefined ? null : roomCure(of, facts, business)?.schedule.placedAt;
    };
    // From 9:40 am: 7 h 20 min on Friday, 9 h 30 min on Monday, 3 h 10 min on Tuesday.
    expect(placedAt(20 * 60)).toBe('2026-05-19T14:40:00.000Z');
    // 13 h straight on would still end on Friday: long hours, not a night.
    expect(placedAt(13 * 60)).toBe('2026-05-16T02:40:00.000Z');
  });

  it('takes as long for one lift on every list as its dates count', () => {
    const entry = (of: JobBundle) => agenda([of], business, null).entries.find(({ kind }) => kind === 'pour');
    // Two lifts of 90 minutes: the pour on Friday is of the first.
    expect(entry(lifts(180, 2))?.rest).toContain('9:40 am to 11:10 am');
    const [row] = ribbonView(agenda([lifts(960, 2)], business, null), [], FRIDAY, 'America/New_York', 28).rows;
    const strip = row?.lanes.find(({ kind }) => kind === 'pour');
    // 8 of 16 hours, in days.
    expect((strip?.toDay ?? Number.NaN) - (strip?.fromDay ?? Number.NaN)).toBeCloseTo(8 / 24);
  });

  it('waits longer for each lift in a colder room', () => {
    // Down Monday at 11:10 am, ready 28.4 hours later: the next is poured Tuesday from 4 pm, and open Wednesday at 7:30 am.
    expect(planned(MONDAY, 2, 14)).toEqual(['2026-05-19T21:30:00.000Z', '2026-05-20T11:30:00.000Z']);
  });

  it('has no date of the floor where the room is too cold to cure', () => {
    expect(planned(MONDAY, 2, 8)[1]).toBeNull();
  });

  const placedAt = (of: JobBundle): (string | undefined)[] => roomsOf(of).map((facts) => roomCure(of, facts, business)?.schedule.placedAt);
  const warm = { pourAt: FRIDAY, expectedAir: { tempC: 20, relativeHumidity: 0.5, enteredAt: FRIDAY } };

  it('takes for each lift its share of the minutes', () => {
    const lifts = summary(ROOM, { lifts: 2, pourMinutes: 180, fillShares: [[0.25], [0.75]] });
    const of = bundle({ id: 'a', rooms: [{ roomId: ROOM, name: 'Hall', ...warm }], summaries: [lifts] });
    const entry = agenda([of], business, null).entries.find(({ kind }) => kind === 'pour');
    expect(entry?.rest).toContain('9:40 am to 10:25 am');
    // The second is poured Monday from 7:30 am and takes 135 minutes.
    expect(placedAt(of)).toEqual(['2026-05-18T13:45:00.000Z']);
  });

  it('is abraded, vacuumed and primed before the next lift', () => {
    const liftBreak = { surfaceHours: 2.5, coats: 2, coatHours: 0.5, dryHours: 1 };
    const lifts = summary(ROOM, { lifts: 2, pourMinutes: 180, liftBreak });
    const of = bundle({ id: 'a', rooms: [{ roomId: ROOM, name: 'Hall', ...warm }], summaries: [lifts] });
    // From Monday at 7:30 am 2 h 30 min, and two coats of 30 min that dry 1 h each: 1 pm. Then 90 minutes.
    expect(placedAt(of)).toEqual(['2026-05-18T18:30:00.000Z']);
    // 20 hours on the surface are two days of 9 h 30 min and one hour: Wednesday at 8:30 am, primed and dry at 11:30 am, poured at noon.
    const large = bundle({
      id: 'a',
      rooms: [{ roomId: ROOM, name: 'Hall', ...warm }],
      summaries: [{ ...lifts, liftBreak: { ...liftBreak, surfaceHours: 20 } }],
    });
    expect(placedAt(large)).toEqual(['2026-05-20T17:30:00.000Z']);
  });

  it('is placed with the last of the rooms that are poured together', () => {
    const rooms = [
      { roomId: ROOM, name: 'Hall', ...warm },
      { roomId: 'room-den', name: 'Den', ...warm },
    ];
    const of = bundle({ id: 'a', rooms, summaries: [summary(ROOM, { pourMinutes: 180 }), summary('room-den', { pourMinutes: 20 })] });
    const entry = agenda([of], business, null).entries.find(({ kind }) => kind === 'pour');
    expect(placedAt(of)).toEqual([entry?.until, entry?.until]);
    expect(entry?.until).toBe('2026-05-15T17:00:00.000Z');
  });

  it('is placed with its last section, on the next working day', () => {
    const joints = [{ id: 'jnt-middle', from: { xM: 4, yM: 0 }, to: { xM: 4, yM: 4 } }];
    const pourPlan = { laneWidthM: 1, angleDeg: 90, pattern: 'one-way' as const, wayOutId: null, joints, crew: TYPICAL_CREW, section: 1 };
    const rooms = [{ roomId: ROOM, name: 'Hall', ...warm, pourPlan }];
    const sketch = bundle({ id: 'a', rooms, summaries: [summary(ROOM, { pourMinutes: 180, fillShares: [[0.7, 0.3]] })] });
    const outline = points('0,0 8,0 8,4 0,4');
    const of = { ...sketch, rooms: sketch.rooms.map((room) => ({ ...room, plan: { ...room.plan, outline } })) };
    // 54 minutes from Monday at 9:40 am.
    expect(placedAt(of)).toEqual(['2026-05-18T14:34:00.000Z']);
  });
});
