/** Backs up to the Backups folder in pieces. Only what changed since the last backup is read and sent. */
import type { BackupReason } from '../../shared-core/book/backup-names.ts';
import type { Envelope } from '../../shared-core/desk/envelope.ts';
import { PHOTOS_PER_CALL } from '../../shared-core/desk/backup-calls.ts';
import { noteBackup, noteBackupFailure, readBase, readDataset } from '../book/backup-commands.ts';
import { type BackupKey, readBackupKey } from '../book/backup-key.ts';
import { type BackupStep, readBackupSteps } from '../book/backup-pieces.ts';
import { openBackup } from '../book/open-read-only.ts';
import { nowInstant, explainDatabase, type Outcome, refused } from '../book/command.ts';
import { heldPictures, readPicture } from '../book/pictures.ts';
import { tidyJournals } from '../book/recovery-log.ts';
import { holdChecks } from '../book/use-data-problems.ts';
import { base64OfBytes } from '../desk/base64.ts';
import { askDesk } from '../desk/desk-client.ts';

const PICTURES_PER_PIECE_BYTES = 8_000_000;

/** Carries a refusal of the desk out of the loop over the pieces. */
class Refused extends Error {}

const granted = <T>(answer: Envelope<T>): T => {
  if (!answer.ok) throw new Refused(answer.error.message);
  return answer.value;
};

/** Sends the photos that the folder lacks. Returns those missing or damaged here, whose records are still backed up. */
const sendPictures = async (id: string, encrypted: boolean): Promise<string[]> => {
  const { names } = granted(await askDesk('backup.missing-photos', { id }));
  const held = await heldPictures(names);
  const lacking = new Set(names.filter((name) => !held.has(name)));
  let piece: { name: string; base64: string }[] = [];
  let size = 0;
  const flush = async (): Promise<void> => {
    if (piece.length > 0)
      for (const name of granted(await askDesk('backup.add-photos', { photos: piece, encrypted })).damaged) lacking.add(name);
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
    if (size > PICTURES_PER_PIECE_BYTES || piece.length === PHOTOS_PER_CALL) await flush();
  }
  await flush();
  return [...lacking];
};

const send = (id: string, step: BackupStep): Promise<Envelope<unknown>> =>
  step.kind === 'copy'
    ? askDesk('backup.copy', { id, table: step.table, from: step.from, count: step.count })
    : askDesk('backup.add-rows', { id, table: step.table, bytes: step.bytes });

const photoSentence = (lacking: number): string => {
  if (lacking === 0) return '';
  return lacking === 1
    ? ' 1 photo is missing or damaged and was left out. A backup in another folder may still have it.'
    : ` ${lacking} photos are missing or damaged and were left out. A backup in another folder may still have them.`;
};

const writeBackup = async (madeAt: string, reason: BackupReason, key: BackupKey | null): Promise<string> => {
  const begun = granted(await askDesk('backup.begin', { dataset: await readDataset(), madeAt, reason, key, base: await readBase() }));
  const { id } = begun;
  const { steps, covered } = await readBackupSteps(begun.ranges);
  // Reads the next piece while the desk packs this one, so at most two are in memory.
  let underWay: Promise<Envelope<unknown>> | null = null;
  for await (const step of steps()) {
    if (underWay !== null) granted(await underWay);
    underWay = send(id, step);
  }
  if (underWay !== null) granted(await underWay);
  const lacking = await sendPictures(id, key !== null);
  const { name } = granted(await askDesk('backup.finish', { id, withoutPhotos: lacking }));
  await noteBackup({ instant: madeAt, name, covered });
  await tidyJournals();
  return `${name} was saved and checked.${photoSentence(lacking.length)}`;
};

/**
 * Backs up; the caller holds the lock between windows.
 * @returns a sentence with what was saved, or the error that Today shows until a backup succeeds
 */
export async function backUpNow(reason: BackupReason): Promise<Outcome<string>> {
  const madeAt = nowInstant();
  try {
    return { ok: true, value: await writeBackup(madeAt, reason, await readBackupKey()) };
  } catch (error) {
    const { message } = error instanceof Refused ? error : explainDatabase(error);
    await noteBackupFailure(message);
    return refused(message);
  }
}

/**
 * Only one window at a time backs up, restores, imports or opens a backup, and never one with a backup open. That is checked once it is
 * this window's turn, because the window may open one while it waits.
 */
export function alone<T>(work: () => Promise<Outcome<T>>): Promise<Outcome<T>> {
  const goOn = holdChecks();
  const inTurn = (): Promise<Outcome<T>> =>
    openBackup() === null ? work() : Promise.resolve(refused('A backup is open read-only. Close it first.'));
  return navigator.locks.request('straightedge-backup', inTurn).finally(goOn);
}

export function makeBackup(reason: BackupReason): Promise<Outcome<string>> {
  return alone(() => backUpNow(reason));
}
