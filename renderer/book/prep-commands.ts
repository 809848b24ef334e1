import type { SignedItem } from '../../shared-core/book/job.ts';
import { changeJobRoom } from './job-commands.ts';
import { nowInstant, type Outcome, refused } from './command.ts';

export type LineToSign = {
  readonly key: string;
  readonly text: string;
  /** The text of the line, stored with the signature in case the line changes. */
  readonly signedText: string;
};

/** What is stored with a signature: a note, photo ids, and for the priming line its number of coats. */
export type Beside = { readonly note?: string; readonly photoIds?: readonly string[]; readonly coats?: number | null };

/** Signs a line; an earlier signature stays on record. Signing the priming line also sets the time of priming. */
export function signLine(jobId: string, roomId: string, line: LineToSign, initials: string, beside: Beside = {}): Promise<Outcome> {
  const by = initials.trim();
  if (by === '') return Promise.resolve(refused('Enter your initials first. They are recorded with each line you sign.', 'initials'));
  const doneAt = nowInstant();
  const coats = beside.coats ?? null;
  return changeJobRoom(jobId, roomId, `signed “${line.text}”`, (room) => ({
    ...room,
    ...(coats === null || (room.primedAt !== null && room.primerCoatsDone >= coats) ? {} : { primedAt: doneAt, primerCoatsDone: coats }),
    signed: [
      ...room.signed,
      {
        itemKey: line.key,
        doneAt,
        initials: by,
        note: beside.note ?? '',
        signedText: line.signedText,
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

export function noteSignature(
  jobId: string,
  roomId: string,
  label: string,
  signature: Pick<SignedItem, 'itemKey' | 'doneAt'>,
  beside: Beside,
): Promise<Outcome> {
  const same = sameAs(signature);
  return changeJobRoom(jobId, roomId, `note on “${label}”`, (room) => ({
    ...room,
    signed: room.signed.map((s) =>
      same(s) ? { ...s, note: beside.note ?? s.note, photoIds: [...s.photoIds, ...(beside.photoIds ?? [])] } : s,
    ),
  }));
}

/** Voids a signature. It stays on record with the time it was voided. */
export function withdrawSignature(
  jobId: string,
  roomId: string,
  label: string,
  signature: Pick<SignedItem, 'itemKey' | 'doneAt'>,
): Promise<Outcome> {
  const same = sameAs(signature);
  return changeJobRoom(jobId, roomId, `voided signature: “${label}”`, (room) => ({
    ...room,
    signed: room.signed.map((s) => (same(s) ? { ...s, withdrawnAt: nowInstant() } : s)),
  }));
}

/** When the last coat of primer was applied; null for none. */
export function setPrimed(jobId: string, roomId: string, primedAt: string | null, coats: number): Promise<Outcome> {
  return changeJobRoom(jobId, roomId, 'primed at', (room) => ({
    ...room,
    primedAt,
    // A time without a number of coats means that priming is finished.
    primerCoatsDone: primedAt === null ? 0 : room.primerCoatsDone === 0 ? coats : room.primerCoatsDone,
  }));
}

export function setCoats(jobId: string, roomId: string, primerCoatsDone: number): Promise<Outcome> {
  return changeJobRoom(jobId, roomId, 'primer coats', { primerCoatsDone });
}
