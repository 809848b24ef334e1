import { askDesk } from './desk-client.ts';

/** The result in a sentence; `name` opens the file again. */
export type SavedFile = { readonly ok: boolean; readonly name: string; readonly text: string };

/** Names that Windows reserves for devices. */
const RESERVED = /^(con|prn|aux|nul|com[0-9]|lpt[0-9])$/i;

/** Turns words into a file name without characters or names that a file system may refuse. */
export function fileName(words: string, kind: 'pdf' | 'ics' | 'csv' | 'json' | 'zip'): string {
  const plain = words
    .replace(/[^\p{L}\p{N} ,()-]+/gu, ' ')
    .replace(/\s+/g, ' ')
    .trim()
    .slice(0, 100);
  return `${plain === '' || RESERVED.test(plain) ? `Document ${plain}`.trim() : plain}.${kind}`;
}

/** Saves a file in the documents folder and opens it where possible. A different file of that name is never replaced. */
export async function saveAndOpen(name: string, base64: string, open = true): Promise<SavedFile> {
  const outcome = await askDesk('file.save', { name, base64 });
  if (!outcome.ok) return { ok: false, name, text: outcome.error.message };
  const saved = outcome.value.name;
  const savedText = `${saved} was saved to ${outcome.value.folder}.`;
  if (!open) return { ok: true, name: saved, text: savedText };
  const opened = await askDesk('file.open', { name: saved });
  return { ok: true, name: saved, text: opened.ok ? savedText : `${savedText} ${opened.error.message}` };
}
