import type { StoredRow } from '../../shared-core/book/migrations/all-steps.ts';
import { TABLE_NAMES, type TableName } from '../../shared-core/book/tables.ts';
import { PHOTOS_PER_CALL } from '../../shared-core/desk/backup-calls.ts';
import type { Gives, Takes } from '../../shared-core/desk/calls.ts';
import type { Envelope } from '../../shared-core/desk/envelope.ts';
import { hasCounts, readBase, readDataset, replaceData } from '../book/backup-commands.ts';
import { readBackupKey } from '../book/backup-key.ts';
import { type Pieces, PiecesStopped } from '../book/book-pieces.ts';
import { checkJournals } from '../book/lost-entries.ts';
import { type Outcome, refused } from '../book/command.ts';
import { book } from '../book/database.ts';
import { openReadOnly, tellPhotosProblem } from '../book/open-read-only.ts';
import { heldPictures, storePictures } from '../book/pictures.ts';
import { base64OfBytes, bytesOfBase64 } from '../desk/base64.ts';
import { askDesk } from '../desk/desk-client.ts';
import { alone, backUpNow } from './make-backup.ts';

export type OpenedBackup = Gives<'backup.open'>;
export type BackupSource = Takes<'backup.open'>['from'];

/** Bytes of a file sent per call; a multiple of three, so that each part is whole base64. */
const PART_BYTES = 6_000_000;

export async function listBackups(): Promise<Envelope<Gives<'backup.list'>>> {
  return askDesk('backup.list', { dataset: await readDataset() });
}

/** Sends a file to the desk in parts. */
export async function uploadFile(file: File): Promise<Envelope<{ readonly uploaded: string }>> {
  let id: string | null = null;
  for (let from = 0; from === 0 || from < file.size; from += PART_BYTES) {
    const bytes = new Uint8Array(await file.slice(from, from + PART_BYTES).arrayBuffer());
    const answer: Envelope<Gives<'backup.upload'>> = await askDesk('backup.upload', { id, base64: base64OfBytes(bytes) });
    if (!answer.ok) return answer;
    id = answer.value.id;
  }
  return { ok: true, value: { uploaded: id ?? '' } };
}

/**
 * Opens a backup after the desk has verified it.
 * @returns the backup, or why it was refused
 */
export async function openBackupFrom(from: BackupSource, passphrase: string | null): Promise<Envelope<OpenedBackup>> {
  return askDesk('backup.open', { from, key: await readBackupKey(), passphrase });
}

type Span = NonNullable<Gives<'backup.differences'>['spans']>[number];
type SpanOfRows = Pick<Span, 'table' | 'from' | 'rows'>;

const wholeTables = ({ counts }: OpenedBackup): SpanOfRows[] => TABLE_NAMES.map((table) => ({ table, from: 0, rows: counts[table] }));

/** Yields the records of an open backup, or only those of some spans; throws `PiecesStopped` when the desk stops. */
export async function* backupPieces(backup: OpenedBackup, spans: readonly SpanOfRows[] = wholeTables(backup)): Pieces {
  type Given = Promise<Envelope<Gives<'backup.rows'>>>;
  const text = new TextDecoder();
  for (const { table, from, rows: wanted } of spans) {
    if (wanted === 0) continue;
    let many = 0;
    let asked: Given | null = askDesk('backup.rows', { id: backup.id, table, from });
    while (asked !== null) {
      const answer: Awaited<Given> = await asked;
      if (!answer.ok) throw new PiecesStopped(answer.error.message);
      // The desk proved every record when it opened the backup.
      const all = JSON.parse(text.decode(answer.value.bytes)) as StoredRow[];
      const rows = all.slice(0, wanted - many);
      const next: number | null = answer.value.next;
      many += rows.length;
      // The desk reads the next piece while these are written.
      asked = next === null || many >= wanted ? null : askDesk('backup.rows', { id: backup.id, table, from: next });
      if (rows.length > 0) yield { table, rows };
    }
    if (many !== wanted)
      throw new PiecesStopped('Some records of the backup could not be read. Your data was not changed. Open the backup again.');
  }
}

/** Copies the photos that the database lacks. Returns how many the backup has lost. */
export async function importPictures(backup: OpenedBackup, names: readonly string[]): Promise<Outcome<number>> {
  const into = book();
  const held = await heldPictures(names);
  let wanted = names.filter((name) => !held.has(name));
  let lost = 0;
  const askNext = () => (wanted.length === 0 ? null : askDesk('backup.photos', { id: backup.id, names: wanted.slice(0, PHOTOS_PER_CALL) }));
  for (let asked = askNext(); asked !== null; ) {
    const answer: Awaited<typeof asked> = await asked;
    if (!answer.ok) return refused(answer.error.message);
    if (book() !== into) return refused('The backup was closed before all its photos were read.');
    const { photos } = answer.value;
    // A reply stops early when photos are large; the next call asks for the rest.
    const given = new Set(photos.map(({ name }) => name));
    const part = wanted.slice(0, PHOTOS_PER_CALL);
    const last = part.findLastIndex((name) => given.has(name));
    const passed = last < 0 ? part.length : last + 1;
    lost += passed - given.size;
    wanted = wanted.slice(passed);
    // The desk reads the next photos while these are written.
    asked = askNext();
    const stored = await storePictures(
      photos.map(({ name, base64 }) => ({ name, data: bytesOfBase64(base64) })),
      into,
    );
    if (!stored.ok) return stored;
  }
  return { ok: true, value: lost };
}

/** What `importPictures` lost, in a sentence; empty for none. */
export const lostPhotos = (lost: number): string => {
  if (lost === 0) return '';
  return lost === 1 ? '1 photo could not be read.' : `${lost} photos could not be read.`;
};

/** What to do about photos that an open backup is without, such as one file copied from another computer; empty for none missing. */
export function photosMissingWords({ photos, photosMissing }: Pick<OpenedBackup, 'photos' | 'photosMissing'>): string {
  if (photosMissing === 0) return '';
  const some = photosMissing === 1 ? '1 of its photos is' : `${photosMissing} of its photos are`;
  return `${photosMissing === photos.length ? 'Its photos are' : some} not here. Photos are kept in the Photos folder beside the backups. To bring them, save a portable backup on the other computer and open that file.`;
}

/** Opens a backup read-only in this window. Its photos load after its records. */
export async function lookIntoBackup(backup: OpenedBackup): Promise<Outcome> {
  const opened = await alone(() => openReadOnly(backupPieces(backup), backup.madeAt));
  if (opened.ok) {
    const from = book();
    void importPictures(backup, backup.photos).then((pictures) => {
      const problem = pictures.ok ? lostPhotos(pictures.value) : pictures.message;
      if (problem !== '' && book() === from) tellPhotosProblem(problem);
    });
  }
  return opened;
}

const countOf = (backup: OpenedBackup): number => Object.values(backup.counts).reduce((sum, count) => sum + count, 0);

/** Progress of a restore or an import, and how to cancel it. */
export type BackupWatch = {
  /** Called with the share of records read or written, 0 to 1. */
  readonly onProgress: (share: number) => void;
  readonly isCanceled: () => boolean;
};

/**
 * Where the backup differs from the data, by the backup just made of it; null when they cannot be compared. Rows that the database lost
 * or kept without a note of it make the numbers differ, and then every row is replaced.
 */
async function readDifferences(backup: OpenedBackup): Promise<readonly Span[] | null> {
  const name = await readBase();
  const answer = name === null ? null : await askDesk('backup.differences', { id: backup.id, name, key: await readBackupKey() });
  if (answer?.ok !== true) return null;
  const { spans, counts } = answer.value;
  return (await hasCounts(counts)) ? spans : null;
}

/** Backs up first, and replaces nothing if that fails. Returns how many photos the restored backup has lost. */
export function restoreBackup(backup: OpenedBackup, { onProgress, isCanceled }: BackupWatch): Promise<Outcome<number>> {
  return alone(async () => {
    const ownBackup = await backUpNow('before-restore');
    if (!ownBackup.ok) return refused(`Your data could not be backed up first, so nothing was restored. ${ownBackup.message}`);
    const pictures = await importPictures(backup, backup.photos);
    if (!pictures.ok) return pictures;
    const spans = await readDifferences(backup);
    const all = spans === null ? countOf(backup) : spans.reduce((sum, { rows }) => sum + rows, 0);
    const replaced = await replaceData(
      backupPieces(backup, spans ?? wholeTables(backup)),
      (rows) => onProgress(all === 0 ? 1 : rows / all),
      isCanceled,
      spans === null ? null : { spans, pictures: backup.photos },
    );
    if (!replaced.ok) return replaced;
    await checkJournals();
    return pictures;
  });
}

export function backupContents({ counts }: OpenedBackup, locale: string): string {
  const count = (table: TableName, one: string, many: string): string => {
    const found = counts[table];
    return `${found.toLocaleString(locale)} ${found === 1 ? one : many}`;
  };
  const parts = [
    count('customers', 'customer', 'customers'),
    count('jobs', 'job', 'jobs'),
    count('rooms', 'room', 'rooms'),
    count('photos', 'photo', 'photos'),
  ];
  return new Intl.ListFormat('en-US', { type: 'conjunction' }).format(parts);
}

/** The records of an open backup with their progress; throws `PiecesStopped` when the desk stops or the user cancels. */
export async function* watchedPieces(backup: OpenedBackup, { onProgress, isCanceled }: BackupWatch): Pieces {
  const all = countOf(backup);
  let read = 0;
  for await (const piece of backupPieces(backup)) {
    if (isCanceled()) throw new PiecesStopped('The import was canceled. Your data was not changed.');
    yield piece;
    read += piece.rows.length;
    onProgress(all === 0 ? 1 : read / all);
  }
}
