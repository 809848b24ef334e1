/** When a handover sheet is out of date, and what Handover says a floor waits for. */
import { describe, expect, it } from 'vitest';
import { moneyLeft } from '../../../renderer/parts/money-words.ts';
import { handoverFoot, type HandoverState } from '../../../renderer/stages/handover/handover-foot.ts';
import { changedWords, outOfDate } from '../../../renderer/parts/job/out-of-date.ts';
import { sheetToMake } from '../../../renderer/stages/handover/sheet-to-make.ts';
import type { ClearanceTest } from '../../../shared-core/book/cure-record.ts';
import type { LedgerEntry } from '../../../shared-core/book/ledger.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { type DocumentEntry, documentsAt } from '../../../shared-core/documents/document-list.ts';
import { handoverDays } from '../../../shared-core/documents/handover-picture.ts';
import { handoverRooms } from '../../../shared-core/documents/handover-rooms.ts';
import { handoverSheet, placeOf } from '../../../shared-core/documents/handover-sheet.ts';
import type { Mark } from '../../../shared-core/drawing/marks.ts';
import { textWidthPx } from '../../../shared-core/drawing/type-metrics.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import { jobMoney } from '../../../shared-core/standing/job-money.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { invoice, payment } from '../../shared-core/ledger/entries.ts';
import { threeTests } from '../../shared-core/cure/sheet-fixture.ts';
import { SAVED_SHEET } from '../../handover-state.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const LATER = '2026-05-30T15:00:00.000Z';
const found = wholeJobsOf(sampleAt(NOW)).find(({ job }) => job.id === 'sample-job-abara');
if (found === undefined) throw new Error('The sample has the job of the three floors.');
const whole = found;
const sheet = handoverSheet(readJob(whole, NOW), { now: NOW, revision: 1, changes: [] });
const saved: WholeJob = {
  ...whole,
  documents: [
    {
      ...{ id: 'doc-sheet', createdAt: NOW, changedAt: NOW, deletedAt: null, jobId: whole.job.id, kind: 'handover', revision: 1 },
      ...{
        title: sheet.title,
        madeAt: NOW,
        changes: [],
        content: JSON.stringify(sheet),
        quoteId: null,
        entryId: null,
        sha256: null,
        programVersion: '',
        sent: [],
        signatures: [],
      },
    },
  ],
};
const changesAt = (of: WholeJob, now: string): readonly string[] => sheetToMake(readJob(of, now), now, []).changes;

describe('a saved document', () => {
  const certificate = documentsAt('handover').filter(({ kind }) => kind === 'completion-certificate');
  const tree = certificate[0]?.build({ reading: readJob(whole, NOW), photos: [], now: NOW, revision: 1, changes: [] });
  const documents = saved.documents.flatMap((one) =>
    (['completion-certificate', 'shopping-list'] as const).map((kind) => ({
      ...one,
      id: `doc-${kind}`,
      kind,
      content: JSON.stringify(tree),
    })),
  );
  const renamed: WholeJob = { ...whole, documents, customer: { ...whole.customer, name: 'Ines Okafor' } };
  const aged = (of: WholeJob, entries: readonly DocumentEntry[] = certificate): number => outOfDate(readJob(of, LATER), [], entries).length;

  it('is out of date where it is offered, and once it was given out with the floors stays as it is', () => {
    expect(aged(renamed)).toBe(1);
    const rooms = (handedOverAt: string) => renamed.job.rooms.map((room) => ({ ...room, handedOverAt, handedOverTo: 'Ines Okafor' }));
    expect(aged({ ...renamed, job: { ...renamed.job, rooms: rooms(LATER) } })).toBe(0);
    expect(aged({ ...renamed, job: { ...renamed.job, rooms: rooms('2026-05-01T15:00:00.000Z') } })).toBe(1);
  });

  it('says the first things that changed, each as a sentence', () => {
    expect(changedWords(['Now: Ines Okafor', 'Terms: changed.', 'Crack filler was added.', 'Primer was removed.'])).toBe(
      'Out of date. Now: Ines Okafor. Terms: changed. Crack filler was added. 1 more change.',
    );
  });

  it('for a pour is not out of date once the pour is over', () => {
    expect(aged(renamed, documentsAt('quote'))).toBe(0);
    expect(aged({ ...renamed, pours: [], pourEvents: [] }, documentsAt('quote'))).toBe(1);
  });
});

describe('a handover sheet', () => {
  it('stays up to date while its dates arrive as they were stated', () => {
    expect(JSON.stringify(sheet)).toContain('"Not tested yet, 3 needed"');
    expect(JSON.stringify(sheetToMake(readJob(saved, LATER), LATER, []).tree)).toContain('"Now"');
    expect(changesAt(saved, LATER)).toEqual([]);
  });

  it('is out of date once a date moved, also after that date', () => {
    const rooms = saved.job.rooms.map((room) => ({ ...room, expectedAir: { tempC: 12, relativeHumidity: 0.6, enteredAt: NOW } }));
    expect(changesAt({ ...saved, job: { ...saved.job, rooms } }, '2026-07-30T15:00:00.000Z').join(' ')).toMatch(/furniture .+ \(was .+\)/);
  });

  it('is out of date once a floor passed its test', () => {
    const [room] = readJob(saved, NOW).rooms.filter(({ jobRoom }) => jobRoom.flooring === 'wood-glued');
    if (room === undefined) throw new Error('One of the floors gets glued wood.');
    const test: ClearanceTest = {
      ...{ id: 'test-rh', createdAt: LATER, changedAt: LATER, deletedAt: null, jobId: saved.job.id, roomId: room.room.id },
      flooring: 'wood-glued',
      method: 'slab-humidity',
      unit: 'share',
      ...{ value: 0.6, takenAt: LATER, by: 'Ada', note: '' },
    };
    expect(changesAt({ ...saved, clearanceTests: [...saved.clearanceTests, ...threeTests(test)] }, LATER).join(' ')).toContain(
      'Cleared: test passed',
    );
  });
});

describe('the foot of Handover', () => {
  const rooms = handoverRooms(
    readJob({ ...whole, job: { ...whole.job, rooms: whole.job.rooms.map((r) => ({ ...r, handedOverAt: NOW })) } }, NOW),
  );
  const [first] = rooms;
  if (first === undefined) throw new Error('The sample has poured floors.');
  const foot = (over: Partial<HandoverState>) =>
    handoverFoot(
      {
        rooms,
        uncleared: over.rooms ?? rooms,
        roomId: first.room.id,
        now: LATER,
        ...SAVED_SHEET,
        ...over,
      },
      'America/New_York',
      'en-US',
    );
  const tiled = rooms.map((room) => ({ ...room, schedule: { ...room.schedule, clearance: byHours(room.schedule.clearance) } }));

  it('names what else is out of date before it calls a sheet ready', () => {
    const open = rooms.map((room) => ({ ...room, jobRoom: { ...room.jobRoom, handedOverAt: null } }));
    expect(foot({ rooms: open }).why).toMatch(/^Walk the floors together/);
    // Light foot traffic waits for the hours of the product: its data sheet, common practice.
    expect(foot({ rooms: open, now: open.at(-1)?.schedule.placedAt ?? NOW }).why).toMatch(
      /^Walk the floors together from .+ (am|pm), when all of them are open to foot traffic\. Then have the sheet signed/,
    );
    expect(foot({ rooms: open, outOfDate: ['Installer page', 'Moisture test report'] }).why).toBe(
      'Out of date: installer page and moisture test report. Save what you hand over again.',
    );
  });

  it('does not call a floor handed over that is not placed', () => {
    expect(foot({ roomId: 'room-open', isCuring: false })).toEqual({
      text: 'This floor is not fully placed yet',
      why: 'The floors that are placed are handed over.',
    });
  });

  it('names a moisture test only where the flooring needs one', () => {
    expect(foot({}).why).toBe('Still curing until it passes its moisture test.');
    expect(foot({ rooms: tiled }).why).toBe('Still curing until the data sheet’s hours are over.');
    expect(foot({ revision: null }).why).toContain('passes a moisture test');
    expect(foot({ revision: null, rooms: tiled }).why).not.toContain('moisture test');
    expect(foot({ isCuring: false }).why).toBe('Nothing left to do.');
    // Tile is cleared by the hours, wood by its test: what is cleared waits for nothing.
    expect(foot({ revision: null, uncleared: tiled }).why).toContain('the data sheet’s hours are over');
    expect(foot({ revision: null, uncleared: [] }).why).toBe('The floors are cleared. Save the sheet, then hand them over.');
  });

  it('says what is left to do for the money', () => {
    const { currency, locale } = whole.business;
    const format = (minor: number): string => formatMoney(minor, currency, locale);
    const left = (ledger: readonly LedgerEntry[]) => moneyLeft(jobMoney({ ...whole, ledger }, NOW), format);
    const total = jobMoney(whole, NOW).contract?.totalMinor ?? 0;
    // The deposit of the sample is paid, and the balance is not invoiced.
    expect(left(whole.ledger)).toMatch(/^Balance due: \$[\d,.]+ waits for the handover\.$/);
    const all = [invoice('a', 1, total - 10_000, { stageName: 'Deposit' }), invoice('b', 2, 10_000, { stageName: 'Balance due' })];
    // Due on March 16: 57 days before May 12.
    expect(left([...all, payment('p', total - 10_000)])).toBe('$100.00 is overdue by 57 days.');
    expect(left([...all, invoice('c', 3, 5_000), payment('p', total)])).toBe(
      'More is invoiced than the contract total. Record a credit of $50.00 first.',
    );
    expect(left([...all, payment('p', total)])).toBeNull();
    expect(left([...all, payment('p', total + 5_000)])).toBe(
      'The customer has a credit balance of $50.00. Pay it back and record the refund.',
    );
    expect(foot({ isCuring: false, moneyLeft: left([...all, payment('p', total - 10_000)]) }).why).toBe('$100.00 is overdue by 57 days.');
  });
});

const textsIn = (marks: readonly Mark[]): Extract<Mark, { kind: 'text' }>[] =>
  marks.flatMap((mark) => (mark.kind === 'group' ? textsIn(mark.marks) : mark.kind === 'text' ? [mark] : []));

it('breaks long words over a row of a narrow drawing before the flooring and its date, so that none is cut at the edge', () => {
  const reading = readJob(whole, NOW);
  const widthPx = 390;
  const drawn = (more: string) => {
    const rooms = handoverRooms(reading).map((one) => ({ ...one, room: { ...one.room, name: `${one.room.name}${more}` } }));
    const days = handoverDays(rooms, placeOf(reading, NOW), { widthPx, insetPx: 18, hasKey: false, isNarrow: true });
    return { height: days?.height ?? 0, texts: textsIn(days?.marks ?? []).filter(({ anchor }) => anchor === 'start') };
  };
  const [short, long] = [drawn(''), drawn(' and mud room by the garage')];
  expect(short.texts.map(({ text }) => text)).toContain('Living room: glued wood');
  expect(long.texts.map(({ text }) => text)).toEqual(
    expect.arrayContaining(['Living room and mud room by the garage:', 'glued wood', 'June 1', 'resilient flooring, cleared']),
  );
  for (const { text, x, weight } of long.texts)
    expect(x + textWidthPx(text, 15, { family: 'sans', weight, italic: false }), text).toBeLessThanOrEqual(widthPx);
  expect(long.height).toBeGreaterThan(short.height);
});

function byHours(clearance: ReturnType<typeof handoverRooms>[number]['schedule']['clearance']) {
  return clearance === null ? null : { ...clearance, requirement: { ...clearance.requirement, byHours: true } };
}
