import { describe, expect, it } from 'vitest';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { handoverRooms } from '../../../shared-core/documents/handover-rooms.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import type { PaperPhoto } from '../../../shared-core/documents/paper-photos.ts';
import { beforeAndAfter } from '../../../shared-core/documents/before-and-after.ts';
import { jobRecord } from '../../../shared-core/documents/job-record.ts';
import { prepSheet } from '../../../shared-core/documents/prep-sheet.ts';
import type { DocumentTree } from '../../../shared-core/documents/tree.ts';
import { flat } from './tree-text.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';

const NOW = '2026-05-12T14:00:00.000Z';
const wholes = wholeJobsOf(sampleAt(NOW));
const read = (jobId: string) => {
  const whole = wholes.find((w) => w.job.id === jobId);
  if (whole === undefined) throw new Error(`The sample has the job ${jobId}.`);
  return readJob(whole, NOW);
};
const photo = (id: string, roomId: string | null, takenAt: string | null, caption = id): PaperPhoto => ({
  photo: { id, roomId, caption, takenAt, createdAt: NOW, sha256: 'a'.repeat(64), mediaType: 'image/png' },
  picture: 'data:image/png;base64,iVBORw0KGgo=',
});
const captions = (tree: DocumentTree): string[] =>
  flat(tree.blocks).flatMap((b) => (b.kind === 'photos' ? b.photos.map((p) => p.caption) : []));

describe('photos on a document', () => {
  it('of prep are the room’s own: the one signed with a line first, with the line’s number', () => {
    const reading = read('sample-job-odell');
    const roomReading = reading.rooms.find((r) => r.room.id === 'sample-hall');
    const line = roomReading?.preparation.lines.find((l) => l.signature !== null) ?? roomReading?.preparation.lines[0];
    if (roomReading === undefined || line === undefined) throw new Error('The hall has lines.');
    const signature = {
      itemKey: line.key,
      signedText: '',
      doneAt: NOW,
      initials: 'BL',
      note: '',
      photoIds: ['photo-signed'],
      withdrawnAt: null,
    };
    const lines = roomReading.preparation.lines.map((l) => (l.key === line.key ? { ...l, signature } : l));
    const signed = { ...roomReading, preparation: { ...roomReading.preparation, lines } };
    const photos = [
      photo('photo-new', 'sample-hall', '2026-05-11T10:00:00.000Z'),
      photo('photo-signed', 'sample-hall', '2026-05-01T10:00:00.000Z'),
      photo('photo-else', 'sample-laundry', '2026-05-11T10:00:00.000Z'),
      ...Array.from({ length: 8 }, (_, i) => photo(`photo-old${i}`, 'sample-hall', `2026-04-0${i + 1}T10:00:00.000Z`)),
    ];
    const printed = captions(prepSheet({ reading, roomReading: signed, madeAt: NOW, revision: 1, photos }));
    expect(printed).toHaveLength(6);
    expect(printed[0]).toMatch(/^Line \d+: photo-signed, May 1/);
    expect(printed[1]).toMatch(/^photo-new, /);
    expect(printed.join()).not.toContain('photo-else');
    expect(captions(prepSheet({ reading, roomReading, madeAt: NOW, revision: 1 }))).toEqual([]);
  });

  it('are not on the handover sheet, which names the sheet that has them', () => {
    const reading = read('sample-job-abara');
    const [poured] = handoverRooms(reading);
    if (poured === undefined) throw new Error('The job has a poured room.');
    const sheet = (photos: readonly PaperPhoto[]) => handoverSheet(reading, { now: NOW, revision: 1, changes: [], photos });
    const words = 'Photos of the floors: see the before and after sheet.';
    const own = sheet([photo('photo-done', poured.room.id, NOW, 'The floor from the door')]);
    expect(captions(own)).toEqual([]);
    expect(JSON.stringify(own)).toContain(words);
    for (const none of [[], [photo('photo-else', 'another-room', NOW)]]) expect(JSON.stringify(sheet(none))).not.toContain(words);
  });

  it('signed with a prep line stand for the floor before only where there is no other', () => {
    const reading = read('sample-job-abara');
    const living = handoverRooms(reading).find(({ room }) => room.id === 'sample-living');
    const signed = living?.jobRoom.signed.flatMap(({ photoIds }) => photoIds)[0];
    if (living === undefined || signed === undefined) throw new Error('A photo is signed with a line of the living room.');
    const of = (photos: readonly PaperPhoto[]) => captions(beforeAndAfter({ reading, photos, now: NOW, revision: 1, changes: [] }));
    const [old, primed] = [
      photo('old', living.room.id, '2020-01-01T00:00:00.000Z'),
      photo(signed, living.room.id, '2020-01-02T00:00:00.000Z'),
    ];
    expect(of([old, primed])).toEqual([expect.stringContaining('old')]);
    expect(of([primed])).toEqual([expect.stringContaining(signed)]);
  });

  it('stand before and after the pour on the sheet of both, under their headings, and all in the job record', () => {
    const reading = read('sample-job-abara');
    const [poured] = handoverRooms(reading);
    if (poured === undefined) throw new Error('The job has a poured room.');
    const { startedAt, finishedAt } = poured.pour;
    const photos = [
      photo('photo-before', poured.room.id, '2020-01-01T00:00:00.000Z', 'The old floor'),
      photo('photo-during', poured.room.id, startedAt, 'First strip'),
      photo('photo-after', poured.room.id, finishedAt, 'The new floor'),
    ];
    const input = { reading, photos, now: NOW, revision: 1, changes: [] };
    const blocks = flat(beforeAndAfter(input).blocks);
    const under = (title: string): string[] => {
      const at = blocks.findIndex((b, i) => b.kind === 'heading' && b.text === title && blocks[i + 1]?.kind === 'photos');
      const block = blocks[at + 1];
      return block?.kind === 'photos' ? block.photos.map(({ caption }) => caption) : [];
    };
    expect(under('Before')).toEqual([expect.stringContaining('The old floor')]);
    expect(under('After')).toEqual([expect.stringContaining('The new floor')]);
    expect(captions(beforeAndAfter(input))).toHaveLength(2);
    // In the record each stands in the part it belongs to.
    const record = flat(jobRecord(reading, [...photos, photo('photo-else', null, NOW, 'The street')], NOW, 1).blocks);
    const parts = record.flatMap((b, i) => {
      const heading = record[i - 1];
      return b.kind === 'photos' && heading?.kind === 'heading'
        ? [[heading.text, b.photos.map(({ caption }) => caption.split(',')[0])]]
        : [];
    });
    expect(parts).toEqual([
      [`${poured.room.name}: photos before the pour`, ['The old floor']],
      [`${poured.room.name}: photos of the pour`, ['First strip']],
      [`${poured.room.name}: photos after the pour`, ['The new floor']],
      ['Photos', ['The street']],
    ]);
  });
});
