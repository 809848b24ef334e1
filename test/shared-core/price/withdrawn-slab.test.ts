/** Rooms withdrawn from a slab that others stay on: the order has the tests of the rooms left, as Assess asks for them. */
import { expect, it } from 'vitest';
import type { Quote } from '../../../shared-core/book/quote.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { proposeOrder } from '../../../shared-core/price/change-order.ts';
import { issueQuote } from '../../../shared-core/price/issue-quote.ts';
import { withoutRooms } from '../../../shared-core/price/without-rooms.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { layer, test } from '../substrate/a-floor.ts';
import { NOW, PLACE, whole } from './an-order.ts';

const slab = layer('concrete-on-ground', { yearInstalled: 2001, thicknessM: 0.1 });

/** The sample's three rooms on one slab, with RH tests made in them before the quote. */
function onSlab(made: Readonly<Record<string, number>>): WholeJob {
  const tests = (id: string) => Array.from({ length: made[id] ?? 0 }, (_, i) => test.humidity({ id: `rh-${id}-${i}`, takenAt: NOW }));
  return {
    ...{ ...whole, quotes: [] },
    job: { ...whole.job, rooms: whole.job.rooms.map((room) => ({ ...room, flooring: 'wood-glued' as const })) },
    rooms: whole.rooms.map((room) => ({ ...room, layers: [slab], tests: tests(room.id) })),
  };
}

function accepted(of: WholeJob): Quote {
  const issued = issueQuote(of, { id: 'quote-00001', instant: NOW, by: 'Ros Teague', note: '', earlier: [] });
  if (!issued.ok) throw new Error(issued.message);
  return { ...issued.value.quote, state: 'accepted', acceptedOptionId: 'base' };
}

// ASTM F1869 and F2170, second-hand: three tests in the first 1,000 sq ft of the floor. The rooms are under 1,000 sq ft together.
it.each([
  ['none made', {}, 3],
  ['two of them in the room that stays', { 'sample-living': 2, 'sample-dining': 1 }, 1],
  ['two of them in the room that leaves', { 'sample-living': 1, 'sample-dining': 2 }, 2],
])('a change order has as many slab tests as Assess asks for in the rooms left: %s', (_, made, count) => {
  const of = onSlab(made);
  const order = proposeOrder(accepted(of), of, ['sample-dining'], PLACE, NOW.slice(0, 10));
  const priced = order.estimate.rooms.reduce((sum, { takeoff }) => sum + takeoff.room.moistureTests, 0);
  const left = withoutRooms(of.job, ['sample-dining']);
  const rooms = of.rooms.filter(({ id }) => id !== 'sample-dining');
  const asked = readJob({ ...of, job: left, rooms }, NOW).rooms.flatMap(({ assessment: { needs } }) =>
    needs.flatMap(({ id, toMake }) => (id === 'slab-moisture' ? [toMake] : [])),
  );
  expect([priced, asked.reduce((sum, toMake) => sum + toMake, 0)]).toEqual([count, count]);
});
