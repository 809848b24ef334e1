import { describe, expect, it } from 'vitest';
import { type JobReading, readJob } from '../../../shared-core/standing/read-job.ts';
import { middleJoint, withTaskTime } from '../../../shared-core/standing/edit-pour-plan.ts';
import { firstPourPlan, lastPour, readPour, roomFloorOf, roomsOfGo, runningPour } from '../../../shared-core/standing/read-pour.ts';
import { pouredPlanOf, readPourRecord } from '../../../shared-core/standing/read-poured.ts';
import type { JobRoom } from '../../../shared-core/book/job.ts';
import type { Point } from '../../../shared-core/book/fields.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { pointInRegion } from '../../../shared-core/plan/region.ts';
import { heightAt } from '../../../shared-core/survey/surface.ts';
import type { Pour, PourEvent } from '../../../shared-core/book/pour-record.ts';
import type { ComputedLayout } from '../../../shared-core/pour/layout.ts';
import { INCH_M } from '../../../shared-core/measure/length-units.ts';
import { liftWords, pourProblemWords } from '../../../shared-core/documents/pour-words.ts';
import { helperCount } from '../../../shared-core/pour/crew-names.ts';
import { barePlan } from '../pour/bare-plan.ts';
import { typicalMaterials } from '../../../shared-core/material/typical-materials.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';

const NOW = '2026-05-12T12:00:00.000Z';
const whole = wholeJobsOf(sampleAt(NOW)).find((w) => w.job.id === 'sample-job-lindqvist');
if (whole === undefined) throw new Error('The sample has the job that is poured today.');
// None of its rooms is poured yet; poured rooms are not planned again.
const unpoured = { ...whole, pours: [], pourEvents: [] };
const reading = readJob(unpoured, NOW);
const withRooms = (update: (room: JobRoom) => JobRoom): JobReading =>
  readJob({ ...unpoured, job: { ...whole.job, rooms: whole.job.rooms.map(update) } }, NOW);
const family = reading.rooms.find((r) => r.room.id === 'sample-family');
if (family === undefined) throw new Error('The sample has a family room.');
const refusal = (read: ReturnType<typeof readPour>): string => (read.ok ? '' : pourProblemWords(read.problem));

/** A room too deep for one lift: the first lift fills deep places, the last covers the floor. Common practice, no source. */
describe('a pour in two lifts', () => {
  const odell = wholeJobsOf(sampleAt(NOW)).find((w) => w.job.id === 'sample-job-odell');
  if (odell === undefined) throw new Error('The sample has the job of the hall.');
  const hall = readJob(odell, NOW);
  const estimate = hall.rooms.find((r) => r.room.id === 'sample-hall')?.estimate;
  const lifts = estimate?.takeoff.lifts;
  if (estimate?.survey.state !== 'surveyed' || lifts == null) throw new Error('The hall is surveyed.');
  const { fill } = estimate.survey.level;
  const poured = (lift: number) => {
    const read = readPour(hall, ['sample-hall'], null, { plans: [], lift });
    if (!read.ok || !read.value.layout.ok) throw new Error('It can be laid out.');
    return { read: read.value, layout: read.value.layout.value };
  };
  const depthAt = (layout: ReturnType<typeof poured>['layout'], xM: number, yM: number): number => {
    const depth = (layout as ComputedLayout).bays[0]?.depth ?? 0;
    return typeof depth === 'number' ? depth : depth({ xM, yM });
  };

  it('takes in total what the survey fills, no lift deeper than its share, and the last one no thinner than the whole depth', () => {
    expect(lifts.count).toBe(2);
    const [low, top] = [poured(1).layout, poured(2).layout];
    expect(Math.abs((low.volumeM3 + top.volumeM3) / fill.volumeM3 - 1)).toBeLessThan(0.01);
    for (const { xM, yM } of hall.rooms[0]?.room.survey.readings ?? []) {
      const [under, over] = [depthAt(low, xM, yM), depthAt(top, xM, yM)];
      expect(under).toBeLessThanOrEqual(lifts.eachMostM + 1e-6);
      expect(over).toBeLessThanOrEqual(lifts.eachMostM + 1e-9);
      // Where the first lift does not reach, the last is the whole depth; where it does, the last is a full share.
      if (under > 0) expect(over).toBeCloseTo(lifts.eachMostM, 9);
    }
  });

  it('pours only the deep places first, and says so', () => {
    const [low, top] = [poured(1), poured(2)];
    expect(low.layout.volumeM3).toBeGreaterThan(0);
    expect(low.layout.volumeM3).toBeLessThan(top.layout.volumeM3 / 2);
    expect(low.layout.lanes.length).toBeLessThan(top.layout.lanes.length);
    expect(liftWords(low.read)).toBe('lift 1 of 2, deep areas');
    expect(liftWords(top.read)).toBe('lift 2 of 2, all of the floor');
    const first = readPour(hall, ['sample-hall']);
    expect(first.ok && first.value.bagsNeeded).toBe(low.read.bagsNeeded);
  });

  // 3 9/16 in. even: each lift takes an equal share of the depth of the whole room.
  it('covers all of the floor with every lift where the depth is even', () => {
    const even = odell.job.rooms.map((jobRoom) =>
      jobRoom.roomId === 'sample-hall'
        ? { ...jobRoom, level: { ...jobRoom.level, mode: 'follow' as const, followThicknessM: 3.5625 * INCH_M } }
        : jobRoom,
    );
    const read = readPour(readJob({ ...odell, job: { ...odell.job, rooms: even } }, NOW), ['sample-hall']);
    expect(read.ok && liftWords(read.value)).toMatch(/^lift 1 of [2-9], all of the floor$/);
  });

  // Common practice, no source: 3/8 in. of cover over a mat of 1/8 in., whatever lift meets the floor.
  it('holds the last lift to the depth over the heat, where the first leaves floor bare', () => {
    const rooms = odell.rooms.map((room) =>
      room.id === 'sample-hall' ? { ...room, circumstances: { ...room.circumstances, radiantHeat: 'electric-in-pour' as const } } : room,
    );
    const read = readPour(readJob({ ...odell, rooms }, NOW), ['sample-hall'], null, { plans: [], lift: 2 });
    expect(read.ok && read.value.leastM).toBeGreaterThanOrEqual(INCH_M / 2);
  });

  it('ties readings of the rest of the first lift to the top of that lift, not to the finished floor', () => {
    const { read, layout } = poured(1);
    const [lent] = wholeJobsOf(sampleAt(NOW)).flatMap((w) => w.pours.filter((p) => p.finishedAt !== null));
    if (estimate.survey.state !== 'surveyed' || lent === undefined)
      throw new Error('The hall is surveyed, and the sample has a finished pour.');
    const { surface } = estimate.survey.floor;
    const asPoured = pouredPlanOf(read, []);
    const pour: Pour = { ...lent, id: 'pour-1', jobId: odell.job.id, roomIds: ['sample-hall'], lift: 1, plans: [], asPoured };
    const stamp = { pourId: pour.id, instant: pour.startedAt ?? NOW, estimated: false };
    const half = layout.batches.slice(0, Math.floor(layout.batches.length / 2));
    const pourEvents: PourEvent[] = half.map((batch, i) => ({
      ...{
        ...stamp,
        id: `event-${i}`,
        seq: i + 1,
        kind: 'placed',
        batch: batch.number,
        roomId: 'sample-hall',
        lane: null,
        bags: batch.bags,
      },
    }));
    const rest = (surveyRest: Room['surveyRest']) => {
      const rooms = odell.rooms.map((room) => (room.id === 'sample-hall' ? { ...room, surveyRest } : room));
      return readJob({ ...odell, rooms, pours: [pour], pourEvents }, NOW);
    };
    const volumeM3 = (of: JobReading): number => {
      const next = readPour(of, ['sample-hall']);
      if (!next.ok || !next.value.layout.ok) throw new Error('The rest can be laid out.');
      expect(next.value.lifts).toEqual([{ number: 1, of: 2, isRest: true }]);
      return next.value.layout.value.volumeM3;
    };
    const before = rest(null);
    const placed = roomFloorOf(before, 'sample-hall').lift?.regions.filter((region) => region.state === 'placed') ?? [];
    const onPlaced = (point: Point) => placed.some(({ floor }) => floor.some((piece) => pointInRegion(point, piece) === 'inside'));
    // The laser stands 0.7 m higher. What was placed lies on the bare floor, as deep as it was poured there.
    const outline = before.whole.rooms.find((room) => room.id === 'sample-hall')?.plan.outline ?? [];
    const [xMost, yMost] = [Math.max(...outline.map((p) => p.xM)), Math.max(...outline.map((p) => p.yM))];
    const readings = Array.from({ length: 40 * 40 }, (_, i) => ({
      xM: ((i % 40) + 0.5) * (xMost / 40),
      yM: (Math.floor(i / 40) + 0.5) * (yMost / 40),
    }))
      .filter((point) => pointInRegion(point, { outline, holes: [] }) === 'inside')
      .map((point, i) => {
        const placedM = onPlaced(point) ? depthAt(layout, point.xM, point.yM) : 0;
        return {
          id: `again-${i}`,
          ...point,
          valueM: heightAt(surface, point.xM, point.yM).zM + placedM + 0.7,
          note: null,
          confirmed: false,
        };
      });
    const survey = before.whole.rooms.find((room) => room.id === 'sample-hall')?.survey;
    if (survey === undefined) throw new Error('The hall is there.');
    const after = rest({ ...survey, method: 'height', readings });
    expect(readings.filter(onPlaced).length).toBeGreaterThan(10);
    expect(Math.abs(volumeM3(after) / volumeM3(before) - 1)).toBeLessThan(0.1);
  });

  it('takes the minutes of one simulated lift for its share of the whole', () => {
    const { read, layout } = poured(1);
    const minutes = (likely: object): number => {
      const rooms = odell.job.rooms.map((r) => (r.roomId === 'sample-hall' ? { ...r, pourPlan: { ...read.first, ...likely } } : r));
      const repeated = readJob({ ...odell, job: { ...odell.job, rooms } }, NOW);
      return repeated.rooms.find((r) => r.room.id === 'sample-hall')?.estimate?.takeoff.pourMinutes ?? Number.NaN;
    };
    expect(minutes({ likelyMinutes: 30, likelyVolumeM3: fill.volumeM3 })).toBe(30);
    expect(minutes({ likelyMinutes: 30, likelyVolumeM3: layout.volumeM3 })).toBe(Math.round((30 * fill.volumeM3) / layout.volumeM3));
    expect(minutes({ likelyMinutes: 30 })).toBe(30);
  });

  it('is one lift for all its rooms: rooms at different lifts are poured separately', () => {
    const [ofHall, roomHall] = [odell.job.rooms.find((r) => r.roomId === 'sample-hall'), odell.rooms.find((r) => r.id === 'sample-hall')];
    const [lent] = wholeJobsOf(sampleAt(NOW)).flatMap((w) => w.pours.filter((p) => p.finishedAt !== null));
    if (ofHall === undefined || roomHall === undefined || lent === undefined) throw new Error('The sample has a hall and a finished pour.');
    // Two halls side by side, the first poured once.
    const twin = 'sample-laundry';
    const two = {
      ...odell,
      rooms: odell.rooms.map((r) => (r.id === twin ? { ...roomHall, id: twin, name: 'Second hall' } : r)),
      job: { ...odell.job, rooms: odell.job.rooms.map((r) => (r.roomId === twin ? { ...ofHall, roomId: twin } : r)) },
    };
    const both = readPour(readJob(two, NOW), ['sample-hall', twin]);
    expect(both.ok && both.value.lift).toEqual({ number: 1, of: 2 });
    const pour = { ...lent, jobId: odell.job.id, roomIds: ['sample-hall'], lift: 1, asPoured: barePlan(['sample-hall'], 1, 2) };
    const stamp = { pourId: pour.id, instant: pour.startedAt ?? NOW, estimated: false };
    const begun = {
      ...two,
      pours: [pour],
      pourEvents: [
        { ...stamp, id: 'event-1', seq: 1, kind: 'placed' as const, batch: 1, roomId: 'sample-hall', lane: 1, bags: 2 },
        { ...stamp, id: 'event-2', seq: 2, kind: 'finished' as const, bagsLeft: 0, floor: 'whole' as const },
      ],
    };
    expect(refusal(readPour(readJob(begun, NOW), ['sample-hall', twin]))).toBe(
      'Hall is at lift 2 and Second hall is at lift 1. Pour them separately.',
    );
    const own = readPour(readJob(begun, NOW), ['sample-hall']);
    expect(own.ok && own.value.lift).toEqual({ number: 2, of: 2 });
  });

  it('is one lift where one is enough', () => {
    const read = readPour(reading, ['sample-family']);
    expect(read.ok && liftWords(read.value)).toBe('');
  });
});

describe('a pour read from a job', () => {
  it('is held to the greater minimum thickness over wood, and still is once it is on record', () => {
    const odell = wholeJobsOf(sampleAt(NOW)).find((w) => w.job.id === 'sample-job-odell');
    if (odell === undefined) throw new Error('The sample has the job of the hall, which has a plywood floor.');
    const leastOf = (overWoodM: number) => {
      const value = (valueM: number) => ({ value: valueM, source: 'bag' as const });
      const materials = odell.materials.map((material) =>
        material.powder === null
          ? material
          : {
              ...material,
              powder: {
                ...material.powder,
                liftM: { value: { least: INCH_M / 8, most: 2 * INCH_M }, source: 'bag' as const },
                overWoodLeastM: value(overWoodM),
              },
            },
      );
      const ofHall = readJob({ ...odell, materials }, NOW);
      const read = readPour(ofHall, ['sample-hall']);
      if (!read.ok) throw new Error(read.problem.kind);
      const asPoured = pouredPlanOf(read.value, []);
      const record = readPourRecord(ofHall, { id: 'pour-1', plans: [], bagsPlanned: 1, asPoured });
      return [read.value.leastM, asPoured.minThicknessM, record.ok ? record.value.leastM : null];
    };
    expect(leastOf((3 * INCH_M) / 8)).toEqual(Array.from({ length: 3 }, () => (3 * INCH_M) / 8));
    expect(leastOf(INCH_M / 16)).toEqual(Array.from({ length: 3 }, () => INCH_M / 8));
  });

  // Common practice, no source: 3/8 in. of cover over a mat of 1/8 in.
  it('is held to the cover and the thickness of the heat that it covers', () => {
    const heated = whole.rooms.map((room) =>
      room.id === 'sample-family' ? { ...room, circumstances: { ...room.circumstances, radiantHeat: 'electric-in-pour' as const } } : room,
    );
    const read = readPour(readJob({ ...whole, rooms: heated }, NOW), ['sample-family']);
    expect(read.ok && read.value.leastM).toBeCloseTo(INCH_M / 2, 9);
  });

  it('pours as much as the survey fills, lane by lane', () => {
    const read = readPour(reading, ['sample-family']);
    if (!read.ok || !read.value.layout.ok || family.estimate?.survey.state !== 'surveyed') throw new Error('It can be read.');
    // The survey's volume sums triangles, the layout's sums lanes read every 50 mm: two ways to one figure.
    const fill = family.estimate.survey.level.fill.volumeM3;
    expect(Math.abs(read.value.layout.value.volumeM3 / fill - 1)).toBeLessThan(0.01);
  });

  it('uses the temperature measured on the floor: a warmer floor has shorter times', () => {
    const clocks = (tempC: number | null) => {
      const read = readPour(reading, ['sample-family'], tempC);
      if (!read.ok) throw new Error(read.problem.kind);
      return read.value.clocks.healingMin;
    };
    expect(clocks(28)).toBeLessThan(clocks(null));
    expect(clocks(12)).toBeGreaterThan(clocks(null));
  });

  it('says what is missing, room by room', () => {
    expect(refusal(readPour(reading, []))).toContain('Select the rooms');
    const bare = withRooms((r) => ({ ...r, materialId: null }));
    expect(refusal(readPour(bare, ['sample-family']))).toContain('Choose a product');
  });

  it('refuses rooms of two products in one pour, and names the other one', () => {
    const two = withRooms((r) => (r.roomId === 'sample-sunroom' ? { ...r, materialId: 'another' } : r));
    expect(refusal(readPour(two, ['sample-family', 'sample-sunroom']))).toContain('Sunroom uses a different product');
  });

  it('pours its rooms in the chosen order, numbering lanes and batches through', () => {
    const powder = family.jobRoom.materialId;
    const go = withRooms((r) => ({
      ...r,
      materialId: powder,
      pourPlan: r.pourPlan === null ? null : { ...r.pourPlan, withRoomIds: ['sample-sunroom', 'gone'] },
    }));
    expect(roomsOfGo(go, 'sample-family')).toEqual(['sample-family', 'sample-sunroom']);
    const both = readPour(go, roomsOfGo(go, 'sample-family'));
    if (!both.ok || !both.value.layout.ok) throw new Error('Both rooms can be laid out.');
    const { lanes, batches, volumeM3, batchM3 } = both.value.layout.value;
    expect(lanes.map((s) => s.number)).toEqual(lanes.map((_, i) => i + 1));
    const turn = lanes.findIndex((s) => s.roomId === 'sample-sunroom');
    expect(lanes.every((s, i) => s.roomId === (i < turn ? 'sample-family' : 'sample-sunroom'))).toBe(true);
    expect(Math.abs(batches.length - volumeM3 / batchM3)).toBeLessThan(1);
  });

  it('pours a room in the place its own plan names, with the crew of the plan that includes the others', () => {
    const powder = family.jobRoom.materialId;
    const own = family.jobRoom.pourPlan ?? firstPourPlan(family, reading.whole);
    const go = withRooms((r) =>
      r.roomId === 'sample-family'
        ? {
            ...r,
            pourPlan: { ...own, crew: { ...own.crew, mixers: 5 }, withRoomIds: ['sample-sunroom', 'sample-family'] },
          }
        : { ...r, materialId: powder },
    );
    const ids = roomsOfGo(go, 'sample-family');
    expect(ids).toEqual(['sample-sunroom', 'sample-family']);
    const both = readPour(go, ids);
    expect(both.ok && both.value.first.crew.mixers).toBe(5);
    expect(both.ok && both.value.layout.ok && both.value.layout.value.lanes[0]?.roomId).toBe('sample-sunroom');
    // The other room alone is a pour of its own.
    expect(roomsOfGo(go, 'sample-sunroom')).toEqual(['sample-sunroom']);
  });

  it('reads a recorded pour against the plan it was started with, whatever is planned afterward', () => {
    const opened = readPour(reading, ['sample-family']);
    if (!opened.ok) throw new Error(opened.problem.kind);
    const plans = [{ roomId: 'sample-family', plan: opened.value.first }];
    const pour = { id: 'pour-1', plans, bagsPlanned: 37, asPoured: pouredPlanOf(opened.value, []) };
    const other = { ...opened.value.first, laneWidthM: opened.value.first.laneWidthM * 2, pattern: 'one-way' as const };
    const later = withRooms((r) => (r.roomId === 'sample-family' ? { ...r, pourPlan: other } : r));
    const lanes = (of: ReturnType<typeof readPour>) => (of.ok && of.value.layout.ok ? of.value.layout.value.lanes.length : 0);
    expect(lanes(readPour(later, ['sample-family']))).toBeLessThan(lanes(opened));
    const record = readPourRecord(later, pour);
    expect(lanes(record)).toBe(lanes(opened));
    expect(record.ok && record.value.first.pattern).toBe(opened.value.first.pattern);
  });

  it('stores the aggregate of a lift under its cap, in containers per bag, and none for the cap', () => {
    const opened = readPour(reading, ['sample-family']);
    const [lead] = opened.ok ? opened.value.rooms : [];
    const takeoff = lead?.estimate?.takeoff;
    if (!opened.ok || lead?.estimate == null || takeoff?.lifts == null) throw new Error('The family room is estimated.');
    // 25 lb in each bag, from bags of 50 lb: half of one (1 lb = 0.45359237 kg, NIST SP 811).
    const aggregate = { aggregateKg: 25 * 0.45359237, mixM3: 1, densityKgM3: 1, yieldM3: 1, bagShare: 1, totalKg: 1 };
    const mixed = { ...takeoff, aggregate, lifts: { ...takeoff.lifts, extended: true, count: 2 } };
    const rooms = [{ ...lead, estimate: { ...lead.estimate, takeoff: mixed } }];
    const sheets = typicalMaterials((name) => name, NOW, 'UTC');
    const stored = (number: number) =>
      pouredPlanOf({ ...opened.value, rooms, lifts: [{ number, of: 2, isRest: false }] }, sheets).aggregate;
    expect(stored(1)?.containersPerBag).toBeCloseTo(0.5, 9);
    expect(sheets.find(({ id }) => id === stored(1)?.materialId)?.kind).toBe('aggregate');
    expect(stored(2)).toBeUndefined();
  });

  it('starts with even lanes across the long side', () => {
    const plan = firstPourPlan(family, reading.whole);
    const lanes = (21 * 0.3048) / plan.laneWidthM;
    expect(Math.abs(lanes - Math.round(lanes))).toBeLessThan(1e-9);
    expect(plan.angleDeg).toBe(90);
  });

  it('counts as many helpers as the estimate and the prep list before a plan is made', () => {
    for (const crewSize of [undefined, 2, 5])
      for (const crewNames of [[], ['Bea Lorne'], ['Bea Lorne', 'Ike Marsh', 'Jo Penn', 'Al Roe', 'Cy Dahl']]) {
        const { job, business: asked } = reading.whole;
        const business = crewSize === undefined ? asked : { ...asked, crewSize };
        const { crew } = firstPourPlan(family, { business, job: { ...job, crewNames } });
        expect(crew.mixers + crew.carriers + crew.spreaders - 1).toBe(helperCount(null, crewNames, business));
      }
  });

  it('puts a first joint across the middle of the lanes', () => {
    const joint = middleJoint(family, { angleDeg: 90 }, 'j');
    // The family room is 21 by 17 ft, so lanes along it are cut at half of 17 ft.
    expect(joint?.from.yM).toBeCloseTo(8.5 * 0.3048, 6);
    expect(joint?.to.yM).toBeCloseTo(8.5 * 0.3048, 6);
    expect(Math.abs((joint?.to.xM ?? 0) - (joint?.from.xM ?? 0))).toBeCloseTo(21 * 0.3048, 6);
  });

  it('keeps a task’s minimum, usual and maximum in order whichever is entered', () => {
    const times = { least: 1, usual: 2, most: 4 };
    expect(withTaskTime(times, 'least', 3)).toEqual({ least: 3, usual: 3, most: 4 });
    expect(withTaskTime(times, 'usual', 5)).toEqual({ least: 1, usual: 5, most: 5 });
    expect(withTaskTime(times, 'most', 0.5)).toEqual({ least: 0.5, usual: 0.5, most: 0.5 });
  });

  it('finds the running pour and the last finished one', () => {
    const pour = (id: string, startedAt: string, finishedAt: string | null): Pour => ({
      id,
      createdAt: startedAt,
      changedAt: startedAt,
      deletedAt: null,
      jobId: 'j',
      roomIds: ['r'],
      lift: 1,
      materialId: 'm',
      startedAt,
      finishedAt,
      bagsOnSite: 10,
      bagsPlanned: 10,
      asPoured: barePlan(['r']),
      fromPaper: false,
      notes: '',
    });
    const pours = [pour('b', '2026-05-02T09:00:00Z', '2026-05-02T10:00:00Z'), pour('a', '2026-05-01T09:00:00Z', '2026-05-01T10:00:00Z')];
    expect(runningPour(pours, 'r')).toBeNull();
    expect(lastPour(pours, 'r')?.id).toBe('b');
    expect(runningPour([...pours, pour('c', '2026-05-03T09:00:00Z', null)], 'r')?.id).toBe('c');
  });
});
