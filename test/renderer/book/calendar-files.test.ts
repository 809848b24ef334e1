/** Calendar files are named as the desk saved them. */
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { readCalendarSent, readCalendarState } from '../../../renderer/book/calendar-commands.ts';
import { saveCalendars, saveJobCalendar } from '../../../renderer/book/calendar-files.ts';
import { addVisit } from '../../../renderer/book/cure-commands.ts';
import { addCustomer, addProperty, addRoom, startJob } from '../../../renderer/book/customer-commands.ts';
import type { Book } from '../../../renderer/book/database.ts';
import { gatherAgenda } from '../../../renderer/book/gather-agenda.ts';
import { closeBackup, openReadOnly } from '../../../renderer/book/open-read-only.ts';
import { addSample, removeSample } from '../../../renderer/book/sample-commands.ts';
import { readWholeJob } from '../../../renderer/book/use-whole-job.ts';
import { emptyAddress, newLead } from '../../../shared-core/book/new-records.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import type { WorkingDesk } from '../../main/desk/working-desk.ts';
import { sampleAt } from '../../sample-at.ts';
import { pageDesk } from '../page-desk.ts';
import { freshBook, NOW } from './fresh-book.ts';
import { made, readBookRows, walkRows } from './whole-book.ts';

let book: Book;
let desk: WorkingDesk;
beforeEach(async () => {
  vi.useFakeTimers({ toFake: ['Date'], now: new Date(NOW) });
  book = await freshBook();
  desk = pageDesk();
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

/** A job of a new customer, with one visit. */
const jobWithVisit = async (name: string): Promise<string> => {
  const propertyId = made(await addProperty(made(await addCustomer(name)), emptyAddress('US'), 'America/New_York'));
  const roomId = made(await addRoom(propertyId, 'Kitchen'));
  const jobId = made(await startJob(propertyId, [roomId], 'kitchen'));
  made(
    await addVisit({ jobId, roomIds: [roomId], kind: 'own', title: `Look at ${name}`, instant: '2026-05-13T14:00:00.000Z', minutes: 30 }),
  );
  return jobId;
};
const saveOne = async (jobId: string) => {
  const whole = await readWholeJob(jobId);
  if (whole === null) throw new Error('The job was made above.');
  return saveJobCalendar(readJob(whole, NOW));
};
const saveAll = async (jobsToo: boolean) => {
  const gathered = await gatherAgenda(null);
  if (gathered === null) throw new Error('There is a company record.');
  return saveCalendars(gathered, true, jobsToo);
};

it('names the file that it wrote, where the folder has a file of that name from another computer', async () => {
  await jobWithVisit('Odell');
  const other = join(desk.papers, 'Straightedge calendar.ics');
  mkdirSync(desk.papers, { recursive: true });
  writeFileSync(other, 'of another computer');
  const written = 'Straightedge calendar (2).ics';
  expect(await saveAll(false)).toMatchObject({ ok: true, name: written, text: `${written} was saved to ${desk.papers}.` });
  expect(await saveAll(true)).toMatchObject({ ok: true, text: `${written} and 1 job file were saved to ${desk.papers}.` });
  // Settings names it too.
  expect(await readCalendarState()).toMatchObject({ file: written, failed: null });
  expect(readFileSync(other, 'utf8')).toBe('of another computer');
});

it('of two jobs that share a number have the dates of both', async () => {
  const [one, two] = [await jobWithVisit('Odell'), await jobWithVisit('Rusk')];
  const number = (await book.rowsOf('jobs').get(one))?.number ?? '';
  await book.rowsOf('jobs').update(two, { number });
  expect(await saveAll(true)).toMatchObject({ ok: true });
  const text = readFileSync(join(desk.papers, `Job ${number} dates.ics`), 'utf8');
  expect(['Look at Odell', 'Look at Rusk'].map((words) => text.includes(words))).toEqual([true, true]);
  // The dates of one of them have a file of their own.
  expect(await saveOne(one)).toMatchObject({ ok: true, name: `Job ${number} Odell dates.ics` });
  expect(readFileSync(join(desk.papers, `Job ${number} dates.ics`), 'utf8')).toBe(text);
});

it('are not saved from a backup that is open read-only, also where it was opened meanwhile', async () => {
  const jobId = await jobWithVisit('Odell');
  const rows = walkRows(await readBookRows());
  expect(await saveAll(false)).toMatchObject({ ok: true });
  const [sent, state, files] = [await readCalendarSent(null), await readCalendarState(), readdirSync(desk.papers)];
  const gathered = await gatherAgenda(null);
  if (gathered === null) throw new Error('There is a company record.');
  expect(await openReadOnly(rows.pieces(), NOW)).toMatchObject({ ok: true });
  const refused = { ok: false, text: 'A backup is open read-only. Close it to save your dates.' };
  expect(await saveCalendars(gathered, true, true)).toMatchObject(refused);
  expect(await saveAll(true)).toMatchObject(refused);
  expect(await saveOne(jobId)).toMatchObject(refused);
  expect(readdirSync(desk.papers)).toEqual(files);
  // What was sent and what was chosen are this computer's, not the backup's.
  expect(await readCalendarSent(null)).toEqual(sent);
  expect(await readCalendarState()).toEqual(state);
  await closeBackup();
  expect(await saveOne(jobId)).toMatchObject({ ok: true });
});

it('cancel the dates of the sample once it is removed', async () => {
  const sample = sampleAt(NOW);
  made(await addSample({ ...sample, jobs: sample.jobs.filter(({ id }) => id === 'sample-job-lindqvist') }));
  expect(await saveAll(false)).toMatchObject({ ok: true });
  const statuses = () => readFileSync(join(desk.papers, 'Straightedge calendar.ics'), 'utf8').match(/(?<=^STATUS:)\w+/gm) ?? [];
  const before = statuses();
  expect(before).toContain('CONFIRMED');
  expect(before).not.toContain('CANCELLED');
  made(await removeSample());
  expect(await saveAll(false)).toMatchObject({ ok: true });
  // A subscribed calendar removes only what is canceled: RFC 5545, 3.8.1.11.
  expect(statuses()).toEqual(before.map(() => 'CANCELLED'));
});

it('has the visit of a lead, and is not written without a date: a calendar has one event at least (RFC 5545, 3.6)', async () => {
  expect(await saveAll(false)).toMatchObject({ ok: true, text: 'There are no dates to save yet.' });
  expect(existsSync(desk.papers)).toBe(false);
  const customerId = made(await addCustomer('Mina Cole'));
  const lead = {
    ...newLead({ id: 'lead-mina', now: NOW }, customerId),
    next: { step: 'visit' as const, day: '2026-05-13', clock: '09:00' },
  };
  await book.rowsOf('leads').put(lead);
  expect(await saveAll(true)).toMatchObject({ ok: true });
  expect(readdirSync(desk.papers)).toEqual(['Straightedge calendar.ics']);
  expect(readFileSync(join(desk.papers, 'Straightedge calendar.ics'), 'utf8')).toContain('SUMMARY:Mina Cole: visit');
});
