/** Every screen of the sample data in both looks, wide and narrow: no WCAG fault found by axe, and no sideways scrolling. */
import { faults, footPx, hiddenStops, inputsAtRest, lostColors, settled, smallTargets } from './faults.ts';
import { INPUTS_AT_REST, SAMPLE_SCREENS } from '../sample-screens.ts';
import { expect, test } from './open-book.ts';
import { changeRow } from './stored-rows.ts';

for (const [of, routes] of Object.entries(SAMPLE_SCREENS)) {
  test(`no screen of ${of} has a WCAG fault, in either look, wide or narrow`, async ({ sample: program, page }) => {
    test.slow();
    const found: string[] = [];
    page.on('console', (message) => {
      if (/Content Security Policy|Refused to/.test(message.text())) found.push(message.text());
    });
    for (const route of routes) {
      await page.setViewportSize({ width: 1440, height: 900 });
      await page.goto(new URL(`/#${route}`, program.address).href);
      await expect(page.getByRole('heading', { level: 1 }), route).toBeVisible();
      await expect(page.locator('.app-opening, .today-reading'), route).toHaveCount(0);
      await settled(page);
      const most = INPUTS_AT_REST[route];
      if (most !== undefined) expect(await inputsAtRest(page), `inputs of ${route}`).toBeLessThanOrEqual(most);
      found.push(...(await faults(page)).map((fault) => `${route}: ${fault}`));
      expect(await smallTargets(page, 24), `small targets of ${route}`).toEqual([]);
      expect(await lostColors(page), `lines of ${route} in forced colors`).toEqual([]);
      await page.setViewportSize({ width: 1024, height: 768 });
      // The foot is measured a moment after the window changes.
      await expect.poll(() => hiddenStops(page), `${route} at 1024: focus hidden`).toEqual([]);
      await page.setViewportSize({ width: 390, height: 844 });
      await expect.poll(() => smallTargets(page, 44), `small targets of ${route} on a phone`).toEqual([]);
      await expect.poll(() => footPx(page), `foot of ${route} on a phone`).toBeLessThanOrEqual(110);
      const sideways = () => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      await expect.poll(sideways, `${route} scrolls sideways at 390`).toBe(0);
      await expect.poll(() => hiddenStops(page), `${route} at 390: focus hidden`).toEqual([]);
      const cut = () => page.locator('.document-table').evaluateAll((all) => all.filter((e) => e.scrollWidth > e.clientWidth).length);
      await expect.poll(cut, `tables of ${route} cut at 390`).toBe(0);
      // A laptop at 400% (WCAG 2.2, 1.4.10).
      await page.setViewportSize({ width: 320, height: 568 });
      await expect.poll(sideways, `${route} scrolls sideways at 320`).toBe(0);
      // A phone held sideways.
      await page.setViewportSize({ width: 844, height: 390 });
      await expect.poll(() => footPx(page), `foot of ${route} sideways`).toBeLessThanOrEqual(110);
      await expect.poll(() => hiddenStops(page), `${route} sideways: focus hidden`).toEqual([]);
      // A laptop at 200%.
      await page.setViewportSize({ width: 720, height: 450 });
      await expect.poll(sideways, `${route} scrolls sideways at 200%`).toBe(0);
    }
    expect(found).toEqual([]);
  });
}

test('all screens together show fewer than 150 inputs before anything is opened', () => {
  const sum = Object.values(INPUTS_AT_REST).reduce((a, b) => a + b, 0);
  expect(sum).toBeLessThan(150);
});

const DIALOGS = [
  ['/', 'New lead'],
  ['/materials', 'Weigh a mixed bag'],
  ['/materials', 'Add data sheet'],
  ['/jobs', 'Dates'],
  ['/stock', 'Record purchase'],
  ['/backup', 'Encrypt with a passphrase…'],
  ['/customers/sample-odell', 'Merge with another customer…'],
  ['/jobs/sample-job-abara/money', 'Record payment'],
  ['/jobs/sample-job-abara/money', 'Add cost'],
  ['/jobs/sample-job-rusk/assess/sample-basement', 'Enter result'],
  ['/jobs/sample-job-odell/prep/sample-hall', 'More'],
  ['/jobs/sample-job-odell/quote/sample-hall', 'Edit'],
  ['/jobs/sample-job-lindqvist/pour/sample-family', 'Enter handwritten log…'],
] as const;

test('no dialog has a WCAG fault, in either look, and its buttons stay in sight on a phone', async ({ sample: program, page }) => {
  test.slow();
  await page.setViewportSize({ width: 1440, height: 900 });
  for (const [route, button] of DIALOGS) {
    await page.goto(new URL(`/#${route}`, program.address).href);
    await page.getByRole('button', { name: button }).first().waitFor();
    // What is still read moves a button from under the pointer.
    await settled(page);
    await page.getByRole('button', { name: button }).first().click();
    const dialog = page.getByRole('dialog').or(page.getByRole('alertdialog'));
    await expect(dialog.first(), `${button} on ${route}`).toBeVisible();
    // The rest of the page is inert.
    expect(await faults(page, '[role$="dialog"]'), `${button} on ${route}`).toEqual([]);
    for (const size of [
      { width: 390, height: 844 },
      { width: 844, height: 390 },
    ]) {
      await page.setViewportSize(size);
      await expect(dialog.locator('.dialog-actions button').last(), `${button} on ${route}`).toBeInViewport({ ratio: 1 });
    }
    await page.setViewportSize({ width: 1440, height: 900 });
    await page.keyboard.press('Escape');
    await expect(dialog, `${button} on ${route}`).toHaveCount(0);
  }
});

test('a long name takes no place of another, what holds an action is read on a phone, and no choice of a payment is cut', async ({
  sample: program,
  page,
}) => {
  const open = async (route: string): Promise<void> => {
    await page.goto(new URL(`/#${route}`, program.address).href);
    await page.reload();
    await expect(page.getByRole('heading', { level: 1 }), route).toBeVisible();
    await settled(page);
  };
  await changeRow(page, 'rooms', 'sample-hall', (room) => ({ ...room, name: 'Downstairs family room and hallway' }));
  await changeRow(page, 'customers', 'sample-lindqvist', (customer) => ({
    ...customer,
    name: 'Old Mill Lane Property Management and Rental Company',
  }));
  await page.setViewportSize({ width: 1440, height: 900 });
  await open('/jobs/sample-job-odell/estimate/sample-hall');
  const plan = page.getByRole('img', { name: /^Plan of / });
  await expect(plan).toBeVisible();
  // The figures of the key and of the scale are under the choices, not among them.
  await expect
    .poll(async () => {
      const choices = await page.locator('.estimate-choices').boundingBox();
      const key = await plan.getByText('0', { exact: true }).first().boundingBox();
      // The key's bar is 26 px high above them.
      return choices !== null && key !== null && choices.y + choices.height <= key.y - 26;
    })
    .toBe(true);

  await open('/jobs/sample-job-odell/quote/sample-hall');
  await page.getByRole('button', { name: 'Edit payments' }).click();
  const due = page.getByRole('dialog').getByLabel('Due').first();
  // As wide as its longest choice, and its arrow.
  const fits = () =>
    due.evaluate((select) => {
      const pen = document.createElement('canvas').getContext('2d');
      if (pen === null) return false;
      const { font, paddingLeft, paddingRight } = getComputedStyle(select);
      pen.font = font;
      const words = [...(select as HTMLSelectElement).options].map(({ text }) => pen.measureText(text).width);
      return Math.max(...words) + Number.parseFloat(paddingLeft) + Number.parseFloat(paddingRight) <= select.clientWidth;
    });
  expect(await fits()).toBe(true);
  await page.setViewportSize({ width: 390, height: 844 });
  expect(await fits()).toBe(true);
  await page.keyboard.press('Escape');

  await open('/money');
  const bar = page.getByRole('listitem').filter({ hasText: /^Old Mill Lane.*, INV-2026-008$/ });
  const number = await bar.getByText(', INV-2026-008', { exact: true }).boundingBox();
  expect(number?.width).toBeGreaterThan(80);
  expect((number?.x ?? 390) + (number?.width ?? 0)).toBeLessThanOrEqual(390);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBe(390);
  // A payment is recorded for this customer.
  await open('/jobs/sample-job-lindqvist/money');
  await expect(page.getByRole('banner')).toContainText('Old Mill Lane Property Management');

  for (const [width, height] of [
    [390, 844],
    [844, 390],
  ] as const) {
    await page.setViewportSize({ width, height });
    await open('/jobs/sample-job-lindqvist/pour/sample-family');
    const held = page.getByRole('contentinfo').getByText(/^On hold: .+\.$/);
    await expect(held.filter({ visible: true })).toBeInViewport({ ratio: 1 });
    await expect(page.getByRole('button', { name: 'Start pour' })).toHaveAccessibleDescription(/^On hold: /);
    expect(await footPx(page)).toBeLessThanOrEqual(110);
  }
});
