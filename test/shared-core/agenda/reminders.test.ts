import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import type { JobBundle } from '../../../shared-core/standing/job-bundle.ts';
import { reminderNotice, remindersDue, remindersOf } from '../../../shared-core/agenda/reminders.ts';
import { BUSINESS, bundle, pour, promised, quote, summary, visit } from './bundle-fixture.ts';

const NOW = '2026-05-12T11:05:00.000Z'; // 7:05 am in New York.
const LONG_AGO = '2026-01-01T00:00:00.000Z';
const read = (...bundles: JobBundle[]) => remindersOf(agenda(bundles, BUSINESS, null));
const due = (bundles: JobBundle[], now: string, shown: readonly string[] = [], since = LONG_AGO) =>
  remindersDue(read(...bundles), since, now, new Set(shown));
const pouring = (pourAt: string): JobBundle => bundle({ id: 'a', rooms: [{ roomId: 'room-a', name: 'Hall', pourAt }] });
const kinds = (of: readonly { readonly entry: { readonly kind: string } }[]) => of.map(({ entry }) => entry.kind);

describe('reminders', () => {
  it('come twelve hours and one hour before a pour, each once', () => {
    const of = [pouring('2026-05-12T22:00:00.000Z')];
    const first = due(of, NOW).filter(({ entry }) => entry.kind === 'pour');
    expect(first.map(({ instant }) => instant)).toEqual(['2026-05-12T10:00:00.000Z']);
    const shown = first.map(({ key }) => key);
    expect(kinds(due(of, NOW, shown))).not.toContain('pour');
    expect(due(of, '2026-05-12T21:00:00.000Z', shown).map(({ instant }) => instant)).toContain('2026-05-12T21:00:00.000Z');
  });

  it('come again when the pour is moved, and not for what came due before they were turned on', () => {
    const shown = due([pouring('2026-05-12T22:00:00.000Z')], NOW).map(({ key }) => key);
    expect(kinds(due([pouring('2026-05-12T23:00:00.000Z')], '2026-05-12T11:30:00.000Z', shown))).toContain('pour');
    expect(kinds(due([pouring('2026-05-12T22:00:00.000Z')], NOW, [], '2026-05-12T10:30:00.000Z'))).not.toContain('pour');
  });

  it('of a primer limit come hours before it, the evening before one in the early morning, and not while a pour is planned in time', () => {
    const primed = (primedAt: string, pourAt: string | null = null) =>
      read(bundle({ id: 'a', rooms: [{ roomId: 'room-a', name: 'Hall', primedAt, pourAt }] })).flatMap(({ entry, instant }) =>
        entry.kind === 'primer-window' ? [instant] : [],
      );
    // The sheet of the fixture gives 24 hours: limits at 3 pm and at 7 am in New York.
    expect(primed('2026-05-12T19:00:00.000Z')).toEqual(['2026-05-13T15:00:00.000Z']);
    expect(primed('2026-05-12T11:00:00.000Z')).toEqual(['2026-05-13T00:00:00.000Z']);
    expect(primed('2026-05-12T19:00:00.000Z', '2026-05-13T14:00:00.000Z')).toEqual([]);
  });

  it('do not come for a pour that runs, whenever it was started', () => {
    const planned = pouring('2026-05-12T22:00:00.000Z');
    const running = { ...planned, pours: [pour('pour-a', ['room-a'], '2026-05-12T10:55:00.000Z', null)] };
    expect(kinds(agenda([running], BUSINESS, null).entries.map((entry) => ({ entry })))).toContain('pour');
    for (const now of [NOW, '2026-05-12T21:30:00.000Z']) {
      expect(kinds(due([planned], now))).toContain('pour');
      expect(kinds(due([running], now))).not.toContain('pour');
    }
  });

  it('for a whole day come when work begins, in the property’s time zone', () => {
    const open = bundle({
      id: 'c',
      rooms: [{ roomId: 'room-c', name: 'Hall' }],
      job: { quotePromisedOn: '2026-05-12' },
    });
    const west = { ...open, property: { ...open.property, timeZone: 'America/Los_Angeles' } };
    const finishQuoteAt = (b: JobBundle) => read(b).find(({ entry }) => entry.kind === 'finish-quote')?.instant;
    expect([finishQuoteAt(open), finishQuoteAt(west)]).toEqual(['2026-05-12T11:00:00.000Z', '2026-05-12T14:00:00.000Z']);
  });

  it('of a promise that will be late come at once, however far off its day is', () => {
    const hall = 'room-d';
    const base = bundle({
      id: 'd',
      rooms: [{ roomId: hall, name: 'Hall' }],
      pours: [pour('pour-d', [hall], '2026-05-11T13:00:00.000Z', '2026-05-11T16:00:00.000Z')],
      promises: [promised('prom-d', hall, '2026-05-11T17:00:00.000Z')],
      summaries: [summary(hall)],
    });
    const accepted = { ...base, quotes: [quote(base, 'accepted', '2026-05-01')] };
    const [broken] = due([accepted], '2026-05-11T16:05:00.000Z').filter(({ entry }) => entry.kind === 'promise');
    if (broken === undefined) throw new Error('The broken promise is not said.');
    expect(due([accepted], '2026-05-11T16:05:00.000Z', [broken.key]).map(({ key }) => key)).not.toContain(broken.key);
    expect(reminderNotice([broken], false, '2026-05-11T16:05:00.000Z', 'en-US').body).toContain('Promised today');
  });

  it('are one notification: the entry with its day, hour and place, or a count with the first few', () => {
    const one = due([pouring('2026-05-12T22:00:00.000Z')], NOW).filter(({ entry }) => entry.kind === 'pour');
    const notice = reminderNotice(one, false, NOW, 'en-US');
    expect(notice.title).toBe('Pour the Lindqvists’ hall, 6 pm to 10:35 pm');
    expect(notice.body).toMatch(/^Today\. /);
    const many = ['b', 'c', 'd', 'e', 'f'].flatMap((id) =>
      due([bundle({ id, visits: [visit(`v-${id}`, 'own', '2026-05-12T12:00:00.000Z', [])] })], NOW),
    );
    const all = reminderNotice(many, true, NOW, 'en-US');
    expect(all.title).toBe('5 reminders came due while Straightedge was closed');
    expect(all.body.split('\n')).toHaveLength(5);
    expect(all.body).toContain('1 more on Today');
    expect(all.body.length).toBeLessThanOrEqual(400);
  });
});
