/** Every screen of the sample book in both looks, wide and narrow: no barrier the checker of WCAG knows, nothing that scrolls sideways. */
import { faults } from './faults.ts';
import { expect, test } from './open-book.ts';

const stages = (job: string, room: string): string[] =>
  ['prep', 'estimate', 'quote', 'cure', 'handover'].map((stage) => `/jobs/sample-job-${job}/${stage}/sample-${room}`);
const ROUTES = {
  'the book': [
    '/',
    '/jobs',
    '/customers/sample-odell',
    '/backup',
    '/plan/sample-hall',
    '/readings/sample-hall',
    '/jobs/sample-job-rusk/assess/sample-basement',
    '/jobs/sample-job-lindqvist/pour/sample-family',
    '/jobs/sample-job-abara/cure/sample-living',
    '/jobs/sample-job-abara/handover/sample-living',
  ],
  'a job': stages('odell', 'hall'),
};

for (const [of, routes] of Object.entries(ROUTES)) {
  test(`no screen of ${of} has a barrier, in either look, wide or narrow`, async ({ program, page }) => {
    await page.goto(program.address);
    await page.getByRole('button', { name: 'Open sample data' }).click();
    await expect(page.getByRole('button', { name: 'Open sample data' })).toBeHidden();
    const found: string[] = [];
    for (const route of routes) {
      await page.setViewportSize({ width: 1440, height: 900 });
      await page.goto(new URL(`/#${route}`, program.address).href);
      await expect(page.getByRole('heading', { level: 1 }), route).toBeVisible();
      await expect(page.getByText('Opening…'), route).toHaveCount(0);
      found.push(...(await faults(page)).map((fault) => `${route}: ${fault}`));
      await page.setViewportSize({ width: 390, height: 844 });
      const sideways = () => page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
      await expect.poll(sideways, `${route} scrolls sideways at 390`).toBe(0);
    }
    expect(found).toEqual([]);
  });
}
