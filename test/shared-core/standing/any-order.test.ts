/** What is read from a job does not depend on the order in which its records come, as the database gives them by their ids. */
import { expect, it } from 'vitest';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { pourState } from '../../../shared-core/pour/pour-state.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { readPourRecord } from '../../../shared-core/standing/read-poured.ts';
import { backward } from '../backward.ts';
import { factLines } from '../fact-lines.ts';
import { LATER, NOW, wholeOf } from '../job-variants.ts';
import { bundleFacts } from './facts-of-bundle.ts';
import { jobFacts, roomFacts } from './facts-of-job.ts';

function factsOf(whole: WholeJob, now: string): readonly string[] {
  const reading = readJob(whole, now);
  const poured = whole.pours.flatMap((pour) => {
    const read = readPourRecord(reading, pour);
    const plan = read.ok ? read.value.recordPlan : null;
    const events = whole.pourEvents.filter((event) => event.pourId === pour.id);
    return plan === null ? [] : [[pour.id, pourState(plan, pour, events, now)] as const];
  });
  return [
    ...jobFacts(reading, now),
    ...roomFacts(reading, now),
    ...bundleFacts(reading.bundle, whole.business, []),
    ...factLines(Object.fromEntries(poured)).toSorted(),
  ];
}

it.each([
  ['26-024', NOW],
  ['26-019', LATER],
  ['26-031', NOW],
])('job %s reads the same with its records backward', (jobNumber, now) => {
  const whole = wholeOf(jobNumber);
  expect(factsOf(backward(whole), now)).toEqual(factsOf(whole, now));
});
