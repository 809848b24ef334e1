/** What the checker of WCAG finds on a page. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';

const WCAG = ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice'];
const OF_COLOR = ['color-contrast', 'link-in-text-block'];

/** The checker as these pages need it: no frames in them, and nothing wanted but what is wrong. */
const checker = (page: Page): AxeBuilder => new AxeBuilder({ page }).setLegacyMode(true).options({ resultTypes: ['violations'] });

/** Everything the checker knows. */
export const everyRule = (page: Page): AxeBuilder => checker(page).withTags(WCAG);
/** What a change of colors can break. */
export const colorRules = (page: Page): AxeBuilder => checker(page).withRules(OF_COLOR);

/** Everything the checker knows, in the light look; then what color can change, in the dark one. Leaves the page in the light. */
export async function faults(page: Page): Promise<string[]> {
  await page.emulateMedia({ colorScheme: 'light' });
  const light = await everyRule(page).analyze();
  await page.emulateMedia({ colorScheme: 'dark' });
  const dark = await colorRules(page).analyze();
  await page.emulateMedia({ colorScheme: 'light' });
  return [
    ...light.violations.map((v) => `light: ${v.id}: ${v.nodes[0]?.html ?? ''}`),
    ...dark.violations.map((v) => `dark: ${v.id}: ${v.nodes[0]?.html ?? ''}`),
  ];
}
