/** What the checker of WCAG finds on a page. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';

const WCAG = ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice'];
/** What a change of colours can break. */
const OF_COLOUR = ['color-contrast', 'link-in-text-block'];

/** Everything the checker knows, in the light look; then what colour can change, in the dark one. Leaves the page in the light. */
export async function faults(page: Page): Promise<string[]> {
  await page.emulateMedia({ colorScheme: 'light' });
  const light = await new AxeBuilder({ page }).withTags(WCAG).analyze();
  await page.emulateMedia({ colorScheme: 'dark' });
  const dark = await new AxeBuilder({ page }).withRules(OF_COLOUR).analyze();
  await page.emulateMedia({ colorScheme: 'light' });
  return [
    ...light.violations.map((v) => `light: ${v.id}: ${v.nodes[0]?.html ?? ''}`),
    ...dark.violations.map((v) => `dark: ${v.id}: ${v.nodes[0]?.html ?? ''}`),
  ];
}
