/** A document tree inked, kept and opened: the way every paper is made. */
import type { DocumentTree } from '../../shared-core/documents/tree.ts';
import { askDesk } from './desk-client.ts';
import { fileName, type Kept, keepAndOpen } from './keep-file.ts';

/** Inks the tree, keeps it under its title in the papers folder and opens it. */
export async function makePaper(tree: DocumentTree, open = true): Promise<Kept & { readonly sha256: string | null }> {
  const name = fileName(tree.title, 'pdf');
  const inked = await askDesk('document.ink', { tree });
  if (!inked.ok) return { ok: false, name, says: inked.error.message, sha256: null };
  const kept = await keepAndOpen(name, inked.value.pdfBase64, open);
  return { ...kept, sha256: inked.value.sha256 };
}
