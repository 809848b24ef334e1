/** What Cure and Today say of flooring that was promised for a day, once that day is here and the floor has not passed its test. */
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import { cureFoot } from '../../../renderer/stages/cure/cure-foot.ts';
import { curingRooms, startPromise, verdictWords } from '../../../renderer/stages/cure/cure-room.ts';
import { DatesPart } from '../../../renderer/stages/cure/DatesPart.tsx';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { todayList } from '../../../shared-core/agenda/today.ts';
import type { ClearanceTest, Promised } from '../../../shared-core/book/cure-record.ts';
import { isPastDay } from '../../../shared-core/measure/moment.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { at, family, pouredFamily, ROOM } from '../../shared-core/documents/poured-family.ts';
import { threeTests } from '../../shared-core/cure/sheet-fixture.ts';

const STAMPS = { createdAt: at('12', 0), changedAt: at('12', 0), deletedAt: null, jobId: family.job.id, roomId: ROOM };
const promise = (promisedFor: string): Promised => ({
  ...{ ...STAMPS, id: 'promise-1', milestone: 'cover', flooring: 'wood-glued', promisedFor, madeAt: at('12', 0) },
  ...{ documentId: null, to: 'Ida' },
});
/** In-slab RH; at most 75% without the manufacturer's limit (ASTM F710, from memory). */
const test = (takenAt: string, value: number): ClearanceTest => ({
  ...{
    ...STAMPS,
    id: `test-${takenAt}`,
    flooring: 'wood-glued',
    method: 'slab-humidity',
    unit: 'share',
    value,
    takenAt,
    by: 'Ada',
    note: '',
  },
});

function seen(promisedFor: string, now: string, ...clearanceTests: ClearanceTest[]) {
  const whole = { ...pouredFamily(), promises: [promise(promisedFor)], clearanceTests: clearanceTests.flatMap((one) => threeTests(one)) };
  const reading = readJob(whole, now);
  const say = { now, zone: 'America/New_York', locale: 'en-US', units: 'us' } as const;
  const rooms = curingRooms(reading);
  const [room] = rooms;
  if (room?.schedule.cover == null) throw new Error('The family room is poured and gets flooring.');
  const today = todayList(agenda([reading.bundle], whole.business, null), now).filter(({ entry }) => entry.roomIds.includes(ROOM));
  return {
    stated: room.schedule.cover.statedAt,
    likely: room.schedule.cover.likelyAt,
    words: Object.values(verdictWords(room, say)).slice(0, 2).join(' '),
    dates: /promised to Ida on [^:]+: <span[^>]*>([^<]+)</.exec(
      renderToStaticMarkup(createElement(DatesPart, { whole, room, say, onPromise: () => undefined })),
    )?.[1],
    foot: cureFoot(reading, rooms, ROOM, say).word,
    calls: today.flatMap(({ entry, when }) => (entry.kind === 'promise' ? [`${entry.verb} ${entry.rest} [${when}]`] : [])),
    clears: today.flatMap(({ entry, when }) => (entry.kind === 'cover' ? [`${entry.verb} ${entry.rest} [${when}]`] : [])),
  };
}
const STATED = seen(at('29', 0), at('20', 0)).stated ?? '';
const later = (days: number): string => new Date(Date.parse(STATED) + days * 86_400_000).toISOString();

describe('flooring promised for the day that was stated', () => {
  it('is on track before, and asks for its test on the day', () => {
    const before = seen(STATED, later(-1));
    expect(before).toMatchObject({ dates: 'on track', calls: [] });
    expect(before.clears).toEqual([
      'Clear the Lindqvists’ family room for glued wood. Its moisture test has to pass by the promised day. [tomorrow]',
    ]);
    expect(seen(STATED, later(0.2)).clears[0]).toMatch(/\[today\]$/);
  });

  it('is late once the day is over without a test', () => {
    const after = seen(STATED, later(2));
    expect(after).toMatchObject({ dates: 'likely 2 days late', foot: 'Enter a test', calls: [] });
    expect(after.words).toMatch(/^Likely 2 days late\. Glued wood now, promised .+ \(moisture test required\)\.$/);
    expect(after.clears[0]).toMatch(/\[late, promised [A-Z][a-z]+\]$/);
  });

  it('has no date once it failed its test that day or later', () => {
    for (const [takenAt, now] of [
      [later(0.1), later(0.2)],
      [later(1), later(2)],
    ] as const) {
      const failed = seen(STATED, now, test(takenAt, 0.82));
      expect(failed).toMatchObject({ dates: 'on hold: no date', foot: 'Enter a test', clears: [] });
      expect(failed.words).toMatch(/^On hold: no date\. Glued wood not cleared, promised .+ \(tested 82%, max 75% RH\)\.$/);
      expect(failed.calls).toHaveLength(1);
      expect(failed.calls[0]).toMatch(
        /^Call about the Lindqvists’ promised date for glued wood\. The floor failed its moisture test, so there is no date\./,
      );
    }
  });

  it('owes nothing once it passed, however late', () => {
    expect(seen(STATED, later(3), test(later(1), 0.82), test(later(2), 0.7))).toMatchObject({ dates: 'done', calls: [], clears: [] });
  });
});

it('is watched on its day where it is at risk, and late once that day is over without a test', () => {
  const { likely } = seen(STATED, later(-1));
  if (likely === null) throw new Error('The family room has a likely day.');
  const promised = new Date((Date.parse(likely) + Date.parse(STATED)) / 2).toISOString();
  const line = 'Check the Lindqvists’ family room. The date promised for glued wood is at risk.';
  expect(seen(promised, promised).calls).toEqual([`${line} [today]`]);
  expect(seen(promised, later(2)).calls[0]).toMatch(/^Check .+ is at risk\. \[late, promised /);
});

it('is promised again for a day ahead: one that is past is neither suggested nor taken', () => {
  const milestone = { statedAt: STATED };
  expect([startPromise(milestone, later(-1)), startPromise(milestone, later(1)), startPromise({ statedAt: null }, STATED)]).toEqual([
    STATED,
    null,
    null,
  ]);
  // In New York it is still the same evening at 1 am UTC of the next day.
  const [instant, evening, morning] = ['2026-05-18T11:00:00.000Z', '2026-05-19T01:00:00.000Z', '2026-05-19T11:00:00.000Z'];
  expect([isPastDay(instant, evening, 'America/New_York'), isPastDay(instant, morning, 'America/New_York')]).toEqual([false, true]);
});

it('is at risk where the floor fails on the day expected and more days were promised', () => {
  expect(seen(later(10), later(1), test(later(0.1), 0.82))).toMatchObject({ dates: 'at risk', calls: [] });
  // A first try, long before the floor can be dry.
  expect(seen(later(10), later(1), test(later(-5), 0.82)).dates).toBe('on track');
});

it('is expected on the next date stated, where it fails on a promised day before that', () => {
  const early = seen(later(-3), later(-2), test(later(-2.9), 0.82));
  expect(early.dates).toMatch(/^likely \d days late$/);
  expect(early.foot).toMatch(/^Promise /);
});
