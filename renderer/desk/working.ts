import { heldValue } from './held-value.ts';

/** Work that takes a moment and has no share to show, such as inking a PDF: named on the screen while it runs. */
const running = heldValue<readonly string[]>([]);

/** Names the work while it runs: `Making PDF…`. */
export async function named<T>(words: string, work: Promise<T>): Promise<T> {
  running.set([...running.get(), words]);
  try {
    return await work;
  } finally {
    const at = running.get().indexOf(words);
    running.set(running.get().filter((_, i) => i !== at));
  }
}

/** What began last; null when nothing runs. */
export const useWorking = (): string | null => running.use().at(-1) ?? null;
