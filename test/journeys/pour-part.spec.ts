/** Pours that do not go to plan: stopped early and finished two days later, and one entered from paper. */
import type { Page } from '@playwright/test';
import { expect, test } from './open-book.ts';
import { answerAll, endPour, pressMore, toPour, undoOf, setDam } from './open-pour.ts';
import { laneDone, placed, runPour } from './running-pour.ts';

const MINUTE_MS = 60_000;

/** Places batches from one number to another, less than a minute apart, as on a computer that does not sleep. */
const place = async (page: Page, from: number, to: number): Promise<void> => {
  for (let batch = from; batch <= to; batch++) {
    await page.clock.fastForward(40_000);
    await page.keyboard.press('Space');
    await expect(undoOf(page)).toContainText(`Batch ${batch} placed`);
  }
};

test('a pour stopped at batch 8 is partly poured, and complete once the rest is poured two days later', async ({ sample: _book, page }) => {
  test.slow();
  await page.clock.install();
  await runPour(page, 60, [...placed(1, 3, 8), laneDone(1, 7.5), ...placed(4, 6, 3), laneDone(2, 2.5)]);
  await place(page, 7, 8);
  await pressMore(page, '2');
  await expect(page.getByRole('dialog').getByText(/Set .* of dam/)).toBeVisible();
  await setDam(page);
  await endPour(page, /^Partly poured/);
  await expect(page.getByRole('heading', { level: 1, name: 'Family room: partly poured' })).toBeVisible();
  await expect(page.getByText(/not placed, lanes/)).toBeVisible();
  // The message and the document tell the customer in plain words.
  await page.getByRole('button', { name: 'Message to customer…' }).click();
  await expect(page.getByRole('dialog')).toContainText('We stopped because the power failed.');
  await expect(page.getByRole('dialog')).toContainText('Keep off the part that is not placed.');
  await page.keyboard.press('Escape');
  await page.getByRole('button', { name: 'Save Floor notice PDF' }).click();
  await expect(page.getByText(/Floor notice .* was saved to/)).toBeVisible({ timeout: 20_000 });
  // The open part is measured again, tied to the placed floor.
  await page.getByRole('link', { name: 'Read the rest' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Family room: floor still to pour' })).toBeVisible();
  await page.getByRole('link', { name: 'Go to Pour' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Family room: partly poured' })).toBeVisible();

  await page.clock.fastForward(48 * 60 * MINUTE_MS);
  await page.reload();
  await page.getByRole('button', { name: 'Plan the rest' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Family room: pour plan' })).toBeVisible();
  // Eight of nineteen batches are placed: the rest takes the others, and one more where the edge cut a batch.
  await expect(page.locator('.sheet-foot .answer').first()).toContainText(/: 1[12] batches/);
  await expect(page.getByText(/of edge to prepare\. Placed 2 days/)).toBeVisible();
  await expect(page.getByText('Cut or grind the placed edge back to full depth, straight and square: not signed.')).toBeVisible();
  await answerAll(page);
  await page.getByRole('button', { name: 'Start pour' }).click();
  await page.getByLabel('Bags on site').fill('40');
  await page.getByRole('dialog').getByRole('button', { name: 'Start pour' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Pour: Family room' })).toBeAttached();
  await place(page, 1, 12);
  await endPour(page, /Finish pour|All of it placed/);
  await expect(page.getByRole('heading', { level: 1, name: 'Family room: poured' })).toBeVisible();
  await expect(page.getByText(/^Not measured\./)).toBeVisible();
  // The log of the first day stays at hand, to read and to correct.
  const log = page.locator('.pour-log');
  await expect(log).not.toContainText('Power lost');
  await expect(page.getByText(/^bags used on .+ in \d+ min/)).toBeVisible();
  const pours = page.getByLabel('Pour', { exact: true });
  await pours.selectOption({ index: 0 });
  await expect(log).toContainText('Power lost');
  await expect(page.getByLabel('Entry', { exact: true }).locator('option')).toContainText(['Batch 8 placed']);
  await expect(page.getByRole('button', { name: 'Resume pour…' })).toHaveCount(0);
  await pours.selectOption({ index: 1 });
  await page.getByRole('link', { name: 'Next: Cure' }).click();
  // Each part has the dates of its own pour.
  await expect(page.getByText(/sq ft placed .*, foot traffic/)).toHaveCount(2);
  await page.getByRole('link', { name: 'Handover' }).first().click();
  await expect(page.getByText(/The dashed line on the plan is the joint between the pours\./)).toBeVisible();
  await expect(page.getByRole('table', { name: 'Flatness' }).getByRole('row', { name: /Family room/ })).toContainText('Not measured');
});

test('a handwritten pour: its edge tapped on the plan, its bags explained, its problem added with a name and reason', async ({
  sample: _book,
  page,
}) => {
  await toPour(page);
  await page.getByRole('button', { name: 'Enter handwritten log…' }).click();
  const dialog = page.getByRole('dialog');
  await dialog.getByLabel('Pour date', { exact: true }).fill('yesterday');
  await dialog.getByLabel('Bags on site at the start').fill('40');
  await dialog.getByLabel('Bags left').fill('20');
  await dialog.getByLabel('Floor placed').selectOption({ label: 'part of the floor' });
  await dialog.getByLabel('Line 1: batches').fill('8');
  await dialog.getByLabel('Batch 1 placed at').fill('9:40 am');
  await dialog.getByLabel('Batch 1 placed at').press('Tab');
  const plan = dialog.getByRole('img', { name: /^Plan of the lanes/ });
  const box = await plan.boundingBox();
  await plan.click({ position: { x: (box?.width ?? 0) / 2, y: (box?.height ?? 0) / 2 } });
  await dialog.getByRole('button', { name: 'Save pour' }).click();
  await expect(dialog.getByRole('alert')).toContainText('40 bags on site, 16 used: 24 should be left and you entered 20.');
  await dialog.getByLabel('Bags left').fill('24');
  await dialog.getByRole('button', { name: 'Save pour' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Family room: partly poured' })).toBeVisible();
  await expect(page.getByText(/^Area marked not placed/).first()).toBeVisible();
  for (const [trouble, batch] of [
    ['leak', ''],
    ['power lost', ''],
    ['short of bags', ''],
    ['wrong water', '5'],
  ] as const) {
    await page.getByLabel('Entry', { exact: true }).selectOption({ label: 'add trouble' });
    await page.getByLabel('Trouble', { exact: true }).selectOption({ label: trouble });
    if (batch !== '') {
      await page.getByLabel('Batch', { exact: true }).fill(batch);
      await page.getByLabel('Batch', { exact: true }).press('Tab');
      await page.getByRole('checkbox', { name: 'The batch was removed' }).check({ force: true });
    }
    await page.getByLabel('Reason').fill(`noted as ${trouble}`);
    await page.getByLabel('Initials').fill('MP');
    await page.getByRole('button', { name: 'Save trouble' }).click();
    await expect(page.getByText(`noted as ${trouble}`).first()).toBeVisible();
  }
  await expect(page.getByText(/sq ft removed\./)).toBeVisible();
  // An entry is corrected, not deleted: both stay in the log.
  await page.getByLabel('Entry', { exact: true }).selectOption({ index: 2 });
  await page.getByLabel('Bags', { exact: true }).fill('1.5');
  await page.getByLabel('Reason').fill('half a bag spoiled');
  await page.getByLabel('Initials').fill('MP');
  await page.getByRole('button', { name: 'Save correction' }).click();
  await expect(page.getByText(/^Corrected: Batch 1 placed\. 1\.5 bags: half a bag spoiled, MP/)).toBeVisible();
  // The rest, from paper too, finishes the floor: its plan does not come again.
  await page.getByRole('button', { name: 'Plan the rest' }).click();
  await page.getByRole('button', { name: 'Enter handwritten log…' }).click();
  await dialog.getByLabel('Pour date', { exact: true }).fill('yesterday');
  await dialog.getByLabel('Bags on site at the start').fill('40');
  await dialog.getByLabel('Floor placed').selectOption({ label: 'all of the floor' });
  await dialog.getByLabel('Line 1: batches').fill('12');
  await dialog.getByLabel('Batch 1 placed at').fill('11:40 pm');
  await dialog.getByLabel('Batch 1 placed at').press('Tab');
  await dialog.getByRole('button', { name: 'Save pour' }).click();
  await expect(page.getByRole('heading', { level: 1, name: 'Family room: poured' })).toBeVisible();
});
