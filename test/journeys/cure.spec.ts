/**
 * After the pour: cold nights that move a date past its promise, the warning, the next handover sheet, a conflict of two properties, and
 * equal dates everywhere.
 */
import { execFileSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { expect, test } from './open-book.ts';
import { pourWorkshop } from './open-cure.ts';
import { importOver, openSample, toSheet } from './open-sample.ts';

const CURE = '/jobs/sample-job-tremaine/cure/sample-workshop';
const HANDOVER = '/jobs/sample-job-tremaine/handover/sample-workshop';
/** An hourly log of three nights with the heat off and the days between, in the property's time zone. */
const threeColdNights = (): string =>
  [
    'time,air F',
    ...Array.from({ length: 66 }, (_, i) => {
      const hour = 12 + i;
      const isNight = hour % 24 >= 19 || hour % 24 < 9;
      return `2026-05-${11 + Math.floor(hour / 24)} ${String(hour % 24).padStart(2, '0')}:00,${isNight ? 35 : 62}`;
    }),
  ].join('\n');

/** The handover sheet is listed a moment before its file is in the folder. */
const sheetText = async (folder: string, number: number): Promise<string> => {
  const file = join(folder, `Handover 26-022 revision ${number}, Dale Tremaine.pdf`);
  await expect.poll(() => existsSync(file)).toBe(true);
  return execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
};
const below = (page: Page) => page.getByRole('region', { name: 'Workshop: readings, dates, test, visits' });

test('three cold nights move foot traffic past its promised date: Today warns in time with a message, and revision 2 lists the change', async ({
  program,
  page,
}) => {
  await openSample(page, program, '2026-05-11T14:00:00-04:00');
  await pourWorkshop(page, '2026-05-11T14:30:00.000Z');
  await toSheet(page, HANDOVER);
  await page.getByRole('button', { name: 'Save handover sheet' }).click();
  await expect(page.getByRole('button', { name: 'Revision 1', exact: true })).toBeVisible();

  // Thursday morning at the property.
  await page.clock.fastForward(65.75 * 3_600_000);
  await toSheet(page, CURE);
  await below(page).getByRole('button', { name: 'Import logger file' }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('Pasted table').fill(threeColdNights());
  await expect(dialog.getByText(/^66 readings from May 11, noon to May 14, 5 am, one every hour, 35 °F to 62 °F/)).toBeVisible();
  await dialog.getByRole('button', { name: 'Import', exact: true }).click();
  await expect(dialog).toBeHidden();
  await expect(
    below(page).getByText(/^Sun 2 pm, promised to Dale Tremaine on May 11, .*revision 1, .*: likely 11 hours late/),
  ).toBeVisible();

  // Three days earlier than the floor opens to foot traffic.
  await toSheet(page, '/');
  const line = page.getByRole('listitem').filter({ hasText: 'promised date for foot traffic. Likely 11 hours late' });
  await expect(line).toHaveCount(1);
  await line.getByRole('link').first().click();
  await expect(page.getByRole('heading', { level: 1, name: 'Cure: 1 floor' })).toBeVisible();
  await below(page).getByRole('button', { name: 'Promise a date for foot traffic' }).click();
  await expect(dialog.getByText('The new date is Tuesday, May 19', { exact: false })).toBeVisible();
  await expect(dialog.getByRole('link', { name: 'Email' })).toHaveAttribute('href', /^mailto:.*Tuesday%2C%20May%2019/);
  await dialog.getByRole('button', { name: 'Cancel' }).click();

  await toSheet(page, HANDOVER);
  await page.getByRole('button', { name: 'Save revision 2' }).click();
  await expect(page.getByRole('button', { name: 'Revision 2', exact: true })).toBeVisible();
  const second = (await sheetText(program.papers, 2)).replace(/\s+/g, ' ');
  expect(second).toContain('revision 2');
  // The line breaks, and the reason beside it comes between.
  expect(second).toMatch(/foot traffic May 19, 7:30 am \(was .{0,60}May 17, 2 pm\)/);
  expect(await sheetText(program.papers, 1)).not.toContain('(was ');

  // The first promised date stays on record beside the new one, and nothing is late.
  await toSheet(page, CURE);
  await expect(below(page).getByText(/^Sun 2 pm, promised .*revision 1, .*, replaced/)).toBeVisible();
  await expect(below(page).getByText(/^Tue 7:30 am, promised .*revision 2, .*: on track/)).toBeVisible();
  await toSheet(page, '/');
  await expect(page.getByRole('heading', { level: 1 })).toBeVisible();
  await expect(line).toHaveCount(0);
});

test('the dates of a property in another time zone are the same on the screen, on the handover sheet and in the calendar', async ({
  program,
  page,
}) => {
  await openSample(page, program, '2026-05-11T14:00:00-04:00');
  await pourWorkshop(page, '2026-05-11T14:30:00.000Z');
  await toSheet(page, CURE);
  await page.getByRole('button', { name: 'Save this job’s dates as a calendar file' }).click();
  const file = join(program.papers, 'Job 26-022 dates.ics');
  await expect(page.getByText(/^Job 26-022 dates\.ics was saved to /)).toBeVisible();
  const entries = [...importOver(new Map(), file)];
  const start = (kind: string): string => entries.find(([uid]) => uid.includes(`:${kind}:`))?.[1].start ?? '';
  const [walkOn, cover] = [start('walk-on'), start('cover')];
  // Whole days in the property's time zone.
  expect([walkOn, cover]).toEqual(['2026-05-17', '2026-05-26']);
  await expect(below(page).getByText('foot traffic in the workshop: Sat 7 am')).toBeVisible();
  await toSheet(page, HANDOVER);
  await page.getByRole('button', { name: 'Save handover sheet' }).click();
  await expect(page.getByRole('button', { name: 'Revision 1', exact: true })).toBeVisible();
  // The sheet states the latest dates, within working hours.
  expect(await sheetText(program.papers, 1)).toMatch(/Workshop +May 17, 2 pm .* May 26 or later/);
});

test('two pours at one time conflict, and moving one ends the conflict', async ({ program, page }) => {
  await openSample(page, program, '2026-05-11T07:00:00-04:00');
  const move = async (to: string): Promise<string> => {
    await toSheet(page, '/jobs/sample-job-tremaine/pour/sample-workshop');
    const pourDate = page.getByLabel('Pour date');
    await pourDate.fill(to);
    await pourDate.press('Enter');
    const dialog = page.getByRole('dialog');
    await dialog.getByRole('button', { name: /^Move/ }).waitFor();
    const dialogText = await dialog.innerText();
    await dialog.getByRole('button', { name: /^Move/ }).click();
    await expect(dialog).toBeHidden();
    return dialogText;
  };
  const clash =
    'Two pours at the same time. The pour at 3 Old Orchard Court, Tarrow Falls starts Mon, May 11, 9:45 am. The pour at 8 Cooper’s Wharf, Tarrow Falls ends at 10:30 am.';
  const first = await move('May 11 9:45 am');
  expect(first).toContain(clash);
  expect(first).toContain('From Sun, May 31, 4 pm to Mon, May 11, 5 pm.');
  await toSheet(page, '/');
  await expect(page.getByRole('heading', { name: 'Conflicts' })).toBeVisible();
  await expect(page.getByText(clash)).toBeVisible();
  expect(await move('May 20 9:00 am')).not.toContain('Conflicts');
  await toSheet(page, '/');
  await expect(page.getByRole('heading', { level: 1, name: 'Monday, May 11' })).toBeVisible();
  await expect(page.getByText('Two pours at the same time')).toHaveCount(0);
});
