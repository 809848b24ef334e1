/** Bringing chosen customers and jobs of a copy in: the book is copied first, then all of it is written at once, undone like any edit. */
import { bringKeys, type BringLine, bringLines, bringPlan, briefRow, rowKey } from '../../shared-core/book/bring-in.ts';
import { type BookRows, pictureName } from '../../shared-core/book/snapshot.ts';
import { gatherRows, holdBook, type Pieces, PiecesStopped } from '../book/book-pieces.ts';
import { nowInstant } from '../book/moment.ts';
import type { Outcome } from '../book/outcome.ts';
import { type Put, write } from '../book/write.ts';
import { alone, copyWalked } from './keep-copy.ts';
import { bringPictures, copyPieces, type OpenedCopy } from './open-copy.ts';

/** A copy's records in brief, and its customers and jobs against the book. */
export type Bringable = { readonly brief: BookRows; readonly lines: readonly BringLine[] };

const inBrief = (pieces: Pieces): Promise<BookRows> => gatherRows(pieces, (_, row) => briefRow(row));

/** Work that reads a copy; where the copy ends early, its sentence. */
const reading = async <T>(work: () => Promise<Outcome<T>>): Promise<Outcome<T>> => {
  try {
    return await work();
  } catch (error) {
    if (error instanceof PiecesStopped) return { ok: false, message: error.message, where: '' };
    throw error;
  }
};

/** What a copy has to bring in; neither book is held whole. */
export function readBringable(copy: OpenedCopy): Promise<Outcome<Bringable>> {
  return reading(async () => {
    const brief = await inBrief(copyPieces(copy));
    return { ok: true, value: { brief, lines: bringLines(brief, await inBrief((await holdBook()).pieces())) } };
  });
}

/** Gives a sentence about what came in. */
export function bringIn(copy: OpenedCopy, brief: BookRows, lines: readonly BringLine[]): Promise<Outcome<string>> {
  const bring = async (): Promise<Outcome<string>> => {
    const present = await holdBook();
    const kept = await copyWalked(present, nowInstant(), 'before-restoring');
    if (!kept.ok)
      return { ok: false, message: `The present book could not be copied first, so nothing was brought in. ${kept.message}`, where: '' };
    const ids = (kind: BringLine['kind']): Set<string> => new Set(lines.filter((line) => line.kind === kind).map((line) => line.id));
    const chosen = { customers: ids('customer'), jobs: ids('job') };
    const presentBrief = await inBrief(present.pieces());
    const keys = bringKeys(brief, presentBrief, chosen);
    const named = (pieces: Pieces): Promise<BookRows> => gatherRows(pieces, (table, row) => (keys.has(rowKey(table, row)) ? row : null));
    const plan = bringPlan(await named(copyPieces(copy)), await named(present.pieces()), chosen, presentBrief.jobs);
    const photos = plan.puts.filter(({ table }) => table === 'photos').map(({ row }) => pictureName(row));
    const pictures = await bringPictures(
      copy,
      photos.filter((name) => name !== null),
    );
    if (!pictures.ok) return pictures;
    const written = await write('bringing in from a copy', nowInstant(), {
      // The plan's rows were read through their schemas; the writing reads them once more.
      puts: plan.puts as unknown as readonly Put[],
      removes: plan.removes,
    });
    if (!written.ok) return written;
    const sentences = [
      `${lines.length === 1 ? 'One is' : `${lines.length} are`} in the book.`,
      ...plan.renumbered.map(({ from, to }) => `The book has a job ${from} of its own, so the one brought in is ${to}.`),
      ...(plan.left === 0 ? [] : [`${plan.left === 1 ? 'One record' : `${plan.left} records`} could not be read and stayed in the copy.`]),
      ...(pictures.value === 0 ? [] : [`${pictures.value === 1 ? 'One photo' : `${pictures.value} photos`} could not be read.`]),
    ];
    return { ok: true, value: sentences.join(' ') };
  };
  return alone(() => reading(bring));
}
