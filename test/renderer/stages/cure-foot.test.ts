/** What Cure says of a floor with a lift to place, and of one that cannot dry. */
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, it } from 'vitest';
import { cureSheet } from '../../../renderer/stages/cure/cure-drawing.ts';
import { cureFoot, standingWords } from '../../../renderer/stages/cure/cure-foot.ts';
import { curingRooms, isDone, partWords, plannedRoom, pouredWords, verdictWords } from '../../../renderer/stages/cure/cure-room.ts';
import { quoteAir } from '../../../renderer/stages/cure/quote-air.ts';
import { DatesPart } from '../../../renderer/stages/cure/DatesPart.tsx';
import type { Promised } from '../../../shared-core/book/cure-record.ts';
import { roomAir } from '../../../shared-core/climate/room-air.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const ROOM = 'sample-living';
const SAY = { now: NOW, zone: 'America/New_York', locale: 'en-US', units: 'us' } as const;

/** The living room of the sample, as the first of so many lifts and in air of this humidity. */
const livingRoom = (lifts: number, relativeHumidity: number, isPromised = false) => {
  const whole = wholeJobsOf(sampleAt(NOW)).find(({ job }) => job.id === 'sample-job-abara');
  if (whole === undefined) throw new Error('The sample has the job of the three floors.');
  const pours = whole.pours.map((pour) => ({
    ...pour,
    asPoured: {
      ...pour.asPoured,
      rooms: pour.asPoured.rooms.map((room) => (room.roomId === ROOM ? { ...room, liftsPlanned: lifts } : room)),
    },
  }));
  const expectedAir = { tempC: 20, relativeHumidity, enteredAt: NOW };
  const job = { ...whole.job, rooms: whole.job.rooms.map((room) => (room.roomId === ROOM ? { ...room, expectedAir } : room)) };
  const reading = readJob({ ...whole, job, pours, promises: isPromised ? whole.promises : [] }, NOW);
  const rooms = curingRooms(reading);
  const room = rooms.find(({ id }) => id === ROOM);
  if (room === undefined) throw new Error('The living room is curing.');
  return { whole, room, foot: cureFoot(reading, rooms, ROOM, SAY) };
};

it('says after lift 1 of 2 that a lift is missing, and goes to Pour', () => {
  const { room, foot } = livingRoom(2, 0.5);
  expect(foot).toMatchObject({ text: 'Another lift is not placed yet.', word: 'Go to Pour', promise: null });
  expect(verdictWords(room, SAY).rest).toBe('Another lift is not placed yet.');
  // The depth is of both lifts: it is not what lies there.
  expect(pouredWords(room, SAY).join(' ')).toMatch(/^lift 1 of 2 placed /);
});

it('lists the promised date as on hold after lift 1 of 2, among the dates of the lift', () => {
  const { whole, room } = livingRoom(2, 0.5, true);
  const dates = renderToStaticMarkup(createElement(DatesPart, { whole, room, say: SAY, onPromise: () => undefined }));
  expect(dates).toMatch(/glued wood.*promised to .*on hold: no date/);
  expect(verdictWords(room, SAY).verdict).toBe('On hold: no date.');
});

it('states foot traffic on the placed part as the customer is told it, and a likely date as likely', () => {
  const { whole, room } = livingRoom(2, 0.5);
  const walk = room.parts[0]?.schedule.milestones.find(({ kind }) => kind === 'walk-on');
  if (walk?.statedAt == null) throw new Error('The placed part has a date for foot traffic.');
  expect(walk.statedAt).not.toBe(walk.likelyAt);
  const [words = ''] = partWords(room, SAY);
  // The platform's time zone arithmetic, independent of the program's.
  const hour = new Intl.DateTimeFormat('en-US', { timeZone: SAY.zone, weekday: 'short', hour: 'numeric', minute: '2-digit' }).format(
    new Date(walk.statedAt),
  );
  const plain = (text: string) => text.replaceAll(',', '').replaceAll(/\s/g, ' ').toLowerCase();
  expect(plain(words)).toContain(plain(`foot traffic ${hour}.`));
  const dates = renderToStaticMarkup(createElement(DatesPart, { whole, room, say: SAY, onPromise: () => undefined }));
  // Foot traffic is open by now; the next lift is ahead.
  expect(dates).toMatch(/<span>foot traffic<\/span><span>(?!likely)/);
  expect(dates).toMatch(/<span>next lift<\/span><span>likely /);
});

it('says poured once the only lift is placed', () => {
  const { room, foot } = livingRoom(1, 0.5);
  expect(foot.word).not.toBe('Go to Pour');
  expect(pouredWords(room, SAY).join(' ')).toContain('poured');
});

it('blames damp air, not cold, where a warm floor cannot dry', () => {
  const { room, foot } = livingRoom(1, 1);
  expect(foot.text).toBe('No date: the air is too damp for the floor to dry.');
  expect(verdictWords(room, SAY).rest).toBe('No date: the air is too damp.');
});

/** A job of the sample with a date promised for foot traffic of one room. */
const promisedFor = (jobId: string, roomId: string, instant: string) => {
  const whole = wholeJobsOf(sampleAt(NOW)).find(({ job }) => job.id === jobId);
  if (whole === undefined) throw new Error(`The sample has the job ${jobId}.`);
  const promise: Promised = {
    ...{ id: 'prom-walk', createdAt: NOW, changedAt: NOW, deletedAt: null, jobId, roomId },
    ...{ milestone: 'walk-on', flooring: null, promisedFor: instant, madeAt: '2026-05-01T15:00:00.000Z', documentId: null, to: '' },
  };
  return { ...whole, promises: [promise] };
};

it('offers the later date of a pour that is only planned, where the promised one cannot be kept', () => {
  const whole = promisedFor('sample-job-lindqvist', 'sample-family', '2026-05-12T12:00:00.000Z');
  // The day before the pour.
  const now = '2026-05-11T15:00:00.000Z';
  const reading = readJob({ ...whole, pours: [], pourEvents: [] }, now);
  const foot = cureFoot(reading, curingRooms(reading), 'sample-family', { ...SAY, now });
  expect(foot.text).toMatch(/ was promised\. .+ is the date to promise now\.$/);
  expect(foot).toMatchObject({ promise: { kind: 'walk-on' } });
  expect(plannedRoom(reading, 'sample-family', now)?.schedule.verdicts.map(({ state }) => state)).toEqual(['late']);
});

it('offers no date by a pour that is running or was due', () => {
  const whole = promisedFor('sample-job-lindqvist', 'sample-family', '2026-05-12T12:00:00.000Z');
  const unpoured = { ...whole, pours: [], pourEvents: [] };
  const pourAt = whole.job.rooms.find(({ roomId }) => roomId === 'sample-family')?.pourAt ?? '';
  const before = new Date(Date.parse(pourAt) - 1).toISOString();
  const [pour] = wholeJobsOf(sampleAt(NOW)).flatMap(({ pours }) => pours);
  if (pour === undefined) throw new Error('The sample has a pour.');
  const running = { ...pour, jobId: whole.job.id, roomIds: ['sample-family'], startedAt: before, finishedAt: null };
  const footOf = (job: typeof whole, now: string) => {
    const reading = readJob(job, now);
    return cureFoot(reading, curingRooms(reading), 'sample-family', { ...SAY, now });
  };
  expect(footOf(unpoured, before).promise).not.toBeNull();
  const none = { text: 'Not poured yet.', word: 'Go to Pour', promise: null };
  expect(footOf(unpoured, pourAt)).toMatchObject(none);
  expect(footOf({ ...unpoured, pours: [running] }, before)).toMatchObject(none);
});

it('offers no date for what the floor has reached', () => {
  const reading = readJob(promisedFor('sample-job-abara', ROOM, '2026-05-08T12:00:00.000Z'), '2026-06-20T15:00:00.000Z');
  const rooms = curingRooms(reading);
  const late = rooms.find(({ id }) => id === ROOM);
  expect(late?.schedule.verdicts.map(({ state }) => state)).toEqual(['late']);
  expect(cureFoot(reading, rooms, ROOM, { ...SAY, now: '2026-06-20T15:00:00.000Z' }).promise).toBeNull();
});

it('says done of flooring once the floor is cleared, whatever was expected', () => {
  const { room } = livingRoom(1, 0.5);
  const { schedule } = room;
  if (schedule.cover === null) throw new Error('The living room gets flooring.');
  const cleared = { ...room, schedule: { ...schedule, clearedFrom: NOW } };
  expect([isDone(room, schedule.cover, NOW), isDone(cleared, schedule.cover, NOW)]).toEqual([false, true]);
  // Flooring that is not chosen is not tested for.
  expect(schedule.milestones.filter((m) => m.kind === 'cover' && isDone(cleared, m, NOW))).toEqual([schedule.cover]);
});

it('leaves a long name its lines: above the rows on a phone, and beside them in a wide window', () => {
  const { room } = livingRoom(1, 0.5);
  const long = { ...room, room: { ...room.room, name: 'Downstairs family room with the bay window and the old hearth' } };
  const blockOf = (of: typeof room, widthPx: number) => {
    const [block] = cureSheet([of], SAY, widthPx).blocks;
    if (block === undefined) throw new Error('The room is drawn.');
    return block;
  };
  const headPx = (of: typeof room, widthPx: number): number => blockOf(of, widthPx).rowsTop - blockOf(of, widthPx).top;
  // A line of 17 px at 1.3, as the style sheet sets the name.
  expect(headPx(long, 390) - headPx(room, 390)).toBeCloseTo(1.3 * 17, 0);
  expect(headPx(long, 1440)).toBe(0);
  // Six lines in a column 7 rem wide, and the pour's time below them.
  for (const widthPx of [1440, 1024]) {
    const { top, bottom } = blockOf(long, widthPx);
    expect(bottom - top).toBeGreaterThan(6 * 1.3 * 17);
    expect(bottom - top).toBeGreaterThan(blockOf(room, widthPx).bottom - blockOf(room, widthPx).top);
  }
});

it('has no date to promise for a lift after the last one', () => {
  const datesOf = (lifts: number) => {
    const { whole, room } = livingRoom(lifts, 0.5);
    return renderToStaticMarkup(createElement(DatesPart, { whole, room, say: SAY, onPromise: () => undefined }));
  };
  expect(datesOf(2)).toContain('Promise a date for next lift');
  expect(datesOf(1)).not.toContain('next lift');
});

it('compares the air that the quote assumed by its humidity too', () => {
  const { whole } = livingRoom(1, 0.5);
  const frozen = whole.quotes.findLast(({ state }) => state === 'accepted')?.frozen;
  const [quoted, floor] = [frozen?.job.rooms.find(({ roomId }) => roomId === ROOM), frozen?.rooms.find(({ id }) => id === ROOM)];
  if (quoted === undefined || floor === undefined) throw new Error('The quote of the sample has the room.');
  const { tempC, relativeHumidity } = roomAir(floor, quoted);
  const inAir = (damperBy: number) => {
    const expectedAir = { tempC, relativeHumidity: relativeHumidity + damperBy, enteredAt: NOW };
    const job = { ...whole.job, rooms: whole.job.rooms.map((room) => (room.roomId === ROOM ? { ...room, expectedAir } : room)) };
    const reading = readJob({ ...whole, job }, NOW);
    const room = curingRooms(reading).find(({ id }) => id === ROOM);
    return room === undefined ? 'not curing' : quoteAir(reading, room, SAY);
  };
  expect(inAir(0)).toBeNull();
  expect(inAir(0.1)).toMatch(/^The quote assumed \d+ °F and \d+% humidity\. In that air: glued wood from [A-Z][a-z]+\.? \d+\.$/);
});

it('says when the floors were handed over, and asks for no date of it then', () => {
  const { whole, room } = livingRoom(1, 0.5, true);
  const wordsOf = (handedOverAt: string | null, handoverAt: string | null) =>
    standingWords(
      [room],
      readJob({ ...whole, job: { ...whole.job, handoverAt, rooms: whole.job.rooms.map((r) => ({ ...r, handedOverAt })) } }, NOW),
      SAY,
    );
  expect(wordsOf(null, null)).toMatch(/^No handover date is set\./);
  expect(wordsOf(null, NOW)).toMatch(/^Handover planned for Tue, May 12/);
  for (const planned of [null, NOW]) expect(wordsOf('2026-05-11T15:00:00.000Z', planned)).toMatch(/^Handed over May 11\. /);
});
