/** Work that takes a moment and has no share to show, such as inking a PDF: named on the screen while it runs. */
let running: readonly string[] = [];
const watchers = new Set<() => void>();

function set(next: readonly string[]): void {
  running = next;
  for (const changed of watchers) changed();
}

/** Names the work while it runs: `Making PDF…`. */
export async function named<T>(words: string, work: Promise<T>): Promise<T> {
  set([...running, words]);
  try {
    return await work;
  } finally {
    const at = running.indexOf(words);
    set(running.filter((_, i) => i !== at));
  }
}

export function onWorking(changed: () => void): () => void {
  watchers.add(changed);
  return () => watchers.delete(changed);
}

/** What began last; null when nothing runs. */
export const workingNow = (): string | null => running.at(-1) ?? null;
