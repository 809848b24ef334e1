import { describe, expect, it } from 'vitest';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { jobNeeds, shoppingFor, usedBySigning } from '../../../shared-core/standing/shopping-for.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';

const NOW = '2026-05-12T12:00:00.000Z';
const sample = wholeJobsOf(sampleAt(NOW)).find(({ job }) => job.id === 'sample-job-lindqvist');
if (sample === undefined) throw new Error('The sample has the job that is poured today.');
const bare = {
  ...sample,
  job: { ...sample.job, rooms: sample.job.rooms.map((room) => ({ ...room, signed: [], primedAt: null, primerCoatsDone: 0 })) },
};
const bought = (whole: typeof sample) => {
  const reading = readJob(whole, NOW);
  const kindOf = (id: string | null) => whole.materials.find((m) => m.id === id)?.kind ?? 'none';
  return {
    listed: shoppingFor(reading, reading.estimate.base).list.items.map((item) => kindOf(item.materialId)),
    reserved: jobNeeds(reading).map((need) => kindOf(need.materialId)),
  };
};

// Common practice, no source: what is nailed, glued or rolled onto the floor is not bought again.
describe('what is still to buy', () => {
  it('has strip, dams and primer before prep is signed', () => {
    const { listed, reserved } = bought(bare);
    for (const kind of ['perimeter-strip', 'primer', 'cement-underlayment']) {
      expect(listed).toContain(kind);
      expect(reserved).toContain(kind);
    }
  });

  it('has none of them once their lines are signed and the floor is primed, and still has the bags', () => {
    const { listed, reserved } = bought(sample);
    expect(sample.job.rooms.every(({ primedAt }) => primedAt !== null)).toBe(true);
    for (const kind of ['perimeter-strip', 'dam', 'primer']) {
      expect(listed).not.toContain(kind);
      expect(reserved).not.toContain(kind);
    }
    expect(listed).toContain('cement-underlayment');
  });

  it('takes out of stock what signing a line ends the need for, and nothing for other lines', () => {
    const reading = readJob(bare, NOW);
    const roomIds = bare.job.rooms.map(({ roomId }) => roomId);
    const used = (key: string) => roomIds.flatMap((roomId) => usedBySigning(reading, roomId, key));
    const { items } = shoppingFor(reading, reading.estimate.base).list;
    // The need of the list itself, in containers: strip and dams go in one line, primer in one coat before a single lift.
    const needOf = (kind: string) => {
      const [item] = items.filter((one) => one.kind === kind);
      return { id: item?.materialId, containers: (item?.need ?? 0) / (item?.each ?? 1) };
    };
    for (const [key, kind] of [
      ['isolation-strip', 'perimeter-strip'],
      ['prime', 'primer'],
    ] as const) {
      const { id, containers } = needOf(kind);
      expect(containers).toBeGreaterThan(0);
      expect(new Set(used(key).map(({ materialId }) => materialId))).toEqual(new Set([id]));
      expect(used(key).reduce((sum, one) => sum + one.containers, 0)).toBeCloseTo(containers, 9);
    }
    expect(used('vacuum')).toEqual([]);
    // Each room's own: primer by the area it covers.
    const unpoured = readJob({ ...bare, pours: [], pourEvents: [] }, NOW);
    const shares = roomIds.flatMap((id) => {
      const taken = unpoured.estimate.base.takeoff.rooms.find(({ room }) => room.roomId === id);
      const own = usedBySigning(unpoured, id, 'prime').reduce((sum, one) => sum + one.containers, 0);
      return taken === undefined || own === 0 ? [] : [own / (taken.primer?.neatL ?? 0)];
    });
    expect(shares.length).toBeGreaterThan(1);
    for (const share of shares) expect(share).toBeCloseTo(shares[0] ?? 0, 9);
  });

  it('has the primer of the lifts that follow once the floor is primed for the first', () => {
    const deep = (of: typeof sample) => {
      const rooms = of.job.rooms.map((room) => ({ ...room, level: { ...room.level, leastThicknessM: 0.04 } }));
      // Each primer covers new underlayment as it does its own substrate.
      const materials = of.materials.map((sheet) => {
        const [use] = sheet.primer;
        return use === undefined ? sheet : { ...sheet, primer: [use, { ...use, substrate: 'porous' as const }] };
      });
      const reading = readJob({ ...of, materials, pours: [], pourEvents: [], job: { ...of.job, rooms } }, NOW);
      const { takeoff } = reading.estimate.base;
      const one = takeoff.rooms.reduce((sum, { primer }) => sum + (primer?.neatL ?? 0), 0);
      const primerIds = new Set(takeoff.rooms.map(({ primer }) => primer?.primerId));
      const listed = shoppingFor(reading, reading.estimate.base).list.items.filter(({ materialId }) => primerIds.has(materialId ?? ''));
      const lifts = new Set(takeoff.rooms.map((room) => room.lifts?.count));
      return { lifts: [...lifts], primings: listed.reduce((sum, { need }) => sum + need, 0) / one };
    };
    expect(deep(bare)).toEqual({ lifts: [3], primings: expect.closeTo(3, 9) });
    const primedAt = '2026-05-12T08:00:00.000Z';
    const primed = { ...sample, job: { ...sample.job, rooms: sample.job.rooms.map((room) => ({ ...room, primedAt })) } };
    expect(deep(primed)).toEqual({ lifts: [3], primings: expect.closeTo(2, 9) });
  });
});
