/** Inks, saves and opens a document tree. Every document is made this way. */
import type { DocumentTree } from '../../shared-core/documents/tree.ts';
import { askDesk } from './desk-client.ts';
import { named } from './working.ts';
import { fileName, type SavedFile, saveAndOpen } from './save-file.ts';

/** A PDF with its hash and the program version. */
export type InkedPdf = { readonly pdfBase64: string; readonly sha256: string; readonly version: string };

/** Inks a tree; returns the error as a sentence. */
export async function inkPdf(
  tree: DocumentTree,
): Promise<{ readonly ok: true; readonly pdf: InkedPdf } | { readonly ok: false; readonly text: string }> {
  const inked = await named('Making PDF…', askDesk('document.ink', { tree }));
  return inked.ok ? { ok: true, pdf: inked.value } : { ok: false, text: inked.error.message };
}

export function savePdf(title: string, pdf: InkedPdf, open = true): Promise<SavedFile> {
  return saveAndOpen(fileName(title, 'pdf'), pdf.pdfBase64, open);
}

export async function saveTree(
  tree: DocumentTree,
  open = true,
): Promise<SavedFile & { readonly sha256: string | null; readonly version: string }> {
  const inked = await inkPdf(tree);
  if (!inked.ok) return { ok: false, name: fileName(tree.title, 'pdf'), text: inked.text, sha256: null, version: '' };
  const saved = await savePdf(tree.title, inked.pdf, open);
  return { ...saved, sha256: inked.pdf.sha256, version: inked.pdf.version };
}
