/** WCAG faults of a page, as axe finds them. */
import { AxeBuilder } from '@axe-core/playwright';
import type { Page } from '@playwright/test';

const WCAG = ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice'];
const OF_COLOR = ['color-contrast', 'link-in-text-block'];

/** Without frames, and reporting only violations. */
const checker = (page: Page): AxeBuilder => new AxeBuilder({ page }).setLegacyMode(true).options({ resultTypes: ['violations'] });

/** All rules but the size of targets: `smallTargets` measures that, and axe also counts a target that lies half under the foot. */
export const everyRule = (page: Page): AxeBuilder => checker(page).withTags(WCAG).disableRules('target-size');
/** The rules that colors can break. */
export const colorRules = (page: Page): AxeBuilder => checker(page).withRules(OF_COLOR);

/** All rules in the light look, then the color rules in the dark one. Leaves the page in the light look. */
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

/** What is drawn or pressed in a color of our own, or not set off from the page, while the system forces its colors. */
export async function lostColors(page: Page): Promise<string[]> {
  await page.emulateMedia({ forcedColors: 'active' });
  const lost = await page.evaluate(() => {
    const probe = document.body.appendChild(document.createElement('i'));
    const colorOf = (name: string): string => {
      probe.style.color = name;
      return getComputedStyle(probe).color;
    };
    const canvas = colorOf('Canvas');
    const known = ['none', ...['Canvas', 'CanvasText', 'GrayText', 'Highlight', 'HighlightText', 'ButtonText', 'LinkText'].map(colorOf)];
    probe.remove();
    const found: string[] = [];
    for (const line of document.querySelectorAll('svg path, svg text')) {
      const { stroke, fill } = getComputedStyle(line);
      const isPaint = [stroke, fill].every((paint) => known.includes(paint) || paint.startsWith('url('));
      if (!isPaint) found.push(`${line.tagName} of ${line.closest('svg')?.getAttribute('aria-label') ?? 'a drawing'}: ${stroke}, ${fill}`);
    }
    for (const datum of document.querySelectorAll('.datum-line'))
      if (getComputedStyle(datum).backgroundColor === canvas) found.push('the datum');
    for (const action of document.querySelectorAll('.action, .pour-button')) {
      const { borderTopWidth, borderTopColor, backgroundColor, forcedColorAdjust } = getComputedStyle(action);
      if (Number.parseFloat(borderTopWidth) < 1 || borderTopColor === canvas) found.push(`the edge of ${action.textContent}`);
      // Otherwise the browser puts the page's color behind words in a color meant for another ground.
      if (backgroundColor !== canvas && forcedColorAdjust !== 'none') found.push(`the words of ${action.textContent}`);
    }
    return [...new Set(found)];
  });
  await page.emulateMedia({ forcedColors: 'none' });
  return lost;
}

/** Elements that stay hidden under a sticky bar when focused (WCAG 2.2, 2.4.11). */
export function hiddenStops(page: Page): Promise<string[]> {
  return page.evaluate(() => {
    const isShown = (e: Element) => e.getClientRects().length > 0 && getComputedStyle(e).visibility !== 'hidden';
    const hidden: string[] = [];
    for (const stop of document.querySelectorAll<HTMLElement>('a[href], button, input, select, textarea, summary, [tabindex="0"]')) {
      if (!isShown(stop) || stop.tabIndex < 0) continue;
      stop.focus();
      if (document.activeElement !== stop) continue;
      const box = stop.getBoundingClientRect();
      const isUnder = [box.top + 3, (box.top + box.bottom) / 2].every((y) => {
        const band = document.elementFromPoint(box.left + box.width / 2, y)?.closest('.sheet-foot, .small-top, .top-line') ?? null;
        return band !== null && !band.contains(stop);
      });
      if (isUnder) hidden.push(stop.getAttribute('aria-label') ?? stop.textContent);
    }
    (document.activeElement as HTMLElement | null)?.blur();
    window.scrollTo(0, 0);
    return hidden;
  });
}

/** Inputs that a screen shows before anything is opened; a row of choices is one. */
export function inputsAtRest(page: Page): Promise<number> {
  return page.evaluate(() => {
    const shown = [...document.querySelectorAll<HTMLInputElement>('input, select, textarea')].filter((input) => input.checkVisibility());
    const radios = shown.filter((input) => input.type === 'radio');
    return shown.length - radios.length + new Set(radios.map((radio) => radio.name)).size;
  });
}

/**
 * What is pressed and smaller than `leastPx` high or 24 px wide, with the reach that it has around its words (WCAG 2.2, 2.5.8). A mark on
 * a drawing counts by its row of words beside the drawing. The dates of a cure stand in the rows of its drawing, 24 px apart at any size.
 */
export function smallTargets(page: Page, leastPx: number): Promise<string[]> {
  return page.evaluate((least) => {
    const reach = (e: Element): { width: number; height: number } => {
      const box = e.getBoundingClientRect();
      const after = getComputedStyle(e, '::after');
      const isReaching = after.content !== 'none' && after.position === 'absolute';
      return {
        width: Math.max(box.width, isReaching ? Number.parseFloat(after.width) : 0),
        height: Math.max(box.height, isReaching ? Number.parseFloat(after.height) : 0),
      };
    };
    const found: string[] = [];
    for (const e of document.querySelectorAll('a[href], button, input, select, textarea, summary, [role="button"], [role="slider"]')) {
      if (!e.checkVisibility({ visibilityProperty: true }) || e.closest('svg, [aria-hidden="true"]') !== null) continue;
      const own = e.getBoundingClientRect();
      // A native control that another one stands for.
      if (own.width <= 1 || own.height <= 1 || getComputedStyle(e).opacity === '0') continue;
      const { width, height } = reach(e.closest('label') ?? e);
      if (width < 23.5 || height < (e.closest('.cure-room') === null ? least : 24) - 0.5)
        found.push(`${Math.round(width)} by ${Math.round(height)}: ${e.getAttribute('aria-label') ?? e.textContent}`);
    }
    return found;
  }, leastPx);
}

/** How high the band at the foot of a phone is: the datum with its answer. */
export function footPx(page: Page): Promise<number> {
  return page.evaluate(() => document.querySelector('.sheet-foot')?.getBoundingClientRect().height ?? 0);
}
