/** The parts in a browser: no fault found by axe, complete keyboard use, no text lost. */
import { fileURLToPath } from 'node:url';
import { type Page, expect, test } from '@playwright/test';
import react from '@vitejs/plugin-react';
import { type ViteDevServer, createServer } from 'vite';
import { namedMedia } from '../../build/named-media.ts';
import { colorRules, everyRule } from './faults.ts';

// One server for all of them, so one worker.
test.describe.configure({ mode: 'default' });

let server: ViteDevServer;
let address = '';

test.beforeAll(async () => {
  server = await createServer({
    root: fileURLToPath(new URL('../../renderer', import.meta.url)),
    configFile: false,
    cacheDir: fileURLToPath(new URL(`../../.cache/vite-gallery-${test.info().workerIndex}`, import.meta.url)),
    plugins: [react()],
    css: { postcss: { plugins: [namedMedia] } },
    logLevel: 'error',
    server: { port: 0, host: '127.0.0.1', hmr: false, watch: null },
    optimizeDeps: { entries: ['gallery/open-gallery.tsx'] },
  });
  await server.listen();
  address = server.resolvedUrls?.local[0] ?? '';
});
test.afterAll(async () => {
  await server.close();
});

async function open(page: Page, sheet: string, look: 'light' | 'dark' = 'light'): Promise<void> {
  await page.goto(`${address}gallery.html?look=${look}#/${sheet}`);
  await page.locator('h1').first().waitFor();
}

const SIZES = [
  { width: 1440, height: 900 },
  { width: 1024, height: 768 },
  { width: 390, height: 844 },
];

/** Only parts that no sample screen shows; the others are checked there. */
for (const sheet of ['', 'empty', 'pour']) {
  test(`the gallery’s page “${sheet || 'parts'}” has no WCAG fault in either look, and no sideways scrolling at any width`, async ({
    page,
  }) => {
    for (const look of ['light', 'dark'] as const) {
      await open(page, sheet, look);
      const { violations } = await (look === 'light' ? everyRule : colorRules)(page).analyze();
      expect(violations.map((v) => `${look}: ${v.id}: ${v.nodes.map((n) => n.html).join('\n')}`)).toEqual([]);
    }
    for (const size of SIZES) {
      await page.setViewportSize(size);
      const sideways = () => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      await expect.poll(sideways, `${sheet} at ${size.width} scrolls sideways`).toBe(0);
    }
    // The narrowest is last, because it needs a new layout.
    const { violations } = await everyRule(page).analyze();
    expect(violations.map((v) => `narrow: ${v.id}: ${v.nodes.map((n) => n.html).join('\n')}`)).toEqual([]);
  });
}

test('a figure’s reason opens by keyboard and closes with Escape', async ({ page }) => {
  await open(page, 'estimate');
  const figure = page.getByRole('button', { name: '25', exact: true });
  await figure.focus();
  await page.keyboard.press('Enter');
  const panel = page.getByRole('dialog', { name: 'Bags for the hall' });
  await expect(panel).toContainText('Yield per bag');
  const { violations } = await everyRule(page).include('[role="dialog"]').analyze();
  expect(violations.map((v) => v.id)).toEqual([]);
  await page.keyboard.press('Escape');
  await expect(panel).toBeHidden();
  await expect(figure).toBeFocused();
});

test('an invalid entry stays in its field with a sentence, and Escape restores the valid value', async ({ page }) => {
  await open(page, '');
  const field = page.getByLabel('Max grinding depth');
  await field.fill('three or so');
  await field.press('Enter');
  await expect(field).toHaveValue('three or so');
  await expect(field).toHaveAttribute('aria-invalid', 'true');
  await field.press('Escape');
  await expect(field).toHaveValue('⅜″');
  await field.fill('1/2');
  await field.press('Tab');
  await expect(field).toHaveValue('½″');
});

test('arrow keys move between readings and Enter selects one', async ({ page }) => {
  await open(page, 'estimate');
  const first = page.getByRole('button', { name: /^reading 1:/ });
  await first.focus();
  await page.keyboard.press('ArrowDown');
  await expect(first).not.toBeFocused();
  await page.keyboard.press('Enter');
  await expect(page.locator('.drawing-group[aria-pressed="true"]')).toHaveCount(1);
});

test('search opens by its key, and a letter typed in a field opens nothing', async ({ page }) => {
  await open(page, '');
  await page.getByLabel('Name').focus();
  await page.keyboard.type('a/b');
  await expect(page.getByRole('dialog')).toHaveCount(0);
  await page.getByLabel('Name').blur();
  await page.keyboard.press('/');
  await page.getByRole('combobox', { name: /^Search/ }).fill('hall');
  await expect(page.getByRole('listbox', { name: 'Results' }).getByRole('option')).toHaveCount(1);
  await page.keyboard.press('Enter');
  await expect(page.getByRole('heading', { name: 'Hall: pour depth' })).toBeVisible();
});

test('overriding a hold needs a reason', async ({ page }) => {
  await open(page, '');
  await page.getByRole('button', { name: 'Override a hold' }).click();
  await page.getByRole('button', { name: 'Override hold' }).click();
  await expect(page.getByText('Enter a reason in a full sentence.')).toBeVisible();
  await page.getByLabel('Reason').fill('Tested dry yesterday');
  await page.getByRole('button', { name: 'Override hold' }).click();
  await expect(page.getByRole('alertdialog')).toHaveCount(0);
});

test('controls are at least 44 px high', async ({ page }) => {
  await open(page, '');
  const low = await page
    .locator('.action, .text-button, .field-slot, .choice-row-option, .choice-list-option, .notice button')
    .evaluateAll((all) => all.filter((e) => e.getBoundingClientRect().height < 43.5).map((e) => e.className));
  expect(low).toEqual([]);
});
