/** What the program does in the background: system notifications for due dates, and calendar files that follow the data. */
import { existsSync, mkdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { expect, test } from './open-book.ts';
import { importOver, openSample, toSheet } from './open-sample.ts';
import { removeFolder } from '../../build/remove-folder.mjs';

// Seven in the morning; the sample pours at 9:40.
const MORNING = '2026-05-12T07:00:00-04:00';
const lines = (file: string): string[] =>
  existsSync(file)
    ? readFileSync(file, 'utf8')
        .split('\n')
        .filter((line) => line !== '')
    : [];
const tick = (page: Page, name: string) => page.getByRole('checkbox', { name }).locator('xpath=ancestor::label').click();

test.describe('reminders', () => {
  test.use({ tools: { 'notify-send': `printf '%s: %s\\n' "$3" "$(printf '%s' "$4" | tr '\\n' '/')" >> "$STRAIGHTEDGE_DATA/../said"` } });

  test('a pour is announced an hour before, once; missed reminders appear when the program opens; none appear when turned off', async ({
    program,
    page,
  }) => {
    const notifications = join(program.folder, 'said');
    const pour = 'Pour the Lindqvists’ family room';
    await openSample(page, program, MORNING);
    await page.clock.runFor(15_000);
    // A late promised date is reported at once; what came due before this morning is not repeated.
    await expect.poll(() => lines(notifications).join('\n')).toContain('promised date for glued wood');
    expect(lines(notifications).join('\n')).not.toContain(pour);
    const before = lines(notifications).length;

    await page.clock.fastForward('01:42:00');
    await expect.poll(() => lines(notifications).length).toBe(before + 1);
    expect(lines(notifications).at(-1)).toContain(pour);
    await page.clock.fastForward('00:05:00');
    await page.clock.runFor(2000);
    expect(lines(notifications).filter((line) => line.includes(pour))).toHaveLength(1);

    // Closed over midday, and opened in the evening.
    await page.goto('about:blank');
    await page.clock.fastForward('09:00:00');
    await page.goto(program.address);
    await page.getByRole('heading', { level: 1 }).waitFor();
    await page.clock.runFor(15_000);
    await expect.poll(() => lines(notifications).at(-1)).toMatch(/came due while Straightedge was closed/);
    expect(lines(notifications).filter((line) => line.includes(pour))).toHaveLength(1);

    await toSheet(page, '/business');
    const row = page.getByRole('checkbox', { name: 'Show reminders on this computer' });
    await expect(row).toBeChecked();
    await tick(page, 'Show reminders on this computer');
    await expect(row).not.toBeChecked();
    const shownCount = lines(notifications).length;
    await page.clock.fastForward('20:00:00');
    await page.clock.runFor(2000);
    expect(lines(notifications)).toHaveLength(shownCount);
  });
});

test('where no notification can be shown, a sentence says so and reminders stay off', async ({ program, page, context }) => {
  await context.clearPermissions();
  await openSample(page, program, MORNING);
  await toSheet(page, '/business');
  await tick(page, 'Show reminders on this computer');
  await expect(page.getByRole('alert').filter({ hasText: 'Notifications are blocked for this page' })).toBeVisible();
  await expect(page.getByRole('checkbox', { name: 'Show reminders on this computer' })).not.toBeChecked();
});

test.describe('calendar files', () => {
  test.use({ tools: { zenity: 'printf "%s/calendars\\n" "$(dirname "$STRAIGHTEDGE_DATA")"' } });

  test('after a change the calendar file has the same entries moved, none twice, in the chosen folder; a missing folder is reported on Today', async ({
    program,
    page,
  }) => {
    const folder = join(program.folder, 'calendars');
    const file = join(folder, 'Straightedge calendar.ics');
    const movePour = async (to: string): Promise<void> => {
      await toSheet(page, '/jobs/sample-job-lindqvist/pour/sample-family');
      await page.getByLabel('Pour date').fill(to);
      await page.getByLabel('Pour date').press('Enter');
      await page.getByRole('dialog').getByRole('button', { name: /^Move/ }).click();
      await expect(page.getByRole('dialog')).toBeHidden();
      await page.clock.runFor(10_000);
    };
    mkdirSync(folder);
    await openSample(page, program, MORNING);
    await toSheet(page, '/business');
    await page.getByRole('button', { name: 'Choose folder' }).click();
    await expect(page.getByText(folder)).toBeVisible();
    await tick(page, 'Update when a date changes');
    await tick(page, 'Also one file per job');
    await expect.poll(() => existsSync(join(folder, 'Job 26-028 dates.ics'))).toBe(true);
    const first = importOver(new Map(), file);
    const [uid, entry] = [...first].find(([, { summary }]) => summary === 'Family room, Lindqvist: pour') ?? ['', undefined];
    // The crew is there before the pour at 9:40.
    expect(entry?.start).toBe('2026-05-12T12:45:00.000Z');

    await movePour('May 14 8:00 am');
    await expect.poll(() => importOver(first, file).get(uid)?.start).toBe('2026-05-14T11:05:00.000Z');
    const second = importOver(first, file);
    expect(second.get(uid)?.sequence).toBe(1);
    // Over the first import or into an empty calendar: the same entries, each once.
    expect([...second].sort()).toEqual([...importOver(new Map(), file)].sort());
    await expect.poll(() => importOver(first, join(folder, 'Job 26-028 dates.ics')).get(uid)).toEqual(second.get(uid));

    // A canceled visit is removed from a calendar that has it.
    await toSheet(page, '/jobs/sample-job-abara/cure/sample-living');
    await page.getByRole('button', { name: /^Add 30-day visit, / }).click();
    await page.clock.runFor(10_000);
    const visits = (shown: ReturnType<typeof importOver>) =>
      [...shown.values()].filter(({ summary }) => summary.endsWith(': 30-day visit'));
    await expect.poll(() => visits(importOver(second, file)).length).toBe(1);
    const third = importOver(second, file);
    await page.getByRole('button', { name: 'Edit 30-day visit' }).click();
    await page.getByRole('button', { name: 'Cancel visit' }).click();
    await page.clock.runFor(10_000);
    await expect.poll(() => visits(importOver(third, file)).length).toBe(0);

    // The disk is disconnected.
    removeFolder(folder);
    await movePour('May 15 8:00 am');
    await toSheet(page, '/');
    await expect(page.getByText(/The calendar files are not up to date\./)).toBeVisible();
    mkdirSync(folder);
    await page.getByRole('button', { name: 'Save calendar files again' }).click();
    await expect.poll(() => existsSync(file) && importOver(third, file).get(uid)?.start).toBe('2026-05-15T11:05:00.000Z');
    await expect(page.getByText(/The calendar files are not up to date/)).toBeHidden();
  });
});
