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

export function savePdf(title: string, pdf: InkedPdf): Promise<SavedFile> {
  return saveAndOpen(fileName(title, 'pdf'), pdf.pdfBase64);
}

export async function saveTree(tree: DocumentTree): Promise<SavedFile> {
  const inked = await inkPdf(tree);
  return inked.ok ? savePdf(tree.title, inked.pdf) : { ok: false, name: fileName(tree.title, 'pdf'), text: inked.text };
}
