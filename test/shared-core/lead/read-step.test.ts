/** The next step of a call and its day. Today is Tuesday, May 12, 2026, 11 am, as in the calendar of `Date`. */
import { describe, expect, it } from 'vitest';
import { leadRecords } from '../../../shared-core/lead/lead-records.ts';
import { readLeadLine } from '../../../shared-core/lead/read-line.ts';
import { OF, read, US } from './a-call.ts';

describe('the next step of a call', () => {
  // How the age of a house and lengths of time are talked about: common practice, no source.
  it.each([
    'townhouse built in the 50s',
    'built in the 1950s',
    'built in the ’50s',
    '60s ranch',
    'mid-60’s ranch',
    'late 50s townhouse',
    'house from the 70s',
    'took 30 seconds to soak in',
    'dry after 3h',
    'ceiling 3m',
    'wet for 2d',
    'gone for half an hour',
    'out a couple of days',
  ])('is not made of %s', (talk) => {
    expect(read(`Rosa Greene, family room 15x20, ${talk}`)).toMatchObject({ step: null, day: null, clock: null, notes: talk });
    const visit = read(`Rosa Greene, family room 15x20, ${talk}, visit fri at 9`);
    expect(visit).toMatchObject({ step: 'visit', day: '2026-05-15', clock: '09:00', notes: talk });
  });

  it.each([
    ['call in 3h', '2026-05-12', '14:00'],
    ['call in a few days', '2026-05-15', null],
    ['call in a couple of days', '2026-05-14', null],
  ])('counts %s from now', (talk, day, clock) => expect(read(`Rosa Greene, ${talk}`)).toMatchObject({ step: 'call-back', day, clock }));

  // 1 to 6 are in the afternoon: common practice, no source.
  it.each([
    ['call at 3', '2026-05-12', '15:00'],
    ['call her back at 2:30', '2026-05-12', '14:30'],
    ['visit at 4', '2026-05-12', '16:00'],
    ['at 4', '2026-05-12', '16:00'],
    ['call at 4pm', '2026-05-12', '16:00'],
    ['call at noon', '2026-05-12', '12:00'],
    ['call at 9', '2026-05-13', '09:00'],
    ['call at 10:30am', '2026-05-13', '10:30'],
    ['call tomorrow at 3', '2026-05-13', '15:00'],
    ['call tomorrow morning at 6', '2026-05-13', '06:00'],
    ['visit friday morning at 6:30', '2026-05-15', '06:30'],
    ['visit friday morning at 9', '2026-05-15', '09:00'],
    ['visit friday afternoon at 4', '2026-05-15', '16:00'],
    ['visit friday at 6 in the morning', '2026-05-15', '06:00'],
    ['visit tuesday at 4', '2026-05-12', '16:00'],
    ['visit 5/12 at 4', '2026-05-12', '16:00'],
  ])('is today while the time is ahead, and else tomorrow, in %s', (talk, day, clock) =>
    expect(read(`Rosa Greene, ${talk}`)).toMatchObject({ day, clock, notes: '' }),
  );

  // Short weekdays as they are written: common practice, no source. The days are those of `Date`.
  it.each(['sunday sun', 'monday mon', 'tuesday tues tue', 'wednesday weds wed', 'thursday thurs thur thu', 'friday fri', 'saturday sat'])(
    'is the next such day for %s, with and without an hour',
    (forms) => {
      const DAY_MS = 86_400_000;
      for (let today = 11; today <= 17; today += 1) {
        // 5 am in New York.
        const morning = { ...US, now: `2026-05-${today}T09:00:00.000Z` };
        const days = Array.from({ length: 7 }, (_, n) => new Date(Date.UTC(2026, 4, today) + n * DAY_MS));
        const [word = ''] = forms.split(' ');
        const day = days.find((one) => one.toLocaleDateString('en-US', { weekday: 'long', timeZone: 'UTC' }).toLowerCase() === word);
        const next = day?.toISOString().slice(0, 10);
        for (const form of forms.split(' '))
          for (const [said, clock] of [
            [form, null],
            [`${form} 8am`, '08:00'],
            [`${form}. at 4`, '16:00'],
            [`8:30am ${form}`, '08:30'],
          ] as const) {
            const got = readLeadLine(`Rosa Greene, call back ${said}`, morning);
            expect({ said, today, ...got }).toMatchObject({ said, today, step: 'call-back', day: next, clock, notes: '' });
          }
      }
    },
  );

  it('is tomorrow for a time of the afternoon that is over', () => {
    // 3:30 pm in New York.
    const late = { ...US, now: '2026-05-12T19:30:00.000Z' };
    expect(readLeadLine('Rosa Greene, call at 3', late)).toMatchObject({ day: '2026-05-13', clock: '15:00' });
    expect(readLeadLine('Rosa Greene, call at 4', late)).toMatchObject({ day: '2026-05-12', clock: '16:00' });
  });

  it.each([
    ['Rosa Greene 303-555-0193 entry 6x6 Thursday, May 21', 'call-back', '2026-05-21', null],
    ['Rosa Greene 303-555-0193 entry 6x6 Friday, May 22 at 9', 'visit', '2026-05-22', '09:00'],
    ['Rosa Greene 303-555-0193 entry 6x6 May 22, 2026 at 9', 'visit', '2026-05-22', '09:00'],
    ['Rosa Greene Thursday, May 21', 'call-back', '2026-05-21', null],
  ])('has the written date with its comma in %s', (line, step, day, clock) => {
    // The weekdays that the lines name are those of `Date`.
    expect([new Date('2026-05-21').getUTCDay(), new Date('2026-05-22').getUTCDay()]).toEqual([4, 5]);
    expect(read(line)).toMatchObject({ name: 'Rosa Greene', step, day, clock, notes: '' });
  });

  it.each([
    ['quote from other guy, hall 4x20, email quote by 5/20', 'quote-by', '2026-05-20', 'quote from other guy, email quote by 5/20'],
    ['has a quote already, visit 5/20', 'visit', '2026-05-20', 'has a quote already'],
    ['call me about the dog, visit friday', 'visit', '2026-05-15', 'call me about the dog'],
    ['call tomorrow, hall 4x20, visit friday 2pm', 'call-back', '2026-05-13', 'visit friday 2pm'],
    ['call back, has a dog, friday', 'call-back', '2026-05-15', 'has a dog'],
  ])('is the first one straight before a date in %s', (talk, step, day, notes) =>
    expect(read(`Rosa Greene, ${talk}`)).toMatchObject({ step, day, notes }),
  );

  it.each([
    ['visit fri the 22nd', '2026-05-22', null],
    ['visit fri. the 22nd', '2026-05-22', null],
    ['visit thursday the 21st at 4', '2026-05-21', '16:00'],
    ['visit tues 19th 4:30', '2026-05-19', '16:30'],
    ['visit the 19th at 4', '2026-05-19', '16:00'],
    ['visit at 4 on the 19th', '2026-05-19', '16:00'],
    ['visit the 19th kitchen 12x14', '2026-05-19', null],
    ['visit the 19th, kitchen 12x14', '2026-05-19', null],
    ['visit the 12th', '2026-05-12', null],
    ['visit the 11th', '2026-06-11', null],
    ['visit the 31st', '2026-05-31', null],
    ['visit fri the 5th of june', '2026-06-05', null],
    ['visit june the 3rd at 4', '2026-06-03', '16:00'],
    ['tuesday the 19th at 4', '2026-05-19', '16:00'],
    ['tuesday the 19th, visit', '2026-05-19', null],
  ])('has the next such day of the month in %s', (talk, day, clock) =>
    expect(read(`Rosa Greene, ${talk}`)).toMatchObject({ step: 'visit', day, clock, notes: '' }),
  );

  it.each([
    ['visit fri the 22nd with her son', '2026-05-22'],
    ['visit fri, the 2nd unit is wet', '2026-05-15'],
  ])('reads a day before other words in %s', (talk, day) => expect(read(`Rosa Greene, ${talk}`)).toMatchObject({ step: 'visit', day }));

  it('keeps the word that says after a day of the month', () =>
    expect(read('Rosa Greene, call after the 1st')).toMatchObject({ step: 'call-back', day: '2026-06-01', notes: 'call after the 1st' }));

  it('skips a month that has no such day', () => {
    // In June, which ends on the 30th.
    const june = { ...US, now: '2026-06-02T15:00:00.000Z' };
    expect(readLeadLine('Rosa Greene, visit the 31st', june).day).toBe('2026-07-31');
  });

  it.each(['visit fri the 23rd', 'visit fri the 23rd at 4', 'visit fri 5/23', 'visit friday, May 23 at 4'])(
    'has no day where the weekday is not that of the day: %s',
    (talk) => {
      expect(new Date('2026-05-23').getUTCDay()).toBe(6);
      const lead = read(`Rosa Greene, ${talk}`);
      expect(lead).toMatchObject({ step: 'visit', day: null, clock: null, notes: talk });
      expect(leadRecords(lead, OF).lead).toMatchObject({ next: null, notes: talk });
    },
  );

  it.each([
    'measure the 2nd bedroom',
    'measure the 2nd floor',
    'visit the 3rd unit',
    'visit, kitchen on the 2nd floor',
    'visit, flooring comes the 20th',
  ])('has no day in %s, and is for tomorrow', (talk) =>
    expect(read(`Rosa Greene, ${talk}`)).toMatchObject({ step: 'visit', day: '2026-05-13', clock: null }),
  );

  it.each(['needs it by the 20th', 'leaked fri the 8th', 'poured the 4th at 4', 'kitchen on the 2nd floor'])('is not made of %s', (talk) =>
    expect(read(`Rosa Greene, hall 4x20, ${talk}`)).toMatchObject({ step: null, day: null, clock: null }),
  );
});
