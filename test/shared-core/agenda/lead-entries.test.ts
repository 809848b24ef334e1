import { describe, expect, it } from 'vitest';
import { agenda, isLate } from '../../../shared-core/agenda/agenda.ts';
import { whatBecameOfLead } from '../../../shared-core/agenda/became.ts';
import { calendarFeed } from '../../../shared-core/agenda/calendar-feed.ts';
import { conflicts } from '../../../shared-core/agenda/conflicts.ts';
import { dayList } from '../../../shared-core/agenda/day-list.ts';
import type { LeadRows } from '../../../shared-core/agenda/lead-entries.ts';
import { leadList } from '../../../shared-core/agenda/lead-list.ts';
import { remindersOf } from '../../../shared-core/agenda/reminders.ts';
import { summarySentence, todayList } from '../../../shared-core/agenda/today.ts';
import type { Lead } from '../../../shared-core/book/lead.ts';
import { newCustomer, newLead, newProperty } from '../../../shared-core/book/new-records.ts';
import { BUSINESS, bundle } from './bundle-fixture.ts';

/** Tuesday, May 12, 7:05 am in New York. */
const NOW = '2026-05-12T11:05:00.000Z';
const birth = (id: string) => ({ id, now: NOW });
const MINA = newCustomer(birth('customer-mina'), 'Mina Cole');
const HOUSE = newProperty(
  birth('prop-mina'),
  MINA.id,
  { line: '4 Tern Road', city: 'Tarrow Falls', region: 'NY', zip: '', country: 'US' },
  'America/New_York',
);

const rowsOf = (next: Lead['next'], over: Partial<Lead> = {}): LeadRows => ({
  leads: [{ ...newLead(birth('lead-mina'), MINA.id), propertyId: HOUSE.id, next, ...over }],
  customers: [MINA],
  properties: [HOUSE],
});
const VISIT = rowsOf({ step: 'visit', day: '2026-05-12', clock: '09:00' });
const POUR = bundle({ id: 'a', rooms: [{ roomId: 'room-a', name: 'Hall', pourAt: '2026-05-12T13:00:00.000Z' }] });
const read = (leads: LeadRows, ...bundles: (typeof POUR)[]) => agenda(bundles, BUSINESS, null, leads);

describe('the next step of a lead', () => {
  it('is listed by day, rings and is in the calendar file, and opens its customer', () => {
    const whole = read(VISIT);
    const lines = dayList(whole, NOW, 42, 10).groups.flatMap(({ called, lines: all }) =>
      all.map(({ entry, time }) => `${called}: ${time} ${entry.verb} ${entry.rest}`),
    );
    expect(lines).toEqual(['Today, Tuesday, May 12: 9 am Visit Mina Cole, 4 Tern Road.']);
    // An hour before.
    expect(remindersOf(whole).map(({ instant }) => instant)).toEqual(['2026-05-12T12:00:00.000Z']);
    expect(calendarFeed(whole.entries, [], () => null, NOW).events).toMatchObject([
      {
        summary: 'Mina Cole: visit',
        location: '4 Tern Road, Tarrow Falls',
        ...{ startAt: '2026-05-12T13:00:00.000Z', endAt: '2026-05-12T14:00:00.000Z', day: null },
        ...{ status: 'CONFIRMED', busy: true, alarmsMin: [60] },
      },
    ]);
    expect(whole.entries[0]?.customerId).toBe(MINA.id);
  });

  it('conflicts with other work at the same time', () => {
    const sentences = conflicts(read(VISIT, POUR), NOW, '2026-06-12T11:00:00.000Z').map(({ sentence }) => sentence);
    expect(sentences).toEqual([
      'The visit at 4 Tern Road, Tarrow Falls starts Tue, May 12, 9 am. The pour at 8 Cooper’s Wharf, Tarrow Falls ends at 1:35 pm.',
    ]);
  });

  it('names the customer in a conflict where no address is known, which is no place that two share', () => {
    const joss = newCustomer(birth('customer-joss'), 'Joss Kemp');
    const lead = (id: string, customerId: string, clock: string): Lead => ({
      ...newLead(birth(id), customerId),
      next: { step: 'visit', day: '2026-05-12', clock },
    });
    const leads = [lead('lead-mina', MINA.id, '09:00'), lead('lead-joss', joss.id, '09:30'), lead('lead-late', joss.id, '18:30')];
    const whole = read({ leads, customers: [MINA, joss], properties: [] });
    expect(conflicts(whole, NOW, '2026-06-12T11:00:00.000Z').map(({ sentence }) => sentence)).toEqual([
      'The visit for Joss Kemp starts Tue, May 12, 9:30 am. The visit for Mina Cole ends at 10 am.',
      'The visit for Joss Kemp starts after working hours: Tue, May 12, 6:30 pm.',
    ]);
    // Nobody entered how long a first visit is, so none ends too late.
    const evening = read({ leads: [lead('lead-joss', joss.id, '17:30')], customers: [joss], properties: [] });
    expect(conflicts(evening, NOW, '2026-06-12T11:00:00.000Z')).toEqual([]);
    // Poured from 10:30 am, in a place as unknown as that of the visit.
    const nowhere = bundle({ id: 'a', line: '', rooms: [{ roomId: 'room-a', name: 'Hall', pourAt: '2026-05-12T14:30:00.000Z' }] });
    const bare = { ...nowhere, property: { ...nowhere.property, address: { ...nowhere.property.address, city: '' } } };
    const early = { leads: leads.slice(0, 1), customers: [MINA], properties: [] };
    expect(conflicts(read(early, bare), NOW, '2026-06-12T11:00:00.000Z').map(({ sentence }) => sentence)).toEqual([
      'Arrive by Tue, May 12, 9:35 am for the pour for the Lindqvists. The visit for Mina Cole ends at 10 am.',
    ]);
  });

  it('is due until its day is over, and late from then on, with an hour or without', () => {
    const lateAt = (next: NonNullable<Lead['next']>, now: string) => {
      const rows = rowsOf(next);
      const list = leadList({ ...rows, timeZone: BUSINESS.timeZone, locale: BUSINESS.locale, now });
      return [list.some(({ late }) => late), read(rows).entries.some((entry) => isLate(entry, now))];
    };
    const day = '2026-05-12';
    // 9:01 am, 10:01 am, and a minute past midnight in New York.
    const [begun, over, nextDay] = ['2026-05-12T13:01:00.000Z', '2026-05-12T14:01:00.000Z', '2026-05-13T04:01:00.000Z'] as const;
    const lateFrom = (next: NonNullable<Lead['next']>) => [begun, over, nextDay].map((now) => lateAt(next, now));
    const [no, yes] = [
      [false, false],
      [true, true],
    ];
    expect(lateFrom({ step: 'visit', day, clock: '09:00' })).toEqual([no, no, yes]);
    expect(lateFrom({ step: 'call-back', day, clock: '09:00' })).toEqual([no, no, yes]);
    expect(lateFrom({ step: 'visit', day, clock: null })).toEqual([no, no, yes]);
  });

  it('of a lead with its quote decided is over with its day, and asks for nothing', () => {
    const nextDay = '2026-05-13T04:01:00.000Z';
    const shown = (state: Lead['state'], now: string) => {
      const rows = rowsOf({ step: 'visit', day: '2026-05-12', clock: '09:00' }, { jobId: 'job-a', state });
      const leads = leadList({ ...rows, timeZone: BUSINESS.timeZone, locale: BUSINESS.locale, now }).map(({ late }) => late);
      return [leads, read(rows).entries.some((entry) => isLate(entry, now))];
    };
    expect(shown('open', nextDay)).toEqual([[true], true]);
    for (const state of ['won', 'lost'] as const) {
      expect(shown(state, NOW)).toEqual([[false], false]);
      expect(shown(state, nextDay)).toEqual([[], false]);
    }
  });

  it('that is a call or has no hour takes no time on site, and rings at its hour or with the working hours', () => {
    const of = (next: NonNullable<Lead['next']>) => {
      const whole = read(rowsOf(next));
      const [event] = calendarFeed(whole.entries, [], () => null, NOW).events;
      return [event?.summary, event?.day?.from, event?.busy, remindersOf(whole)[0]?.instant];
    };
    const day = '2026-05-13';
    expect(of({ step: 'call-back', day, clock: '16:00' })).toEqual(['Mina Cole: call back 4 pm', day, false, '2026-05-13T20:00:00.000Z']);
    expect(of({ step: 'visit', day, clock: null })).toEqual(['Mina Cole: visit', day, false, '2026-05-13T11:00:00.000Z']);
    expect(of({ step: 'quote-by', day, clock: null })).toEqual(['Mina Cole: quote', day, false, '2026-05-13T11:00:00.000Z']);
  });

  it('is on Today once: in the list of leads and its count', () => {
    const later = '2026-05-13T12:00:00.000Z';
    const whole = read(VISIT);
    const list = leadList({ ...VISIT, timeZone: BUSINESS.timeZone, locale: BUSINESS.locale, now: later });
    expect(todayList(whole, later)).toEqual([]);
    expect(list.map(({ verb, rest, when }) => `${verb} ${rest} [${when}]`)).toEqual(['Visit Mina Cole, 4 Tern Road. [late, due Tuesday]']);
    expect(summarySentence(whole, list, later)).toBe('1 item is late.');
  });

  it('has no date without a day, once the lead is deleted, or for an archived customer', () => {
    const { next = null } = VISIT.leads[0] ?? {};
    expect(read(rowsOf(null)).entries).toEqual([]);
    expect(read(rowsOf(next, { deletedAt: NOW })).entries).toEqual([]);
    expect(read({ ...VISIT, customers: [{ ...MINA, deletedAt: NOW }] }).entries).toEqual([]);
  });

  it('is listed while the lead has one, and without one while the lead is open and has no job', () => {
    const { next = null } = VISIT.leads[0] ?? {};
    const listed = (was: Lead['next'], over: Partial<Lead>) =>
      leadList({ ...rowsOf(was, over), timeZone: BUSINESS.timeZone, locale: BUSINESS.locale, now: NOW }).map(({ verb }) => verb);
    expect([listed(next, { state: 'won', jobId: 'a' }), listed(next, { state: 'lost' })]).toEqual([['Visit'], ['Visit']]);
    expect([listed(null, {}), listed(null, { jobId: 'a' }), listed(null, { state: 'lost' })]).toEqual([['Plan'], [], []]);
  });

  it('is read again only when the leads change, and stays when a job does', () => {
    const before = read(VISIT, POUR);
    const moved = agenda([{ ...POUR }], BUSINESS, before);
    expect(moved.entries.map(({ key }) => key)).toEqual(before.entries.map(({ key }) => key));
    expect(moved.leads).toBe(before.leads);
    const closed = agenda([POUR], BUSINESS, before, rowsOf(null));
    expect(closed.entries).toEqual(read(rowsOf(null), POUR).entries);
  });

  it('stays in the calendar file once it has passed, and is canceled where it was dropped before', () => {
    const sent = calendarFeed(read(VISIT).entries, [], () => null, NOW).records;
    const without = (now: string) =>
      calendarFeed([], sent, (asked) => whatBecameOfLead(asked, now), now).events.map(({ status }) => status);
    expect(without(NOW)).toEqual(['CANCELLED']);
    expect(without('2026-05-12T15:00:00.000Z')).toEqual(['CONFIRMED']);
    expect(whatBecameOfLead({ key: 'job-a:visit:visi0001', startAt: NOW }, NOW)).toBeNull();
  });
});
