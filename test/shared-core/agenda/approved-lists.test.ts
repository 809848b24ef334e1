/**
 * Entries of every kind on the days around now, as Today, the list by day and the reminders show them, and next steps of a room in every state, as
 * last approved: a guard against a change that nobody meant. After a change that was meant, run
 * `npx vitest run --config build/vitest.config.ts test/shared-core/agenda/approved -u` and read the difference.
 */
import { describe, expect, it } from 'vitest';
import { type Agenda, isLate } from '../../../shared-core/agenda/agenda.ts';
import type { AgendaEntry } from '../../../shared-core/agenda/agenda-entry.ts';
import { ALARMS_MIN, DAY_ALARMS_MIN, wakingAlarms } from '../../../shared-core/agenda/alarms.ts';
import { dayList } from '../../../shared-core/agenda/day-list.ts';
import { remindersOf, reminderNotice } from '../../../shared-core/agenda/reminders.ts';
import { dayFromToday, todayList } from '../../../shared-core/agenda/today.ts';
import { entryMaker } from '../../../shared-core/agenda/entry-maker.ts';
import { byMoment } from '../../../shared-core/agenda/job-agenda.ts';
import type { RoomSummary } from '../../../shared-core/standing/job-bundle.ts';
import { nextStep } from '../../../shared-core/standing/next-step.ts';
import { BUSINESS, bundle, pour, quote, summary } from './bundle-fixture.ts';

const approve = (lines: readonly string[], name: string) => expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`./approved/${name}.txt`);
/** A Tuesday, 11 am in New York and 5 pm in Berlin. */
const NOW = '2026-05-12T15:00:00.000Z';
const KINDS = Object.keys(ALARMS_MIN) as AgendaEntry['kind'][];
const at = (day: number, clock: string): string => `2026-05-${String(12 + day).padStart(2, '0')}T${clock}:00.000Z`;

function madeEntries(timeZone: string): readonly AgendaEntry[] {
  const make = entryMaker(bundle({ id: `z-${timeZone.length}`, timeZone }), BUSINESS);
  const own = (kind: AgendaEntry['kind'], name: string, toDo: boolean) => ({
    ...{ kind, name, roomIds: [], event: kind, verb: 'Do', rest: `${kind} ${name}.`, toDo, stage: 'pour' as const },
    promised: kind === 'promise' || kind === 'finish-quote',
    onSite: ['prep-visit', 'pour', 'visit', 'handover'].includes(kind),
  });
  const timed: readonly (readonly [number, string])[] = [
    [-3, '14:00'],
    [0, '03:30'],
    [0, '14:30'],
    [0, '15:00'],
    [0, '19:00'],
    [1, '03:30'],
    [1, '13:00'],
    [2, '13:00'],
    [6, '13:00'],
    [7, '13:00'],
    [8, '13:00'],
    [19, '13:00'],
  ];
  // Those have no date, or no job.
  return KINDS.filter((kind) => !['pour-date', 'quote-expired', 'handover-date', 'lead-visit', 'lead-step'].includes(kind)).flatMap(
    (kind, i) =>
      timed
        // Each kind on some of the days, each day with some of the kinds.
        .filter((_, k) => (i * 5 + k * 3) % 4 === 0)
        .flatMap(([day, clock]) => {
          const instant = at(day, clock);
          const toDo = (day + i) % 3 !== 0;
          return [
            make.timed(own(kind, `${day} ${clock}`, toDo), instant, null),
            make.allDay(own(kind, `${day}`, toDo), instant.slice(0, 10)),
          ];
        }),
  );
}

describe('entries of every kind', () => {
  const entries = ['America/New_York', 'Europe/Berlin', 'Pacific/Auckland'].flatMap(madeEntries).sort(byMoment);
  const all: Agenda = { business: BUSINESS, jobs: [], entries };

  it('today, by day, and as reminders', async () => {
    const today = todayList(all, NOW).map(
      ({ letter, entry, late, when }) => `${letter} ${entry.timeZone} ${entry.rest} ${late ? 'LATE ' : ''}[${when}]`,
    );
    const days = dayList(all, NOW, 8, 70);
    const listed = days.groups.flatMap(({ called, lines }) => [
      called,
      ...lines.map(({ entry, time }) => `  ${time} ${entry.rest} ${entry.timeZone}`),
    ]);
    const reminders = remindersOf(all).map(({ key, instant }) => `${instant} ${key}`);
    const late = entries.filter((entry) => isLate(entry, NOW)).length;
    await approve([...today, ...listed, `more ${days.more}, late ${late}`, ...reminders], 'entries');
  });

  it('in notifications', async () => {
    const reminders = remindersOf(all);
    const notes = [0, 1, 2, 3, 7, 12, 20].flatMap((from) =>
      [1, 3, 5].map((count) => reminderNotice(reminders.slice(from * 5, from * 5 + count), count === 3, NOW, 'en-US')),
    );
    await approve(
      notes.map((one) => JSON.stringify(one)),
      'notices',
    );
  });
});

describe('days and alarms', () => {
  it('are named from today on', () => {
    // Tuesday, May 12, 2026, in days since January 1, 1970.
    const today = Date.UTC(2026, 4, 12) / 86_400_000;
    expect([-8, -7, -6, -1, 0, 0.9, 1, 2, 6, 7].map((days) => dayFromToday(today + days, today, 'en-US'))).toEqual([
      ...['May 4', 'May 5', 'Wednesday', 'Monday', 'today', 'today', 'tomorrow', 'Thursday', 'Monday', 'May 19'],
    ]);
  });

  it('ring while people are awake: from 7 am to 9 pm, else at 8 pm the evening before', () => {
    const minutes = (clock: string, before: readonly number[], zone = 'America/New_York') =>
      wakingAlarms(`2026-05-12T${clock}:00.000Z`, before, zone);
    // New York is 4 hours behind UTC in May. A start at 8 am, an hour before: 7 am.
    expect(minutes('12:00', [60])).toEqual([60]);
    // A start at 7:59 am, an hour before: 6:59 am, so 8 pm of the day before, 11 h 59 min earlier.
    expect(minutes('11:59', [60])).toEqual([719]);
    // A start at 9:40 am: 12 hours before is 9:40 pm, so 8 pm of that day; an hour before is 8:40 am.
    expect(minutes('13:40', [720, 60])).toEqual([820, 60]);
    // A start at 9 am: 12 hours before is 9 pm and rings.
    expect(minutes('13:00', [720, 60])).toEqual([720, 60]);
    // Both alarms of a start at 5 am are at night: one at 8 pm of the day before.
    expect(minutes('09:00', [60, 30])).toEqual([540]);
    expect(minutes('09:00', [], 'UTC')).toEqual([]);
  });

  it('of a whole day are at 8 am or not at all', () => {
    const before = [...new Set(Object.values(DAY_ALARMS_MIN).flat())];
    expect(before).toEqual([-480]);
    // Common practice: what is a visit or only to be known has none; each task has one. A primer's is hours before its limit.
    expect(KINDS.filter((kind) => DAY_ALARMS_MIN[kind].length === 0)).toEqual([
      'prep-visit',
      'primer-window',
      'pour',
      'walk-on',
      'cover',
      'visit',
      'invoice-ready',
      'handover',
      'pour-date',
      'quote-expired',
      'handover-date',
      'lead-visit',
    ]);
  });
});

describe('the next step of a room', () => {
  const SUMMARIES: readonly (readonly [string, Partial<RoomSummary>])[] = [
    ['ready', { prepOpen: 0 }],
    ['not drawn', { planDrawn: false }],
    ['two readings', { readingsTaken: 2 }],
    ['a test missing', { testsWanting: 1 }],
    ['on hold', { holds: [{ key: 'asbestos', why: 'asbestos is suspected', liftsOn: null }] }],
    ['deposit', { holds: [{ key: 'deposit', why: 'the deposit is not received', liftsOn: null }] }],
    ['one prep line', { prepOpen: 1, prepTotal: 1, prepNext: 'Vacuum' }],
    ['prep lines', { prepOpen: 2, prepTotal: 8, prepNext: null }],
    ['no bags', { bags: null }],
    ['one bag', { bags: 1, prepOpen: 0 }],
    ['in doubt', { unsettled: 'doubt' }],
    ['not complete', { unsettled: 'incomplete' as RoomSummary['unsettled'] }],
    ['two lifts', { lifts: 2, prepOpen: 0 }],
  ];
  const QUOTES = [null, 'issued', 'expired', 'declined', 'accepted'] as const;
  const ROOMS: readonly (readonly [string, object])[] = [
    ['', {}],
    ['no flooring', { flooring: null }],
    ['no material', { materialId: null }],
    ['pour today', { pourAt: '2026-05-12T17:00:00.000Z' }],
    ['primed', { pourAt: '2026-05-12T17:00:00.000Z', primedAt: '2026-05-12T14:00:00.000Z', primerCoatsDone: 1 }],
    ['primed long ago', { pourAt: '2026-05-12T17:00:00.000Z', primedAt: '2026-05-09T14:00:00.000Z', primerCoatsDone: 1 }],
    ['handed over', { handedOverAt: '2026-05-12T10:00:00.000Z' }],
  ];

  it('in every state', async () => {
    const lines = SUMMARIES.flatMap(([name, over]) =>
      QUOTES.flatMap((state) =>
        (/ready|no bags|prep lines/.test(name) ? ROOMS : ROOMS.slice(0, 1)).flatMap(([called, roomOver]) => {
          const plain = bundle({ id: 'n', rooms: [{ roomId: 'room-n', name: 'Hall', ...roomOver }], summaries: [summary('room-n', over)] });
          const of = state === null ? plain : { ...plain, quotes: [quote(plain, state, '2026-05-20')] };
          const step = nextStep(of, 'room-n', BUSINESS, NOW);
          return `${name}, ${state ?? 'no quote'}, ${called}: ${step?.standing.stage} ${step?.standing.state} ${step?.sentence} [${step?.action?.label ?? ''} ${step?.action?.opens ?? ''}]`;
        }),
      ),
    );
    const poured = (['2026-05-12T13:00:00.000Z', '2026-05-01T13:00:00.000Z'] as const).flatMap((from) =>
      [1, 2].flatMap((lifts) =>
        ['wood-glued', 'tile-small', null].flatMap((flooring) => {
          const until = new Date(Date.parse(from) + 3_600_000).toISOString();
          const of = bundle({
            ...{ id: 'a', rooms: [{ roomId: 'room-a', name: 'Hall', flooring: flooring as never }] },
            ...{ pours: [pour('pour0001', ['room-a'], from, until, 1, lifts)], summaries: [summary('room-a', { lifts })] },
          });
          const step = nextStep({ ...of, quotes: [quote(of, 'accepted', '2026-05-20')] }, 'room-a', BUSINESS, NOW);
          return `poured ${from}, ${lifts} lifts, ${flooring}: ${step?.standing.stage} ${step?.sentence} [${step?.action?.label ?? ''}] ${step?.standing.stages.map((one) => one.state).join(' ')}`;
        }),
      ),
    );
    await approve([...lines, ...poured], 'next-steps');
  });
});
