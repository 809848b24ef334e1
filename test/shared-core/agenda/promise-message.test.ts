import { describe, expect, it } from 'vitest';
import { type PourTimes, promiseMessage } from '../../../shared-core/agenda/promise-message.ts';
import type { CureInput } from '../../../shared-core/cure/cure-input.ts';
import { cureSchedule } from '../../../shared-core/cure/cure-schedule.ts';
import { INPUT } from '../cure/sheet-fixture.ts';
import { promised } from './bundle-fixture.ts';

const POUR: PourTimes = { at: INPUT.placedAt, poured: true, quotedFor: null };

function message(over: Partial<CureInput>, pour: Partial<PourTimes> = {}, promisedFor = '2026-05-20T16:00:00.000Z') {
  const [verdict] = cureSchedule({ ...INPUT, ...over, promises: [promised('prom0001', 'room-a', promisedFor)] }).verdicts;
  if (verdict === undefined) throw new Error('nothing was promised');
  const people = { customerName: 'Ida and Per Lindqvist', roomName: 'family room', ownerName: 'R. Teague' };
  return promiseMessage({ verdict, pour: { ...POUR, ...pour }, ...people, place: INPUT.place, locale: 'en-US' });
}

describe('the message about a promise that moved', () => {
  it('names the promised date, the one now expected, and the test to come', () => {
    const { subject, body } = message({});
    expect(subject).toBe('Family room: new date for glued wood');
    expect(body).toContain('On Friday, May 1 I told you Wednesday, May 20 for glued wood');
    // The latest date is May 26 or later; the stated day is a working day.
    expect(body).toMatch(/The new date is (Mon|Tues|Wednes|Thurs|Fri)day, /);
    // The flooring installer tests, as the quote says.
    expect(body).toContain('Flooring goes down only after the floor passes its moisture test.');
    expect(body).not.toContain('I will test');
  });

  it('gives no date while the room is too cold or too damp', () => {
    expect(message({ assumedTempC: 2 }).body).toContain('too cold or too damp for the floor to dry');
    expect(message({ assumedTempC: 2 }).body).not.toContain('The new date is');
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
});
