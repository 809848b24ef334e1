/**
 * What the sample's jobs ask for, at four times: entries, today's list, ribbon, reminders, conflicts and calendar, as last approved: a guard
 * against a change that nobody meant. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/agenda/approved -u` and read the difference.
 */
import { describe, expect, it } from 'vitest';
import { agenda, isLate } from '../../../shared-core/agenda/agenda.ts';
import { calendarFeed } from '../../../shared-core/agenda/calendar-feed.ts';
import { conflicts } from '../../../shared-core/agenda/conflicts.ts';
import { dayList } from '../../../shared-core/agenda/day-list.ts';
import { moveDate } from '../../../shared-core/agenda/move-date.ts';
import { movePour, type PourMove } from '../../../shared-core/agenda/move-pour.ts';
import { remindersDue, remindersOf, reminderNotice } from '../../../shared-core/agenda/reminders.ts';
import { ribbonView, summarySentence, todayList } from '../../../shared-core/agenda/today.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { type JobReading, readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { factLines } from '../fact-lines.ts';
import { LATER, NOW } from '../job-variants.ts';

const SAMPLE = ['26-031', '26-029', '26-028', '26-024', '26-022', '26-019'];
const numbered = (name: string, list: readonly unknown[]) => Object.fromEntries(list.map((one, i) => [`${name} ${i + 1}`, one]));

/** Of the sample, read once. */
let readings: readonly JobReading[] | null = null;

/** A move with its job as it is afterward. */
function withJob<M extends Pick<PourMove, 'jobId' | 'dates' | 'after'>>(move: M | null) {
  if (move === null) return null;
  const { jobId, dates: _, after, ...rest } = move;
  return { job: after.jobs.find(({ bundle }) => bundle.job.id === jobId)?.bundle.job, ...rest };
}

describe('the agenda', () => {
  it.each([NOW, '2026-11-17T22:30:00.000Z', '2026-12-04T12:00:00.000Z', LATER])('at %s', async (now) => {
    readings ??= wholeJobsOf(sampleAt(NOW)).flatMap((whole) => (SAMPLE.includes(whole.job.number) ? [readJob(whole, NOW)] : []));
    const wholes = readings.map(({ whole }) => whole);
    const bundles = readings.map(({ bundle }) => bundle);
    const [first] = wholes;
    if (first === undefined) throw new Error('The sample has jobs.');
    const { business } = first;
    const all = agenda(bundles, business, null);
    const list = todayList(all, now);
    const due = remindersDue(remindersOf(all), NOW, LATER, new Set());
    const calendar = calendarFeed(all.entries, [], () => null, now);
    const later = calendarFeed(
      all.entries.slice(2),
      wholes.flatMap((whole) => whole.calendarEntries),
      () => null,
      now,
    );
    const pour = all.entries.find((entry) => entry.kind === 'pour');
    const lines = factLines({
      summary: summarySentence(all, [], now),
      ...(now === NOW ? numbered('entry', all.entries) : {}),
      late: all.entries.filter((entry) => isLate(entry, now)).map((entry) => entry.key),
      ...numbered('line', list),
      ribbon: ribbonView(all, list, now, business.timeZone, 60),
      ...numbered('conflict', conflicts(all, now, LATER)),
      days: dayList(all, now, 14, 12),
      reminders: due.map((one) => one.key),
      notice: reminderNotice(due, true, now, business.locale),
      one: reminderNotice(due.slice(0, 1), false, now, business.locale),
      calendar,
      later,
      moved: all.entries.map((entry) => withJob(moveDate(all, entry, now))),
      pour: pour === undefined ? null : withJob(movePour(all, pour.jobId, pour.roomIds, LATER, now)),
    });
    await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`./approved/${now.slice(0, 10)}.txt`);
  });
});
