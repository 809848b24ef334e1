/** Opening a copy to look into it, and putting it in the book's place. */
import { TABLE_NAMES, type TableName } from '../../shared-core/book/tables.ts';
import type { Gives, Takes } from '../../shared-core/desk/calls.ts';
import type { Envelope } from '../../shared-core/desk/envelope.ts';
import { PICTURES_GIVEN_A_CALL } from '../../shared-core/desk/snapshot-calls.ts';
import { holdBook, type Pieces, PiecesStopped } from '../book/book-pieces.ts';
import { readLock } from '../book/copy-lock.ts';
import { nowInstant } from '../book/moment.ts';
import type { Outcome } from '../book/outcome.ts';
import { heldPictures, keepPictures } from '../book/pictures.ts';
import { checkJournals } from '../book/lost-entries.ts';
import { replaceBook } from '../book/snapshot-commands.ts';
import { base64OfBytes, bytesOfBase64 } from '../parts/base64.ts';
import { askDesk } from '../parts/desk-client.ts';
import { alone, copyWalked } from './keep-copy.ts';

export type OpenedCopy = Gives<'snapshot.look'>;
export type CopySource = Takes<'snapshot.look'>['from'];

/** What one call carries of a file chosen from anywhere; a multiple of three, so that each part is whole base64. */
const PART_BYTES = 6_000_000;

const fail = (message: string): Outcome<never> => ({ ok: false, message, where: '' });

/** Hands a file to the desk, part by part. */
export async function sendFile(file: File): Promise<Envelope<{ readonly arrived: string }>> {
  let id: string | null = null;
  for (let from = 0; from === 0 || from < file.size; from += PART_BYTES) {
    const bytes = new Uint8Array(await file.slice(from, from + PART_BYTES).arrayBuffer());
    const answer: Envelope<Gives<'snapshot.arrive'>> = await askDesk('snapshot.arrive', { id, base64: base64OfBytes(bytes) });
    if (!answer.ok) return answer;
    id = answer.value.id;
  }
  return { ok: true, value: { arrived: id ?? '' } };
}

/** Opens a copy: proven whole, or refused in a sentence. */
export async function lookInto(from: CopySource, passphrase: string | null): Promise<Envelope<OpenedCopy>> {
  return askDesk('snapshot.look', { from, lock: await readLock(), passphrase });
}

/** Walks the records of an opened copy, as the desk hands them out; ends with `PiecesStopped` where it does not. */
export async function* copyPieces(copy: OpenedCopy): Pieces {
  type Given = Promise<Envelope<Gives<'snapshot.rows'>>>;
  for (const table of TABLE_NAMES) {
    let many = 0;
    let asked: Given | null = askDesk('snapshot.rows', { id: copy.id, table, from: 0 });
    while (asked !== null) {
      const answer: Awaited<Given> = await asked;
      if (!answer.ok) throw new PiecesStopped(answer.error.message);
      const rows: Gives<'snapshot.rows'>['rows'] = answer.value.rows;
      const next: number | null = answer.value.next;
      many += rows.length;
      // The desk reads on while these are put away.
      asked = next === null ? null : askDesk('snapshot.rows', { id: copy.id, table, from: next });
      if (rows.length > 0) yield { table, rows };
    }
    if (many !== copy.counts[table])
      throw new PiecesStopped('The copy did not give all the records it holds. Nothing in the book was changed; open the copy again.');
  }
}

/** Brings photos of an opened copy into the open book; those it holds already are not asked for. Gives how many the copy had lost. */
export async function bringPictures(copy: OpenedCopy, names: readonly string[]): Promise<Outcome<number>> {
  const held = await heldPictures(names);
  let wanted = names.filter((name) => !held.has(name));
  let lost = 0;
  while (wanted.length > 0) {
    const asked = wanted.slice(0, PICTURES_GIVEN_A_CALL);
    const answer = await askDesk('snapshot.pictures', { id: copy.id, names: asked });
    if (!answer.ok) return fail(answer.error.message);
    const kept = await keepPictures(answer.value.pictures.map(({ name, base64 }) => ({ name, data: bytesOfBase64(base64) })));
    if (!kept.ok) return kept;
    // An answer may stop early when its photos are large; then what it stopped at is asked for again.
    const given = new Set(answer.value.pictures.map(({ name }) => name));
    const last = asked.findLastIndex((name) => given.has(name));
    const passed = last < 0 ? asked.length : last + 1;
    lost += asked.slice(0, passed).filter((name) => !given.has(name)).length;
    wanted = wanted.slice(passed);
  }
  return { ok: true, value: lost };
}

/** Copies the present book, then puts the other in its place; nothing is replaced when the copy fails. Gives how many photos the copy had lost. */
export function restoreCopy(copy: OpenedCopy): Promise<Outcome<number>> {
  return alone(async () => {
    const present = await holdBook();
    const kept = await copyWalked(present, nowInstant(), 'before-restoring');
    if (!kept.ok) return fail(`The present book could not be copied first, so nothing was restored. ${kept.message}`);
    const pictures = await bringPictures(copy, copy.pictures);
    if (!pictures.ok) return pictures;
    const replaced = await replaceBook(copyPieces(copy), present.print);
    if (!replaced.ok) return replaced;
    await checkJournals();
    return pictures;
  });
}

/** What a copy holds, in words. */
export function copyHolds({ counts }: OpenedCopy): string {
  const count = (table: TableName, one: string, many: string): string => {
    const much = counts[table];
    return much === 1 ? `one ${one}` : `${much} ${many}`;
  };
  return `${count('customers', 'customer', 'customers')}, ${count('jobs', 'job', 'jobs')}, ${count('rooms', 'room', 'rooms')}, ${count('photos', 'photo', 'photos')}`;
}
