import { describe, expect, it } from 'vitest';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { middleJoint } from '../../../shared-core/standing/edit-pour-plan.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { firstPourPlan, pourMinutes, readPour } from '../../../shared-core/standing/read-pour.ts';
import { sampleAt } from '../../sample-at.ts';

const NOW = '2026-05-12T12:00:00.000Z';
const whole = wholeJobsOf(sampleAt(NOW)).find((w) => w.job.id === 'sample-job-lindqvist');
if (whole === undefined) throw new Error('The sample has the job that is poured today.');
const unpoured = { ...whole, pours: [], pourEvents: [] };
const family = readJob(unpoured, NOW).rooms.find((r) => r.room.id === 'sample-family');
if (family === undefined) throw new Error('The sample has a family room.');

describe('a pour of one section', () => {
  it('takes its share of the minutes of the room, at the pace of the room', () => {
    const joint = middleJoint(family, { angleDeg: 90 }, 'jnt-middle');
    if (joint === null) throw new Error('The family room can be divided.');
    const pourOf = (section: number | null): { minutes: number; pace: number } => {
      const plan = { ...firstPourPlan(family, unpoured), joints: [joint], section };
      const rooms = whole.job.rooms.map((room) => (room.roomId === family.room.id ? { ...room, pourPlan: plan } : room));
      const read = readPour(readJob({ ...unpoured, job: { ...whole.job, rooms } }, NOW), [family.room.id]);
      if (!read.ok || !read.value.layout.ok) throw new Error('A section is laid out.');
      const layout = read.value.layout.value;
      const minutes = pourMinutes(read.value, layout);
      return { minutes, pace: minutes / layout.batches.length };
    };
    const [all, one, two] = [pourOf(null), pourOf(1), pourOf(2)];
    expect(one.minutes + two.minutes).toBeCloseTo(all.minutes, 6);
    // A section ends with a part of a batch.
    for (const part of [one, two]) expect(part.pace / all.pace).toBeCloseTo(1, 1);
  });
});
