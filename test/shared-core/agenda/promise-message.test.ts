import { describe, expect, it } from 'vitest';
import { type PourTimes, pourTimes, promiseMessage } from '../../../shared-core/agenda/promise-message.ts';
import type { CureInput } from '../../../shared-core/cure/cure-input.ts';
import { cureSchedule } from '../../../shared-core/cure/cure-schedule.ts';
import { standingQuote } from '../../../shared-core/standing/job-bundle.ts';
import { wholeOf } from '../job-variants.ts';
import { INPUT } from '../cure/sheet-fixture.ts';
import { barePlan } from '../pour/bare-plan.ts';
import { promised } from './bundle-fixture.ts';

const POUR: PourTimes = { at: INPUT.placedAt, poured: true, quotedFor: null };

const CARE = ['Keep the windows closed.', 'Heat as usual.'];

function message(over: Partial<CureInput>, pour: Partial<PourTimes> = {}, before = '2026-05-20T16:00:00.000Z', now?: string | null) {
  const [verdict] = cureSchedule({ ...INPUT, ...over, promises: [promised('prom0001', 'room-a', before)] }).verdicts;
  if (verdict === undefined) throw new Error('nothing was promised');
  const people = {
    customerName: 'Ida and Per Lindqvist',
    roomName: 'Family room',
    ownerName: 'R. Teague',
    care: pour.poured === false ? [] : CARE,
  };
  const promisedFor = now === undefined ? verdict.milestone.statedAt : now;
  return promiseMessage({ verdict, promisedFor, pour: { ...POUR, ...pour }, ...people, place: INPUT.place, locale: 'en-US' });
}

describe('the message about a promise that moved', () => {
  it('names the promised date, the one now expected, and the test to come', () => {
    const { subject, body } = message({});
    expect(subject).toBe('Family room: new date for glued wood');
    expect(body).toContain('On May 1, I gave you May 20 as the date for glued wood in the family room.');
    // The latest date is May 26 or later; the stated day is a working day.
    expect(body).toMatch(/The new date is (Mon|Tues|Wednes|Thurs|Fri)day, /);
    // The flooring installer tests, as the quote says.
    expect(body).toContain('Flooring goes down only after the floor passes its moisture test.');
    expect(body).not.toContain('I will test');
  });

  it('ends with how to keep a poured room, and not before the pour', () => {
    expect(message({}).body).toMatch(/\n\nKeep the windows closed\. Heat as usual\.\n\nR\. Teague$/);
    expect(message({}, { poured: false }).body).toMatch(/moisture test\.\n\nR\. Teague$/);
  });

  it('names the date that is promised, not the one suggested, and none before it is entered', () => {
    const before = '2026-05-20T16:00:00.000Z';
    expect(message({}, {}, before, '2026-06-22T11:00:00.000Z').body).toContain('The new date is Monday, June 22.');
    expect(message({}, {}, before, null).body).toContain('I will give you the new date as soon as I can.');
    expect(message({}, {}, before, null).body).not.toContain('The new date is');
  });

  it('speaks of the sealer where the floor is sealed', () => {
    const [promise] = [promised('prom0001', 'room-a', '2026-05-20T16:00:00.000Z')].map((one) => ({
      ...one,
      flooring: 'bare-sealed' as const,
    }));
    const { verdicts } = cureSchedule({ ...INPUT, flooring: 'bare-sealed', promises: promise === undefined ? [] : [promise] });
    const [verdict] = verdicts;
    if (verdict === undefined) throw new Error('nothing was promised');
    const people = { customerName: 'Ida and Per Lindqvist', roomName: 'Family room', ownerName: 'R. Teague', care: CARE };
    const { body } = promiseMessage({ verdict, promisedFor: null, pour: POUR, ...people, place: INPUT.place, locale: 'en-US' });
    expect(body).toContain('The sealer goes on only after the floor passes its moisture test.');
    expect(body).not.toContain('Flooring');
  });

  it('gives no date while the room is too cold or too damp', () => {
    expect(message({ assumedTempC: 2 }).body).toContain('too cold or too damp for the floor to dry');
    expect(message({ assumedTempC: 2 }).body).not.toContain('The new date is');
  });

  it('says that part of the floor is missing where that is why there is no date', () => {
    const { body } = message({ isLastLift: false });
    expect(body).toContain('Part of the floor is still to be placed. I will give you the new date as soon as I can.');
    expect(body).not.toContain('too cold');
  });

  const CLIMATE = 'The room has been colder or more humid than planned, so the floor needs more time.';
  const cold = Array.from({ length: 600 }, (_, h) => ({
    instant: new Date(Date.parse(INPUT.placedAt) + h * 3_600_000).toISOString(),
    tempC: 11,
    relativeHumidity: 0.5,
  }));

  it('blames the room’s air only where its own readings made the date late', () => {
    // By the assumed air the floor is ready before June 3.
    const kept = '2026-06-03T16:00:00.000Z';
    expect(cureSchedule({ ...INPUT, promises: [promised('prom0001', 'room-a', kept)] }).verdicts[0]?.state).toBe('on-track');
    expect(message({ readings: cold }, {}, kept).body).toContain(CLIMATE);
    expect(message({}).body).toContain('in the family room. The floor needs more time. The new date is');
    // It is late with and without the readings.
    expect(message({ readings: cold }, {}, '2026-05-13T16:00:00.000Z').body).not.toContain(CLIMATE);
  });

  it('says so where the pour was later than the quote had it, or is planned again', () => {
    expect(message({}, { quotedFor: '2026-05-06T12:00:00.000Z' }).body).toContain(
      'We poured on Monday, May 11, later than planned. The new',
    );
    expect(message({}, { quotedFor: '2026-05-11T12:00:00.000Z' }).body).toContain('The floor needs more time.');
    expect(message({}, { poured: false }).body).toContain('The pour is now planned for Monday, May 11. The new date is');
  });

  it('takes the first lift for the pour, whenever the last one is placed', () => {
    const sample = wholeOf('26-024');
    const [pour] = sample.pours;
    const jobRoom = sample.job.rooms.find(({ roomId }) => roomId === pour?.roomIds[0]);
    const quote = standingQuote(sample);
    if (pour === undefined || jobRoom === undefined || quote === null) throw new Error('Job 26-024 has a quote and a pour.');
    const { roomId } = jobRoom;
    const poursOn = (...days: readonly string[]) =>
      days.map((day, i) => ({
        ...{ ...pour, id: `lift-${i + 1}`, roomIds: [roomId], lift: i + 1, asPoured: barePlan([roomId], i + 1, 2) },
        ...{ startedAt: `${day}T14:00:00.000Z`, finishedAt: `${day}T16:00:00.000Z` },
      }));
    const said = (quotedOn: string, pourOn: string, ...days: readonly string[]): string => {
      const pourAt = `${pourOn}T14:00:00.000Z`;
      const pours = poursOn(...days);
      const quotedRooms = quote.frozen.job.rooms.map((r) => (r.roomId === roomId ? { ...r, pourAt: `${quotedOn}T12:00:00.000Z` } : r));
      const quotes = [{ ...quote, frozen: { ...quote.frozen, job: { ...quote.frozen.job, rooms: quotedRooms } } }];
      const placedAt = pours.at(-1)?.finishedAt ?? '2026-05-12T16:00:00.000Z';
      return message(
        {},
        pourTimes({ ...sample, quotes, pours, pourEvents: [] }, { jobRoom: { ...jobRoom, pourAt }, schedule: { placedAt } }),
      ).body;
    };
    // Two lifts, planned a day apart or placed as planned.
    expect(said('2026-05-11', '2026-05-11')).toContain('The pour is now planned for Monday, May 11.');
    expect(said('2026-05-11', '2026-05-11', '2026-05-11', '2026-05-12')).toContain('The floor needs more time.');
    expect(said('2026-05-08', '2026-05-08', '2026-05-11', '2026-05-12')).toContain('We poured on Monday, May 11, later than planned.');
  });
});
