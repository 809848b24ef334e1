/** Signing a stored document: the signed copy is stored with the hash of the PDF that was signed, and never edited. */
import type { MadeDocument, Signature } from '../../shared-core/book/papers.ts';
import type { Quote } from '../../shared-core/book/quote.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { issuerName } from '../../shared-core/documents/letterhead.ts';
import { signedCopy } from '../../shared-core/documents/signed-copy.ts';
import { answerQuote } from '../../shared-core/price/quote-state.ts';
import { nextRevision, type SavedDocument, saveDocument, storedDocument } from './document-commands.ts';
import { nowInstant } from './moment.ts';
import { recordAnswer } from './quote-commands.ts';

/** What the signer entered. */
export type Signing = Pick<Signature, 'role' | 'name' | 'optionId'> & { readonly picture: string };

/**
 * Signs a quote's document. A customer's signature also records the acceptance; signatures made before on the same document
 * are kept in the new copy.
 */
export async function signQuote(whole: WholeJob, quote: Quote, document: MadeDocument, signing: Signing): Promise<SavedDocument> {
  const failed = (text: string): SavedDocument => ({ ok: false, text, documentId: null });
  if (signing.name.trim() === '') return failed('Enter the printed name of the signer.');
  if (document.sha256 === null) return failed('Save the PDF first. A signature is made on a saved PDF.');
  const tree = await storedDocument(document);
  if (!tree.ok) return failed(tree.message);
  const at = nowInstant();
  const before = whole.documents.findLast((one) => one.kind === 'signed-copy' && one.quoteId === quote.id)?.signatures ?? [];
  const signature: Signature = { ...signing, name: signing.name.trim(), at, signedSha256: document.sha256, photoId: null };
  const signatures = [...before.filter((one) => one.role !== signing.role), signature];
  const { business, property } = quote.frozen;
  const copy = signedCopy(tree.value, signatures, { zone: property.timeZone, locale: business.locale, business: issuerName(business) });
  const answer = { state: 'accepted' as const, by: signature.name, note: 'Signed on the screen', optionId: signing.optionId };
  const accepts = signing.role === 'customer' && quote.state === 'issued';
  if (accepts) {
    // Checked before anything is stored: an expired quote cannot be signed.
    const allowed = answerQuote(quote, { ...answer, at }, business.locale);
    if (!allowed.ok) return failed(allowed.message);
  }
  const saved = await saveDocument({
    jobId: quote.jobId,
    kind: 'signed-copy',
    revision: nextRevision(whole.documents, 'signed-copy'),
    tree: copy,
    quoteId: quote.id,
    signatures,
  });
  if (saved.documentId === null || !accepts) return saved;
  const answered = await recordAnswer(whole, quote, answer);
  return answered.ok ? saved : { ...saved, ok: false, text: `${saved.text} The decision was not recorded: ${answered.message}` };
}
