/**
 * What is read from each job of the sample, figure by figure, as it was last approved: a guard against a change that nobody meant.
 * Whether a figure is right is checked elsewhere, against published values. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/standing/approved -u` and read the difference.
 */
import { describe, expect, it } from 'vitest';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { type AdviceCase, changesOf } from '../../../shared-core/pour/advice.ts';
import { judgeChange } from '../pour/advise-on.ts';
import { afterPour } from '../../../shared-core/pour/after-pour.ts';
import { badBatchPlan } from '../../../shared-core/pour/bad-batch.ts';
import { pourModel } from '../../../shared-core/pour/crew-model.ts';
import { forecastPour, TYPICAL_SPREAD } from '../../../shared-core/pour/forecast.ts';
import { pourState } from '../../../shared-core/pour/pour-state.ts';
import { outlookOf } from '../../../shared-core/pour/outlook.ts';
import { simulatePour, timelineOf } from '../../../shared-core/pour/simulate.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { readPour } from '../../../shared-core/standing/read-pour.ts';
import { readPourRecord } from '../../../shared-core/standing/read-poured.ts';
import { whatIfRows } from '../../../shared-core/standing/what-if-rows.ts';
import { withTry } from '../../../shared-core/standing/what-if.ts';
import { factLines } from '../fact-lines.ts';
import { NOW, VARIANTS, wholeOf } from '../job-variants.ts';
import { jobFacts, named, roomFacts } from './facts-of-job.ts';

/** Of each job as it is, to tell what a variant changes. */
const asItIs = new Map<string, readonly string[]>();
const factsOf = (whole: WholeJob, now = NOW): readonly string[] => {
  const reading = readJob(whole, now);
  return [...jobFacts(reading, now), ...roomFacts(reading, now)];
};

describe('what is read from a job', () => {
  it.each(['26-031', '26-028', '26-029', '26-024', '26-022'])('%s', async (jobNumber) => {
    const lines = factsOf(wholeOf(jobNumber));
    if (!asItIs.has(jobNumber)) asItIs.set(jobNumber, lines);
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`./approved/${jobNumber}.txt`);
  });

  it.each(VARIANTS)('%s (job %s)', async (name, jobNumber, change, now) => {
    const before = new Set(asItIs.get(jobNumber) ?? factsOf(wholeOf(jobNumber)));
    const lines = factsOf(change(wholeOf(jobNumber)), now).filter((line) => !before.has(line));
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`./approved/${name.replaceAll(/[^a-z]+/gi, '-')}.txt`);
  });
});

describe('a pour', () => {
  it('is planned and tried with other plans', async () => {
    const read = readPour(readJob(wholeOf('26-022'), NOW), ['sample-workshop']);
    if (!read.ok || !read.value.layout.ok) throw new Error('The workshop is planned.');
    const { layout, first, clocks, bagYieldM3, doorways, plans, pourRooms } = read.value;
    const model = pourModel(layout.value, first.crew, clocks);
    if (!model.ok) throw new Error(model.problem.kind);
    const tried: AdviceCase = { rooms: pourRooms, plans, doorways, bagYieldM3, clocks };
    const lines = factLines({
      model: model.value,
      outlook: outlookOf(model.value, simulatePour(model.value, { runs: 40, from: 0, seed: 3 })),
      timeline: timelineOf(model.value, 3, 1),
      ...Object.fromEntries(changesOf(tried).map((change, i) => [`change ${i + 1}`, judgeChange(tried, change, { runs: 8, seed: 3 })])),
    });
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot('./approved/a-planned-pour.txt');
  });

  it('is read as it goes, and afterwards', async () => {
    const reading = readJob(wholeOf('26-024'), NOW);
    const lines = reading.whole.pours.flatMap((pour) => {
      const read = readPourRecord(reading, pour);
      const plan = read.ok ? read.value.recordPlan : null;
      const events = reading.whole.pourEvents.filter((event) => event.pourId === pour.id);
      if (plan === null || !read.ok || !read.value.layout.ok) return [];
      const layout = read.value.layout.value;
      return [0.2, 0.5, 0.8, 1].flatMap((share) => {
        const log = events.slice(0, Math.ceil(events.length * share));
        const nowAt = log.at(-1)?.instant ?? NOW;
        const state = pourState(plan, pour, log, nowAt);
        return named(`${pour.id} ${share}`, [
          ...factLines({
            state,
            forecast: forecastPour(plan, state, TYPICAL_SPREAD),
            bad: badBatchPlan(plan, state, 2),
            after: afterPour(layout, state, { healingMin: 15, hasLater: false }, null),
          }),
        ]);
      });
    });
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot('./approved/a-logged-pour.txt');
  });

  it('with another level shows what changes', async () => {
    const whole = wholeOf('26-031');
    const [first] = whole.job.rooms;
    if (first === undefined) throw new Error('The job has a room.');
    const level = { ...first.level, grindMostM: 0.008, leastThicknessM: 0.006 };
    const tried = { ...whole, job: withTry(whole.job, [{ roomId: first.roomId, level }]) };
    const rows = whatIfRows(readJob(whole, NOW), readJob(tried, NOW), first.roomId, NOW);
    await expect(`${factLines(Object.fromEntries(rows.map((row, i) => [`row ${i + 1}`, row]))).join('\n')}\n`).toMatchFileSnapshot(
      './approved/what-if.txt',
    );
  });
});
