/** Materials on hand: balances compared with a running sum, and worked examples made for the test. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SignedItem } from '../../../shared-core/book/job.ts';
import type { LedgerEntry, Purchase, StockChange } from '../../../shared-core/book/ledger.ts';
import { newJob } from '../../../shared-core/book/new-records.ts';
import { type JobNeed, onlyJob, reserve, shoppingBySupplier } from '../../../shared-core/ledger/shopping-day.ts';
import {
  aggregateUses,
  onHand,
  pourUses,
  prepUses,
  takeable,
  usableOn,
  type MaterialUse,
  stockOn,
} from '../../../shared-core/ledger/stock.ts';
import { typicalMaterials } from '../../../shared-core/material/typical-materials.ts';
import { aPour, entry, theEnd } from '../pour/journal-entries.ts';
import { purchase } from './entries.ts';

const TODAY = '2026-12-31';
const bought = (id: string, onDay: string, quantity: number, lot: string, expiresOn: string | null = null): Purchase => ({
  ...purchase(id, []),
  onDay,
  lines: [{ text: 'Bags', quantity, unit: 'bag', amountMinor: quantity * 3400, materialId: 'fine', lot, expiresOn }],
});
const stock = (id: string, onDay: string, change: StockChange['what'], containers: number, lot = ''): StockChange => {
  const {
    kind: _kind,
    supplier: _s,
    category: _c,
    lines: _l,
    taxMinor: _t,
    method: _m,
    reference: _r,
    photoIds: _p,
    ...own
  } = purchase(id, []);
  return { ...own, jobId: null, onDay, kind: 'stock', what: change, materialId: 'fine', lot, expiresOn: null, containers };
};
const use = (onDay: string, containers: number, lots: string[] = []): MaterialUse => ({
  ...{ materialId: 'fine', jobId: 'job-1', containers, lots, onDay, at: `${onDay}T16:00:00Z` },
});

describe('materials on hand', () => {
  it('keeps lots separate and uses the lot that the pour log names', () => {
    const entries = [bought('a', '2026-03-01', 20, 'L1', '2026-08-01'), bought('b', '2026-03-02', 10, 'L2', '2026-06-01')];
    const { lots, unrecorded } = stockOn(entries, [use('2026-03-10', 12, ['L1'])], TODAY);
    expect(lots.map(({ lot, containers }) => [lot, containers])).toEqual([
      ['L2', 10],
      ['L1', 8],
    ]);
    expect(unrecorded.size).toBe(0);
  });
  it('uses what expires first where no lot is named, and reports what was never recorded as bought', () => {
    const entries = [bought('a', '2026-03-01', 5, 'late', '2027-01-01'), bought('b', '2026-03-01', 5, 'soon', '2026-06-01')];
    expect(stockOn(entries, [use('2026-03-10', 6)], TODAY).lots).toMatchObject([{ lot: 'late', containers: 4 }]);
    expect(stockOn(entries, [use('2026-03-10', 13)], TODAY).unrecorded.get('fine')).toBe(3);
  });
  it('returns what a pour did not use to stock without an entry, and ignores a voided purchase', () => {
    const entries = [bought('a', '2026-03-01', 20, 'L1')];
    expect(usableOn(stockOn(entries, [use('2026-03-10', 17)], TODAY), 'fine', TODAY)).toBe(3);
    const voided = entries.map((entry): LedgerEntry => ({ ...entry, voidedAt: '2026-03-02T00:00:00Z' }));
    expect(stockOn(voided, [], TODAY).lots).toEqual([]);
  });
  it('sets a lot to its count, and excludes expired lots', () => {
    const entries = [bought('a', '2026-03-01', 20, 'L1', '2026-05-01'), stock('c', '2026-03-05', 'counted', 18.5, 'L1')];
    const found = stockOn(entries, [], TODAY);
    expect(usableOn(found, 'fine', '2026-05-01')).toBe(18.5);
    expect(usableOn(found, 'fine', '2026-05-02')).toBe(0);
  });
  // An entry is of the lot it names, as the bags are that someone counted or carried out: common practice, no source.
  it('takes an entry from its own lot alone', () => {
    const entries = [bought('a', '2026-03-01', 2, 'P1'), bought('b', '2026-03-01', 1.5, 'P2')];
    const after = (change: 'used' | 'spoiled' | 'returned', lot: string) => {
      const { lots, unrecorded } = stockOn([...entries, stock('c', '2026-03-05', change, 3, lot)], [], TODAY);
      return [lots.map((one) => [one.lot, one.containers]), unrecorded.get('fine')];
    };
    for (const change of ['used', 'spoiled', 'returned'] as const) expect(after(change, 'P2')).toEqual([[['P1', 2]], 1.5]);
    expect(after('used', '')).toEqual([[['P2', 0.5]], undefined]);
    const now = stockOn(entries, [], TODAY);
    expect([takeable(now, 'fine', 'P2'), takeable(now, 'fine', ''), takeable(now, 'fine', 'P3')]).toEqual([1.5, 3.5, 0]);
  });
  it('lets an entry take from its own material alone, of any lot where it names none', () => {
    const lot = (materialId: string, name: string, containers: number) => ({ materialId, lot: name, containers, expiresOn: null });
    const lots = [lot('fine', 'A', 2), lot('deep', 'A', 16), lot('fine', '', 1), lot('fine', 'B', 4), lot('deep', 'B', 8)];
    expect(['', 'A', 'B'].map((name) => takeable({ lots }, 'fine', name))).toEqual([7, 2, 4]);
    expect(usableOn({ lots }, 'deep', TODAY)).toBe(24);
  });
  it('adds up: bought less used, returned and spoiled is on hand plus what was never recorded', () => {
    const day = fc.integer({ min: 1, max: 28 }).map((d) => `2026-04-${String(d).padStart(2, '0')}`);
    const lot = fc.constantFrom('', 'A', 'B');
    const move = fc.tuple(day, fc.constantFrom('bought', 'used', 'returned', 'spoiled', 'poured'), fc.integer({ min: 1, max: 30 }), lot);
    fc.assert(
      fc.property(fc.array(move, { maxLength: 30 }), (moves) => {
        const entries = moves.flatMap(([onDay, change, n, lot], i): LedgerEntry[] =>
          change === 'poured'
            ? []
            : [change === 'bought' ? bought(`e${i}`, onDay, n, lot) : stock(`e${i}`, onDay, change as StockChange['what'], n, lot)],
        );
        const uses = moves.flatMap(([onDay, change, n, lot]) => (change === 'poured' ? [use(onDay, n, lot === '' ? [] : [lot])] : []));
        const sum = moves.reduce((total, [, change, n]) => total + (change === 'bought' ? n : -n), 0);
        const found = stockOn(entries, uses, TODAY);
        expect(usableOn(found, 'fine', TODAY) - (found.unrecorded.get('fine') ?? 0)).toBeCloseTo(sum, 9);
        for (const one of found.lots) expect(one.containers).toBeGreaterThan(0);
      }),
    );
  });
});

const [FINE] = typicalMaterials((slug) => slug, '2026-03-01T00:00:00Z', 'UTC');
const need = (jobNumber: string, pourDay: string | null, bags: number): JobNeed => ({
  ...{
    jobId: jobNumber,
    jobNumber,
    pourDay,
    materialId: FINE?.id ?? '',
    amount: bags * 20,
    each: 20,
    words: `${bags} bags`,
    rooms: ['Hall'],
  },
});
const hand = (containers: number, expiresOn: string | null = null) => ({
  lots: [{ materialId: FINE?.id ?? '', lot: 'L', expiresOn, containers }],
  unrecorded: new Map<string, number>(),
});

describe('the shopping list', () => {
  it('reserves each container once, for the pour that comes first', () => {
    const found = reserve(
      [need('26-002', '2026-05-20', 10), need('26-001', '2026-05-14', 8), need('26-003', null, 5)],
      hand(12),
      '2026-05-12',
    );
    expect(found.map(({ jobNumber, reserved, missing }) => [jobNumber, reserved, missing])).toEqual([
      ['26-001', 8, 0],
      ['26-002', 4, 6],
      ['26-003', 0, 5],
    ]);
  });
  it('never reserves more than is on hand, nor a lot that expires before the pour', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 40 }), { maxLength: 12 }), fc.integer({ min: 0, max: 200 }), (bags, onHand) => {
        const found = reserve(
          bags.map((n, i) => need(`26-${i}`, `2026-05-${10 + i}`, n)),
          hand(onHand),
          '2026-05-10',
        );
        const wanted = bags.reduce((a, b) => a + b, 0);
        expect(found.reduce((sum, one) => sum + one.reserved, 0)).toBeCloseTo(Math.min(onHand, wanted), 9);
      }),
    );
    expect(reserve([need('26-001', '2026-05-14', 8)], hand(20, '2026-05-13'), '2026-05-12')[0]?.reserved).toBe(0);
  });
  it('reserves no expired lot for a job whose pour has no day, or a day gone by', () => {
    const on = (today: string, pourDay: string | null) => reserve([need('26-001', pourDay, 8)], hand(20, '2026-05-13'), today)[0]?.reserved;
    expect([on('2026-05-13', null), on('2026-05-14', null), on('2026-05-14', '2026-05-11')]).toEqual([8, 0, 0]);
  });
  it('adds what a day’s jobs lack before rounding to whole containers, and prices them', () => {
    if (FINE === undefined) throw new Error('no material');
    const found = reserve([need('26-001', '2026-05-14', 4.5), need('26-002', '2026-05-14', 4.4)], hand(1), '2026-05-12');
    // By hand: 4.5 + 4.4 less 1 on hand is 7.9, so 8 bags at 34.00.
    const [list] = shoppingBySupplier(found, [{ ...FINE, supplier: 'Tarrow Falls Supply' }], () => 3400);
    expect(list).toMatchObject({ supplier: 'Tarrow Falls Supply', totalMinor: 27_200 });
    expect(list?.lines[0]).toMatchObject({ buy: 8, fromStock: 1, costMinor: 27_200 });
  });
});

it('lists suppliers and lines by name, what has no supplier last, in whatever order the jobs need it', () => {
  const [typical] = typicalMaterials((slug) => slug, '2026-03-01T12:00:00.000Z', 'UTC');
  if (typical === undefined) throw new Error('There is a typical material.');
  const sold = (id: string, supplier: string) => ({ ...typical, id, name: `Material ${id}`, supplier });
  const materials = [
    sold('c', 'Wend Supply'),
    sold('a', ''),
    sold('d', 'Alder Supply'),
    sold('b', 'Wend Supply'),
    sold('e', 'Orrin Supply'),
  ];
  const need = (materialId: string, jobNumber: string) => ({
    ...{ jobNumber, pourDay: '2026-03-02', materialId, amount: 44, each: 22, rooms: ['Hall'], reserved: 0, missing: 2 },
  });
  const needs = [need('c', '26-001'), need('a', '26-001'), need('e', '26-002'), need('d', '26-002'), need('b', '26-002')];
  for (const some of [needs, needs.toReversed()])
    expect(
      shoppingBySupplier(some, materials, ({ id }) => (id === 'e' ? null : 3400)).map(({ supplier, lines, totalMinor }) => [
        supplier,
        lines.map(({ materialId }) => materialId).join(''),
        totalMinor,
      ]),
    ).toEqual([
      ['Alder Supply', 'd', 6800],
      ['Orrin Supply', 'e', 0],
      ['Wend Supply', 'bc', 13_600],
      ['', 'a', 6800],
    ]);
});

it('knows the job of a purchase where every line is for the same one', () => {
  const line = (...numbers: string[]) => ({ jobs: numbers.map((jobNumber) => ({ jobNumber, rooms: [] })) });
  expect([
    onlyJob([line('26-001'), line('26-001', '26-001')]),
    onlyJob([line('26-001'), line('26-002')]),
    onlyJob([line('26-001', '26-002')]),
    onlyJob([]),
  ]).toEqual(['26-001', null, null, null]);
});

describe('a day with a pour', () => {
  const DAY = '2026-03-10';
  const at = <E extends LedgerEntry>(ledgerEntry: E, clock: string): E => ({ ...ledgerEntry, createdAt: `${DAY}T${clock}:00Z` });
  const poured = { ...use(DAY, 38), at: `${DAY}T14:00:00Z` };
  const receipt = at(bought('receipt', DAY, 40, 'L1'), '22:00');
  const left = (...entries: LedgerEntry[]): (number | undefined)[] => {
    const found = stockOn(entries, [poured], TODAY);
    return [onHand(found, 'fine'), found.unrecorded.get('fine')];
  };

  it('counts a receipt recorded in the evening before the bags that were used', () => {
    expect(left(receipt)).toEqual([2, undefined]);
    // Eight bags of an older lot: 48 less 38.
    expect(left(at(bought('old', '2026-03-02', 8, 'L0'), '12:00'), receipt)).toEqual([10, undefined]);
  });

  it('keeps a count at its moment: what is bought after it is more, and what it counted is not bought twice', () => {
    const counted = (clock: string, n: number): LedgerEntry => at(stock('counted', DAY, 'counted', n, 'L1'), clock);
    // Three counted in the morning, 40 bought, 38 used.
    expect(left(counted('11:00', 3), receipt)).toEqual([5, undefined]);
    // Two counted after the pour are the last of the 40.
    expect(left(counted('18:00', 2), receipt)).toEqual([2, undefined]);
    expect(left(receipt, counted('23:00', 1))).toEqual([1, undefined]);
  });

  it('does not let a purchase of another day make good what was missing', () => {
    expect(left({ ...receipt, onDay: '2026-03-11' })).toEqual([40, 38]);
  });
});

describe('what signed prep lines took', () => {
  const job = newJob(
    { id: 'job-1', now: '2026-03-01T12:00:00Z' },
    { number: '26-001', title: 'Hall', customerId: 'c', propertyId: 'p', roomIds: ['hall', 'bath'], depositShare: 0 },
  );
  const signed = (itemKey: string, day: string, containers: number, withdrawnAt: string | null = null): SignedItem => ({
    ...{ itemKey, doneAt: `${day}T15:00:00Z`, initials: 'RT', note: '', signedText: itemKey, photoIds: [], withdrawnAt },
    used: [{ materialId: 'fine', containers }],
  });
  const left = (entries: readonly LedgerEntry[], ...lines: SignedItem[]): (number | undefined)[] => {
    const jobs = [{ ...job, rooms: job.rooms.map((room, i) => (i === 0 ? { ...room, signed: lines } : room)) }];
    const found = stockOn(
      entries,
      prepUses(jobs, entries, (at) => at.slice(0, 10)),
      TODAY,
    );
    return [onHand(found, 'fine'), found.unrecorded.get('fine')];
  };
  const jugs = [bought('jugs', '2026-03-02', 3, '')];

  it('is gone from stock, and back once the signature is voided', () => {
    expect(left(jugs, signed('prime', '2026-03-05', 0.2))).toEqual([2.8, undefined]);
    expect(left(jugs, signed('prime', '2026-03-05', 0.2, '2026-03-05T16:00:00Z'))).toEqual([3, undefined]);
  });

  it('is one amount for a line that was signed again, and one for each priming', () => {
    expect(left(jugs, signed('dams', '2026-03-05', 0.5), signed('dams', '2026-03-06', 1))).toEqual([2, undefined]);
    expect(left(jugs, signed('prime', '2026-03-05', 0.5), signed('prime', '2026-03-06', 1))).toEqual([1.5, undefined]);
  });

  // What was counted is what is there, whatever is signed of the work done before: common practice, no source.
  it('is taken on the day it was first signed for, and only what is more on the day it was signed again', () => {
    const counts = [stock('first', '2026-11-01', 'counted', 10), stock('later', '2026-11-10', 'counted', 8)];
    const again = (containers: number): SignedItem => signed('dams', '2026-11-12', containers);
    expect(left(counts, signed('dams', '2026-11-05', 2), again(2))).toEqual([8, undefined]);
    expect(left(counts, signed('dams', '2026-11-05', 2), again(3))).toEqual([7, undefined]);
    expect(left(counts, signed('dams', '2026-11-05', 2), again(1))).toEqual([8, undefined]);
    // Used before the material was kept in stock.
    expect(left(jugs, signed('dams', '2026-03-01', 1), signed('dams', '2026-03-05', 1))).toEqual([3, undefined]);
    // A voided signature is none of the earlier ones.
    expect(left(counts, signed('dams', '2026-11-05', 2, '2026-11-11T16:00:00Z'), again(2))).toEqual([6, undefined]);
  });

  it('is not missed before the material was first bought or counted', () => {
    expect(left([], signed('prime', '2026-03-05', 0.2))).toEqual([0, undefined]);
    expect(left(jugs, signed('prime', '2026-03-01', 0.2))).toEqual([3, undefined]);
    // A receipt recorded in the evening of the day it was used.
    expect(left(jugs, signed('prime', '2026-03-02', 0.2))).toEqual([2.8, undefined]);
    expect(left(jugs, signed('prime', '2026-03-05', 4))).toEqual([0, 1]);
  });
});

describe('what a pour took', () => {
  const pour = { ...aPour, bagsOnSite: 60, finishedAt: entry(19).instant };
  const batches = Array.from({ length: 19 }, (_, i) => entry(i + 1));
  const { instant, pourId } = entry(20);
  const count = (seq: number, bags: number) => ({
    ...{ id: `count-${seq}`, pourId, seq, instant, estimated: false, kind: 'counted' as const, bags, by: '', why: '' },
  });
  const finished = (bagsLeft: number | null) => ({ ...theEnd(30), kind: 'finished' as const, bagsLeft });
  const taken = (bagsOnSite: number, ...log: Parameters<typeof pourUses>[1][number][]): number | undefined =>
    pourUses([{ ...pour, bagsOnSite }], [...batches, ...log], () => '2026-05-12')[0]?.containers;

  it('is what was mixed while nothing was counted: 19 batches of 2', () => {
    expect(taken(60, finished(null))).toBe(38);
  });

  it('is the aggregate of the bags mixed too, from the first purchase of it on', () => {
    // 38 bags of powder, each with half a bag of aggregate. By hand.
    const mixed = { ...pour, asPoured: { ...pour.asPoured, aggregate: { materialId: 'fine', containersPerBag: 0.5 } } };
    const left = (boughtOn: string) => {
      const entries = [bought('g', boughtOn, 30, '')];
      return onHand(
        stockOn(
          entries,
          aggregateUses([mixed], batches, entries, () => '2026-05-12'),
          TODAY,
        ),
        'fine',
      );
    };
    expect([left('2026-05-10'), left('2026-05-13')]).toEqual([11, 30]);
    expect(aggregateUses([pour], batches, [bought('g', '2026-05-10', 30, '')], () => '2026-05-12')).toEqual([]);
  });

  it('is what was brought less what was counted at the end, or during the pour', () => {
    expect(taken(60, finished(18))).toBe(42);
    // 25 counted after 19 batches, then one batch of two more: 23 left of 60.
    expect(taken(60, count(20, 25), entry(21), finished(null))).toBe(37);
    expect(taken(60, count(20, 25), finished(18))).toBe(42);
  });

  it('is what was mixed where fewer were brought than that, or than were counted', () => {
    expect(taken(20, finished(5))).toBe(38);
    expect(taken(40, finished(45))).toBe(38);
  });
});
