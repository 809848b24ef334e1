/** Opens the sample data on a chosen day, and reads calendar files as a calendar program does. */
import { readFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import ICAL from 'ical.js';
import { sampleJobs } from '../../shared-core/sample/sample-jobs.ts';
import { sampleClock } from '../../shared-core/sample/sample-time.ts';
import type { RunningProgram } from './open-book.ts';
import { openSampleData } from './prepared-book.ts';

/** Opens the program at an instant and adds the sample data. */
export async function openSample(page: Page, program: RunningProgram, hash: string): Promise<void> {
  await page.clock.install({ time: new Date(hash) });
  await page.goto(program.address);
  await openSampleData(page);
}

/** The number of a sample job where the sample data is opened today: its year is that of the day the job was created. */
export const numberToday = (jobId: string): string => {
  const job = sampleJobs(sampleClock(new Date().toISOString())).find(({ id }) => id === jobId);
  if (job === undefined) throw new Error(`The sample has no job ${jobId}.`);
  return job.number;
};

/** Opens a screen by its address. */
export async function toSheet(page: Page, to: string): Promise<void> {
  await page.evaluate((hash) => {
    location.hash = hash;
  }, to);
}

export type Entry = { readonly sequence: number; readonly summary: string; readonly start: string };

/** An hour as a calendar shows it: the instant, or the day for a date without an hour. */
const startOf = (event: ICAL.Event): string =>
  event.startDate.isDate ? event.startDate.toString() : event.startDate.toJSDate().toISOString();

/**
 * Imports a calendar file over earlier imports by RFC 5546 section 3.2: for each UID the highest SEQUENCE counts, and canceled entries are
 * removed.
 * @returns what the calendar shows then, by UID
 */
export function importOver(before: ReadonlyMap<string, Entry>, file: string): Map<string, Entry> {
  const shown = new Map(before);
  const calendar = new ICAL.Component(ICAL.parse(readFileSync(file, 'utf8')));
  for (const component of calendar.getAllSubcomponents('vevent')) {
    const event = new ICAL.Event(component);
    const sequence = Number(component.getFirstPropertyValue('sequence') ?? 0);
    if (sequence < (shown.get(event.uid)?.sequence ?? -1)) continue;
    if (component.getFirstPropertyValue('status') === 'CANCELLED') shown.delete(event.uid);
    else shown.set(event.uid, { sequence, summary: event.summary, start: startOf(event) });
  }
  return shown;
}
