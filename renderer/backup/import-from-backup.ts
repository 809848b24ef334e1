/** Imports chosen customers and jobs of a backup. Your data is backed up first; the import is one transaction and one step of undo. */
import { rowKey } from '../../shared-core/book/book-index.ts';
import {
  briefRow,
  type Chosen,
  importClashes,
  importKeys,
  type ImportLine,
  importLines,
  importPlan,
  type RecordClash,
  type TakenFields,
} from '../../shared-core/book/import-plan.ts';
import { type BookRows, pictureName } from '../../shared-core/book/backup.ts';
import { gatherRows, holdBook, type Pieces, PiecesStopped } from '../book/book-pieces.ts';
import { nowInstant, explainDatabase, type Outcome, refused } from '../book/command.ts';
import { type Put, write } from '../book/write.ts';
import { alone, backUpNow } from './make-backup.ts';
import { type BackupWatch, importPictures, lostPhotos, type OpenedBackup, watchedPieces } from './open-backup.ts';

/** A summary of the backup's records, and how its customers and jobs compare with your data. */
export type Importable = { readonly brief: BookRows; readonly lines: readonly ImportLine[] };

const inBrief = (pieces: Pieces): Promise<BookRows> => gatherRows(pieces, (_, row) => briefRow(row));

/** Turns a failure of the backup or the database into a sentence. */
const reading = async <T>(work: () => Promise<Outcome<T>>): Promise<Outcome<T>> => {
  try {
    return await work();
  } catch (error) {
    return error instanceof PiecesStopped ? refused(error.message) : explainDatabase(error);
  }
};

/** Summaries only: neither the backup nor your data is loaded whole. */
export function readImportable(backup: OpenedBackup, watch: BackupWatch): Promise<Outcome<Importable>> {
  return reading(async () => {
    const brief = await inBrief(watchedPieces(backup, watch));
    return { ok: true, value: { brief, lines: importLines(brief, await inBrief((await holdBook()).pieces())) } };
  });
}

const chosenOf = (lines: readonly ImportLine[]): Chosen => {
  const ids = (kind: ImportLine['kind']): Set<string> => new Set(lines.filter((line) => line.kind === kind).map((line) => line.id));
  return { customers: ids('customer'), jobs: ids('job') };
};

/** The records of these lines in the backup and in your data, and a summary of all your data. */
async function gatherBoth(backup: OpenedBackup, brief: BookRows, chosen: Chosen, watch: BackupWatch) {
  const present = await holdBook();
  const presentBrief = await inBrief(present.pieces());
  const keys = importKeys(brief, presentBrief, chosen);
  const wanted = (pieces: Pieces): Promise<BookRows> => gatherRows(pieces, (table, row) => (keys.has(rowKey(table, row)) ? row : null));
  return { copy: await wanted(watchedPieces(backup, watch)), present: await wanted(present.pieces()), numbered: presentBrief };
}

/** Names of rooms, materials and jobs by id. */
export type NamedRows = ReadonlyMap<string, string>;

/** The records of these lines that differ from yours, and the names they mention. */
export function readClashes(
  backup: OpenedBackup,
  { brief }: Importable,
  lines: readonly ImportLine[],
  watch: BackupWatch,
): Promise<Outcome<{ readonly clashes: readonly RecordClash[]; readonly names: NamedRows }>> {
  return reading(async () => {
    const chosen = chosenOf(lines);
    const { copy, present } = await gatherBoth(backup, brief, chosen, watch);
    const names = new Map<string, string>();
    for (const rows of [copy, present])
      for (const table of ['rooms', 'materials', 'customers', 'jobs'] as const)
        for (const row of rows[table]) {
          const name = table === 'jobs' ? row['number'] : row['name'];
          if (typeof row['id'] === 'string' && typeof name === 'string') names.set(row['id'], name);
        }
    return { ok: true, value: { clashes: importClashes(copy, present, chosen), names } };
  });
}

/** @param hasChoice records differed, so a side was chosen for each field */
const importedWords = (items: number, hasChoice: boolean): string => {
  if (items > 0) return items === 1 ? '1 item was imported.' : `${items} items were imported.`;
  const why = hasChoice ? ' To take a value from the backup, set Use to Backup.' : '';
  return `Nothing was imported, so your data did not change.${why}`;
};

/**
 * Imports these lines and deletes nothing.
 * @param fields the fields to take from the backup where records differ
 * @returns a sentence with what was imported
 */
export function importLinesFrom(
  backup: OpenedBackup,
  brief: BookRows,
  lines: readonly ImportLine[],
  fields: TakenFields,
  watch: BackupWatch,
): Promise<Outcome<string>> {
  const run = async (): Promise<Outcome<string>> => {
    const ownBackup = await backUpNow('before-import');
    if (!ownBackup.ok) return refused(`Your data could not be backed up first, so nothing was imported. ${ownBackup.message}`);
    const chosen = chosenOf(lines);
    const { copy, present, numbered } = await gatherBoth(backup, brief, chosen, watch);
    const plan = importPlan(copy, present, chosen, numbered, fields);
    const photos = plan.puts.filter(({ table }) => table === 'photos').map(({ row }) => pictureName(row));
    const pictures = await importPictures(
      backup,
      photos.filter((name) => name !== null),
    );
    if (!pictures.ok) return pictures;
    if (watch.isCanceled()) return refused('The import was canceled. Your data was not changed.');
    const written = await write('import from a backup', nowInstant(), {
      // The plan validated these rows; writing validates them again.
      puts: plan.puts as unknown as readonly Put[],
      isImport: true,
    });
    if (!written.ok) return written;
    const sentences = [
      importedWords(plan.items, fields.size > 0),
      ...plan.renumbered.map(({ from, to }) => `You already have a job ${from}, so the imported one is now ${to}.`),
      ...plan.shared.jobs.map(
        (number) => `Two jobs now have the number ${number}. The imported one keeps it, because its customer has it. See Data problems.`,
      ),
      ...(plan.shared.invoices.length === 0
        ? []
        : [
            `You already have invoices with these imported numbers: ${plan.shared.invoices.join(', ')}. Name the customer too when you refer to one.`,
          ]),
      ...(plan.left === 0
        ? []
        : [plan.left === 1 ? '1 record could not be read and was left out.' : `${plan.left} records could not be read and were left out.`]),
      lostPhotos(pictures.value),
      ...(plan.puts.length === 0 ? [] : ['You can undo this import.']),
    ];
    return { ok: true, value: sentences.filter((sentence) => sentence !== '').join(' ') };
  };
  return alone(() => reading(run));
}
