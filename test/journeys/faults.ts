/** WCAG faults of a page, as axe finds them. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from '@playwright/test';
import type { AxeResults, RunOptions } from 'axe-core';

const SCRIPT = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
/** The size of targets is left out: `smallTargets` measures it, and axe also counts a target that lies half under the foot. */
const EVERY_RULE: RunOptions = {
  runOnly: ['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa', 'best-practice'],
  rules: { 'target-size': { enabled: false } },
};
const RULES_OF_COLOR: RunOptions = { runOnly: { type: 'rule', values: ['color-contrast', 'link-in-text-block'] } };

/** Frames in a row without a change of the page, after which a screen that was just asked for is drawn. */
const QUIET_FRAMES = 15;
/** Waits until the page stays as it is. Before that axe reads the screen before, or elements that are gone when it judges them. */
export const settled = (page: Page): Promise<void> =>
  page.evaluate(async (frames) => {
    let quiet = 0;
    const watch = new MutationObserver(() => (quiet = 0));
    watch.observe(document.body, { childList: true, subtree: true });
    for (let all = 0; quiet < frames && all < 20 * frames; all += 1) {
      await new Promise((resolve) => requestAnimationFrame(resolve));
      quiet += 1;
    }
    watch.disconnect();
  }, QUIET_FRAMES);

/** The violations of some rules in a part of a page, each with its first place. The checker stays in a page, and is put in again after a page is loaded. */
async function violations(page: Page, part: string, options: RunOptions): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in globalThis))) await page.evaluate(SCRIPT);
  const wanted = { ...options, iframes: false, resultTypes: ['violations'] } satisfies RunOptions;
  return page.evaluate(
    async ([within, rules]) => {
      const { axe } = globalThis as unknown as { axe: { run: (within: string, options: RunOptions) => Promise<AxeResults> } };
      return (await axe.run(within, rules)).violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html ?? ''}`);
    },
    [part, wanted] as const,
  );
}

/** Of a page, or a part of it by its selector: all rules in the light look, then the color rules in the dark one. Leaves the page in the light look. */
export async function faults(page: Page, part = 'html'): Promise<string[]> {
  await page.emulateMedia({ colorScheme: 'light' });
  await settled(page);
  const light = await violations(page, part, EVERY_RULE);
  await page.emulateMedia({ colorScheme: 'dark' });
  const dark = await violations(page, part, RULES_OF_COLOR);
  await page.emulateMedia({ colorScheme: 'light' });
  return [...light.map((fault) => `light: ${fault}`), ...dark.map((fault) => `dark: ${fault}`)];
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
    for (const range of document.querySelectorAll('.range-mark-line')) {
      const { borderTopWidth, borderTopColor } = getComputedStyle(range, '::before');
      if (!(Number.parseFloat(borderTopWidth) > 0) || borderTopColor === canvas)
        found.push(`the line of ${range.parentElement?.textContent ?? 'a range'}`);
    }
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
