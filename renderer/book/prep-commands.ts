/** Signing the checklist, taking a signature back, and the primer's clock. */
import type { SignedItem } from '../../shared-core/book/job.ts';
import { changeJobRoom } from './job-commands.ts';
import { nowInstant } from './moment.ts';
import { type Outcome, refused } from './outcome.ts';

/** A line as it is signed. */
export type LineToSign = {
  readonly key: string;
  readonly what: string;
  /** What the line says in full, kept with the signature should it change. */
  readonly saidThen: string;
};

/** What stands beside a signature: a note, and photos by id. */
export type Beside = { readonly note?: string; readonly photoIds?: readonly string[] };

/** Puts a signature under a line; an earlier one stays on record. */
export function signLine(jobId: string, roomId: string, line: LineToSign, initials: string, beside: Beside = {}): Promise<Outcome> {
  const by = initials.trim();
  if (by === '') return Promise.resolve(refused('Enter your initials first. They are recorded with each line you sign.', 'initials'));
  return changeJobRoom(jobId, roomId, `sign “${line.what}”`, (room) => ({
    ...room,
    signed: [
      ...room.signed,
      {
        itemKey: line.key,
        doneAt: nowInstant(),
        initials: by,
        note: beside.note ?? '',
        saidThen: line.saidThen,
        photoIds: [...(beside.photoIds ?? [])],
        withdrawnAt: null,
      },
    ],
  }));
}

const sameAs =
  (signature: Pick<SignedItem, 'itemKey' | 'doneAt'>) =>
  (s: SignedItem): boolean =>
    s.itemKey === signature.itemKey && s.doneAt === signature.doneAt && s.withdrawnAt === null;

/** Writes the note, or adds photos, beside a signature. */
export function noteSignature(
  jobId: string,
  roomId: string,
  what: string,
  signature: Pick<SignedItem, 'itemKey' | 'doneAt'>,
  beside: Beside,
): Promise<Outcome> {
  const same = sameAs(signature);
  return changeJobRoom(jobId, roomId, `note on “${what}”`, (room) => ({
    ...room,
    signed: room.signed.map((s) =>
      same(s) ? { ...s, note: beside.note ?? s.note, photoIds: [...s.photoIds, ...(beside.photoIds ?? [])] } : s,
    ),
  }));
}

/** Takes a signature back. It stays on record with the moment it was taken back. */
export function withdrawSignature(
  jobId: string,
  roomId: string,
  what: string,
  signature: Pick<SignedItem, 'itemKey' | 'doneAt'>,
): Promise<Outcome> {
  const same = sameAs(signature);
  return changeJobRoom(jobId, roomId, `void signature of “${what}”`, (room) => ({
    ...room,
    signed: room.signed.map((s) => (same(s) ? { ...s, withdrawnAt: nowInstant() } : s)),
  }));
}

/** When the last coat of primer went down; emptied, no coat is down. */
export function setPrimed(jobId: string, roomId: string, primedAt: string | null, coats: number): Promise<Outcome> {
  return changeJobRoom(jobId, roomId, 'primed at', (room) => ({
    ...room,
    primedAt,
    // Who writes a time without a number of coats means that the priming is done.
    primerCoatsDone: primedAt === null ? 0 : room.primerCoatsDone === 0 ? coats : room.primerCoatsDone,
  }));
}

/** How many coats are down. */
export function setCoats(jobId: string, roomId: string, primerCoatsDone: number): Promise<Outcome> {
  return changeJobRoom(jobId, roomId, 'primer coats', (room) => ({ ...room, primerCoatsDone }));
}
