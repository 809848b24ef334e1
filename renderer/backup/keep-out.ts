/** Writing the book's contents into folders of the papers folder. */
import { pictureName } from '../../shared-core/book/snapshot.ts';
import { accountLists } from '../../shared-core/documents/accounts.ts';
import { documentTreeSchema } from '../../shared-core/documents/tree.ts';
import { nowInstant } from '../book/moment.ts';
import { readPicture } from '../book/pictures.ts';
import { readAccountRows, readJobPapers } from '../book/out-rows.ts';
import { base64OfBytes, base64OfText } from '../parts/base64.ts';
import { askDesk } from '../parts/desk-client.ts';
import { fileName } from '../parts/keep-file.ts';

type Said = { readonly ok: boolean; readonly says: string };

/** A folder's own name from words. */
const folderName = (words: string): string =>
  fileName(words, 'pdf')
    .replace(/\.pdf$/, '')
    .replace(/[ ,(-]+$/, '');

/** Keeps files one by one; stops at the first that is refused. */
class Folder {
  private readonly name: string;
  private where = '';
  refused: string | null = null;
  kept = 0;
  constructor(name: string) {
    this.name = name;
  }
  async keep(name: string, base64: string): Promise<void> {
    if (this.refused !== null) return;
    const answer = await askDesk('file.keep', { name, base64, folder: this.name });
    if (!answer.ok) {
      this.refused = answer.error.message;
      return;
    }
    this.where = answer.value.folder;
    this.kept += 1;
  }
  async said(): Promise<Said> {
    if (this.refused !== null) return { ok: false, says: this.refused };
    const opened = await askDesk('folder.open', { folder: this.name });
    return { ok: true, says: `${this.kept} files are in ${this.where}.${opened.ok ? '' : ` ${opened.error.message}`}` };
  }
}

/** The lists of the whole book. */
export async function keepLists(): Promise<Said> {
  const folder = new Folder(`Lists ${nowInstant().slice(0, 10)}`);
  for (const { name, csv } of accountLists(await readAccountRows(null))) await folder.keep(`${name}.csv`, base64OfText(csv));
  return folder.said();
}

/** One job: every paper that was made, inked anew from what it said; its photos; its lists. */
export async function keepJobFolder(jobId: string): Promise<Said> {
  const rows = await readAccountRows(jobId);
  const [job] = rows.jobs;
  if (job === undefined) return { ok: false, says: 'This job is no longer in the book.' };
  const folder = new Folder(folderName(`Job ${job.number} ${rows.customers[0]?.name ?? ''}`));
  const { papers, photos } = await readJobPapers(jobId);
  let unread = 0;
  for (const paper of papers) {
    const tree = documentTreeSchema.safeParse(readJson(paper.content));
    if (!tree.success) {
      unread += 1;
      continue;
    }
    const inked = await askDesk('document.ink', { tree: tree.data });
    if (!inked.ok) return { ok: false, says: inked.error.message };
    await folder.keep(fileName(`${paper.title}, sheet ${paper.revision}`, 'pdf'), inked.value.pdfBase64);
  }
  for (const [i, photo] of photos.entries()) {
    const name = pictureName(photo);
    const bytes = name === null ? null : await readPicture(name);
    if (bytes === null || name === null) unread += 1;
    else await folder.keep(`Photo ${String(i + 1).padStart(3, '0')}.${name.split('.').at(-1) ?? 'jpg'}`, base64OfBytes(bytes));
  }
  for (const { name, csv } of accountLists(rows)) await folder.keep(`${name}.csv`, base64OfText(csv));
  const said = await folder.said();
  const lost =
    unread === 0 ? '' : ` ${unread === 1 ? 'One paper or photo' : `${unread} papers or photos`} could not be read and was left out.`;
  return { ...said, says: said.says + lost };
}

function readJson(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    return null;
  }
}
