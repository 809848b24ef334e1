/** Signing the checklist deletes nothing that was signed. */
import { beforeEach, describe, expect, it } from 'vitest';
import { newJob } from '../../../shared-core/book/new-records.ts';
import type { Book } from '../../../renderer/book/database.ts';
import { noteSignature, setCoats, setPrimed, signLine, withdrawSignature } from '../../../renderer/book/prep-commands.ts';
import { freshBook, NOW } from './fresh-book.ts';

const [JOB, ROOM] = ['job-0001', 'room-0001'];
let book: Book;
beforeEach(async () => {
  book = await freshBook();
  const words = {
    number: '26-001',
    title: 'Hall',
    customerId: 'customer-1',
    propertyId: 'house-1',
    roomIds: [ROOM, 'room-0002'],
    depositShare: 0.5,
  };
  await book.rowsOf('jobs').put(newJob({ id: JOB, now: NOW }, words));
});
const jobRoom = async (index = 0) => {
  const found = (await book.rowsOf('jobs').get(JOB))?.rooms[index];
  if (found === undefined) throw new Error('The job has the room.');
  return found;
};
const LANE = { key: 'lane', text: 'Set the strip', signedText: 'Set the strip: 27′' };

describe('signing', () => {
  it('stores initials, the time, and the text of the line', async () => {
    await signLine(JOB, ROOM, LANE, ' RT ');
    expect((await jobRoom()).signed).toMatchObject([{ itemKey: 'lane', initials: 'RT', signedText: LANE.signedText, withdrawnAt: null }]);
    expect((await jobRoom(1)).signed).toEqual([]);
  });

  it('stores what the line used, and nothing where it uses nothing', async () => {
    const used = [{ materialId: 'strip-001', containers: 0.4 }];
    await signLine(JOB, ROOM, LANE, 'RT', { used });
    await signLine(JOB, ROOM, LANE, 'RT', { used: [] });
    const [first, second] = (await jobRoom()).signed;
    expect(first?.used).toEqual(used);
    expect(second).not.toHaveProperty('used');
  });

  it('requires initials', async () => {
    expect(await signLine(JOB, ROOM, LANE, '  ')).toMatchObject({ ok: false, where: 'initials' });
    expect((await jobRoom()).signed).toEqual([]);
  });

  it('keeps a voided signature, with its time, beside the next one', async () => {
    await signLine(JOB, ROOM, LANE, 'RT');
    const [first] = (await jobRoom()).signed;
    if (first === undefined) throw new Error('It is signed.');
    await withdrawSignature(JOB, ROOM, LANE.text, first);
    await signLine(JOB, ROOM, LANE, 'BL');
    const signed = (await jobRoom()).signed;
    expect(signed.map((s) => [s.initials, s.withdrawnAt !== null])).toEqual([
      ['RT', true],
      ['BL', false],
    ]);
  });
});

describe('the details of a signature', () => {
  it('are the note and the photos of the day, and photos added later', async () => {
    await signLine(JOB, ROOM, LANE, 'RT', { note: 'two rolls', photoIds: ['photo-01'] });
    const [first] = (await jobRoom()).signed;
    if (first === undefined) throw new Error('It is signed.');
    await noteSignature(JOB, ROOM, LANE.text, first, { photoIds: ['photo-02'] });
    await noteSignature(JOB, ROOM, LANE.text, first, { note: 'three rolls' });
    expect((await jobRoom()).signed).toMatchObject([{ initials: 'RT', note: 'three rolls', photoIds: ['photo-01', 'photo-02'] }]);
  });
});

describe('the primer', () => {
  const FIRST = { coats: 2, dryHoursMost: 24, lastPouredAt: null };
  const PRIME = { key: 'prime', text: 'Prime', signedText: 'Prime, 2 coats' };

  it('counts as finished when only its time is entered, and as not applied without a time', async () => {
    await setPrimed(JOB, ROOM, NOW, FIRST);
    expect(await jobRoom()).toMatchObject({ primedAt: NOW, primerCoatsDone: 2 });
    await setCoats(JOB, ROOM, 1, FIRST);
    await setPrimed(JOB, ROOM, '2026-05-12T12:00:00.000Z', FIRST);
    expect((await jobRoom()).primerCoatsDone).toBe(1);
    await setPrimed(JOB, ROOM, null, FIRST);
    expect(await jobRoom()).toMatchObject({ primedAt: null, primerCoatsDone: 0 });
  });

  it('is primed again after a pour: by its signature, its time, or its coats', async () => {
    const [primedAt, lastPouredAt] = ['2026-05-01T12:00:00.000Z', '2026-05-01T16:00:00.000Z'];
    const next = { ...FIRST, lastPouredAt };
    const again = async () => {
      await setPrimed(JOB, ROOM, null, FIRST);
      await setPrimed(JOB, ROOM, primedAt, FIRST);
      expect(await jobRoom()).toMatchObject({ primedAt, primerCoatsDone: 2 });
    };
    await again();
    await signLine(JOB, ROOM, PRIME, 'RT', { priming: next });
    const { primedAt: signedAt, signed } = await jobRoom();
    expect(signedAt).toBe(signed.at(-1)?.doneAt);
    await again();
    await setCoats(JOB, ROOM, 1, next);
    expect(await jobRoom()).toMatchObject({ primedAt: null, primerCoatsDone: 1 });
    await again();
    await setPrimed(JOB, ROOM, NOW, { ...next, coats: 1 });
    expect(await jobRoom()).toMatchObject({ primedAt: NOW, primerCoatsDone: 1 });
  });
});
