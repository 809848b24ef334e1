import { describe, expect, it } from 'vitest';
import { type Pour, pourEventSchema } from '../../../shared-core/book/pour-record.ts';
import { floorRest, restPoints } from '../../../shared-core/pour/floor-rest.ts';
import { isPlacedAsPlanned, openFloor, placedFloor, roomFloor } from '../../../shared-core/pour/placed-floor.ts';
import { discardedEntry, isFloorOpen, repairedEntry } from '../../../shared-core/pour/pour-commands.ts';
import { NO_PLAN, pourState } from '../../../shared-core/pour/pour-state.ts';
import { box } from './floors.ts';
import { instantOf, LAYOUT, Log, OUTLINE, pourOf, REST, withLayout } from './hall-pours.ts';
import { points } from '../../outlines.ts';

const stored = ({ outline, holes }: ReturnType<typeof box>) => ({ outline: [...outline], holes: holes.map((hole) => [...hole]) });
const only = (pour: Pour, log: Log) => {
  const [room] = placedFloor(pour, log.events);
  if (room === undefined) throw new Error('The pour has a room.');
  return room;
};

describe('placedFloor', () => {
  it('is complete when every batch of the plan was placed', () => {
    const room = only(pourOf('pour-1'), new Log().place(1, 2, 3, 4, 5, 6).finish(30));
    expect(room.extent).toBe('whole');
    expect(room.placedM2).toBeCloseTo(12, 6);
    expect(room.regions.find((r) => r.batch === 4)).toMatchObject({ state: 'placed', placedAt: instantOf(16), lane: 2 });
    // Two bags of 0.01 m3 over 2 m2: 10 mm.
    expect(room.regions.find((r) => r.batch === 4)?.thicknessM).toBeCloseTo(0.01, 9);
  });

  it('leaves the floor after the last batch open, whichever button ended the pour', () => {
    const room = only(pourOf('pour-1'), new Log().place(1, 2, 3).finish(30));
    expect(room.extent).toBe('partly');
    expect([room.placedM2, room.notPlacedM2]).toEqual([expect.closeTo(6, 6), expect.closeTo(6, 6)]);
    expect(room.openLanes).toEqual([2, 3]);
    // Lane 2 is filled from its far end: batch 3 is on x from 2 to 4.
    const xs = room.regions.filter((r) => r.batch === 3).flatMap((r) => r.floor.flatMap((f) => f.outline.map((p) => p.xM)));
    expect([Math.min(...xs), Math.max(...xs)]).toEqual([expect.closeTo(2, 6), expect.closeTo(4, 6)]);
  });

  it('counts the bags of a leaking lane for the lane, not for the plan', () => {
    // Lane 1 took five batches where the plan had two; nothing after it was placed.
    const log = new Log().place(1, 2, 3, 4, 5).lane(1, 21).finish(30);
    const room = only(pourOf('pour-1'), log);
    expect(room.placedM2).toBeCloseTo(4, 6);
    expect(room.openLanes).toEqual([2, 3]);
  });

  it('does not count an unmarked lane as passed where lanes are marked', () => {
    const log = new Log().place(1, 2).lane(1, 9).place(3, 4, 5, 6).finish(30);
    expect(only(pourOf('pour-1'), log).placedM2).toBeCloseTo(8, 6);
    const recorded = new Log().place(1, 2).lane(1, 9).place(3, 4, 5, 6).finish(30, 'whole');
    expect(only(pourOf('pour-1'), recorded).extent).toBe('whole');
  });

  it('is not whole by count where the end was recorded as partly placed', () => {
    // All six batches are in; the last one, 2 m2, counts as open until something tells more.
    const partly = new Log().place(1, 2, 3, 4, 5, 6).finish(30, 'partly');
    expect([only(pourOf('pour-1'), partly).extent, only(pourOf('pour-1'), partly).notPlacedM2]).toEqual(['partly', expect.closeTo(2, 6)]);
    // All lanes marked finished contradict it just so.
    const lanes = new Log().place(1, 2, 3, 4, 5, 6).lane(1, 25).lane(2, 26).lane(3, 27).finish(30, 'partly');
    expect(only(pourOf('pour-1'), lanes).notPlacedM2).toBeCloseTo(2, 6);
    // Open floor that is marked, scraped out, short of bags or left for another day is all that is open.
    const marked = new Log().place(1, 2, 3, 4, 5, 6).finish(30, 'partly');
    marked.add(40, { kind: 'marked', roomId: 'room-hall', state: 'not-placed', outline: points('0,0 1,0 1,1 0,1'), by: 'RT', why: '' });
    expect(only(pourOf('pour-1'), marked).notPlacedM2).toBeCloseTo(1, 6);
    const scraped = new Log().place(1, 2, 3, 4, 5, 6).add(28, { kind: 'discarded', batch: 1, by: '', why: '' }).finish(30, 'partly');
    expect([only(pourOf('pour-1'), scraped).notPlacedM2, only(pourOf('pour-1'), scraped).takenOutM2]).toEqual([0, expect.closeTo(2, 6)]);
    const short = new Log().place(1, 2, 3).finish(30, 'partly');
    expect(only(pourOf('pour-1'), short).placedM2).toBeCloseTo(6, 6);
    const known = pourOf('pour-1');
    const rooms = known.asPoured.rooms.map((room) => ({ ...room, later: [box(4, 0, 5, 3)].map(stored) }));
    expect(only({ ...known, asPoured: { ...known.asPoured, rooms } }, partly).notPlacedM2).toBeCloseTo(3, 6);
    // A spot that was removed, 1 m2, says nothing of where the pour ended.
    const removed = new Log().place(1, 2, 3, 4, 5, 6).finish(30, 'partly');
    removed.add(40, { kind: 'marked', roomId: 'room-hall', state: 'taken-out', outline: points('0,0 1,0 1,1 0,1'), by: 'RT', why: '' });
    const { notPlacedM2, takenOutM2 } = only(pourOf('pour-1'), removed);
    expect([notPlacedM2, takenOutM2]).toEqual([expect.closeTo(2, 6), expect.closeTo(1, 6)]);
  });

  it('forgets what an end said once the pour was resumed', () => {
    const log = new Log().place(1, 2, 3).finish(30, 'whole').add(31, { kind: 'resumed', by: 'RT', why: 'by mistake' });
    expect(only(pourOf('pour-1'), log).placedM2).toBeCloseTo(6, 6);
    const plan = { layout: LAYOUT, hasLater: false, healingMin: 15, workingTimeMin: 20, bagsPerBatch: 2 };
    const state = pourState(plan, pourOf('pour-1'), log.events, instantOf(32));
    expect([state.phase, state.oldestEdge?.besideBatch, state.covered.size]).toEqual(['pouring', 1, 3]);
    expect(isFloorOpen(state, plan)).toBe(true);
    // A later end counts again, and so does the first one once the resuming is voided.
    expect(only(pourOf('pour-1'), new Log().place(1, 2, 3).finish(30, 'partly').finish(40, 'whole')).extent).toBe('whole');
    expect(only(pourOf('pour-1'), log.add(33, { kind: 'undone', eventId: 'pour-1-5' })).extent).toBe('whole');
    const bare = pourOf('pour-1');
    const resumed = new Log().place(1, 2).finish(30, 'whole').add(31, { kind: 'resumed', by: '', why: '' });
    expect(only({ ...bare, asPoured: { ...bare.asPoured, layout: null } }, resumed).extent).toBe('partly');
  });

  it('ends a lane by its own mark only, not by that of a later lane', () => {
    const log = new Log().place(1, 2).lane(1, 9).place(3).lane(3, 13).finish(30);
    expect(only(pourOf('pour-1'), log).placedM2).toBeCloseTo(6, 6);
    // With lane 2 marked, its one batch covers all of it.
    const ended = new Log().place(1, 2).lane(1, 9).place(3).lane(2, 13).finish(30);
    expect(only(pourOf('pour-1'), ended).placedM2).toBeCloseTo(8, 6);
  });

  it('takes a removal that is entered after the end at the time it happened: the next batch filled its place', () => {
    const roomWith = (at: string | null) => {
      const log = new Log().place(1, 2, 3, 4, 5, 6, 7).finish(40);
      const stamp = { id: 'removed', pourId: 'pour-1', instant: instantOf(500) };
      const state = pourState(NO_PLAN, { bagsOnSite: 14 }, log.events, instantOf(500));
      const { event } = discardedEntry(state, stamp, 3, { by: 'RT', why: 'wrong water', at });
      log.events.push(pourEventSchema.parse(event));
      return only(pourOf('pour-1'), log);
    };
    // Six batches of 2 m² fill the hall. Batch 3 was removed before batch 4, so six of the seven are in it.
    expect(roomWith(instantOf(14))).toMatchObject({ extent: 'whole', takenOutM2: 0 });
    // Removed as it is entered, after the end, it leaves a gap of its own: one of seven batches over 12 m².
    expect(roomWith(null)).toMatchObject({ extent: 'partly', takenOutM2: expect.closeTo(12 / 7, 6) });
  });

  it('removes a discarded batch and lets the next batch fill its place', () => {
    const scraped = new Log().place(1, 2, 3).add(13, { kind: 'discarded', batch: 3, by: '', why: 'wrong water' });
    const room = only(pourOf('pour-1'), scraped);
    expect([room.placedM2, room.takenOutM2]).toEqual([expect.closeTo(4, 6), expect.closeTo(2, 6)]);
    const filled = only(pourOf('pour-1'), scraped.place(4));
    expect([filled.placedM2, filled.takenOutM2]).toEqual([expect.closeTo(6, 6), 0]);
    expect(filled.regions.find((r) => r.lane === 2)?.batch).toBe(4);
  });

  it('is short by a batch whose gap the next one filled', () => {
    // Five of six batches lie on the floor: 10 of 12 m2, each 2 bags of 0.01 m3 over 2 m2, 10 mm. The open end of lane 3 meets batch 4,
    // which fills the gap at that end of lane 2.
    const log = new Log().place(1, 2, 3).add(13, { kind: 'discarded', batch: 3, by: '', why: 'wrong water' }).place(4, 5, 6);
    const plan = { layout: LAYOUT, hasLater: false, healingMin: 15, workingTimeMin: 20, bagsPerBatch: 2 };
    const state = pourState(plan, pourOf('pour-1'), log.events, instantOf(25));
    expect([state.covered.size, isFloorOpen(state, plan), state.oldestEdge?.besideBatch]).toEqual([5, true, 4]);
    const room = only(pourOf('pour-1'), log.finish(30));
    expect([room.extent, room.placedM2, room.notPlacedM2]).toEqual(['partly', expect.closeTo(10, 6), expect.closeTo(2, 6)]);
    expect(room.regions.find((r) => r.batch === 6)?.thicknessM).toBeCloseTo(0.01, 9);
    expect(isPlacedAsPlanned(pourOf('pour-1'), log.events)).toBe(false);
    // The seventh closes it, even with half a bag less than planned, and so do six batches of which none was scraped out.
    const seventh = new Log().place(1, 2, 3).add(13, { kind: 'discarded', batch: 3, by: '', why: '' }).place(4, 5, 6);
    seventh.add(28, { kind: 'placed', batch: 7, roomId: 'room-hall', lane: null, bags: 1.5 }).finish(30);
    expect(only(pourOf('pour-1'), seventh)).toMatchObject({ extent: 'whole', takenOutM2: 0 });
    // One scraped out after all were placed leaves its own gap and no other.
    const after = new Log().place(1, 2, 3, 4, 5, 6).add(28, { kind: 'discarded', batch: 3, by: '', why: '' }).finish(30);
    expect(only(pourOf('pour-1'), after)).toMatchObject({ notPlacedM2: 0, takenOutM2: expect.closeTo(2, 6) });
  });

  it('ignores a batch that was thrown out before it was placed', () => {
    const log = new Log().place(1, 2).add(10, { kind: 'mixed', batch: 3, bags: 2, waterL: null });
    log.add(11, { kind: 'discarded', batch: 3, by: '', why: 'lumps' });
    const room = only(pourOf('pour-1'), log);
    expect([room.placedM2, room.takenOutM2]).toEqual([expect.closeTo(4, 6), 0]);
  });

  it('marks a batch with wrong water as suspect, and a batch older than its working time', () => {
    const log = new Log().place(1).add(5, { kind: 'incident', what: 'wrong-water', batch: 1, note: '' });
    log.add(6, { kind: 'mixed', batch: 2, bags: 2, waterL: null });
    log.add(90, { kind: 'placed', batch: 2, roomId: 'room-hall', lane: 1, bags: 2 });
    const room = only(pourOf('pour-1'), log);
    expect(room.suspectM2).toBeCloseTo(4, 6);
    expect(room.regions.find((r) => r.batch === 1)?.reasons).toEqual(['wrong-water']);
    expect(room.regions.find((r) => r.batch === 2)?.reasons).toEqual(['too-old']);
  });

  it('judges a batch by the temperature while it waited, whatever was read after', () => {
    const temps = { waterTempC: null, powderTempC: null, relativeHumidity: null, spreadM: null, airTempC: null };
    const reasons = (atMixing: number, waiting: number, after: number) => {
      const log = new Log().add(0, { kind: 'reading', ...temps, surfaceTempC: atMixing });
      log.add(6, { kind: 'mixed', batch: 1, bags: 2, waterL: null }).add(10, { kind: 'reading', ...temps, surfaceTempC: waiting });
      log.add(26, { kind: 'placed', batch: 1, roomId: 'room-hall', lane: 1, bags: 2 });
      log.add(50, { kind: 'reading', ...temps, surfaceTempC: after });
      return only(pourOf('pour-1'), log).regions.find((r) => r.batch === 1)?.reasons;
    };
    // Twenty minutes. Typical working time is 15 minutes at 21 C: longer than 20 at 2 C, shorter at 45 C.
    expect(reasons(2, 2, 45)).toEqual([]);
    expect(reasons(2, 45, 2)).toEqual(['too-old']);
    expect(reasons(45, 2, 2)).toEqual(['too-old']);
  });

  it('cuts regions along a marked area, of any shape', () => {
    const log = new Log().place(1, 2, 3, 4, 5, 6).finish(30);
    const corners = points('0.5,0.5 1.5,0.5 1.5,1.0 1.0,1.0 1.0,1.5 0.5,1.5');
    log.add(40, { kind: 'marked', roomId: 'room-hall', state: 'taken-out', outline: corners, by: 'RT', why: 'hollow' });
    const room = only(pourOf('pour-1'), log);
    // An L of 1 by 1 m less a quarter: 0.75 m².
    expect(room.takenOutM2).toBeCloseTo(0.75, 9);
    expect(room.placedM2).toBeCloseTo(11.25, 9);
    expect(room.extent).toBe('partly');
    log.add(50, { kind: 'marked', roomId: 'room-hall', state: 'placed', outline: OUTLINE, by: 'RT', why: 'patched' });
    expect(only(pourOf('pour-1'), log).extent).toBe('whole');
  });

  it('follows an undo and the undo of an undo', () => {
    const log = new Log().place(1, 2, 3, 4, 5, 6);
    log.add(30, { kind: 'undone', eventId: 'pour-1-6' });
    expect(only(pourOf('pour-1'), log).placedM2).toBeCloseTo(10, 6);
    log.add(31, { kind: 'undone', eventId: 'pour-1-7' });
    expect(only(pourOf('pour-1'), log).placedM2).toBeCloseTo(12, 6);
  });

  it('takes the corrected bags of a batch', () => {
    const log = new Log().place(1, 2);
    log.add(12, { kind: 'corrected', eventId: 'pour-1-2', toAt: null, toBags: 4, by: 'RT', why: 'two more bags' });
    expect(only(pourOf('pour-1'), log).placedM2).toBeCloseTo(6, 6);
  });
});

describe('roomFloor', () => {
  it('is not poured after lift 1 of 2', () => {
    const log = new Log().place(1, 2, 3, 4, 5, 6).finish(30);
    const floor = roomFloor([pourOf('pour-1', { lift: 1, liftsPlanned: 2 })], log.events, 'room-hall');
    expect([floor.extent, floor.liftsWhole, floor.lift?.extent]).toEqual(['partly', 1, 'whole']);
  });

  it('joins the rest poured two days later to what was placed first', () => {
    const first = pourOf('pour-1');
    const log = new Log('pour-1').place(1, 2, 3).finish(30);
    const open = roomFloor([first], log.events, 'room-hall');
    expect(open.extent).toBe('partly');
    expect(openFloor(open).reduce((sum, r) => sum + Math.abs(shoelaceM2(r.outline)), 0)).toBeCloseTo(6, 6);
    const second = pourOf('pour-2', { isRest: true, startMin: 2880 });
    const withRest = withLayout(second, REST);
    const later = new Log('pour-2');
    for (const batch of [1, 2, 3]) later.add(2880 + batch * 4, { kind: 'placed', batch, roomId: 'room-hall', lane: null, bags: 2 });
    later.finish(2940);
    const floor = roomFloor([first, withRest], [...log.events, ...later.events], 'room-hall');
    expect(floor.extent).toBe('whole');
    expect(floor.lift?.placedM2).toBeCloseTo(12, 6);
    expect(new Set(floor.lift?.regions.map((r) => r.pourId))).toEqual(new Set(['pour-1', 'pour-2']));
  });

  it('joins the first day, typed from a handwritten log after the second was logged, to what the second placed', () => {
    // The second day, logged live by the plan of all of the room, ended after 6 of 12 m2. Its plan was the only one then.
    const second = pourOf('day-2', { startMin: 2880 });
    const log = new Log('day-2');
    for (const batch of [1, 2, 3]) log.add(2880 + batch * 4, { kind: 'placed', batch, roomId: 'room-hall', lane: null, bags: 2 });
    log.finish(2940, 'partly').mark(2950, 'suspect', '0,0 1,0 1,1 0,1');
    expect(roomFloor([second], log.events, 'room-hall').lift?.placedM2).toBeCloseTo(6, 6);
    // So the first day is laid out as the rest.
    const first = withLayout(pourOf('day-1', { isRest: true, typedMin: 3000 }), REST);
    const typed = new Log('day-1').place(1, 2, 3).finish(30, 'whole');
    const floor = roomFloor([second, first], [...log.events, ...typed.events], 'room-hall');
    expect([floor.extent, floor.lift?.placedM2, floor.lift?.suspectM2]).toEqual(['whole', expect.closeTo(12, 6), expect.closeTo(1, 6)]);
    // By their start, for what happened when.
    expect(floor.pours.map(({ id }) => id)).toEqual(['day-1', 'day-2']);
    // An edge drawn with the handwritten log is of its own floor, and a mark made afterwards of all of it.
    typed.mark(30, 'not-placed', '0,2 1,2 1,3 0,3', true);
    const edge = roomFloor([second, first], [...log.events, ...typed.events], 'room-hall').lift;
    expect([edge?.placedM2, edge?.notPlacedM2]).toEqual([expect.closeTo(11, 6), expect.closeTo(1, 6)]);
    const after = log.mark(3100, 'taken-out', '3,2 4,2 4,3 3,3');
    const marked = roomFloor([second, first], [...after.events, ...typed.events], 'room-hall').lift;
    expect([marked?.takenOutM2, marked?.suspectM2]).toEqual([expect.closeTo(1, 6), expect.closeTo(1, 6)]);
  });

  it('leaves out a pour that placed nothing in the room, and keeps the marks made on it', () => {
    const nothing = new Log('pour-1').finish(30, 'partly');
    expect(roomFloor([pourOf('pour-1')], nothing.events, 'room-hall')).toMatchObject({ extent: 'none', lift: null, pours: [] });
    const [first, empty] = [pourOf('pour-1'), pourOf('pour-2', { isRest: true, startMin: 100 })];
    const log = [
      ...new Log('pour-1').place(1, 2, 3).finish(30).events,
      ...new Log('pour-2')
        .finish(130, 'partly')
        .add(140, { kind: 'marked', roomId: 'room-hall', state: 'suspect', outline: points('0,0 1,0 1,1 0,1'), by: 'RT', why: '' }).events,
    ];
    const floor = roomFloor([first, empty], log, 'room-hall');
    expect(floor.pours.map(({ id }) => id)).toEqual(['pour-1']);
    expect([floor.lift?.placedM2, floor.lift?.suspectM2]).toEqual([expect.closeTo(6, 6), expect.closeTo(1, 6)]);
  });

  it('keeps a pour whose floor was all scraped out again', () => {
    const log = new Log().place(1, 2).add(20, { kind: 'discarded', batch: 1, by: '', why: '' });
    log.add(21, { kind: 'discarded', batch: 2, by: '', why: '' }).finish(30, 'partly');
    const floor = roomFloor([pourOf('pour-1')], log.events, 'room-hall');
    expect([floor.extent, floor.pours.length]).toEqual(['none', 1]);
    expect(floor.lift?.takenOutM2).toBeCloseTo(4, 6);
  });

  it('knows a pour without a stored layout only by its remarks or bags', () => {
    const known = pourOf('pour-1');
    const bare: Pour = { ...known, asPoured: { ...known.asPoured, layout: null } };
    expect(roomFloor([bare], new Log().place(1, 2).finish(30).events, 'room-hall').extent).toBe('partly');
    expect(roomFloor([bare], new Log().place(1, 2, 3, 4, 5).finish(30).events, 'room-hall').extent).toBe('whole');
    const scraped = new Log().place(1, 2, 3, 4, 5).add(21, { kind: 'discarded', batch: 3, by: '', why: '' }).finish(30);
    expect(roomFloor([bare], scraped.events, 'room-hall').extent).toBe('partly');
    expect(roomFloor([bare], new Log().place(1, 2).finish(30, 'whole').events, 'room-hall').extent).toBe('whole');
    expect(roomFloor([], [], 'room-hall').extent).toBe('none');
  });
});

function shoelaceM2(ring: readonly { xM: number; yM: number }[]): number {
  return ring.reduce((sum, p, i) => {
    const q = ring[(i + 1) % ring.length] ?? p;
    return sum + (p.xM * q.yM - q.xM * p.yM) / 2;
  }, 0);
}

describe('the rest of a floor', () => {
  const restOf = (log: Log) => {
    const floor = roomFloor([pourOf('pour-1')], log.events, 'room-hall');
    return { floor, rest: floorRest(floor) };
  };

  it('meets the placed part along its front and both sides of the lane it stopped in', () => {
    // Three of six batches of 2 m²: the front crosses lane 2 (1 m), with 2 m of lane 1 and 2 m of lane 3 beside it.
    const { floor, rest } = restOf(new Log().place(1, 2, 3).finish(30));
    expect(rest?.openM2).toBeCloseTo(6, 6);
    expect(rest?.openShare).toBeCloseTo(0.5, 6);
    expect(rest?.jointM).toBeCloseTo(5, 3);
    expect(rest?.sinceAt).toBe(instantOf(12));
    const points = restPoints(
      [0.5, 2.5].flatMap((yM) => [0.5, 1.5, 2.5, 3.5].map((xM) => ({ xM, yM }))),
      floor,
    );
    // All of lane 3 is open; of lane 1, the part near the joint ties the readings.
    expect(points.filter(({ yM }) => yM === 2.5)).toHaveLength(4);
    expect(points.filter(({ yM }) => yM === 0.5).length).toBeGreaterThanOrEqual(2);
  });

  it('is nothing where the floor is complete and sound, and the patches where areas were marked', () => {
    const whole = new Log().place(1, 2, 3, 4, 5, 6).finish(30);
    expect(restOf(whole).rest).toBeNull();
    const outline = points('1,0.5 2,0.5 2,1.5 1,1.5');
    const mark = { kind: 'marked', roomId: 'room-hall', outline, by: 'MP', why: 'sounds hollow' };
    whole.add(40, { ...mark, state: 'suspect', defect: 'hollow' });
    // One patch across two lanes.
    expect(restOf(whole).rest?.patches).toMatchObject([{ defect: 'hollow', areaM2: expect.closeTo(1, 6) }]);
    expect(restOf(whole).rest?.toCheckM2).toBe(0);
    whole.add(50, { ...mark, state: 'placed', why: 'repaired' });
    expect(restOf(whole).rest).toBeNull();
  });

  it('is nothing once its suspect floor was checked and is sound, around a hollow spot that still needs its patch', () => {
    const mark = { kind: 'marked', roomId: 'room-hall', by: 'MP', why: 'sounds hollow', state: 'suspect' };
    const log = new Log().place(1, 2, 3, 4, 5, 6).add(25, { kind: 'incident', what: 'wrong-water', batch: 3, note: '' });
    log.finish(30).add(40, { ...mark, defect: 'hollow', outline: points('2.5,1.3 3,1.3 3,1.6 2.5,1.6') });
    const { toCheck = [], toCheckM2 } = restOf(log).rest ?? {};
    // A batch of 2 m² less the spot of 0.15 m².
    expect(toCheckM2).toBeCloseTo(1.85, 6);
    const state = pourState(NO_PLAN, pourOf('pour-1'), log.events, instantOf(50));
    toCheck.forEach(({ outline }, i) => {
      const area = { roomId: 'room-hall', outline, by: 'MP', why: 'checked, sound' };
      log.add(50, { ...repairedEntry(state, { id: `sound-${i}`, pourId: 'pour-1', instant: instantOf(50) }, area).event, seq: 90 + i });
    });
    expect(restOf(log).rest).toMatchObject({ toCheck: [], toCheckM2: 0, patches: [{ defect: 'hollow', areaM2: expect.closeTo(0.15, 6) }] });
    log.add(60, { kind: 'undone', eventId: 'sound-0' });
    expect(restOf(log).rest?.toCheckM2).toBeGreaterThan(0);
  });
});
