import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { offeredVisits, templateAt, VISIT_TEMPLATES } from '../../../shared-core/agenda/visit-entries.ts';
import { BUSINESS, bundle, pour, quote, visit } from './bundle-fixture.ts';

describe('return visits', () => {
  it('say what is done at each, and where', () => {
    const of = (kind: Parameters<typeof visit>[1], rooms = ['room-a']) => {
      const at = '2026-05-12T15:00:00.000Z';
      const job = bundle({ id: 'a', rooms: [{ roomId: 'room-a', name: 'Hall' }], visits: [visit('visi0001', kind, at, rooms)] });
      const accepted = { ...job, quotes: [quote(job, 'accepted', '2026-05-01')] };
      return agenda([accepted], BUSINESS, null).entries.find((entry) => entry.kind === 'visit');
    };
    const words = (kind: Parameters<typeof visit>[1]) => {
      const entry = of(kind);
      return `${entry?.verb} ${entry?.rest}`.replace('the Lindqvists’ hall', 'it');
    };
    expect(words('prep')).toBe('Prep it.');
    expect(words('before-flooring')).toBe('Test it before the flooring.');
    expect(words('defects-end')).toBe('Inspect it before the warranty ends.');
    expect(words('callback')).toBe('Callback: it. A loose edge.');
    expect(words('own')).toMatch(/^Visit it\. .+\.$/);
    expect((['prep', 'before-flooring', 'day-after'] as const).map((kind) => of(kind)?.opens.stage)).toEqual(['prep', 'cure', 'cure']);
    expect(of('prep', [])?.rest).toBe('the Lindqvists.');
  });
});

describe('a visit after the pour', () => {
  /** On Tuesday, May 12, 11 am in New York. */
  const wordsOf = (kind: 'day-after' | 'thirty-days' | 'callback', over: Parameters<typeof bundle>[0]) => {
    const visits = [{ ...visit('visi0001', kind, '2026-05-12T15:00:00.000Z', ['room-a']), title: 'hollow spot by the door.' }];
    const job = bundle({ rooms: [{ roomId: 'room-a', name: 'Den' }], visits, ...over });
    const entry = agenda([job], BUSINESS, null).entries.find(({ kind: of }) => of === 'visit');
    return [entry?.verb, entry?.rest, entry?.note ?? ''].join(' ').trim();
  };
  const pouredOn = (day: string) => ({ id: 'a', pours: [pour('pour0001', ['room-a'], `${day}T13:00:00.000Z`, `${day}T16:00:00.000Z`)] });

  it('counts the days from the pour to its own date', () => {
    expect(wordsOf('day-after', pouredOn('2026-05-11'))).toBe('Inspect the Lindqvists’ den the day after the pour.');
    // Poured on Friday.
    expect(wordsOf('day-after', pouredOn('2026-05-08'))).toBe('Inspect the Lindqvists’ den 4 days after the pour.');
    expect(wordsOf('thirty-days', pouredOn('2026-04-12'))).toBe('Revisit the Lindqvists’ den 30 days after the pour.');
    const planned = { roomId: 'room-a', name: 'Den', pourAt: '2026-05-11T13:00:00.000Z' };
    // A planned pour may not happen on its day.
    const waiting = 'Inspect the Lindqvists’ den after the pour. The floor is not poured yet.';
    expect(wordsOf('day-after', { id: 'a', rooms: [planned] })).toBe(waiting);
    expect(wordsOf('day-after', { id: 'a' })).toBe(waiting);
  });

  it('begins a reason with a capital and ends it with one period', () => {
    expect(wordsOf('callback', { id: 'a' })).toBe('Callback: the Lindqvists’ den. Hollow spot by the door.');
  });
});

describe('return visits from templates', () => {
  const anchors = { pouredAt: '2026-03-07T21:00:00.000Z', testOn: null, failedAt: null, warrantyEnds: '2028-03-14' };
  const timeOf = (kind: string) => {
    const template = VISIT_TEMPLATES.find((t) => t.kind === kind);
    return template === undefined
      ? null
      : templateAt(template, anchors, {
          clock: '09:00',
          timeZone: 'America/New_York',
          week: { days: [1, 2, 3, 4, 5, 6, 7], country: 'US' },
        });
  };

  it('keep their local time over the change to summer time', () => {
    expect(timeOf('day-after')).toBe('2026-03-08T13:00:00.000Z');
  });

  it('count over a leap day, and wait for unknown dates', () => {
    expect(timeOf('defects-end')).toBe('2028-02-29T14:00:00.000Z');
    expect(timeOf('before-flooring')).toBeNull();
  });

  it('are offered until their day is over, where they are still needed and not planned', () => {
    const place = { clock: '09:00', timeZone: 'America/New_York', week: { days: [1, 2, 3, 4, 5], country: 'US' } } as const;
    const all = { pouredAt: '2026-03-09T21:00:00.000Z', testOn: '2026-03-30', failedAt: null, warrantyEnds: '2027-03-12' };
    const offered = (
      now: string,
      planned: Parameters<typeof offeredVisits>[1]['planned'] = [],
      anchors = all as Parameters<typeof offeredVisits>[0],
    ) => offeredVisits(anchors, { now, planned }, place);
    const kinds = (...of: Parameters<typeof offered>) => offered(...of).map(({ template }) => template.kind);
    // The day after is Tuesday, March 10; it is offered all that day in New York.
    expect(kinds('2026-03-11T03:30:00.000Z')).toEqual(['day-after', 'before-flooring', 'thirty-days', 'defects-end']);
    expect(kinds('2026-03-11T04:30:00.000Z')).toEqual(['before-flooring', 'thirty-days', 'defects-end']);
    // Where no test is required, or it is passed.
    expect(kinds('2026-03-20T15:00:00.000Z', [], { ...all, testOn: null })).toEqual(['thirty-days', 'defects-end']);
    // On the day the test is started: 9 am in New York.
    expect(offered('2026-03-20T15:00:00.000Z')[0]?.instant).toBe('2026-03-30T13:00:00.000Z');
    const at = (kind: Parameters<typeof visit>[1], instant: string, doneAt: string | null = null) => ({
      ...visit('visi0001', kind, instant, ['room-a']),
      doneAt,
    });
    const thirty = at('thirty-days', '2026-04-08T13:00:00.000Z');
    expect(kinds('2026-03-20T15:00:00.000Z', [thirty])).toEqual(['before-flooring', 'defects-end']);
    // Visits for a part poured on March 5: the pour of March 9 needs its own, whether they are done or still open.
    const [open, done] = [null, '2026-03-06T15:00:00.000Z'].map((doneAt) => at('day-after', '2026-03-06T14:00:00.000Z', doneAt));
    for (const earlier of [open, done])
      expect(kinds('2026-03-09T22:00:00.000Z', earlier === undefined ? [] : [earlier])).toContain('day-after');
    // One done late, after both pours, is for both.
    const late = at('day-after', '2026-03-06T14:00:00.000Z', '2026-03-10T12:00:00.000Z');
    expect(kinds('2026-03-10T13:00:00.000Z', [late])).not.toContain('day-after');
    // A test that failed on Monday, March 30, is followed by another, whether the visit for it was done then or is not marked done.
    const failed = { ...all, testOn: '2026-03-31', failedAt: '2026-03-30T15:00:00.000Z' };
    const visitOn = (day: string, doneAt: string | null) => at('before-flooring', `2026-03-${day}T13:00:00.000Z`, doneAt);
    const again = (visit: ReturnType<typeof at>) => kinds('2026-03-30T20:00:00.000Z', [visit], failed).includes('before-flooring');
    expect(again(visitOn('30', '2026-03-30T19:00:00.000Z'))).toBe(true);
    expect(again(visitOn('30', '2026-03-31T12:00:00.000Z'))).toBe(true);
    expect(again(visitOn('31', '2026-03-30T19:00:00.000Z'))).toBe(true);
    expect(again(visitOn('30', null))).toBe(true);
    expect(again(visitOn('31', null))).toBe(false);
    expect(kinds('2026-12-20T15:00:00.000Z')).toEqual(['defects-end']);
    expect(kinds('2027-12-20T15:00:00.000Z')).toEqual([]);
  });
});
