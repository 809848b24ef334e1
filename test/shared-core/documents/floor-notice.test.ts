/** What the notice says of a floor poured on more than one day, and why the last pour stopped. */
import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { floorNotice, noticeMessage } from '../../../shared-core/documents/floor-notice.ts';
import { regionsForCustomer } from '../../../shared-core/drawing/pour-plan.ts';
import { roomFloorOf } from '../../../shared-core/standing/read-pour.ts';
import { jobReadingCures } from '../../../shared-core/standing/job-cures.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { formatArea } from '../../../shared-core/measure/area.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { at, family, firstSection, logOf, nextPour, NOW, placed, pouredFamily, ROOM } from './poured-family.ts';
import { pourDaySheet } from '../../../shared-core/documents/pour-day-sheet.ts';
import { prepSheet } from '../../../shared-core/documents/prep-sheet.ts';
import { points } from '../../outlines.ts';
import { textOf } from './tree-text.ts';

const finished = (day: string) => ({ kind: 'finished', bagsLeft: null, floor: 'partly', instant: at(day, 200) });
const trouble = (day: string, min: number, what: string) => ({ kind: 'incident', what, note: '', batch: null, instant: at(day, min) });
const batches = (day: string, count: number) => Array.from({ length: count }, (_, i) => placed(at(day, 3 * i), i + 1));

/** Six batches on Wednesday, May 13, until the power fails; three on Friday, with these troubles in this order. */
function stopped(...troubles: readonly string[]) {
  const first = nextPour(readJob(family, NOW), 'pour-a', '13');
  const firstLog = logOf('pour-a', [...batches('13', 6), trouble('13', 30, 'power-lost'), finished('13')]);
  const second = nextPour(readJob({ ...family, pours: [first], pourEvents: firstLog }, at('14', 0)), 'pour-b', '15');
  const rest = logOf('pour-b', [...batches('15', 3), ...troubles.map((what, i) => trouble('15', 30 + i, what)), finished('15')]);
  const reading = readJob({ ...family, pours: [first, second], pourEvents: [...firstLog, ...rest] }, at('16', 0));
  const [cured] = jobReadingCures(reading);
  const areas = (cured?.parts ?? []).map(({ areaM2 }) => formatArea(areaM2, 'us', 'en-US'));
  return { areas, body: noticeMessage(reading, at('16', 0))?.body ?? '' };
}

it('states what was poured on each day', () => {
  const { areas, body } = stopped('short-of-bags');
  expect(areas).toHaveLength(2);
  expect(areas[0]).not.toBe(areas[1]);
  // May 13, 2026 is a Wednesday.
  expect(body).toMatch(
    new RegExp(`We poured ${areas[0]} on Wednesday, May 13 and ${areas[1]} on Friday, May 15: part of the [0-9]+ sq ft in the family room`),
  );
});

it.each([
  [['short-of-bags'], 'We stopped because the material ran short.'],
  [['mixer-down', 'short-of-bags'], 'We stopped because the material ran short.'],
  [['short-of-bags', 'lumps', 'wrong-water', 'old-batch'], 'We stopped because the material ran short.'],
  [['wrong-water'], 'We stopped before all of it was placed.'],
  [[], 'We stopped before all of it was placed.'],
])('gives the last trouble of the last pour that stops a pour: %j', (troubles, sentence) => {
  expect(stopped(...troubles).body).toContain(sentence);
});

it.each([
  // The pour went on after it: the trouble was dealt with.
  [['leak', 'placed'], 'We stopped before all of it was placed.'],
  [['power-lost', 'mixed', 'placed'], 'We stopped before all of it was placed.'],
  // The batch in hand is placed all the same, and the last bags are.
  [['mixed', 'power-lost', 'placed'], 'We stopped because the power failed.'],
  [['short-of-bags', 'placed'], 'We stopped because the material ran short.'],
  [['short-of-bags', 'bags-added', 'placed'], 'We stopped before all of it was placed.'],
])('gives a trouble as the reason only where no batch was begun after it: %j', (what, sentence) => {
  const entries = what.map((kind, i) => {
    const instant = at('13', 30 + i);
    if (kind === 'placed') return placed(instant, 7);
    if (kind === 'mixed') return { kind, batch: 7, bags: 2, waterL: null, instant };
    return kind === 'bags-added' ? { kind, bags: 4, instant } : trouble('13', 30 + i, kind);
  });
  expect(noticeMessage(after(...batches('13', 6), ...entries), at('14', 0))?.body).toContain(sentence);
});

describe('the notice of a section placed as planned', () => {
  const told = (...more: readonly Record<string, unknown>[]) => {
    const reading = readJob(firstSection(...more), at('14', 0));
    const message = noticeMessage(reading, at('14', 0));
    return `${message?.subject}\n${message?.body}\n${textOf(floorNotice({ reading, photos: [], now: at('14', 0), revision: 1, changes: [] }))}`;
  };

  it.each([[[]], [['leak']], [['power-lost', 'short-of-bags']]])('gives no trouble as a reason, and moves no date: %j', (troubles) => {
    const words = told(...troubles.map((what, i) => trouble('13', 100 + i, what)));
    expect(words).toContain('This part was poured as planned. The rest follows.');
    expect(words).not.toMatch(/We stopped|dates move|new dates/i);
    expect(words).toMatch(/We (plan to pour the rest on|will call you to set the day for the rest)/);
  });

  it('has new dates where some of it is removed again', () => {
    const words = told({ kind: 'discarded', batch: 2, by: 'MP', why: 'lumps', instant: at('13', 100) });
    expect(words).toContain('This part was poured as planned.');
    expect(words).toMatch(/We removed .* that was not good/);
    expect(words).toMatch(/All later dates/);
  });
});

/** The family room after a pour on May 13 with these entries. */
function after(...entries: readonly Record<string, unknown>[]) {
  const rooms = family.job.rooms.map((room) => (room.roomId === ROOM ? { ...room, pourAt: at('13', 0) } : room));
  const planned = { ...family, job: { ...family.job, rooms } };
  const pours = [nextPour(readJob(planned, NOW), 'pour-a', '13')];
  return readJob({ ...planned, pours, pourEvents: logOf('pour-a', [...entries, finished('13')]) }, at('14', 0));
}
const inRoom = (reading: ReturnType<typeof after>): string[] =>
  agenda([reading.bundle], family.business, null).entries.flatMap(({ kind, roomIds }) => (roomIds.includes(ROOM) ? [kind] : []));

it('gives no date and no message for a room in which nothing was placed, which still waits for its pour', () => {
  const none = after();
  expect(jobReadingCures(none)).toEqual([]);
  expect(noticeMessage(none, at('14', 0))).toBeNull();
  expect(none.standing.rooms.find(({ roomId }) => roomId === ROOM)).toMatchObject({ poured: 'none', pouredAt: null });
  expect(inRoom(none)).toContain('pour');
  const some = after(...batches('13', 6));
  expect(jobReadingCures(some).map(({ room }) => room.id)).toEqual([ROOM]);
  expect(inRoom(some)).toContain('walk-on');
  expect(inRoom(some)).not.toContain('pour');
});

it('says that a floor was removed again, and gives no date for it', () => {
  const scraped = after(...batches('13', 1), { kind: 'discarded', batch: 1, by: '', why: '', instant: at('13', 30) });
  expect(jobReadingCures(scraped)).toEqual([]);
  const { body } = noticeMessage(scraped, at('14', 0)) ?? { body: '' };
  expect(body).toMatch(/On Wednesday, May 13 we poured \d+ sq ft of the family room and removed it/);
  expect(body).not.toMatch(/ 0 sq ft|foot traffic/);
});

it('announces no pour day that has passed, in the notice, its message, the prep sheet and the pour-day sheet', () => {
  const pour = nextPour(readJob(family, NOW), 'pour-a', '13');
  const pourEvents = logOf('pour-a', [...batches('13', 6), trouble('13', 30, 'power-lost'), finished('13')]);
  const rooms = family.job.rooms.map((room) => (room.roomId === ROOM ? { ...room, pourAt: at('15', 0) } : room));
  const papers = (now: string): string[] => {
    const reading = readJob({ ...family, job: { ...family.job, rooms }, pours: [pour], pourEvents }, now);
    const roomReading = reading.rooms.find(({ room }) => room.id === ROOM);
    const day = pourDaySheet({ reading, roomIds: [ROOM], madeAt: now, revision: 1 });
    if (roomReading === undefined || !day.ok) throw new Error('The family room is partly poured.');
    return [
      textOf(floorNotice({ reading, photos: [], now, revision: 1, changes: [] })),
      noticeMessage(reading, now)?.body ?? '',
      textOf(prepSheet({ reading, roomReading, madeAt: now, revision: 1 })),
      textOf(day.value),
    ];
  };
  // The day itself has not passed in its evening.
  for (const paper of papers(at('15', 9 * 60))) expect(paper).toContain('Fri, May 15');
  const slipped = papers(at('20', 0));
  for (const paper of slipped) expect(paper).not.toContain('May 15');
  for (const paper of slipped.slice(0, 2)) expect(paper).toContain('We will call you to set the day for the rest.');
});

describe('a floor placed in full with a hollow spot', () => {
  const mark = { kind: 'marked', roomId: ROOM, outline: points('1,1 2,1 2,2 1,2'), by: 'MP', why: 'sounds hollow' };
  const hollow = { ...mark, state: 'suspect', defect: 'hollow', instant: at('14', 0) };
  const promise = {
    ...{ id: 'promise-1', createdAt: NOW, changedAt: NOW, deletedAt: null, jobId: family.job.id, roomId: ROOM, to: 'Ida' },
    ...{ milestone: 'walk-on' as const, flooring: null, promisedFor: at('15', 0), madeAt: at('12', 0), documentId: null },
  };
  const told = (now: string, given: Partial<WholeJob> = {}) => {
    const reading = readJob({ ...pouredFamily(hollow), promises: [], documents: [], ...given }, now);
    const message = noticeMessage(reading, now);
    return `${message?.subject}\n${message?.body}\n${textOf(floorNotice({ reading, photos: [], now, revision: 1, changes: [] }))}`;
  };

  it('takes furniture once the handover sheet says so', () => {
    expect(told(at('14', 60))).toContain('The floor is open to light foot traffic, soft-soled shoes.');
    const months = '2026-08-25T12:00:00.000Z';
    expect(told(months)).toContain('The floor is open to foot traffic and furniture with felt pads.');
    expect(told(months)).not.toContain('soft-soled');
  });

  it('is to be repaired in the picture as in the text, and other suspect floor to be checked', () => {
    expect(told(at('14', 60))).toContain('We found a hollow spot');
    const words = (marked: typeof mark): string[] => {
      const reading = readJob({ ...pouredFamily(marked), promises: [], documents: [] }, at('14', 60));
      const [floor] = reading.rooms.flatMap(({ room }) => (room.id === ROOM ? [roomFloorOf(reading, ROOM)] : []));
      return regionsForCustomer(floor?.lift?.regions ?? []).flatMap(({ text }) => (text === '' ? [] : [text]));
    };
    expect(words(hollow)).toEqual(['placed', 'to repair']);
    const suspect = { ...mark, state: 'suspect', instant: at('14', 0) };
    expect(words(suspect)).toEqual(['placed', 'to check']);
  });

  it('speaks of dates only where some were given, and of new ones only where they change', () => {
    expect(told(at('14', 60))).not.toMatch(/dates/i);
    const given = told(at('14', 60), { promises: [promise] });
    expect(given).toContain('The dates we gave you stay the same');
    expect(given).not.toMatch(/new dates/i);
    expect(stopped('short-of-bags').body).toContain('All later dates move');
  });
});
