/** Exports lists and whole jobs to folders in the documents folder. */
import { wrap } from 'comlink';
import { pictureName } from '../../shared-core/book/backup.ts';
import { type FolderFile, folderIndex } from '../../shared-core/documents/folder-index.ts';
import { dayOfInstant, formatInstantDay } from '../../shared-core/measure/moment.ts';
import { book } from '../book/database.ts';
import { nowInstant, attempt, done } from '../book/command.ts';
import { storedDocument } from '../book/document-commands.ts';
import { readPicture } from '../book/pictures.ts';
import { readJobPapers, readListRows } from '../book/export-rows.ts';
import { readBusiness } from '../book/use-records.ts';
import { holdChecks } from '../book/use-data-problems.ts';
import { base64OfBytes, base64OfText } from '../desk/base64.ts';
import { askDesk } from '../desk/desk-client.ts';
import { fileName } from '../desk/save-file.ts';
import { listFiles } from '../workers/list-files.ts';
import type { ListsWork } from '../workers/lists.worker.ts';

export type Exported = { readonly ok: boolean; readonly message: string };

/** Turns words into a folder name. */
const folderName = (words: string): string =>
  fileName(words, 'pdf')
    .replace(/\.pdf$/, '')
    .replace(/[ ,(-]+$/, '');

/** Saves files one by one, and stops at the first failure. */
class Folder {
  private readonly name: string;
  private path = '';
  private refused: string | null = null;
  private count = 0;
  constructor(name: string) {
    this.name = name;
  }
  /** @param content bytes, or base64. Returns the name it was saved under. A file that has the name already is not overwritten. */
  async save(name: string, content: string | Uint8Array<ArrayBuffer>): Promise<string> {
    if (this.refused !== null) return name;
    const answer = await askDesk('file.save', {
      name,
      ...(typeof content === 'string' ? { base64: content } : { bytes: content }),
      folder: this.name,
    });
    if (!answer.ok) {
      this.refused = answer.error.message;
      return name;
    }
    this.path = answer.value.folder;
    this.count += 1;
    return answer.value.name;
  }
  saved(): string {
    if (this.count === 0) return 'No file was saved.';
    return this.count === 1 ? `1 file was saved to ${this.path}.` : `${this.count} files were saved to ${this.path}.`;
  }
  /**
   * Opens the folder.
   * @param skipped number of documents and photos that could not be read
   */
  async finish(skipped = 0): Promise<Exported> {
    if (this.refused !== null) return { ok: false, message: this.refused };
    const opened = await askDesk('folder.open', { folder: this.name });
    const unread =
      skipped === 1
        ? '1 document or photo could not be read and was left out.'
        : `${skipped} documents or photos could not be read and were left out.`;
    return {
      ok: true,
      message: [this.saved(), ...(opened.ok ? [] : [opened.error.message]), ...(skipped === 0 ? [] : [unread])].join(' '),
    };
  }
}

/** Turns a database failure into a sentence. */
const reading = async (work: () => Promise<Exported>): Promise<Exported> => {
  const read = await attempt(async () => done(await work()));
  return read.ok ? read.value : { ok: false, message: read.message };
};

class Canceled extends Error {}

/**
 * Exports all lists.
 * @param onProgress called with the share written so far, 0 to 1
 * @param signal cancels it; files saved by then stay
 */
export function exportLists(onProgress: (share: number) => void, signal: AbortSignal): Promise<Exported> {
  return reading(async () => {
    const zone = (await readBusiness())?.timeZone ?? 'UTC';
    const folder = new Folder(`Lists ${dayOfInstant(nowInstant(), zone)}`);
    const worker = new Worker(new URL('../workers/lists.worker.ts', import.meta.url), { type: 'module' });
    const goOn = holdChecks();
    try {
      const stopped = new Promise<never>((_, reject) => {
        worker.addEventListener('error', () => reject(new Error('The worker could not be started.')));
        signal.addEventListener('abort', () => reject(new Canceled()));
      });
      stopped.catch(() => undefined);
      const lists = wrap<ListsWork>(worker);
      await Promise.race([lists.open(book().name), stopped]);
      // The worker makes the next file while the desk writes this one.
      for (let next = lists.next(); ; ) {
        const file = await Promise.race([next, stopped]);
        if (file === null) break;
        onProgress(file.share);
        next = lists.next();
        await folder.save(file.name, file.bytes);
      }
    } catch (error) {
      if (error instanceof Canceled) return { ok: true, message: `Export canceled. ${folder.saved()}` };
      throw error;
    } finally {
      worker.terminate();
      goOn();
    }
    return folder.finish();
  });
}

/** Exports one job: the stored content of its documents, its photos and its lists. */
export function exportJob(jobId: string): Promise<Exported> {
  return reading(async () => {
    const rows = await readListRows(jobId);
    const [job] = rows.jobs;
    if (job === undefined) return { ok: false, message: 'Job not found. It may have been deleted.' };
    const folder = new Folder(folderName(`Job ${job.number} ${rows.customers[0]?.name ?? ''}`));
    const { papers, photos } = await readJobPapers(jobId);
    let unread = 0;
    const [documents, pictures]: [FolderFile[], FolderFile[]] = [[], []];
    const business = rows.business[0];
    const zone = rows.properties[0]?.timeZone ?? business?.timeZone ?? 'UTC';
    const on = (instant: string | null): string => (instant === null ? '' : formatInstantDay(instant, zone, 'dated', business?.locale));
    for (const paper of papers) {
      const tree = await storedDocument(paper);
      if (!tree.ok) {
        unread += 1;
        continue;
      }
      const inked = await askDesk('document.ink', { tree: tree.value });
      if (!inked.ok) return { ok: false, message: inked.error.message };
      const isOnly = papers.every((other) => other === paper || other.title !== paper.title);
      const about = isOnly ? paper.title : `${paper.title}, revision ${paper.revision}`;
      const name = await folder.save(fileName(about, 'pdf'), inked.value.pdfBase64);
      documents.push({ name, about, when: on(paper.madeAt) });
    }
    for (const [i, photo] of photos.entries()) {
      const name = pictureName(photo);
      const bytes = name === null ? null : await readPicture(name);
      if (bytes === null || name === null) unread += 1;
      else {
        const saved = await folder.save(`Photo ${String(i + 1).padStart(3, '0')}.${name.split('.').at(-1) ?? 'jpg'}`, base64OfBytes(bytes));
        const room = rows.rooms.find(({ id }) => id === photo.roomId)?.name ?? '';
        pictures.push({ name: saved, about: [room, photo.caption].filter((word) => word !== '').join(': '), when: on(photo.takenAt) });
      }
    }
    const lists: FolderFile[] = [];
    for await (const { name, about, bytes } of listFiles(rows)) lists.push({ name: await folder.save(name, bytes), about, when: '' });
    // The workbook is written last and listed first.
    lists.unshift(...lists.splice(-1));
    const title = [`Job ${job.number}`, rows.customers[0]?.name ?? '', rows.properties[0]?.address.line ?? ''].filter(
      (word) => word !== '',
    );
    const page = folderIndex(title.join(', '), business?.locale ?? 'en-US', [
      { heading: 'Documents', files: documents },
      { heading: 'Photos', files: pictures },
      { heading: 'Lists', files: lists },
    ]);
    await folder.save('index.html', base64OfText(page));
    return folder.finish(unread);
  });
}
