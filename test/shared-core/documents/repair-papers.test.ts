/** What the papers and screens say of a placed floor with a known defect: it is never called complete or cleared. */
import { describe, expect, it } from 'vitest';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import type { ClearanceTest, Promised } from '../../../shared-core/book/cure-record.ts';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { jobAgenda } from '../../../shared-core/agenda/job-agenda.ts';
import { newlyStatedDates } from '../../../shared-core/agenda/stated-dates.ts';
import { ribbonView, todayList } from '../../../shared-core/agenda/today.ts';
import { completionCertificate } from '../../../shared-core/documents/certificates.ts';
import { handoverRooms } from '../../../shared-core/documents/handover-rooms.ts';
import { handoverSheet } from '../../../shared-core/documents/handover-sheet.ts';
import { moistureReport } from '../../../shared-core/documents/moisture-report.ts';
import { installerPage } from '../../../shared-core/documents/installer-page.ts';
import { cureFoot } from '../../../renderer/stages/cure/cure-foot.ts';
import { curingRooms, isDone, verdictWords } from '../../../renderer/stages/cure/cure-room.ts';
import { handoverFoot } from '../../../renderer/stages/handover/handover-foot.ts';
import { jobReadingCures } from '../../../shared-core/standing/job-cures.ts';
import { nextStep } from '../../../shared-core/standing/next-step.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { dateToPromise, owedPromises } from '../../../shared-core/standing/room-cure.ts';
import { points } from '../../outlines.ts';
import { at, family, pouredFamily, ROOM } from './poured-family.ts';
import { rowsOf, textOf } from './tree-text.ts';
import { threeTests } from '../cure/sheet-fixture.ts';
import { SAVED_SHEET } from '../../handover-state.ts';

const LATER = '2026-08-25T12:00:00.000Z';
const mark = { kind: 'marked', roomId: ROOM, outline: points('1,1 2,1 2,2 1,2'), by: 'MP', why: 'sounds hollow' };
const hollow = { ...mark, state: 'suspect', defect: 'hollow', instant: at('14', 0) };
const suspect = { ...mark, state: 'suspect', instant: at('14', 0) };
const repaired = { ...mark, state: 'placed', instant: at('15', 0) };
const passed: ClearanceTest = {
  ...{ id: 'test-1', createdAt: LATER, changedAt: LATER, deletedAt: null, jobId: family.job.id, roomId: ROOM },
  flooring: family.job.rooms.find(({ roomId }) => roomId === ROOM)?.flooring ?? 'wood-glued',
  method: 'slab-humidity',
  unit: 'share',
  ...{ value: 0.6, takenAt: '2026-08-20T12:00:00.000Z', by: 'Ada', note: '' },
};
const papersOf = (whole: WholeJob) => {
  const reading = readJob({ ...whole, clearanceTests: threeTests(passed) }, LATER);
  const input = { reading, photos: [], now: LATER, revision: 1, changes: [] };
  const [sheet, page, certificate] = [handoverSheet(reading, input), installerPage(input), completionCertificate(input)];
  return { reading, sheet, page, certificate };
};

describe.each([
  ['a hollow spot', hollow, 'repair a hollow spot (11 sq ft)', 'repairs', 'Repaired'],
  ['a suspect part', suspect, 'check 11 sq ft of the floor', 'a check', 'Checked, sound'],
])('a placed floor with %s', (_, entry, work, wait, button) => {
  const { reading, sheet, page, certificate } = papersOf(pouredFamily(entry));

  it('has the work under what is still to do, on every paper', () => {
    expect(textOf(certificate)).toMatch(
      new RegExp(`complete, except as listed[^]+Still to do\\nFamily room: ${work.replaceAll(/[()]/g, '.')}`),
    );
    expect(textOf(sheet)).toContain(`Family room: ${work}`);
    expect(textOf(page)).toContain(`Family room: ${work}`);
  });

  it('is not cleared by its moisture test', () => {
    expect(rowsOf(page, 'Ready for flooring')[0]).toMatchObject({ Ready: `After ${wait}`, Result: expect.stringContaining('passed') });
    expect(rowsOf(sheet, 'When you can use the floor')[0]).toMatchObject({ 'Ready for flooring': `After ${wait}` });
    // The test is done: the sheet asks for it no more.
    expect(textOf(sheet)).not.toContain('Have the moisture test done');
    for (const tree of [sheet, page, certificate]) expect(JSON.stringify(tree)).not.toMatch(/cleared/i);
  });

  it('is sent to its repair by the screens and by the list of next steps', () => {
    const { whole, bundle, standing } = reading;
    const say = { now: LATER, zone: 'America/New_York', locale: 'en-US', units: 'us' } as const;
    const rooms = curingRooms(reading);
    const [room] = rooms;
    if (room?.schedule.cover == null) throw new Error('The family room has its flooring.');
    expect(cureFoot(reading, rooms, ROOM, say)).toMatchObject({
      word: 'Go to Pour',
      why: `On Pour, select “${button}” once it is done.`,
    });
    expect(cureFoot(reading, rooms, ROOM, say).text.toLowerCase()).toContain(work);
    expect(verdictWords(room, say).rest.toLowerCase()).toContain(work);
    expect(isDone(room, room.schedule.cover, LATER)).toBe(false);
    expect(nextStep(bundle, ROOM, whole.business, LATER)).toMatchObject({ sentence: expect.stringMatching(new RegExp(work.slice(1, 12))) });
    expect(standing.complete).toBe(false);
    expect(JSON.stringify(jobAgenda(bundle, whole.business).entries)).not.toMatch(/cleared/i);
    // Handed over with its test passed it stays done, and says what is left.
    const jobRooms = whole.job.rooms.map((one) => ({ ...one, handedOverAt: one.roomId === ROOM ? LATER : one.handedOverAt }));
    const over = { ...bundle, job: { ...bundle.job, rooms: jobRooms } };
    expect(nextStep(over, ROOM, whole.business, LATER)).toMatchObject({
      standing: { stage: 'done', state: 'done', cleared: false, curing: false },
      sentence: expect.stringContaining(`Handed over. Part of this floor still waits for ${wait}.`),
      action: { opens: 'pour' },
    });
    const untested = { ...over, clearanceTests: [], tests: [] };
    expect(nextStep(untested, ROOM, whole.business, LATER)?.standing).toMatchObject({ stage: 'cure', curing: true });
    const handed = handoverRooms(reading).map((one) => ({ ...one, jobRoom: { ...one.jobRoom, handedOverAt: LATER } }));
    const foot = handoverFoot(
      {
        rooms: handed,
        uncleared: handed,
        roomId: ROOM,
        now: LATER,
        ...SAVED_SHEET,
      },
      say.zone,
      say.locale,
    );
    expect(foot.why).toBe(`Part of this floor still waits for ${wait}.`);
  });
});

it('clears the floor once the part is repaired', () => {
  const { sheet, page } = papersOf(pouredFamily(hollow, repaired));
  expect(rowsOf(page, 'Ready for flooring')[0]).toMatchObject({ Ready: 'Cleared' });
  expect(rowsOf(sheet, 'When you can use the floor')[0]).toMatchObject({ 'Ready for flooring': 'Cleared: test passed' });
});

it('is complete once the promised flatness is measured', () => {
  const whole = pouredFamily(hollow, repaired);
  const rooms = whole.rooms.map((room) => ({ ...room, surveyAfter: { ...room.survey, takenAt: at('16', 0) } }));
  const [open, measured] = [papersOf(whole), papersOf({ ...whole, rooms })];
  expect(textOf(open.certificate)).toContain('Still to do\nFamily room: measure the flatness.\n');
  expect(textOf(measured.certificate)).toContain('The leveling work in Family room is complete.\n');
  // Nothing to keep is promised without a quote.
  expect(textOf(papersOf({ ...whole, quotes: [] }).certificate)).not.toContain('measure the flatness');
});

it('is tested before its flooring even where it passed', () => {
  expect(textOf(papersOf(pouredFamily()).page)).toContain('Test the floor in the days before installation, even if it passed before.');
});

describe('a date promised for flooring while a repair is open', () => {
  const promise = (promisedFor: string): Promised => ({
    ...{ id: 'promise-1', createdAt: at('12', 0), changedAt: at('12', 0), deletedAt: null, jobId: family.job.id, roomId: ROOM },
    ...{ milestone: 'cover', flooring: 'wood-glued', promisedFor, madeAt: at('12', 0), documentId: null, to: 'Ida' },
  });
  const test = { ...passed, takenAt: at('20', 0) };
  const readingOf = (promises: Promised[], now: string, isTested: boolean, ...entries: object[]) =>
    readJob({ ...pouredFamily(...entries.map((one) => ({ ...one }))), promises, clearanceTests: isTested ? threeTests(test) : [] }, now);
  const seen = (promisedFor: string, now: string, ...entries: object[]) => {
    const reading = readingOf([promise(promisedFor)], now, true, ...entries);
    const { bundle, whole } = reading;
    const read = agenda([bundle], whole.business, null);
    const list = todayList(read, now).filter(({ entry }) => entry.roomIds.includes(ROOM));
    const [room] = curingRooms(reading);
    if (room === undefined) throw new Error('The family room is poured.');
    return {
      lines: list.map(({ entry, when }) => `${entry.verb} ${entry.rest} [${when}]`),
      label: ribbonView(read, [], now, bundle.property.timeZone, 28).rows.find(({ roomId }) => roomId === ROOM)?.label,
      owed: owedPromises(room, now).map(({ state }) => state),
      newDate: dateToPromise(room, now),
    };
  };
  const repair = 'Repair a hollow spot (11 sq ft) in the Lindqvists’ family room before glued wood.';

  it('stays on hold on Today and Cure after the test passed, beside the repair, where drying was to miss it', () => {
    const { lines, label, owed, newDate } = seen(at('22', 0), at('21', 0), hollow);
    expect(owed).toEqual(['on-hold']);
    expect(newDate).toBeNull();
    expect(lines).toEqual([
      'Call about the Lindqvists’ promised date for glued wood. There is no date until the floor is repaired and checked. [promised tomorrow]',
      `${repair} [tomorrow]`,
    ]);
    expect(label).toBe('glued wood after repairs');
  });

  it('is at risk where drying was to meet it, and its repair is late once the day is over', () => {
    expect(seen(at('29', 0), at('28', 0), hollow)).toMatchObject({ owed: ['at-risk'], lines: [`${repair} [tomorrow]`] });
    const late = seen(at('29', 0), at('30', 0), suspect);
    const check = 'Check 11 sq ft of the floor in the Lindqvists’ family room before glued wood.';
    expect(late).toMatchObject({ lines: [`${check} [late, promised Friday]`], label: 'glued wood after a check' });
  });

  it('is not due before the day the spot was found', () => {
    const found = { ...hollow, instant: at('24', 0) };
    // Promised for Friday, May 22, 2026, found on Sunday: on Monday it is late since Sunday.
    expect(seen(at('22', 0), at('24', 60), found).lines).toContain(`${repair} [today]`);
    expect(seen(at('22', 0), at('25', 0), found).lines).toContain(`${repair} [late, due Sunday]`);
  });

  it('is settled by the repair', () => {
    // Tested on May 20, 2026, a Wednesday.
    const lines = ['Set a handover date for the Lindqvists’ family room. [since Wednesday]'];
    const cleared = { owed: [], lines, label: 'cleared for glued wood' };
    for (const promisedFor of [at('22', 0), at('29', 0)]) expect(seen(promisedFor, at('21', 0), hollow, repaired)).toMatchObject(cleared);
  });

  it('is neither stated nor moved by the handover sheet', () => {
    const stated = (...entries: object[]) => {
      const promises = [promise(at('18', 0))];
      const reading = readingOf(promises, at('15', 0), false, ...entries);
      const sheet = textOf(handoverSheet(reading, { now: at('15', 0), revision: 1, changes: [] }));
      const dates = newlyStatedDates(jobReadingCures(reading), promises, at('15', 0));
      return [/Dates later than promised\n.*glued wood: .+, not .+\./.test(sheet), dates.some(({ milestone }) => milestone === 'cover')];
    };
    expect(stated()).toEqual([true, true]);
    expect(stated(hollow)).toEqual([false, false]);
  });
});

it('names the sealer, and no flooring, where a repair comes before the floor is sealed', () => {
  const whole = pouredFamily(hollow);
  const rooms = whole.job.rooms.map((room) => ({ ...room, flooring: 'bare-sealed' as const }));
  const [room] = curingRooms(readJob({ ...whole, job: { ...whole.job, rooms } }, LATER));
  const say = { now: LATER, zone: 'America/New_York', locale: 'en-US', units: 'us' } as const;
  expect(room && verdictWords(room, say).rest).toBe('Repair a hollow spot (11 sq ft) before the floor is sealed.');
});

describe('a floor whose flooring is down', () => {
  const laidOn = (day: string, whole: WholeJob): WholeJob => {
    const rooms = whole.job.rooms.map((room) => (room.roomId === ROOM ? { ...room, flooringLaidOn: day } : room));
    return { ...whole, job: { ...whole.job, rooms } };
  };
  const say = { now: LATER, zone: 'America/New_York', locale: 'en-US', units: 'us' } as const;

  it('is repaired under it, on every paper and screen', () => {
    const { reading, sheet, page, certificate } = papersOf(laidOn('2026-08-22', pouredFamily(hollow)));
    const rooms = curingRooms(reading);
    const [room] = rooms;
    if (room === undefined) throw new Error('The family room is poured.');
    for (const text of [textOf(sheet), textOf(page), textOf(certificate), verdictWords(room, say).rest])
      expect(text).toMatch(/repair a hollow spot \(11 sq ft\) under the flooring\./i);
    expect(cureFoot(reading, rooms, ROOM, say).text).toBe('Repair a hollow spot (11 sq ft) in the family room under the glued wood.');
    expect(rowsOf(page, 'Ready for flooring')[0]).toMatchObject({ Ready: 'Laid Aug 22' });
    for (const tree of [sheet, page, certificate]) expect(textOf(tree)).not.toMatch(/before flooring|until flooring|before installation/i);
  });

  it('waits for no test and owes no date, tested or not, and is not called cleared without a test', () => {
    const whole = laidOn('2026-08-22', pouredFamily());
    const reading = readJob(whole, LATER);
    const input = { reading, photos: [], now: LATER, revision: 1, changes: [] };
    const sheet = handoverSheet(reading, input);
    expect(rowsOf(sheet, 'When you can use the floor')[0]).toMatchObject({ 'Ready for flooring': 'Laid Aug 22' });
    expect(rowsOf(sheet, 'Moisture tests')[0]).toMatchObject({ Result: 'No test on record' });
    expect(textOf(sheet)).not.toMatch(/cleared|moisture test done|goes down/i);
    const report = textOf(moistureReport(input));
    expect(report).toContain('Family room: its flooring is down without enough tests on record.');
    expect(report).not.toMatch(/not tested yet|needed/i);
    const rooms = curingRooms(reading);
    expect(cureFoot(reading, rooms, ROOM, say).text).toBe('Flooring laid Aug 22.');
    const entries = jobAgenda(reading.bundle, whole.business).entries;
    expect(entries.filter(({ kind, toDo }) => toDo && (kind === 'clearance-test' || kind === 'cover'))).toEqual([]);
    expect(nextStep(reading.bundle, ROOM, whole.business, LATER)?.standing).toMatchObject({ curing: false, stage: 'handover' });
  });

  it('that was poured again since waits for its new test', () => {
    const reading = readJob(laidOn('2026-05-12', pouredFamily()), LATER);
    expect(textOf(handoverSheet(reading, { photos: [], now: LATER, revision: 1, changes: [] }))).toContain('Have the moisture test done');
  });
});
