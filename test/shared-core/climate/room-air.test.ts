/** One entry is used by Assess, Prep, Pour and Cure. */
import { describe, expect, it } from 'vitest';
import { roomAir, withExpectedAir } from '../../../shared-core/climate/room-air.ts';
import { newJobRoom } from '../../../shared-core/book/new-records.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { celsiusFromFahrenheit } from '../../../shared-core/measure/temperature.ts';
import { roomCure } from '../../../shared-core/standing/room-cure.ts';
import { roomsOf } from '../../../shared-core/standing/job-bundle.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { readPour } from '../../../shared-core/standing/read-pour.ts';
import { air } from '../../../shared-core/sample/sample-tests.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const instantOf = (h: number): string => `2026-05-12T${String(h).padStart(2, '0')}:00:00.000Z`;
const jobRoom = newJobRoom('room-a');

describe('the air expected in a room', () => {
  it('is typical until it is measured or entered, and then the newer of the two', () => {
    const measured = air('test-a', instantOf(8), 70, 0.45, 66);
    expect(roomAir({ tests: [] }, jobRoom)).toMatchObject({ tempC: 20, relativeHumidity: 0.5, basis: 'typical', instant: null });
    expect(roomAir({ tests: [measured] }, jobRoom)).toMatchObject({ basis: 'measured', relativeHumidity: 0.45, instant: instantOf(8) });
    const entered = withExpectedAir({ tests: [measured] }, jobRoom, { tempC: 29 }, instantOf(9));
    expect(roomAir({ tests: [measured] }, entered)).toMatchObject({ tempC: 29, relativeHumidity: 0.45, basis: 'entered' });
    const later = air('test-b', instantOf(10), 72, 0.4, 66);
    expect(roomAir({ tests: [measured, later] }, entered).tempC).toBeCloseTo(celsiusFromFahrenheit(72), 9);
  });

  it('measured on Prep changes the clocks of the pour and the dates of the cure', () => {
    const whole = wholeJobsOf(sampleAt(NOW)).find((job) => job.pours.length === 0 && job.job.rooms.some((r) => r.pourAt !== null));
    const planned = whole?.job.rooms.find((r) => r.pourAt !== null);
    if (whole === undefined || planned === undefined) throw new Error('no pour is planned');
    const warm = (fahrenheit: number): WholeJob => ({
      ...whole,
      rooms: whole.rooms.map((r) =>
        r.id === planned.roomId ? { ...r, tests: [...r.tests, air('warm-air', NOW, fahrenheit, 0.45, 66)] } : r,
      ),
    });
    const read = (job: WholeJob) => {
      const reading = readJob(job, NOW);
      const pour = readPour(reading, [planned.roomId]);
      const facts = roomsOf(reading.bundle).find((r) => r.room.id === planned.roomId);
      const cure = facts === undefined ? null : roomCure(reading.bundle, facts, job.business);
      if (!pour.ok || cure === null) throw new Error('not readable');
      return {
        healingMin: pour.value.clocks.healingMin,
        walkOn: cure.schedule.milestones.find((m) => m.kind === 'walk-on')?.likelyAt ?? '',
      };
    };
    const [mild, hot] = [read(warm(60)), read(warm(84))];
    // A warmer mix sets sooner: ASTM C1074, Arrhenius form.
    expect(hot.healingMin).toBeLessThan(mild.healingMin);
    expect(hot.walkOn < mild.walkOn).toBe(true);
  });
});
