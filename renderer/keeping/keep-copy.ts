/** Copying the book to the folder of copies, piece by piece. */
import type { SnapshotReason } from '../../shared-core/book/snapshot.ts';
import type { Envelope } from '../../shared-core/desk/envelope.ts';
import type { Gives, Takes } from '../../shared-core/desk/calls.ts';
import { holdBook, type WalkedBook } from '../book/book-pieces.ts';
import { readLock } from '../book/copy-lock.ts';
import { lookingAt } from '../book/look-book.ts';
import { nowInstant } from '../book/moment.ts';
import type { Outcome } from '../book/outcome.ts';
import { tidyJournals } from '../book/pour-journal.ts';
import { holdChecks } from '../book/use-oddities.ts';
import { readPicture } from '../book/pictures.ts';
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

const sendPictures = async (names: readonly string[], locked: boolean): Promise<string[]> => {
  const { wanted } = granted(await askDesk('picture.wanted', { names: [...names], locked }));
  const lacking = new Set<string>();
  let piece: { name: string; base64: string }[] = [];
  let size = 0;
  const flush = async (): Promise<void> => {
    if (piece.length > 0) granted(await askDesk('picture.keep', { pictures: piece, locked }));
    piece = [];
    size = 0;
  };
  for (const name of wanted) {
    const bytes = await readPicture(name);
    if (bytes === null) {
      // Its record is copied all the same, and the check of the book names it.
      lacking.add(name);
      continue;
    }
    piece.push({ name, base64: base64OfBytes(bytes) });
    size += bytes.length;
    if (size > PICTURES_A_PIECE_BYTES) await flush();
  }
  await flush();
  return names.filter((name) => !lacking.has(name));
};

const sendBook = async (walked: WalkedBook, madeAt: string, reason: SnapshotReason, lock: Lock): Promise<string> => {
  const pictures = await sendPictures(walked.pictures, lock !== null);
  const { id } = granted(await askDesk('snapshot.begin', { madeAt, reason, lock }));
  // While the desk packs one piece, the next is read; no more than these two are under way.
  let under: Promise<Envelope<Gives<'snapshot.add'>>> | null = null;
  for await (const { table, rows } of walked.pieces()) {
    if (under !== null) granted(await under);
    // The rows carry their ids: every table is keyed by them.
    under = askDesk('snapshot.add', { id, table, rows: rows as Takes<'snapshot.add'>['rows'] });
  }
  if (under !== null) granted(await under);
  return granted(await askDesk('snapshot.finish', { id, pictures })).name;
};

/**
 * Copies this book; the caller holds the lock between windows.
 * @returns the copy's name, or the sentence Today shows until a copy succeeds
 */
export async function copyWalked(walked: WalkedBook, madeAt: string, reason: SnapshotReason): Promise<Outcome<string>> {
  try {
    const name = await sendBook(walked, madeAt, reason, await readLock());
    await noteCopy(madeAt, null);
    await tidyJournals(walked);
    return { ok: true, value: name };
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

/** Copies the book as it stands. Gives the copy's name. */
export function keepCopy(reason: SnapshotReason): Promise<Outcome<string>> {
  return alone(async () => {
    const madeAt = nowInstant();
    return copyWalked(await holdBook(), madeAt, reason);
  });
}
