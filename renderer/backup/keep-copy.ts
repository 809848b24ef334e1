/** Copying the book to the folder of copies, piece by piece. */
import type { SnapshotReason } from '../../shared-core/book/snapshot.ts';
import type { Envelope } from '../../shared-core/desk/envelope.ts';
import type { Gives, Takes } from '../../shared-core/desk/calls.ts';
import { PICTURES_KEPT_A_CALL } from '../../shared-core/desk/snapshot-calls.ts';
import { holdBook, type WalkedBook } from '../book/book-pieces.ts';
import { readLock } from '../book/copy-lock.ts';
import { lookingAt } from '../book/look-book.ts';
import { nowInstant } from '../book/moment.ts';
import type { Outcome } from '../book/outcome.ts';
import { tidyJournals } from '../book/pour-journal.ts';
import { holdChecks } from '../book/use-oddities.ts';
import { heldPictures, readPicture } from '../book/pictures.ts';
import { noteCopy } from '../book/snapshot-commands.ts';
import { base64OfBytes } from '../parts/base64.ts';
import { askDesk } from '../parts/desk-client.ts';

const PICTURES_A_PIECE_BYTES = 8_000_000;

type Lock = Takes<'snapshot.begin'>['lock'];

/** A refusal of the desk on its way out of the pieces. */
class Refused extends Error {}

const granted = <T>(answer: Envelope<T>): T => {
  if (!answer.ok) throw new Refused(answer.error.message);
  return answer.value;
};

/** Sends the photos that the folder does not hold. Gives those that are lost or spoilt: their records are copied all the same. */
const sendPictures = async (names: readonly string[], locked: boolean): Promise<ReadonlySet<string>> => {
  const { wanted } = granted(await askDesk('picture.wanted', { names: [...names], locked }));
  const held = await heldPictures(wanted);
  const lacking = new Set(wanted.filter((name) => !held.has(name)));
  let piece: { name: string; base64: string }[] = [];
  let size = 0;
  const flush = async (): Promise<void> => {
    if (piece.length > 0) for (const name of granted(await askDesk('picture.keep', { pictures: piece, locked })).spoilt) lacking.add(name);
    piece = [];
    size = 0;
  };
  for (const name of held) {
    const bytes = await readPicture(name);
    if (bytes === null) {
      lacking.add(name);
      continue;
    }
    piece.push({ name, base64: base64OfBytes(bytes) });
    size += bytes.length;
    if (size > PICTURES_A_PIECE_BYTES || piece.length === PICTURES_KEPT_A_CALL) await flush();
  }
  await flush();
  return lacking;
};

const sendBook = async (walked: WalkedBook, madeAt: string, reason: SnapshotReason, lock: Lock): Promise<string> => {
  const lacking = await sendPictures(walked.pictures, lock !== null);
  const { id } = granted(await askDesk('snapshot.begin', { madeAt, reason, lock }));
  // While the desk packs one piece, the next is read; no more than these two are under way.
  let under: Promise<Envelope<Gives<'snapshot.add'>>> | null = null;
  for await (const { table, rows } of walked.pieces()) {
    if (under !== null) granted(await under);
    // The rows carry their ids: every table is keyed by them.
    under = askDesk('snapshot.add', { id, table, rows: rows as Takes<'snapshot.add'>['rows'] });
  }
  if (under !== null) granted(await under);
  const { name } = granted(await askDesk('snapshot.finish', { id, pictures: walked.pictures.filter((picture) => !lacking.has(picture)) }));
  if (lacking.size === 0) return `${name} was written and checked.`;
  // The folder of this copy was looked through already.
  const photos =
    lacking.size === 1
      ? 'One photo is lost or spoilt in the book and is not in it: copies in another folder may hold it.'
      : `${lacking.size} photos are lost or spoilt in the book and are not in it: copies in another folder may hold them.`;
  return `${name} was written and checked. ${photos}`;
};

/**
 * Copies this book; the caller holds the lock between windows.
 * @returns what was written in a sentence, or the sentence Today shows until a copy succeeds
 */
export async function copyWalked(walked: WalkedBook, madeAt: string, reason: SnapshotReason): Promise<Outcome<string>> {
  try {
    const said = await sendBook(walked, madeAt, reason, await readLock());
    await noteCopy(madeAt, null);
    await tidyJournals(walked);
    return { ok: true, value: said };
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    await noteCopy(madeAt, error.message);
    return { ok: false, message: error.message, where: '' };
  }
}

/** One window at a time copies or restores, and only the book itself. */
export function alone<T>(work: () => Promise<Outcome<T>>): Promise<Outcome<T>> {
  if (lookingAt() !== null)
    return Promise.resolve({ ok: false, message: 'You are looking around in a copy. Go back to the book first.', where: '' });
  const goOn = holdChecks();
  return navigator.locks.request('straightedge-snapshot', work).finally(goOn);
}

/** Copies the book as it stands. Gives what was written in a sentence. */
export function keepCopy(reason: SnapshotReason): Promise<Outcome<string>> {
  return alone(async () => {
    const madeAt = nowInstant();
    return copyWalked(await holdBook(), madeAt, reason);
  });
}
