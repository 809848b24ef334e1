import { describe, expect, it } from 'vitest';
import { promiseMessage } from '../../../shared-core/agenda/promise-message.ts';
import { cureSchedule } from '../../../shared-core/cure/cure-schedule.ts';
import { INPUT } from '../cure/sheet-fixture.ts';
import { promised } from './bundle-fixture.ts';

function message(assumedTempC: number) {
  const schedule = cureSchedule({ ...INPUT, assumedTempC, promises: [promised('prom0001', 'room-a', '2026-05-20T16:00:00.000Z')] });
  const [verdict, milestone] = [schedule.gravest, schedule.cover];
  if (verdict === null || milestone === null) throw new Error('nothing was promised');
  const people = { customerName: 'Ida and Per Lindqvist', roomName: 'family room', ownerName: 'R. Teague' };
  return promiseMessage({ verdict, milestone, ...people, place: INPUT.place, locale: 'en-US' });
}

describe('the message about a promise that moved', () => {
  it('names the promised date, the one now expected, and the test to come', () => {
    const { subject, body } = message(20);
    expect(subject).toBe('Family room: new date for glued wood');
    expect(body).toContain('On Friday, May 1 I told you Wednesday, May 20 for glued wood');
    // The latest date is May 26 or later; the stated day is a working day.
    expect(body).toMatch(/The new date is (Mon|Tues|Wednes|Thurs|Fri)day, /);
    expect(body).toContain('I will test the floor');
  });

  it('gives no date while the room is too cold or too damp', () => {
    expect(message(2).body).toContain('too cold or too damp for the floor to dry');
    expect(message(2).body).not.toContain('The new date is');
  });
});
