import { describe, expect, it } from 'vitest';
import { pourSchema } from '../../../shared-core/book/pour-record.ts';
import { hasAggregate } from '../../../shared-core/material/lifts.ts';
import { extendedBag } from '../../../shared-core/material/takeoff.ts';
import { INCH_M } from '../../../shared-core/measure/length-units.ts';
import { bagsToMix } from '../../../shared-core/pour/layout.ts';
import { type JobReading, readJob } from '../../../shared-core/standing/read-job.ts';
import { readPour } from '../../../shared-core/standing/read-pour.ts';
import { pouredPlanOf } from '../../../shared-core/standing/read-poured.ts';
import { shoppingFor } from '../../../shared-core/standing/shopping-for.ts';
import { at, family, firstSection, jobOf, logOf, NOW, ofSection, ROOM } from '../documents/poured-family.ts';

const HALL = 'sample-hall';
const odell = jobOf('sample-job-odell');

/** The hall alone, filled evenly so many inches deep: what each lift takes is known by hand. */
function evenHall(depthIn: number, withAggregate: boolean): typeof odell {
  const rooms = odell.job.rooms.flatMap((room) =>
    room.roomId === HALL
      ? [{ ...room, withAggregate, level: { ...room.level, mode: 'follow' as const, followThicknessM: depthIn * INCH_M, textureM: 0 } }]
      : [],
  );
  return { ...odell, job: { ...odell.job, rooms } };
}

/** The job after its next pour placed a whole lift of the hall on a day of May. */
function withNextLift(whole: typeof odell, day: string): typeof odell {
  const read = readPour(readJob(whole, at(day, 0)), [HALL]);
  if (!read.ok || !read.value.layout.ok) throw new Error('The hall can be laid out.');
  const layout = read.value.layout.value;
  const id = `pour-${day}`;
  const pour = pourSchema.parse({
    ...{ id, createdAt: at(day, 0), changedAt: at(day, 0), deletedAt: null, jobId: odell.job.id, roomIds: [HALL] },
    ...{ lift: read.value.lift.number, materialId: read.value.material.id, startedAt: at(day, 0), finishedAt: at(day, 400) },
    ...{ fromPaper: false, notes: '', bagsOnSite: read.value.bagsToBring, bagsPlanned: read.value.bagsNeeded },
    asPoured: pouredPlanOf(read.value, whole.materials),
  });
  const log = logOf(id, [
    ...layout.batches.map(({ number }) => ({
      ...{ kind: 'placed', batch: number, roomId: HALL, lane: null, bags: bagsToMix(layout, number), instant: at(day, number) },
    })),
    { kind: 'finished', bagsLeft: null, floor: 'whole', instant: at(day, 400) },
  ]);
  return { ...whole, pours: [...whole.pours, pour], pourEvents: [...whole.pourEvents, ...log] };
}

/** What each place of the program says of the next pour, in bags; the water of the prep line in those of the data sheet's most. */
function saidOf(reading: JobReading, roomId: string) {
  const read = readPour(reading, [roomId]);
  const roomReading = reading.rooms.find(({ room }) => room.id === roomId);
  const sheet = roomReading?.estimate?.takeoff.sheet;
  if (!read.ok || roomReading === undefined || sheet == null) throw new Error('The room is estimated.');
  const amountOf = (key: string) => roomReading.preparation.lines.find((line) => line.key === key)?.item?.amount?.value ?? Number.NaN;
  const { items } = shoppingFor(reading, reading.estimate.base).list;
  const powder = items.find(({ materialId, rooms }) => materialId === read.value.material.id && rooms.includes(roomReading.room.name));
  return {
    pourDay: read.value.bagsToBring,
    needed: read.value.bagsNeeded,
    staged: amountOf('stage'),
    measured: Math.round((amountOf('water') / sheet.waterL.value.most) * 1e6) / 1e6,
    agenda: reading.bundle.summaries.find((summary) => summary.roomId === roomId)?.nextBags,
    toBuy: Math.round(((powder?.need ?? Number.NaN) / sheet.bagKg.value) * 1e6) / 1e6,
    primedAgain: items.some(({ kind }) => kind === 'primer'),
  };
}

// Arithmetic by hand: area times the depth of the lift, over the volume of a bag less its waste. Common practice, no source: a cap of
// 1/4 in. without aggregate.
describe.each([
  ['without aggregate', 2.75, false],
  ['with aggregate', 3.5, true],
])('a floor in three lifts, %s', (_, depthIn, withAggregate) => {
  const whole = evenHall(depthIn, withAggregate);
  const first = readJob(whole, NOW);
  const taken = first.rooms[0]?.estimate?.takeoff;
  const { lifts, sheet, bags } = taken ?? {};
  if (taken === undefined || lifts == null || sheet == null || bags == null) throw new Error('The hall is estimated.');
  const mixM3 = extendedBag(sheet)?.mixM3 ?? Number.NaN;
  const exact = [1, 2, 3].map((lift) => {
    const depthM = (withAggregate ? (lift === 3 ? 0.25 : (depthIn - 0.25) / 2) : depthIn / 3) * INCH_M;
    return (taken.room.areaM2 * depthM * (1 + taken.lossShare)) / (hasAggregate(lifts, lift) ? mixM3 : sheet.yieldM3.value);
  });
  const bring = exact.map((count) => Math.ceil((count * bags.quotedBags) / bags.exactBags - 1e-6));

  it('takes the bags of each lift by its own mix, those of the room in all', () => {
    expect([lifts.count, lifts.extended]).toEqual([3, withAggregate]);
    for (const [i, count] of exact.entries()) expect(taken.liftBags?.[i]).toBeCloseTo(count, 6);
    expect(exact.reduce((sum, count) => sum + count, 0)).toBeCloseTo(bags.exactBags, 6);
  });

  // Primer is applied to a floor that is clean and has its profile (ASTM F2873): the skin is abraded before it is primed, not after.
  it('has before each lift the priming that is priced for it, and before the later ones the abrading first', () => {
    const priced = taken.hours.find(({ key }) => key === 'prime')?.ownHours ?? Number.NaN;
    let job = whole;
    let primeHours = 0;
    for (const [i, day] of ['13', '15', '17'].entries()) {
      const lines = readJob(job, at(day, -60)).rooms.find(({ room }) => room.id === HALL)?.preparation.lines ?? [];
      primeHours += lines.find(({ key }) => key === 'prime')?.item?.hours ?? Number.NaN;
      const order = lines.flatMap(({ key, item }) => (item !== null && (key === 'prime' || key === 'between-lifts') ? [key] : []));
      expect(order).toEqual(i === 0 ? ['prime'] : ['between-lifts', 'prime']);
      expect(lines.find(({ key }) => key === 'between-lifts')?.item?.holdsPour).toBe(i === 0 ? undefined : true);
      job = withNextLift(job, day);
    }
    expect(Math.abs(primeHours - priced)).toBeLessThan(0.05);
  });

  it('stages for the next lift what its pour takes, and still buys for the lifts after it', () => {
    let job = whole;
    for (const [i, day] of ['13', '15', '17'].entries()) {
      const said = saidOf(readJob(job, at(day, -60)), HALL);
      const one = bring[i];
      expect(said).toMatchObject({ pourDay: one, staged: one, measured: one, agenda: one, primedAgain: true });
      expect(said.needed).toBeLessThanOrEqual(one ?? Number.NaN);
      expect(said.toBuy).toBe(i === 0 ? bags.quotedBags : bring.slice(i).reduce((sum, count) => sum + count, 0));
      job = withNextLift(job, day);
    }
    expect(shoppingFor(readJob(job, at('18', 0)), readJob(job, at('18', 0)).estimate.base).pouredRooms).toHaveLength(1);
  });
});

describe('a room in two sections', () => {
  it('stages for each section what its pour takes, and not for the room', () => {
    const all = readJob(family, NOW).rooms.find(({ room }) => room.id === ROOM)?.estimate?.takeoff.bags?.quotedBags ?? Number.NaN;
    const [one, two] = [saidOf(readJob(ofSection(family, 1), NOW), ROOM), saidOf(readJob(ofSection(firstSection(), 2), at('20', 0)), ROOM)];
    for (const said of [one, two]) {
      expect(said.staged).toBe(said.pourDay);
      expect(said.measured).toBe(said.pourDay);
      expect(said.pourDay).toBeLessThan(all);
    }
    expect(Math.abs(one.pourDay + two.pourDay - all)).toBeLessThanOrEqual(1);
  });
});
