/** Two ways to work the same screens: with the pointer, or with the keyboard and nothing else. */
import type { ElementHandle, Locator, Page } from '@playwright/test';

export interface Hands {
  /** A button, a link. */
  press(what: Locator): Promise<void>;
  /** A field, left with Enter. */
  write(field: Locator, text: string): Promise<void>;
  /** A list to choose from. */
  choose(list: Locator, word: string): Promise<void>;
  /** A box, to the other state. */
  tick(box: Locator): Promise<void>;
}

export const pointer = (): Hands => ({
  press: (what) => what.click(),
  write: async (field, text) => {
    await field.fill(text);
    await field.press('Enter');
  },
  choose: async (list, word) => {
    await list.selectOption({ label: word });
  },
  // The box itself is not to be seen; a person hits the words beside it.
  tick: (box) => box.locator('xpath=ancestor::label').click(),
});

/** Where an element stands to the focus; asked of the element itself, for seeking it again at every step takes long. */
const whereIs = (element: ElementHandle): Promise<'here' | 'elsewhere' | 'gone'> =>
  element.evaluate((node) => {
    if (!node.isConnected) return 'gone';
    return node === document.activeElement ? 'here' : 'elsewhere';
  });

/** Nothing is clicked, filled or focused by script: each thing must be reached with Tab. */
export const keyboard = (page: Page): Hands => {
  const reach = async (what: Locator): Promise<void> => {
    let element = await what.elementHandle();
    for (let steps = 0; steps < 250; steps += 1) {
      const whereabouts = await whereIs(element);
      if (whereabouts === 'here') return;
      if (whereabouts === 'gone') element = await what.elementHandle();
      else await page.keyboard.press('Tab');
    }
    throw new Error(`Tab never comes to ${String(what)}.`);
  };
  return {
    press: async (what) => {
      await reach(what);
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
