import { describe, expect, it } from 'vitest';
import type { SignedItem } from '../../../shared-core/book/job.ts';
import type { Hours } from '../../../shared-core/book/ledger.ts';
import { type PourEvent, pourEventSchema } from '../../../shared-core/book/pour-record.ts';
import { jobReview } from '../../../shared-core/learn/job-review.ts';
import { loggedHours, nameOf, taskOfLine } from '../../../shared-core/learn/logged-hours.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { hours } from '../ledger/entries.ts';

const sample = wholeJobsOf(sampleAt('2026-05-12T15:00:00Z'));
const whole = sample.find((one) => one.job.id === 'sample-job-abara');
if (whole === undefined) throw new Error('the sample has no such job');
const bare = { ...whole, ledger: [] };

describe('hours read from the logs', () => {
  it('are those between start and end of the work of each pour, for everyone on the crew', () => {
    const pours = loggedHours(bare).filter(({ task }) => task === 'Pour');
    // By hand: the owner and one helper at each finished pour.
    expect(pours).toHaveLength(whole.pours.length * 2);
    for (const pour of whole.pours) {
      const end = whole.pourEvents.find((event) => event.pourId === pour.id && event.kind === 'finished');
      const minutes = (Date.parse(end?.instant ?? '') - Date.parse(pour.startedAt ?? '')) / 60_000;
      expect(pours.filter(({ readFrom }) => readFrom.includes(pour.id)).map((one) => one.minutes)).toEqual([
        Math.round(minutes),
        Math.round(minutes),
      ]);
    }
  });
  it('are those of the helpers a pour was planned with where nobody is named, until someone is entered by hand', () => {
    const [pour] = whole.pours;
    const plan = sample.flatMap(({ job }) => job.rooms.flatMap(({ pourPlan }) => pourPlan ?? []))[0];
    if (pour === undefined || plan === undefined) throw new Error('the sample has a pour and a plan');
    const crew = { ...plan.crew, mixers: 2, carriers: 1, spreaders: 1 };
    const alone = {
      ...bare,
      pours: [{ ...pour, plans: [{ roomId: pour.roomIds[0] ?? '', plan: { ...plan, crew } }] }],
      job: { ...whole.job, crewNames: [] },
    };
    const offered = (ledger: Hours[] = []) => loggedHours({ ...alone, ledger }).filter(({ task }) => task === 'Pour');
    // By hand: four places, one of them the owner's.
    expect(offered().map(({ who }) => who)).toEqual([whole.business.ownerName, 'Helper 1', 'Helper 2', 'Helper 3'].toSorted());
    expect(new Set(offered().map(({ minutes }) => minutes)).size).toBe(1);
    const [first] = offered();
    const byHand = { ...hours('h1', 60, 2800, { who: 'Jo', task: 'Pour' }), onDay: first?.onDay ?? '' };
    expect(offered([byHand]).map(({ who }) => who)).toEqual([whole.business.ownerName]);
  });
  it('end with the last batch where the pour was finished the next morning', () => {
    const [pour] = whole.pours;
    const last = whole.pourEvents.findLast((event) => event.pourId === pour?.id && event.kind === 'placed');
    if (pour?.startedAt == null || last === undefined) throw new Error('the job has a pour');
    const late = new Date(Date.parse(last.instant) + 17.5 * 3_600_000).toISOString();
    const pourEvents = whole.pourEvents.map((event) => (event.kind === 'finished' ? { ...event, instant: late } : event));
    const offered = loggedHours({ ...bare, pourEvents }).find(({ readFrom }) => readFrom.includes(pour.id));
    expect(offered?.minutes).toBe(Math.round((Date.parse(last.instant) - Date.parse(pour.startedAt)) / 60_000));
  });
  describe('of a pour that was resumed, or was in the wrong room', () => {
    const at = (min: number): string => new Date(Date.parse('2026-05-13T14:00:00.000Z') + min * 60_000).toISOString();
    const [pour] = whole.pours;
    if (pour === undefined) throw new Error('the job has a pour');
    const pourOf = (id: string) => ({ ...pour, id, startedAt: at(0), finishedAt: at(150) });
    const placed = (batch: number) => ({ kind: 'placed', batch, roomId: null, lane: null, bags: 2 });
    const finished = { kind: 'finished', bagsLeft: null };
    const resumed = { kind: 'resumed', by: 'RT', why: 'by mistake' };
    const logOf = (pourId: string, ...entries: readonly (readonly [number, object])[]) =>
      entries.map(([min, event], i) =>
        pourEventSchema.parse({ id: `${pourId}-${i}`, pourId, seq: i + 1, instant: at(min), estimated: false, ...event }),
      );
    const job = { ...whole.job, crewNames: [whole.business.ownerName], rooms: [] };
    const of = (ids: readonly string[], pourEvents: PourEvent[], ledger: Hours[] = []) => ({
      ...{ ...bare, quotes: [], job, pours: ids.map(pourOf), pourEvents, ledger },
    });
    const minutes = (...args: Parameters<typeof of>) => loggedHours(of(...args)).map((one) => [one.onDay, one.minutes]);
    const until120 = [
      [5, placed(1)],
      [118, placed(2)],
      [120, finished],
    ] as const;

    it('count no minute twice: what follows recorded hours is offered alone', () => {
      const [first] = loggedHours(of(['pour-1'], logOf('pour-1', ...until120)));
      if (first === undefined) throw new Error('no hours in the log');
      expect(first.minutes).toBe(120);
      const entry: Hours = { ...hours('h1', 120, 6500, first), onDay: first.onDay, readFrom: first.readFrom, createdAt: at(125) };
      const log = logOf('pour-1', ...until120, [130, resumed], [150, placed(3)], [155, finished]);
      expect(minutes(['pour-1'], log, [entry])).toEqual([['2026-05-13', 35]]);
      // By hand: 120 and 35 minutes are 155.
      expect(minutes(['pour-1'], log)).toEqual([['2026-05-13', 155]]);
      const review = jobReview(of(['pour-1'], log, [entry]));
      expect(review.hours.find(({ task }) => task === 'Pour')?.actual).toBeCloseTo(155 / 60, 9);
    });

    it('leave out the night before it was resumed, each day by itself', () => {
      const log = logOf('pour-1', ...until120, [1200, resumed], [1230, placed(3)], [1240, finished]);
      const [first] = loggedHours(of(['pour-1'], log));
      if (first === undefined) throw new Error('no hours in the log');
      expect(minutes(['pour-1'], log)).toEqual([
        ['2026-05-13', 120],
        ['2026-05-14', 40],
      ]);
      const entry: Hours = { ...hours('h1', 120, 6500, first), onDay: first.onDay, readFrom: first.readFrom, createdAt: at(1300) };
      expect(minutes(['pour-1'], log, [entry])).toEqual([['2026-05-14', 40]]);
    });

    it('are none where every batch of it is voided', () => {
      const wrong = logOf(
        'pour-1',
        ...until120,
        [130, { kind: 'undone', eventId: 'pour-1-0' }],
        [131, { kind: 'undone', eventId: 'pour-1-1' }],
      );
      expect(minutes(['pour-1', 'pour-2'], [...wrong, ...logOf('pour-2', ...until120)])).toEqual([['2026-05-13', 120]]);
    });
  });
  it('are for the person whose initials are in the signature', () => {
    expect(nameOf('RT', ['Ros Teague', 'Bea Lorne'])).toBe('Ros Teague');
    expect(nameOf('bea', ['Ros Teague', 'Bea Lorne'])).toBe('Bea Lorne');
    expect(nameOf('XY', ['Ros Teague'])).toBe('XY');
    expect(taskOfLine('remove:layer-1')).toBe('Remove old flooring');
    expect(taskOfLine('grind')).toBe('Prepare the surface');
    expect(taskOfLine('windows')).toBe('Other prep');
  });
  it('disappear once recorded, return when voided, and give way to hours entered by hand', () => {
    const [first] = loggedHours(bare);
    if (first === undefined) throw new Error('no hours in the logs');
    const entry: Hours = {
      ...hours('h1', first.minutes, 6500, { who: first.who, task: first.task }),
      onDay: first.onDay,
      readFrom: first.readFrom,
      createdAt: '2026-05-12T15:00:00Z',
    };
    const keys = (ledger: Hours[]): string[] => loggedHours({ ...bare, ledger }).map(({ readFrom }) => readFrom);
    expect(keys([entry])).not.toContain(first.readFrom);
    expect(keys([{ ...entry, voidedAt: '2026-05-12T00:00:00Z' }])).toContain(first.readFrom);
    // Voided after more of that day was recorded: the rest still stands for itself.
    const [early, late] = ['2026-05-12T15:00:00Z', '2026-05-12T20:00:00Z'];
    const voided = { ...entry, createdAt: early, voidedAt: '2026-05-12T21:00:00Z' };
    expect(keys([voided, { ...entry, id: 'h2', createdAt: late }])).toContain(first.readFrom);
    expect(keys([voided, { ...entry, id: 'h2', createdAt: '2026-05-12T22:00:00Z' }])).not.toContain(first.readFrom);
    const byHand = loggedHours({ ...bare, ledger: [{ ...entry, readFrom: '', task: 'Prep' }] });
    expect(byHand.filter(({ onDay, who }) => onDay === first.onDay && who === first.who)).toEqual([]);
  });

  const signed = (itemKey: string, clock: string, initials = 'RT'): SignedItem => ({
    ...{ itemKey, doneAt: `2026-05-11T${clock}:00Z`, initials, note: '', signedText: '', photoIds: [], withdrawnAt: null },
  });
  const signedIn = (rooms: readonly SignedItem[][], ledger: Hours[] = []) => {
    const [room] = whole.job.rooms;
    if (room === undefined) throw new Error('the job has a room');
    const job = { ...whole.job, crewNames: [], rooms: rooms.map((lines, i) => ({ ...room, roomId: `room-${i}`, signed: lines })) };
    return loggedHours({ ...bare, job, pours: [], ledger }).map(({ who, task, minutes, readFrom }) => ({ who, task, minutes, readFrom }));
  };
  const minutesOf = (rows: readonly { who: string; minutes: number }[], person: string): number =>
    rows.reduce((sum, { who, minutes }) => (who === person ? sum + minutes : sum), 0);

  it('count the time of one person once, whatever rooms the lines are in, and that of two people in two rooms twice', () => {
    const rooms = [
      [signed('clear', '12:00'), signed('vacuum', '14:00')],
      [signed('clear', '12:05'), signed('vacuum', '14:05')],
    ];
    // By hand: 12:00 to 14:05 is 125 minutes.
    expect(minutesOf(signedIn(rooms), whole.business.ownerName)).toBe(125);
    const two = [rooms[0] ?? [], [signed('clear', '12:05', 'BL'), signed('vacuum', '14:05', 'BL')]];
    expect([minutesOf(signedIn(two), whole.business.ownerName), minutesOf(signedIn(two), 'BL')]).toEqual([120, 120]);
  });

  it('go on after hours were recorded: lines signed later are offered, as corrected hours are not', () => {
    const morning = [signed('clear', '12:00'), signed('vacuum:room-0', '13:00')];
    const [first] = signedIn([morning]);
    if (first === undefined) throw new Error('no hours in the logs');
    const entry: Hours = {
      ...hours('h1', 45, 6500, { who: first.who, task: first.task }),
      ...{ onDay: '2026-05-11', readFrom: first.readFrom, createdAt: '2026-05-11T13:10:00Z' },
    };
    expect(signedIn([morning], [entry])).toEqual([]);
    expect(signedIn([[...morning, signed('vacuum:room-1', '15:00')]], [entry])).toEqual([{ ...first, minutes: 120 }]);
  });
});
