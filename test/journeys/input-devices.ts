/** Two ways to use the same screens: by pointer, or by keyboard only. */
import type { ElementHandle, Locator, Page } from '@playwright/test';

export interface InputDevice {
  /** Presses a button or link. */
  press(target: Locator): Promise<void>;
  /** Fills a field and leaves it with Enter. */
  write(field: Locator, text: string): Promise<void>;
  /** Chooses from a list. */
  choose(list: Locator, word: string): Promise<void>;
  /** Toggles a checkbox. */
  tick(box: Locator): Promise<void>;
}

export const pointer = (): InputDevice => ({
  press: (target) => target.click(),
  write: async (field, text) => {
    await field.fill(text);
    await field.press('Enter');
  },
  choose: async (list, word) => {
    await list.selectOption({ label: word });
  },
  // The checkbox itself is hidden; users click its label.
  tick: (box) => box.locator('xpath=ancestor::label').click(),
});

/** Position of an element relative to the focus. Evaluated in the page, because looking it up at every step is slow. */
const whereIs = (element: ElementHandle): Promise<'here' | 'elsewhere' | 'gone'> =>
  element.evaluate((node) => {
    if (!node.isConnected) return 'gone';
    return node === document.activeElement ? 'here' : 'elsewhere';
  });

/** Nothing is clicked, filled or focused by script; each element is reached with Tab. */
export const keyboard = (page: Page): InputDevice => {
  const reach = async (target: Locator): Promise<void> => {
    let element = await target.elementHandle();
    for (let steps = 0; steps < 250; steps += 1) {
      const whereabouts = await whereIs(element);
      if (whereabouts === 'here') return;
      if (whereabouts === 'gone') element = await target.elementHandle();
      else await page.keyboard.press('Tab');
    }
    throw new Error(`Tab never comes to ${String(target)}.`);
  };
  return {
    press: async (target) => {
      await reach(target);
      await page.keyboard.press('Enter');
    },
    write: async (field, text) => {
      await reach(field);
      await page.keyboard.press('Control+A');
      await page.keyboard.type(text);
      await page.keyboard.press('Enter');
    },
    choose: async (list, word) => {
      await reach(list);
      await page.keyboard.type(word);
      await page.keyboard.press('Enter');
    },
    tick: async (box) => {
      await reach(box);
      await page.keyboard.press('Space');
    },
  };
};
