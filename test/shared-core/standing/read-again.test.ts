import { describe, expect, it } from 'vitest';
import { movePour } from '../../../shared-core/agenda/move-pour.ts';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { settledOn } from '../../../shared-core/agenda/money-entries.ts';
import { figuresOf } from '../../../shared-core/standing/job-figures.ts';
import { figuresStampOf, glanceJob, readJob } from '../../../shared-core/standing/read-job.ts';
import { shoppingFor } from '../../../shared-core/standing/shopping-for.ts';
import { heightSchedule } from '../../../shared-core/prep/height-schedule.ts';
import { BUSINESS, bundle } from '../agenda/bundle-fixture.ts';
import { NOW, wholeOf } from '../job-variants.ts';
import { invoice, payment } from '../ledger/entries.ts';

const whole = wholeOf('26-031');
const first = readJob(whole, NOW);

describe('a job read again', () => {
  it('keeps its estimate and bundle while nothing has changed, and makes both again when a record has', () => {
    const again = readJob(whole, NOW, first);
    expect(again.estimate).toBe(first.estimate);
    expect(again.bundle).toBe(first.bundle);
    const changed = { ...whole, job: { ...whole.job, changedAt: '2026-11-13T16:00:00.000Z' } };
    const other = readJob(changed, NOW, first);
    expect(other.estimate).not.toBe(first.estimate);
    expect(other.bundle).not.toBe(first.bundle);
  });

  it('has no bags, depths or minutes before its figures are known', () => {
    const { bundle: bare, rooms } = glanceJob(whole, [], NOW);
    for (const one of bare.summaries)
      expect(one).toMatchObject({ bags: null, lifts: null, pourMinutes: null, depth: null, unsettled: null });
    expect(rooms.every(({ preparation }) => preparation.clock === null)).toBe(true);
    const known = glanceJob(whole, figuresOf(first.estimate), NOW).bundle.summaries;
    expect(known.map(({ bags }) => bags)).toEqual(first.bundle.summaries.map(({ bags }) => bags));
  });

  it('has figures of the same stamp on every day until a price or a lab’s answer begins', () => {
    const [material] = whole.materials;
    if (material === undefined) throw new Error('The sample has materials.');
    const dated = (from: string) => ({
      ...whole,
      materials: [{ ...material, prices: [{ from, minor: 1, note: '' }] }],
      rooms: whole.rooms.map((room) => ({ ...room, tests: [] })),
    });
    const stamp = (day: string) => figuresStampOf(dated('2026-11-20'), day);
    expect(stamp('2026-11-13')).toBe(stamp('2026-11-19'));
    expect(stamp('2026-11-20')).not.toBe(stamp('2026-11-19'));
    expect(stamp('2026-11-20')).toBe(stamp('2026-12-24'));
  });
});

it('a job whose data sheets are archived reads as before', () => {
  const materials = whole.materials.map((material) => ({ ...material, deletedAt: NOW }));
  const named = whole.materials.filter(({ powder, primer }) => powder === null && primer.length === 0);
  const read = readJob({ ...whole, materials: [...materials.filter(({ id }) => !named.some((m) => m.id === id)), ...named] }, NOW);
  const factsOf = ({ rooms }: typeof read) =>
    rooms.map(({ material, primer, assessment }) => [material?.id, primer?.id, assessment.verdict, assessment.findings]);
  expect(factsOf(read)).toEqual(factsOf(first));
  expect(read.rooms.some(({ material }) => material !== null)).toBe(true);
  expect(figuresOf(read.estimate)).toEqual(figuresOf(first.estimate));
  const buys = (reading: typeof read) =>
    shoppingFor(reading, reading.estimate.base).list.items.toSorted((a, b) => (a.key < b.key ? -1 : 1));
  expect(buys(read)).toEqual(buys(first));
});

describe('a pour moved', () => {
  it('says that the handover is then before the floor is open, and not where it is after', () => {
    const at = (handoverAt: string) =>
      agenda(
        [bundle({ id: 'a', rooms: [{ roomId: 'room-a', name: 'Hall', pourAt: '2026-05-13T13:00:00.000Z' }], job: { handoverAt } })],
        BUSINESS,
        null,
      );
    const breaks = (handoverAt: string) =>
      movePour(at(handoverAt), 'job-a', ['room-a'], '2026-05-20T13:00:00.000Z', '2026-05-12T12:00:00.000Z')?.breaks.map(
        ({ sentence }) => sentence,
      );
    expect(breaks('2026-05-18T14:00:00.000Z')).toEqual(['The handover, Mon, May 18, 10 am, is before the hall is open to foot traffic.']);
    expect(breaks('2026-06-18T14:00:00.000Z')).toEqual([]);
  });
});

it('an invoice was paid by the payments that went to it', () => {
  const entries = [invoice('inv-1', 1, 1_000), invoice('inv-2', 2, 500)];
  const paid = (id: string, minor: number, of: string | null, createdAt: string) => ({ ...payment(id, minor, of), createdAt });
  const both = [...entries, paid('pay-1', 1_000, 'inv-1', '2026-03-10T12:00:00Z'), paid('pay-2', 500, 'inv-2', '2026-04-10T12:00:00Z')];
  expect([settledOn(both, 'inv-1'), settledOn(both, 'inv-2'), settledOn(both, 'inv-3')]).toEqual([
    '2026-03-10T12:00:00Z',
    '2026-04-10T12:00:00Z',
    null,
  ]);
  expect(settledOn([...entries, paid('pay-1', 400, 'inv-1', '2026-03-10T12:00:00Z')], 'inv-1')).toBeNull();
  expect(settledOn([...entries, paid('pay-1', 1_500, null, '2026-03-11T12:00:00Z')], 'inv-2')).toBe('2026-03-11T12:00:00Z');
  // The first invoice is paid, and the second voided for a mistake: nothing was paid for it.
  const deposit = [...entries, paid('pay-1', 1_000, null, '2026-03-03T12:00:00Z')];
  const voided = deposit.map((entry) => (entry.id === 'inv-2' ? { ...entry, voidedAt: '2026-04-03T12:00:00Z' } : entry));
  expect([settledOn(voided, 'inv-1'), settledOn(voided, 'inv-2')]).toEqual(['2026-03-03T12:00:00Z', null]);
  // The third takes its place. A later payment without an invoice went to it alone.
  const paidLater = [...voided, invoice('inv-3', 3, 500), paid('pay-2', 500, null, '2026-04-20T12:00:00Z')];
  expect(['inv-1', 'inv-2', 'inv-3'].map((id) => settledOn(paidLater, id))).toEqual(['2026-03-03T12:00:00Z', null, '2026-04-20T12:00:00Z']);
});

it('an opening is named in the height schedule by its own name, else by its kind, with a capital', () => {
  const opening = (id: string, name: string, kind: 'doorway' | 'exterior-door') => ({
    ...{ id, kind, name, wall: 0, fromM: 0, widthM: 0.9, adjoiningM: null, adjoiningFlooring: '', edge: 'dam' as const, isWayOut: false },
  });
  const lines = heightSchedule({
    openings: [opening('a', ' to the porch ', 'doorway'), opening('b', '', 'exterior-door')],
    ...{
      riseAtM: ({ id }) => (id === 'a' ? 0.01 : null),
      stepAtM: () => null,
      rise: { leastM: 0.004, mostM: 0.02 },
      flooringThicknessM: 0.01,
      isFlooringCounted: true,
    },
    ...{ hasStair: false, fixtures: [] },
  });
  expect(lines.map(({ name, raise }) => [name, raise])).toEqual([
    ['To the porch', { leastM: 0.02, mostM: 0.02 }],
    ['Exterior door', { leastM: 0.014, mostM: 0.03 }],
  ]);
});
