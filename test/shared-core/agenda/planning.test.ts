import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { conflicts } from '../../../shared-core/agenda/conflicts.ts';
import type { JobBundle } from '../../../shared-core/standing/job-bundle.ts';
import { movedVisits, movePour, movedWords, visitsWithout, withDates } from '../../../shared-core/agenda/move-pour.ts';
import { BUSINESS, bundle, pour, promised, summary, visit } from './bundle-fixture.ts';

const NOW = '2026-05-12T11:05:00.000Z';
const pouring = (id: string, pourAt: string, line: string, over = {}): JobBundle =>
  bundle({
    id,
    line,
    rooms: [{ roomId: `room-${id}`, name: 'Hall', pourAt, ...over }],
    summaries: [summary(`room-${id}`, { pourMinutes: 120 })],
  });
const clashWords = (...bundles: JobBundle[]) =>
  conflicts(agenda(bundles, BUSINESS, null), NOW, '2027-01-01T00:00:00.000Z').map((c) => `${c.kind}: ${c.sentence}`);

describe('conflicts', () => {
  it('are two pours at one time', () => {
    expect(
      clashWords(
        pouring('a', '2026-05-13T14:00:00.000Z', '8 Cooper’s Wharf'),
        pouring('b', '2026-05-13T15:00:00.000Z', '3 Old Orchard Court'),
      ),
    ).toEqual([
      'two-at-once: Two pours at the same time. The pour at 3 Old Orchard Court, Tarrow Falls starts Wed, May 13, 11 am. The pour at 8 Cooper’s Wharf, Tarrow Falls ends at noon.',
    ]);
  });

  it('are an arrival before the work elsewhere has ended, 55 minutes before the pour', () => {
    expect(clashWords(pouring('a', '2026-05-13T14:00:00.000Z', 'A'), pouring('b', '2026-05-13T16:30:00.000Z', 'B'))).toEqual([
      'two-at-once: Arrive by Wed, May 13, 11:35 am for the pour at B, Tarrow Falls. The pour at A, Tarrow Falls ends at noon.',
    ]);
  });

  it('are none between two pours of one property that follow each other, and name the rooms where they meet', () => {
    const second = (pourAt: string) =>
      clashWords(
        bundle({
          id: 'a',
          rooms: [
            { roomId: 'room-hall', name: 'Hall', pourAt: '2026-05-13T14:00:00.000Z' },
            { roomId: 'room-den', name: 'Den', pourAt },
          ],
          summaries: [summary('room-hall', { pourMinutes: 30 }), summary('room-den', { pourMinutes: 60 })],
        }),
      );
    expect(second('2026-05-13T14:30:00.000Z')).toEqual([]);
    expect(second('2026-05-13T14:15:00.000Z')).toEqual([
      'two-at-once: Two pours at the same time. The pour in the den starts Wed, May 13, 10:15 am. The pour in the hall ends at 10:30 am.',
    ]);
  });

  it('are none when one ends as the other begins, in any time zone', () => {
    expect(clashWords(pouring('a', '2026-05-13T14:00:00.000Z', 'A'), pouring('b', '2026-05-13T16:55:00.000Z', 'B'))).toEqual([]);
    const west = { ...pouring('b', '2026-05-13T15:00:00.000Z', 'B') };
    const moved = { ...west, property: { ...west.property, timeZone: 'America/Chicago' } };
    expect(clashWords(pouring('a', '2026-05-13T14:00:00.000Z', 'A'), moved)[0]).toContain('starts Wed, May 13, 10 am');
  });

  it('are a primer that is too old before its pour, or still wet', () => {
    const late = pouring('a', '2026-05-14T13:00:00.000Z', 'A', { primedAt: '2026-05-12T13:00:00.000Z' });
    expect(clashWords(late)).toEqual([
      'primer: The primer at A, Tarrow Falls is past its limit Wed, May 13, 9 am, before the pour, Thu, May 14, 9 am. Pour sooner, or prime again.',
    ]);
    const wet = pouring('a', '2026-05-14T13:00:00.000Z', 'A', { primedAt: '2026-05-14T12:00:00.000Z' });
    expect(clashWords(wet)[0]).toBe(
      'primer: The primer at A, Tarrow Falls is not dry at the planned pour, Thu, May 14, 9 am. It is dry at 10 am.',
    );
  });

  it('are a primer window that closes while the crew is elsewhere', () => {
    const primed = bundle({ id: 'a', line: 'A', rooms: [{ roomId: 'room-a', name: 'Hall', primedAt: '2026-05-12T15:00:00.000Z' }] });
    expect(clashWords(primed, pouring('b', '2026-05-13T14:00:00.000Z', 'B'))).toEqual([
      'primer: The primer at A, Tarrow Falls is past its limit Wed, May 13, 11 am, while the crew is at B, Tarrow Falls. No pour is planned for it.',
    ]);
    const bare = (of: JobBundle): JobBundle => ({
      ...of,
      property: { ...of.property, address: { ...of.property.address, line: '', city: '' } },
    });
    expect(clashWords(bare(primed), bare(pouring('b', '2026-05-13T14:00:00.000Z', 'B')))).toEqual([
      'primer: The primer for the Lindqvists is past its limit Wed, May 13, 11 am, while the crew is on another job. No pour is planned for it.',
    ]);
  });

  it('are a pour on a day off, too early, or past the evening', () => {
    expect(clashWords(pouring('a', '2026-05-16T14:00:00.000Z', 'A'))[0]).toContain('is on a day off: Sat, May 16');
    expect(clashWords(pouring('a', '2026-05-13T10:30:00.000Z', 'A'))[0]).toContain('starts before working hours');
    expect(clashWords(pouring('a', '2026-05-13T21:00:00.000Z', 'A'))[0]).toContain('ends after working hours, at 7 pm');
    expect(clashWords(pouring('a', '2026-05-13T11:00:00.000Z', 'A'))).toEqual([]);
  });

  it('are a pour of more than a day, which is counted in working hours and not through the night', () => {
    // 28 h from 9 am, in working hours from 7 am to 6 pm: 9 h, 11 h and 8 h.
    const long = bundle({
      ...{ id: 'a', line: 'A', rooms: [{ roomId: 'room-a', name: 'Hall', pourAt: '2026-05-13T13:00:00.000Z' }] },
      summaries: [summary('room-a', { pourMinutes: 28 * 60 })],
    });
    expect(clashWords(long)[0]).toBe(
      'outside-hours: The pour at A, Tarrow Falls does not fit into one day: it ends Fri, May 15, 3 pm. Divide the floor, or plan a bigger crew.',
    );
  });
});

describe('moving a pour', () => {
  const instant = '2026-05-13T14:00:00.000Z';
  const base = (): JobBundle =>
    bundle({
      id: 'a',
      line: 'A',
      rooms: [{ roomId: 'room-a', name: 'Hall', pourAt: instant }],
      summaries: [summary('room-a', { pourMinutes: 120 })],
      visits: [
        visit('visi0001', 'day-after', '2026-05-14T13:00:00.000Z', ['room-a']),
        visit('visi0002', 'own', '2026-05-14T13:00:00.000Z', ['room-a']),
      ],
      promises: [promised('prom0001', 'room-a', '2026-05-27T20:00:00.000Z')],
    });

  it('moves what depends on it by as many days, and nothing else', () => {
    const whole = agenda([base()], BUSINESS, null);
    const move = movePour(whole, 'job-a', ['room-a'], '2026-05-14T14:00:00.000Z', NOW);
    expect(move?.visits).toMatchObject([{ id: 'visi0001', instant: '2026-05-15T13:00:00.000Z', sequence: 1 }]);
    const kinds = move?.moved.map((m) => m.entry.kind) ?? [];
    expect(kinds).toEqual(expect.arrayContaining(['pour', 'walk-on', 'visit']));
    for (const m of move?.moved ?? []) expect(Date.parse(m.toAt) - Date.parse(m.fromAt)).toBeCloseTo(86_400_000, -2);
  });

  it('names a whole day by its own date, and an hour with its day', () => {
    const move = movePour(agenda([base()], BUSINESS, null), 'job-a', ['room-a'], '2026-05-20T14:00:00.000Z', NOW);
    // The platform's time zone arithmetic, independent of the program's.
    const dayOf = (instant: string) =>
      new Intl.DateTimeFormat('en-US', { timeZone: 'America/New_York', weekday: 'short', month: 'long', day: 'numeric' }).format(
        new Date(instant),
      );
    const words = (kind: string) => {
      const found = move?.moved.find(({ entry }) => entry.kind === kind);
      if (found === undefined) throw new Error(`The ${kind} moves with the pour.`);
      return { text: movedWords(found, 'en-US'), from: dayOf(found.fromAt), to: dayOf(found.toAt) };
    };
    const flooring = words('cover');
    expect(flooring.text).toMatch(new RegExp(` From ${flooring.from} to ${flooring.to}\\.$`));
    expect(words('pour').text).toMatch(/ From Wed, May 13, 10 am to Wed, May 20, 10 am\.$/);
  });

  it('lists new conflicts, the earliest first, and none that existed before', () => {
    const other = pouring('b', '2026-05-19T15:00:00.000Z', 'B');
    const whole = agenda([base(), other], BUSINESS, null);
    const move = movePour(whole, 'job-a', ['room-a'], '2026-05-19T14:00:00.000Z', NOW);
    expect(move?.breaks.map((b) => b.sentence.slice(0, 26))).toEqual(['Two pours at the same time', 'The date promised for the ']);
    expect(move?.breaks[1]?.sentence).toMatch(/, would be likely \d+ (day|hour)s? late\.$/);
    const moved = agenda([{ ...base(), job: withDates(base().job, move?.dates ?? {}) }, other], BUSINESS, null);
    expect(movePour(moved, 'job-a', ['room-a'], '2026-05-19T14:00:00.000Z', NOW)?.breaks).toEqual([]);
  });

  it('keeps the local time of a visit over the clock change', () => {
    const one = bundle({
      id: 'a',
      rooms: [{ roomId: 'room-a', name: 'Hall', pourAt: '2026-10-30T14:00:00.000Z' }],
      visits: [visit('visi0001', 'day-after', '2026-10-31T13:00:00.000Z', ['room-a'])],
    });
    const move = movePour(agenda([one], BUSINESS, null), 'job-a', ['room-a'], '2026-11-02T15:00:00.000Z', NOW);
    expect(move?.visits[0]?.instant).toBe('2026-11-03T14:00:00.000Z');
  });

  it('of a next lift leaves the visits to the floor that is placed, and moves nothing while the only date is that of the pour made', () => {
    const poured = (pourAt: string) => {
      const { job, ...rest } = base();
      const pours = [pour('pour0001', ['room-a'], instant, '2026-05-13T16:00:00.000Z', 1, 2)];
      return agenda([{ ...rest, job: withDates(job, { pour: { roomIds: ['room-a'], pourAt } }), pours }], BUSINESS, null);
    };
    expect(movePour(poured('2026-05-12T14:00:00.000Z'), 'job-a', ['room-a'], '2026-05-27T14:00:00.000Z', NOW)).toBeNull();
    const move = movePour(poured('2026-05-15T14:00:00.000Z'), 'job-a', ['room-a'], '2026-05-27T14:00:00.000Z', NOW);
    expect(move?.dates.pour?.pourAt).toBe('2026-05-27T14:00:00.000Z');
    expect(move?.visits).toEqual([]);
    expect(move?.moved.map((m) => m.entry.kind)).toContain('pour');
    expect(move?.moved.map((m) => m.entry.kind)).not.toContain('visit');
  });

  it('returns nothing for a job or a room without a pour', () => {
    const whole = agenda([bundle({ id: 'a' })], BUSINESS, null);
    expect(movePour(whole, 'job-a', ['room-a'], instant, NOW)).toBeNull();
    expect(movePour(whole, 'job-z', ['room-a'], instant, NOW)).toBeNull();
  });
});

describe('the agenda after a change', () => {
  const arb = fc.array(fc.record({ job: fc.nat(5), day: fc.integer({ min: 1, max: 28 }), gone: fc.boolean() }), { maxLength: 12 });
  const start = Array.from({ length: 6 }, (_, i) => pouring(`j${i}`, `2026-05-${String(10 + i)}T14:00:00.000Z`, `House ${i}`));

  it('is the same as one calculated from nothing, after any change', () => {
    fc.assert(
      fc.property(arb, (changes) => {
        let bundles: readonly JobBundle[] = start;
        let updated = agenda(bundles, BUSINESS, null);
        for (const { job, day, gone: isDropped } of changes) {
          const id = `j${job}`;
          const rest = bundles.filter((b) => b.job.id !== `job-${id}`);
          bundles = isDropped ? rest : [...rest, pouring(id, `2026-06-${String(day).padStart(2, '0')}T14:00:00.000Z`, `House ${job}`)];
          updated = agenda(bundles, BUSINESS, updated);
        }
        const fresh = agenda(bundles, BUSINESS, null);
        expect(updated.entries).toEqual(fresh.entries);
        expect(updated.jobs.map((j) => j.rows)).toEqual(fresh.jobs.map((j) => j.rows));
      }),
      { numRuns: 40 },
    );
  });

  it('reuses the result of every job that did not change', () => {
    const before = agenda(start, BUSINESS, null);
    const changed = pouring('j3', '2026-06-01T14:00:00.000Z', 'House 3');
    const after = agenda(
      start.map((b, i) => (i === 3 ? changed : b)),
      BUSINESS,
      before,
    );
    expect(after.jobs.filter((j, i) => j !== before.jobs[i])).toHaveLength(1);
  });
});

describe('visits of rooms', () => {
  // New York is four hours behind UTC in May, and takes the hours of its wall along.
  const visits = [
    visit('both', 'day-after', '2026-05-14T13:00:00.000Z', ['room-hall', 'room-den']),
    visit('hall', 'before-flooring', '2026-05-20T13:00:00.000Z', ['room-hall']),
    visit('den', 'day-after', '2026-05-14T13:00:00.000Z', ['room-den']),
    visit('own', 'own', '2026-05-14T13:00:00.000Z', ['room-hall']),
    visit('callback', 'callback', '2026-05-14T13:00:00.000Z', ['room-hall']),
    visit('none', 'day-after', '2026-05-14T13:00:00.000Z', []),
    { ...visit('done', 'day-after', '2026-05-14T13:00:00.000Z', ['room-hall']), doneAt: '2026-05-14T14:00:00.000Z' },
  ];
  const of = (pours: JobBundle['pours'] = []): JobBundle => ({
    ...bundle({
      id: 'a',
      rooms: [
        { roomId: 'room-hall', name: 'Hall' },
        { roomId: 'room-den', name: 'Den' },
      ],
    }),
    visits,
    pours,
  });
  const ids = (of: readonly { readonly id: string }[]): readonly string[] => of.map(({ id }) => id);

  it('move with the pour of any of their rooms, unless one of them is placed', () => {
    const moved = movedVisits(of(), ['room-hall'], 3, NOW);
    expect(ids(moved)).toEqual(['both', 'hall']);
    expect(moved[0]).toMatchObject({ instant: '2026-05-17T13:00:00.000Z', sequence: (visits[0]?.sequence ?? 0) + 1, changedAt: NOW });
    const placed = pour('p1', ['room-den'], '2026-05-10T13:00:00.000Z', '2026-05-10T14:00:00.000Z');
    expect(ids(movedVisits(of([placed]), ['room-hall', 'room-den'], 3, NOW))).toEqual(['hall']);
    expect(movedVisits(of(), ['room-hall'], 0, NOW)).toEqual([]);
  });

  it('go with rooms that leave the job where they are for no other room, and what the owner planned or came back for stays', () => {
    expect(ids(visitsWithout({ visits }, ['room-hall']))).toEqual(['hall']);
    expect(ids(visitsWithout({ visits }, ['room-hall', 'room-den']))).toEqual(['both', 'hall', 'den']);
  });
});
