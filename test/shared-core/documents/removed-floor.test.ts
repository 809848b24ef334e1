/** A floor that was placed whole and cut out again, in part or all of it: what was placed since, and what is left to do. */
import { expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import type { AgendaEntry } from '../../../shared-core/agenda/agenda-entry.ts';
import type { Point } from '../../../shared-core/book/fields.ts';
import type { Pour } from '../../../shared-core/book/pour-record.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { noticeMessage } from '../../../shared-core/documents/floor-notice.ts';
import { handoverRooms } from '../../../shared-core/documents/handover-rooms.ts';
import { formatArea } from '../../../shared-core/measure/area.ts';
import { roomFloor } from '../../../shared-core/pour/placed-floor.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { points } from '../../outlines.ts';
import { at, logOf, nextPour, placed, pouredFamily, ROOM } from './poured-family.ts';

const poured = pouredFamily();
const [first] = poured.pours;
if (first === undefined) throw new Error('The family room is poured.');
const ALL = first.asPoured.rooms[0]?.plan.outline ?? [];
const batches = first.asPoured.layout?.batches ?? [];
const bagsPlaced = batches.reduce((sum, { bags }) => sum + bags, 0);
const REMOVED_AT = at('29', 0);

const without = (outline: readonly Point[]): WholeJob =>
  pouredFamily({ kind: 'marked', roomId: ROOM, state: 'taken-out', outline, by: 'RT', why: 'Hollow', instant: REMOVED_AT });
const withDate = (whole: WholeJob, pourAt: string): WholeJob => ({
  ...whole,
  job: { ...whole.job, rooms: whole.job.rooms.map((room) => (room.roomId === ROOM ? { ...room, pourAt } : room)) },
});
const entriesOf = (whole: WholeJob, now: string): readonly AgendaEntry[] =>
  agenda([readJob(whole, now).bundle], whole.business, null).entries.filter(({ roomIds }) => roomIds.includes(ROOM));

it('tells the customer that all of it was placed and how much was removed, and plans the rest from that day', () => {
  const hole = without(points('1,1 2,1 2,2 1,2'));
  const { body } = noticeMessage(readJob(hole, REMOVED_AT), REMOVED_AT) ?? { body: '' };
  // The hole is 1 m by 1 m: 10.8 sq ft.
  expect(body).toContain('On Wednesday, May 13 we poured all of the family room. We removed 11 sq ft that was not good.');
  expect(body).not.toMatch(/stopped|primed/);
  const plan = entriesOf(hole, REMOVED_AT).find(({ kind }) => kind === 'next-lift');
  expect(plan?.title).toContain('plan rest of pour');
  expect(plan?.instant.slice(0, 10)).toBe('2026-05-29');
});

it('tells what was poured on each of two days, all of it placed, whatever was removed since', () => {
  const sample = { ...poured, pours: [], pourEvents: [] };
  const finished = (day: string, floor: string) => ({ kind: 'finished', bagsLeft: null, floor, instant: at(day, 200) });
  const logged = (day: string, pour: Pour, count = Infinity) =>
    (pour.asPoured.layout?.batches ?? []).slice(0, count).map(({ number, bags }, i) => ({ ...placed(at(day, 2 * i), number), bags }));
  const half = logOf('pour-a', [...logged('13', first, 5), finished('13', 'partly')]);
  const second = nextPour(readJob({ ...sample, pours: [first], pourEvents: half }, at('13', 300)), 'pour-b', '14');
  const whole = (...outlines: (readonly Point[])[]): WholeJob => ({
    ...sample,
    pours: [first, second],
    pourEvents: [
      ...half,
      ...logOf('pour-b', [
        ...logged('14', second),
        finished('14', 'whole'),
        ...outlines.map((outline) => ({
          kind: 'marked',
          roomId: ROOM,
          state: 'taken-out',
          outline,
          by: 'RT',
          why: 'Hollow',
          instant: at('15', 0),
        })),
      ]),
    ],
  });
  const { lift } = roomFloor([first, second], whole().pourEvents, ROOM);
  const regionsOf = (id: string) => lift?.regions.filter(({ pourId }) => pourId === id) ?? [];
  const areas = ['pour-a', 'pour-b'].map((id) =>
    formatArea(
      regionsOf(id).reduce((sum, { areaM2 }) => sum + areaM2, 0),
      'us',
      'en-US',
    ),
  );
  const told = (...outlines: (readonly Point[])[]): string =>
    noticeMessage(readJob(whole(...outlines), at('15', 60)), at('15', 60))?.body ?? '';
  // May 13, 2026 is a Wednesday.
  const all = `We poured ${areas[0]} on Wednesday, May 13 and ${areas[1]} on Thursday, May 14: all of the family room. We removed`;
  expect(told(points('1,1 2,1 2,2 1,2'))).toContain(`${all} 11 sq ft that was not good.`);
  const ofSecond = regionsOf('pour-b').flatMap(({ floor }) => floor.map(({ outline }) => outline));
  expect(told(...ofSecond)).toContain(`${all} ${areas[1]} that was not good.`);
  expect(told(ALL)).toContain('On Wednesday, May 13 and Thursday, May 14 we poured');
});

it('has the dates of a floor that is not poured once all of it is removed, under keys of the pour that is planned', () => {
  const planned = entriesOf(withDate(without(ALL), at('31', 0)), at('30', 0));
  const keys = Object.fromEntries(planned.map(({ kind, key }) => [kind, key.split(`${kind}:`)[1]]));
  expect(keys).toMatchObject({ pour: `${ROOM}:1.2`, 'walk-on': `${ROOM}:1.2`, cover: `${ROOM}:1.2:wood-glued` });
  for (const { verb, title, rest } of planned) for (const words of [verb, title.split(': ')[1], rest]) expect(words).toMatch(/^\S/);
  expect(planned.find(({ kind }) => kind === 'cover')?.rest).toContain('to be ready for glued wood');
});

it('counts the bags of what lies there alone, once it is poured again', () => {
  const gone = withDate(without(ALL), at('31', 0));
  const again = nextPour(readJob(gone, at('30', 0)), 'pour-b', '31');
  const log = logOf('pour-b', [
    ...batches.map(({ number, bags }, i) => ({ ...placed(at('31', 2 * i), number), bags })),
    { kind: 'finished', bagsLeft: null, floor: 'whole', instant: at('31', 200) },
  ]);
  const whole = { ...gone, pours: [...gone.pours, again], pourEvents: [...gone.pourEvents, ...log] };
  expect(handoverRooms(readJob(whole, at('31', 300)))).toMatchObject([{ bags: bagsPlaced, materials: [again.asPoured.material] }]);
});
