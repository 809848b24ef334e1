/** Documents of a job are stored with their inked content, photos by name, and rising numbers; a reprint calculates nothing. */
import { beforeEach, describe, expect, it } from 'vitest';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { jobRecord } from '../../../shared-core/documents/job-record.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import type { Book } from '../../../renderer/book/database.ts';
import { recordSent, storeDocument, storedDocument } from '../../../renderer/book/document-commands.ts';
import { nextRevision } from '../../../shared-core/documents/document-input.ts';
import { storePictures } from '../../../renderer/book/pictures.ts';
import { undo } from '../../../renderer/book/write.ts';
import { freshBook, NOW } from './fresh-book.ts';

const found = wholeJobsOf(sampleAt(NOW)).find((w) => w.job.id === 'sample-job-abara');
if (found === undefined) throw new Error('The sample has the job of the three floors.');
const sample: WholeJob = { ...found, documents: [] };
const tree = jobRecord(readJob(sample, NOW), [], NOW, 1);
const jobId = sample.job.id;

let book: Book;
beforeEach(async () => {
  book = await freshBook();
});
const stored = () => book.rowsOf('documents').toArray();

describe('a stored document', () => {
  it('has its content, its hash and the program version, and is numbered within its kind', async () => {
    const of = { jobId, kind: 'job-record' as const, tree, sha256: 'a'.repeat(64), programVersion: '0.1.0' };
    expect((await storeDocument({ ...of, revision: 1 })).ok).toBe(true);
    await storeDocument({ ...of, revision: nextRevision({ documents: await stored() }, 'job-record') });
    const rows = await stored();
    expect(rows.map((row) => row.revision).sort()).toEqual([1, 2]);
    expect(nextRevision({ documents: rows }, 'prep-sheet')).toBe(1);
    expect(rows[0]).toMatchObject({ sha256: 'a'.repeat(64), programVersion: '0.1.0' });
    expect(JSON.parse(rows[0]?.content ?? '')).toEqual(JSON.parse(JSON.stringify(tree)));
  });

  it('is made when it is stored where it is a signed copy, whatever day the quote was issued', async () => {
    const of = { jobId, tree: { ...tree, madeAt: '2026-01-02T15:00:00.000Z' }, sha256: null, programVersion: '', revision: 1 };
    const signature = {
      role: 'customer' as const,
      name: 'Ann',
      optionId: null,
      instant: NOW,
      signedSha256: 'a'.repeat(64),
      picture: null,
      photoId: null,
    };
    await storeDocument({ ...of, kind: 'signed-copy', signatures: [signature] });
    await storeDocument({ ...of, kind: 'quote' });
    for (const row of await stored()) expect(row.madeAt).toBe(row.kind === 'quote' ? of.tree.madeAt : row.createdAt);
  });

  it('stores a photo by its name and restores it unchanged', async () => {
    const sha256 = 'b'.repeat(64);
    const bytes = new Uint8Array([1, 2, 3, 4]);
    await storePictures([{ name: `photos/${sha256}.png`, data: bytes }]);
    const picture = 'data:image/png;base64,AQIDBA==';
    const photo = {
      id: 'photo-0001',
      caption: 'Floor',
      takenAt: NOW,
      createdAt: NOW,
      roomId: null,
      sha256,
      mediaType: 'image/png' as const,
    };
    const withPhoto = { ...tree, blocks: [...tree.blocks, { kind: 'photos' as const, photos: [{ picture, caption: 'Floor' }] }] };
    await storeDocument({
      jobId,
      kind: 'job-record',
      revision: 1,
      tree: withPhoto,
      sha256: null,
      programVersion: '',
      photos: [{ photo, picture }],
    });
    const [row] = await stored();
    if (row === undefined) throw new Error('nothing was stored');
    expect(row.content).not.toContain(picture);
    expect(row.content).toContain(`photos/${sha256}.png`);
    const back = await storedDocument(row);
    expect(back.ok && back.value.blocks.at(-1)).toEqual(withPhoto.blocks.at(-1));
  });

  it('records how it was sent, and undo removes the document', async () => {
    const outcome = await storeDocument({ jobId, kind: 'job-record', revision: 1, tree, sha256: null, programVersion: '' });
    if (!outcome.ok) throw new Error(outcome.message);
    await recordSent(outcome.value, { by: 'email', to: 'owner@example.com' });
    expect((await stored())[0]?.sent).toMatchObject([{ by: 'email', to: 'owner@example.com' }]);
    await undo();
    await undo();
    expect((await stored()).filter((row) => row.deletedAt === null)).toEqual([]);
  });
});
