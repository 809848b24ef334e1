/** Bringing chosen customers and jobs of a copy in: the book is copied first, then all of it is written at once, undone like any edit. */
import { type BringLine, bringPlan } from '../../shared-core/book/bring-in.ts';
import { type BookRows, pictureName } from '../../shared-core/book/snapshot.ts';
import { walkRows } from '../book/book-pieces.ts';
import { nowInstant } from '../book/moment.ts';
import type { Outcome } from '../book/outcome.ts';
import { readBookRows } from '../book/snapshot-commands.ts';
import { type Put, write } from '../book/write.ts';
import { alone, copyWalked } from './keep-copy.ts';
import { bringPictures, type OpenedCopy } from './open-copy.ts';

/** Gives a sentence about what came in. */
export function bringIn(copy: OpenedCopy, rows: BookRows, lines: readonly BringLine[]): Promise<Outcome<string>> {
  return alone(async () => {
    const present = await readBookRows();
    const kept = await copyWalked(walkRows(present), nowInstant(), 'before-restoring');
    if (!kept.ok)
      return { ok: false, message: `The present book could not be copied first, so nothing was brought in. ${kept.message}`, where: '' };
    const ids = (kind: BringLine['kind']): Set<string> => new Set(lines.filter((line) => line.kind === kind).map((line) => line.id));
    const plan = bringPlan(rows, present, { customers: ids('customer'), jobs: ids('job') });
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
  });
}
