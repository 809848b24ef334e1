/** Keeping a paper on the machine and opening it. */
import { askDesk } from './desk-client.ts';

/** What became of it, in a sentence; `name` opens it again. */
export type Kept = { readonly ok: boolean; readonly name: string; readonly says: string };

/** A file's own name from words: what a file system may refuse is left out. */
export function fileName(words: string, kind: 'pdf' | 'ics' | 'csv' | 'json' | 'zip'): string {
  const plain = words
    .replace(/[^\p{L}\p{N} ,()-]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .slice(0, 100);
  return `${plain === '' ? 'Paper' : plain}.${kind}`;
}

/** Keeps the bytes under a name in the papers folder, and opens them where the machine can. */
export async function keepAndOpen(name: string, base64: string, open = true): Promise<Kept> {
  const kept = await askDesk('file.keep', { name, base64 });
  if (!kept.ok) return { ok: false, name, says: kept.error.message };
  const says = `${name} is in ${kept.value.folder}.`;
  if (!open) return { ok: true, name, says };
  const opened = await askDesk('file.open', { name });
  return { ok: true, name, says: opened.ok ? says : `${says} ${opened.error.message}` };
}
