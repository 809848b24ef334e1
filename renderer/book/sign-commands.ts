/** Signs a stored document. The signed copy is stored with the hash of the PDF that was signed, and never edited. */
import type { MadeDocument, Signature } from '../../shared-core/book/papers.ts';
import type { Quote } from '../../shared-core/book/quote.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { issuerName } from '../../shared-core/documents/letterhead.ts';
import { signedCopy, signedCopyOf } from '../../shared-core/documents/signed-copy.ts';
import { decideOrder } from '../../shared-core/price/change-order.ts';
import { answerQuote } from '../../shared-core/price/quote-state.ts';
import { type SavedDocument, saveDocument, storedDocument, paperPhotos } from './document-commands.ts';
import { nextRevision } from '../../shared-core/documents/document-input.ts';
import { nowInstant, type Outcome } from './command.ts';
import { recordOrder, recordAnswer } from './quote-commands.ts';
import { storePhoto, type NewPhoto } from './photo-commands.ts';

/** A drawn signature, or the photo of a signed paper with its date. */
export type Signing = Pick<Signature, 'role' | 'name' | 'optionId'> &
  (
    | { readonly picture: string }
    | { readonly paper: Omit<NewPhoto, 'jobId' | 'roomId' | 'caption' | 'takenAt'>; readonly signedAt: string }
  );

export type Signed = {
  readonly whole: WholeJob;
  readonly quote: Quote;
  /** The change order; null for the quote itself. */
  readonly orderId: string | null;
  readonly document: MadeDocument;
};

/** A quote cannot be signed on a day after its last valid day, nor one that was decided. */
function refusal({ whole, quote, orderId }: Signed, by: string, optionId: string | null, instant: string): string | null {
  const checked =
    orderId === null
      ? answerQuote(quote, { state: 'accepted', by, note: '', optionId, instant }, whole.business.locale)
      : decideOrder(quote, orderId, { state: 'signed', by, instant });
  return checked.ok ? null : checked.message;
}

/**
 * Signs a quote or change order. A customer's signature also records the acceptance. Earlier signatures on the same document are included
 * in the new copy.
 */
export async function signDocument(signed: Signed, signing: Signing): Promise<SavedDocument> {
  const { whole, quote, orderId, document } = signed;
  const failed = (text: string): SavedDocument => ({ ok: false, text, documentId: null });
  const name = signing.name.trim();
  if (name === '') return failed('Enter the printed name of the signer.');
  if (document.sha256 === null) return failed('Save the PDF first. A signature is made on a saved PDF.');
  const isOpen = orderId === null ? quote.state === 'issued' : quote.orders.find((one) => one.id === orderId)?.state === 'issued';
  const accepts = signing.role === 'customer' && isOpen;
  const instant = 'paper' in signing ? signing.signedAt : nowInstant();
  const refused = isOpen ? refusal(signed, name, signing.optionId, instant) : null;
  if (refused !== null) return failed(refused);
  const tree = await storedDocument(document);
  if (!tree.ok) return failed(tree.message);
  let photoId: string | null = null;
  if ('paper' in signing) {
    const photo = await storePhoto({
      ...signing.paper,
      jobId: quote.jobId,
      roomId: null,
      caption: `${document.title}, signed`,
      takenAt: instant,
    });
    if (!photo.ok) return failed(photo.message);
    photoId = photo.value;
  }
  const picture = 'picture' in signing ? signing.picture : null;
  const signature: Signature = {
    role: signing.role,
    name,
    optionId: signing.optionId,
    instant,
    signedSha256: document.sha256,
    picture,
    photoId,
  };
  const signatures = [...(signedCopyOf(whole.documents, document)?.signatures ?? []).filter((one) => one.role !== signing.role), signature];
  const photos = await paperPhotos(quote.jobId);
  const { business, property } = quote.frozen;
  const place = { zone: property.timeZone, locale: business.locale, business: issuerName(business), quote };
  const saved = await saveDocument({
    jobId: quote.jobId,
    kind: 'signed-copy',
    revision: nextRevision(whole, 'signed-copy'),
    tree: signedCopy(
      tree.value,
      signatures,
      place,
      photos.filter(({ photo }) => signatures.some((one) => one.photoId === photo.id)).map((one) => one.picture),
    ),
    quoteId: quote.id,
    signatures,
    photos,
  });
  if (saved.documentId === null || !accepts) return saved;
  const answered = await record(signed, name, signing.optionId, instant);
  return answered.ok ? saved : { ...saved, ok: false, text: `${saved.text} The decision was not recorded: ${answered.message}` };
}

function record({ whole, quote, orderId }: Signed, by: string, optionId: string | null, instant: string): Promise<Outcome> {
  if (orderId !== null) return recordOrder(whole, quote, orderId, { state: 'signed', by }, instant);
  return recordAnswer(whole, quote, { state: 'accepted', by, note: 'Signed', optionId }, instant);
}
