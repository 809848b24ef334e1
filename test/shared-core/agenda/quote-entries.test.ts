import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { whatBecame } from '../../../shared-core/agenda/became.ts';
import { calendarFeed } from '../../../shared-core/agenda/calendar-feed.ts';
import { dayList } from '../../../shared-core/agenda/day-list.ts';
import { remindersOf } from '../../../shared-core/agenda/reminders.ts';
import { summarySentence, todayList } from '../../../shared-core/agenda/today.ts';
import type { Quote } from '../../../shared-core/book/quote.ts';
import type { JobBundle } from '../../../shared-core/standing/job-bundle.ts';
import { BUSINESS, bundle, quote } from './bundle-fixture.ts';

/** Thursday, May 14, 11 pm and Friday, 9 am in New York. */
const [LAST_DAY, AFTER] = ['2026-05-15T03:00:00.000Z', '2026-05-15T13:00:00.000Z'];

/** Issued on May 1. */
function quoted(state: Quote['state'], quotePromisedOn: string | null = null): JobBundle {
  const job = bundle({ id: 'a', customer: 'Joss Kemp', job: { quotePromisedOn } });
  return { ...job, quotes: [quote(job, state, '2026-05-14')] };
}
const read = (of: JobBundle) => agenda([of], BUSINESS, null);
const lines = (of: JobBundle, now: string) => todayList(read(of), now).map(({ entry, when }) => `${entry.verb} ${entry.rest} [${when}]`);
const listed = (of: JobBundle, now: string) =>
  dayList(read(of), now, 60, 100).groups.flatMap(({ called, lines: all }) => all.map(({ entry }) => `${called}: ${entry.kind}`));

describe('a quote without a decision', () => {
  it('is called about on its last day, and expires after it, whether or not that is recorded', () => {
    expect(lines(quoted('issued'), LAST_DAY)).toEqual(['Call Joss Kemp. The quote expires at the end of the day. [today]']);
    expect(lines(quoted('issued'), AFTER)).toEqual([
      'Issue a revision for Joss Kemp, or record the quote as expired. The quote expired after May 14. [today]',
    ]);
    expect(lines(quoted('expired'), AFTER)).toEqual([
      'Issue a revision for Joss Kemp, or archive the job. The quote expired after May 14. [today]',
    ]);
    expect(listed(quoted('issued'), AFTER)).toEqual(['Today, Friday, May 15: quote-expired']);
    for (const state of ['accepted', 'declined'] as const) expect(lines(quoted(state), AFTER).join()).not.toContain('expired');
  });

  it('is with the customer until then, and one late item where its follow-up has no line of its own', () => {
    expect(summarySentence(read(quoted('issued')), [], LAST_DAY)).toBe('1 item is due today. 1 quote is with a customer.');
    // What has no date waits, and is not due today.
    expect(summarySentence(read(quoted('issued')), [], AFTER)).toBe('Nothing is due today.');
    // Followed up on May 4, a week and more before it expires, the line is its own.
    expect(summarySentence(read(quoted('issued')), [], '2026-05-06T13:00:00.000Z')).toBe('1 quote is with a customer. 1 item is late.');
    expect(listed(quoted('issued'), LAST_DAY)).toEqual(['Today, Thursday, May 14: quote-expires']);
  });

  it('has no reminder and no calendar date once it expired, and leaves those it had', () => {
    const of = quoted('issued');
    const { entries } = read(of);
    expect(remindersOf(read(of)).some(({ entry }) => entry.kind === 'quote-expired')).toBe(false);
    const sent = calendarFeed(entries, [], () => null, LAST_DAY).records;
    const { events } = calendarFeed(entries, sent, (asked) => whatBecame(of, BUSINESS, asked, AFTER), AFTER);
    expect(events.map(({ uid, status, alarmsMin }) => [uid.split(':')[1], status, alarmsMin])).toEqual([
      ['quote-waits', 'CONFIRMED', []],
      ['quote-expires', 'CONFIRMED', []],
    ]);
  });
});

describe('the day a quote is due', () => {
  const kinds = (of: JobBundle) => read(of).entries.map(({ kind }) => kind);

  it('does not come back after the revision that met it has expired', () => {
    expect(kinds(quoted('expired', '2026-05-02'))).toEqual(['quote-expired']);
  });

  it('asks for the next revision where it is after the last one expired', () => {
    expect(kinds(quoted('expired', '2026-05-20'))).toEqual(['finish-quote']);
    expect(kinds(bundle({ id: 'a', job: { quotePromisedOn: '2026-05-20' } }))).toEqual(['finish-quote']);
  });
});
