import type { SignedItem, UsedMaterial } from '../../shared-core/book/job.ts';
import { primedBySigning, primedFor, type Priming } from '../../shared-core/prep/primer-clock.ts';
import { changeJobRoom } from './job-commands.ts';
import { nowInstant, type Outcome, refused } from './command.ts';

export type LineToSign = {
  readonly key: string;
  readonly text: string;
  /** The text of the line, stored with the signature in case the line changes. */
  readonly signedText: string;
};

/** What is stored with a signature: a note, photo ids, what the line used, and for the priming line the primer. */
export type Beside = {
  readonly note?: string;
  readonly photoIds?: readonly string[];
  readonly used?: readonly UsedMaterial[];
  readonly priming?: Priming | null;
};

/** Signs a line; an earlier signature stays on record. Signing the priming line also sets the time of priming. */
export function signLine(jobId: string, roomId: string, line: LineToSign, initials: string, beside: Beside = {}): Promise<Outcome> {
  const by = initials.trim();
  if (by === '') return Promise.resolve(refused('Enter your initials first. They are recorded with each line you sign.', 'initials'));
  const doneAt = nowInstant();
  const { priming = null, used = [] } = beside;
  return changeJobRoom(jobId, roomId, `sign “${line.text}”`, (room) => ({
    ...room,
    ...(priming === null ? {} : primedBySigning(room, priming, doneAt)),
    signed: [
      ...room.signed,
      {
        itemKey: line.key,
        doneAt,
        initials: by,
        note: beside.note ?? '',
        signedText: line.signedText,
        photoIds: [...(beside.photoIds ?? [])],
        ...(used.length === 0 ? {} : { used: [...used] }),
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
  return changeJobRoom(jobId, roomId, `void signature: “${label}”`, (room) => ({
    ...room,
    signed: room.signed.map((s) => (same(s) ? { ...s, withdrawnAt: nowInstant() } : s)),
  }));
}

/** When the last coat of primer was applied; null for none. */
export function setPrimed(
  jobId: string,
  roomId: string,
  primedAt: string | null,
  { coats, lastPouredAt }: Pick<Priming, 'coats' | 'lastPouredAt'>,
): Promise<Outcome> {
  return changeJobRoom(jobId, roomId, 'primed at', (room) => {
    const { primerCoatsDone } = primedFor(room, lastPouredAt);
    // A time without a number of coats means that priming is finished.
    return { ...room, primedAt, primerCoatsDone: primedAt === null ? 0 : primerCoatsDone === 0 ? coats : primerCoatsDone };
  });
}

export function setCoats(
  jobId: string,
  roomId: string,
  primerCoatsDone: number,
  { lastPouredAt }: Pick<Priming, 'lastPouredAt'>,
): Promise<Outcome> {
  return changeJobRoom(jobId, roomId, 'primer coats', (room) => ({ ...room, ...primedFor(room, lastPouredAt), primerCoatsDone }));
}
