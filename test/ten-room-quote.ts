/** A job with more rooms than fit a first page. */
import type { WholeJob } from '../shared-core/book/whole-job.ts';
import { sampleAt } from './sample-at.ts';
import { wholeJobsOf } from '../shared-core/sample/whole-jobs.ts';

const ROOMS = 10;

/** The sample's hall ten times, in the three options of its quote. */
export function tenHalls(now: string): WholeJob {
  const whole = wholeJobsOf(sampleAt(now)).find((w) => w.job.id === 'sample-job-odell');
  const hall = whole?.rooms.find((room) => room.id === 'sample-hall');
  const jobHall = whole?.job.rooms.find((room) => room.roomId === 'sample-hall');
  if (whole === undefined || hall === undefined || jobHall === undefined) throw new Error('The sample has a hall.');
  const ids = Array.from({ length: ROOMS }, (_, i) => `hall-${i + 1}`);
  const options = whole.job.estimate.options.map((option) => ({
    ...option,
    rooms: option.rooms.filter((r) => r.roomId === 'sample-hall').flatMap((r) => ids.map((roomId) => ({ ...r, roomId }))),
  }));
  return {
    ...whole,
    rooms: ids.map((id, i) => ({ ...hall, id, name: `Hall ${i + 1}` })),
    job: {
      ...whole.job,
      rooms: ids.map((roomId) => ({ ...jobHall, roomId })),
      estimate: { ...whole.job.estimate, overrides: [], options },
    },
  };
}
