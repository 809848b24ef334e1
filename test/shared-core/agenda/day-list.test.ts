import { describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { dayList } from '../../../shared-core/agenda/day-list.ts';
import { isMovable, moveDate } from '../../../shared-core/agenda/move-date.ts';
import { letteredList, type Letters, todayList } from '../../../shared-core/agenda/today.ts';
import { addDays } from '../../../shared-core/measure/moment.ts';
import { BUSINESS, bundle, pour, visit } from './bundle-fixture.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const rooms = [{ roomId: 'room-a', name: 'Hall', pourAt: '2026-05-13T13:40:00.000Z' }];
const visits = [
  visit('visit-late', 'own', '2026-05-10T13:00:00.000Z', ['room-a']),
  visit('visit-soon', 'own', '2026-05-12T18:00:00.000Z', ['room-a']),
  // Still the evening of the 15th in New York.
  visit('visit-eve', 'own', '2026-05-16T03:30:00.000Z', ['room-a']),
];
const all = agenda([bundle({ id: 'a', rooms, visits })], BUSINESS, null);

describe('the agenda by day', () => {
  it('lists what is late first, then each day of the property with its entries', () => {
    const { groups, more } = dayList(all, NOW, 42, 100);
    expect(groups.slice(0, 3).map((g) => g.called)).toEqual(['Late', 'Today, Tuesday, May 12', 'Tomorrow, Wednesday, May 13']);
    expect(groups[1]?.lines.map((l) => [l.entry.verb, l.time])).toEqual([['Visit', '2 pm']]);
    expect(groups[2]?.lines[0]).toMatchObject({ time: '9:40 am', entry: { kind: 'pour' } });
    expect(groups.find((g) => g.called === 'Friday, May 15')?.lines.map((l) => l.time)).toContain('11:30 pm');
    expect(more).toBe(0);
  });

  it('has every date of those days once, in order, and counts what it does not list', () => {
    const listed = dayList(all, NOW, 42, 100).groups.flatMap((g) => g.lines.map((l) => l.entry));
    const late = all.entries.filter((e) => e.key.endsWith('visit-late'));
    const upcoming = all.entries.filter((e) => e.instant > NOW && Date.parse(e.instant) < Date.parse(NOW) + 41 * 86_400_000);
    expect(listed.map((e) => e.key)).toEqual(expect.arrayContaining([...late, ...upcoming].map((e) => e.key)));
    expect(new Set(listed).size).toBe(listed.length);
    expect(dayList(all, NOW, 42, 2).more).toBe(listed.length - 2);
    expect(dayList(all, NOW, 1, 100).groups.map((g) => g.called)).toEqual(['Late', 'Today, Tuesday, May 12']);
  });
});

describe('letters of Today', () => {
  it('stay with their entries when one is moved on, and are given to no other', () => {
    const list = todayList(all, NOW);
    const letters = new Map(list.map(({ letter, entry }) => [entry.key, letter]));
    const soon = list.find(({ entry }) => entry.key.endsWith('visit-soon'))?.entry;
    const moved = soon && moveDate(all, soon, NOW);
    if (soon === undefined || !moved) throw new Error('The visit can be moved.');
    const lettersNow = (kept?: ReadonlyMap<string, string>) =>
      Object.fromEntries(todayList(moved.after, NOW, kept).map(({ letter, entry }) => [entry.key, letter]));
    expect(lettersNow(letters)).toEqual(Object.fromEntries(letters));
    // By place alone the key that moved the visit would move another entry.
    expect(lettersNow()[soon.key]).not.toBe(letters.get(soon.key));
    const gone = new Map([['gone', 'A']]);
    expect(todayList(all, NOW, gone).map(({ letter }) => letter)).toEqual(['B', 'C', 'D', 'E', 'F', 'G'].slice(0, list.length));
  });
});

describe('letters of a Today screen left open', () => {
  it('are given out again the next day', () => {
    const letters: Letters = { day: null, byKey: new Map([...'ABCDEFGHIJKLMOPQRSTUVWXYZ'].map((letter) => [`gone ${letter}`, letter])) };
    const first = letteredList(all, NOW, letters).map(({ letter }) => letter);
    expect(first[0]).toBe('A');
    for (const letter of 'ABCDEFGHIJKLMOPQRSTUVWXYZ') letters.byKey.set(`done ${letter}`, letter);
    expect(letteredList(all, NOW, letters).map(({ letter }) => letter)).toEqual(first);
    const next = letteredList(all, addDays(NOW, 1, BUSINESS.timeZone), letters).map(({ letter }) => letter);
    expect([next[0], next.includes('')]).toEqual(['A', false]);
  });
});

describe('a pour that is running', () => {
  // Started at 11:30 pm for a floor of four and a half hours: over its time at 5 am, and of the day before.
  const started = '2026-05-12T03:30:00.000Z';
  const planned = bundle({ id: 'a', rooms: [{ roomId: 'room-a', name: 'Hall', pourAt: started }] });
  const running = { ...planned, pours: [pour('pour-a', ['room-a'], started, null)] };
  const [NIGHT, MORNING] = ['2026-05-12T05:00:00.000Z', '2026-05-12T09:00:00.000Z'];

  it('is not moved by a key on Today, as one that has not started is', () => {
    const move = (of: typeof planned) => {
      const whole = agenda([of], BUSINESS, null);
      const [entry] = whole.entries.filter(({ kind }) => kind === 'pour');
      if (entry === undefined) throw new Error('The pour is on the agenda.');
      return { isMovable: isMovable(entry), dates: moveDate(whole, entry, NIGHT)?.dates ?? null };
    };
    expect(move(planned)).toMatchObject({ isMovable: true, dates: { pour: { pourAt: '2026-05-13T03:30:00.000Z' } } });
    expect(move(running)).toEqual({ isMovable: false, dates: null });
  });

  it('is never late, and stays first on Today and in the list of today past midnight', () => {
    for (const now of [NIGHT, MORNING]) {
      const whole = agenda([running], BUSINESS, null);
      // Its line opens the pour that is running, where a planned one opens its plan.
      expect(todayList(whole, now)[0]).toMatchObject({ late: false, entry: { kind: 'pour', opens: { pourId: 'pour-a' } } });
      const [group] = dayList(whole, now, 1, 100).groups;
      expect(group?.called).toBe('Today, Tuesday, May 12');
      expect(group?.lines[0]).toMatchObject({ entry: { kind: 'pour' }, time: '11:30 pm' });
    }
    const [late] = todayList(agenda([planned], BUSINESS, null), MORNING);
    expect(late).toMatchObject({ late: true, entry: { opens: { stage: 'pour' } } });
    expect(late?.entry.opens).not.toHaveProperty('pourId');
  });
});
