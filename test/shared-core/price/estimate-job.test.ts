import type { TaskHours } from '../../../shared-core/material/crew-hours.ts';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { EstimateChoices } from '../../../shared-core/book/job.ts';
import { quoteSchema } from '../../../shared-core/book/quote.ts';
import { shoppingList } from '../../../shared-core/material/shopping.ts';
import { type EstimateRecords, estimateJob } from '../../../shared-core/price/estimate-job.ts';
import { issueQuote } from '../../../shared-core/price/issue-quote.ts';
import { pricePerArea } from '../../../shared-core/price/common-band.ts';
import { missingForPrice } from '../../../shared-core/price/missing-for-price.ts';
import { quoteDifferences } from '../../../shared-core/price/quote-differences.ts';
import { quotedPrice, suggestedOption } from '../../../shared-core/price/quoted-price.ts';
import { answerQuote, standingAt } from '../../../shared-core/price/quote-state.ts';
import { sampleAt } from '../../sample-at.ts';
import { CU_FT_M3, IN_M, SQ_FT_M2 } from '../../reference/material-facts.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const book = sampleAt(NOW);
const business = book.business[0];
if (business === undefined) throw new Error('the sample has no business');

/** Every job of the sample with its records. */
const jobs = book.jobs.map((job) => {
  const property = book.properties.find((p) => p.id === job.propertyId);
  const customer = book.customers.find((c) => c.id === job.customerId);
  if (property === undefined || customer === undefined) throw new Error('the sample is not whole');
  return { business, property, customer, rooms: book.rooms, job, materials: book.materials };
});
type Records = (typeof jobs)[number];
const found = jobs.find((records) => estimateJob(records, '2026-05-12').ready);
if (found === undefined) throw new Error('no job of the sample can be quoted');
const ready: Records = found;

function wholeMinor(value: unknown, path = ''): void {
  if (typeof value === 'number' && /Minor$/.test(path)) expect(Number.isSafeInteger(value), path).toBe(true);
  if (Array.isArray(value)) for (const item of value) wholeMinor(item, path);
  else if (value !== null && typeof value === 'object' && !ArrayBuffer.isView(value))
    for (const [key, item] of Object.entries(value)) wholeMinor(item, key);
}

function addsUp(records: EstimateRecords): void {
  for (const { price } of estimateJob(records, '2026-05-12').options) {
    const sum = (of: readonly number[]) => of.reduce((a, b) => a + b, 0);
    expect(sum(price.lines.map((line) => line.priceMinor))).toBe(price.netMinor + price.discountMinor);
    expect(sum(price.lines.map((line) => line.netMinor))).toBe(price.netMinor);
    expect(sum(price.rooms.map((room) => room.allInMinor))).toBe(price.netMinor);
    expect(price.netMinor + sum(price.taxes.map((tax) => tax.taxMinor))).toBe(price.totalMinor);
    expect(sum(price.stages.map((stage) => stage.amountMinor))).toBe(price.totalMinor);
    expect(price.range.leastMinor).toBeLessThanOrEqual(price.netMinor);
    expect(price.range.mostMinor).toBeGreaterThanOrEqual(price.netMinor);
    wholeMinor(price);
  }
}

function issued(records: Records = ready) {
  const read = issueQuote(records, { id: 'quote-one', instant: NOW, by: 'Owner', note: '', earlier: [] });
  if (!read.ok) throw new Error(read.message);
  return read.value.quote;
}

it('states the margin that a price leaves where a discount, the minimum charge or a changed line moves it', () => {
  const { job, business } = ready;
  const bare: EstimateChoices = { ...job.estimate, discountMinor: 0, overrides: [], options: [], suggestedOptionId: null };
  const pricing = { ...business.pricing, method: 'markup' as const, share: 0.35, minimumChargeMinor: 0 };
  const words = (estimate: Partial<EstimateChoices>, of: Partial<typeof pricing> = {}) => {
    const records = {
      ...ready,
      business: { ...business, pricing: { ...pricing, ...of } },
      job: { ...job, estimate: { ...bare, ...estimate } },
    };
    return estimateJob(records, '2026-05-12').suggested.price;
  };
  const plain = words({});
  expect(plain.marginWords).toBe('');
  // A price of 1.35 times the cost, and the margin by its definition: what is left of the price, over the price.
  const share = (netMinor: number) => `${(((netMinor - plain.costMinor) / netMinor) * 100).toFixed(1).replace(/\.0$/, '')}%`;
  const net = plain.netMinor;
  expect(words({ discountMinor: 13_777 }).marginWords).toBe(`With the discount, your margin is ${share(net - 13_777)}.`);
  const least = { minimumChargeMinor: net + 50_000 };
  expect(words({}, least).marginWords).toBe(`With the minimum charge, your margin is ${share(net + 50_000)}.`);
  expect(words({ discountMinor: 20_000 }, least).marginWords).toBe(
    `With the minimum charge and the discount, your margin is ${share(net + 30_000)}.`,
  );
  const [line] = plain.lines;
  if (line === undefined) throw new Error('a line');
  const override = { lineKey: line.key, costMinor: null, priceMinor: line.priceMinor + 30_000, leftOut: false, note: 'Agreed' };
  expect(words({ overrides: [override] }).marginWords).toBe(`With the changed lines, your margin is ${share(net + 30_000)}.`);
});

describe('the estimate of a job', () => {
  it('adds up to the minor unit in every job of the sample', () => {
    for (const records of jobs) addsUp(records);
  });
  // Common practice, no source: prep is done before the day of the pour, by the owner, and the helpers come for the pour.
  it('has a day before the first lift, and more where the owner’s hours of prep need them', () => {
    const daysWith = (to: string): number => {
      const hours = { ...business.hours, from: '08:00', to };
      return estimateJob({ ...ready, business: { ...business, hours } }, '2026-05-12').base.days;
    };
    const { base } = estimateJob(ready, '2026-05-12');
    const lifts = Math.max(1, ...base.takeoff.rooms.map((room) => room.lifts?.count ?? 0));
    const isBefore = ({ key }: TaskHours): boolean => !['stage', 'set-up', 'pour', 'seal'].includes(key);
    const prep = base.takeoff.rooms.flatMap(({ hours }) => hours).filter(isBefore);
    // The times of a square meter abraded and of high spots cut down, as Prep has them: their price is by area, their hours are worked.
    const surface = base.takeoff.rooms.reduce(
      (sum, { room, betweenLiftsM2 }) => sum + 0.12 * (room.abradeM2 + betweenLiftsM2) + 0.5 * room.grind.areaM2,
      0,
    );
    expect(surface).toBeGreaterThan(2);
    const prepHours = prep.reduce((sum, task) => sum + task.ownHours, surface);
    expect(prepHours).toBeGreaterThan(4);
    expect(daysWith('23:00')).toBe(Math.ceil(prepHours / 15) + lifts);
    expect(daysWith('09:00')).toBe(Math.ceil(prepHours) + lifts);
    expect(daysWith('10:00')).toBe(Math.ceil(prepHours / 2) + lifts);
  });
  it('adds up for any pricing method, in currencies of no, two and three digits', () => {
    fc.assert(
      fc.property(
        fc.record({
          method: fc.constantFrom('markup' as const, 'margin' as const),
          rounding: fc.constantFrom('line' as const, 'total' as const),
          share: fc.integer({ min: 0, max: 90 }).map((n) => n / 100),
          contingencyShare: fc.integer({ min: 0, max: 30 }).map((n) => n / 100),
          depositShare: fc.integer({ min: 0, max: 100 }).map((n) => n / 100),
          minimumChargeMinor: fc.integer({ min: 0, max: 900_000 }),
        }),
        fc.integer({ min: 0, max: 20_000 }),
        fc.constantFrom('USD', 'JPY', 'KWD'),
        (pricing, discountMinor, currency) => {
          addsUp({
            ...ready,
            business: { ...business, currency, pricing: { ...business.pricing, ...pricing } },
            job: { ...ready.job, estimate: { ...ready.job.estimate, discountMinor } },
          });
        },
      ),
      { numRuns: 25 },
    );
  });
  it('keeps a price entered by hand, and leaves out a line on request', () => {
    const plain = estimateJob(ready, '2026-05-12').base.price;
    const [first, second] = plain.lines;
    if (first === undefined || second === undefined) throw new Error('too few lines');
    const overrides = [
      { lineKey: first.key, costMinor: null, priceMinor: 12_345, leftOut: false, note: 'Agreed' },
      { lineKey: second.key, costMinor: null, priceMinor: null, leftOut: true, note: 'Customer’s own' },
      { lineKey: 'nowhere', costMinor: 1, priceMinor: null, leftOut: false, note: 'Old' },
    ];
    const changed = estimateJob({ ...ready, job: { ...ready.job, estimate: { ...ready.job.estimate, overrides } } }, '2026-05-12').base
      .price;
    expect(changed.lines.find((line) => line.key === first.key)?.priceMinor).toBe(12_345);
    expect(changed.lines.find((line) => line.key === second.key)).toMatchObject({ priceMinor: 0, leftOut: true });
    expect(changed.problems.some((problem) => problem.key === 'override:nowhere')).toBe(true);
  });
  it('reports a changed figure that fits no line of any option, and none that fits another option’s', () => {
    const records = jobs.find(({ job }) => job.estimate.options.length > 1);
    const option = records?.job.estimate.options[0];
    const room = records?.job.rooms[0];
    if (records === undefined || option === undefined || room === undefined) throw new Error('A job of the sample has options.');
    const unused = (...lineKeys: string[]) => {
      const overrides = lineKeys.map((lineKey) => ({ lineKey, costMinor: null, priceMinor: 100, leftOut: false, note: 'Agreed' }));
      const { base } = estimateJob({ ...records, job: { ...records.job, estimate: { ...records.job.estimate, overrides } } }, '2026-05-12');
      return base.price.problems.flatMap(({ key }) => (key.startsWith('override:') ? [key.slice('override:'.length)] : []));
    };
    const own = [`${option.id}/${room.roomId}/no-such-line`, `${room.roomId}/no-such-line`];
    expect(unused(...own)).toEqual([]);
    expect(unused(...own, `old/${option.id}/`, `old/${room.roomId}/`)).toEqual([`old/${option.id}/`, `old/${room.roomId}/`]);
  });
  describe('with a moisture mitigation system', () => {
    const [room] = ready.job.rooms;
    const system = book.materials.find(({ kind }) => kind === 'moisture-barrier');
    // A mitigation system is non-porous, and so is the primer over it.
    const primer = book.materials.find(({ primer: uses }) => uses.some(({ substrate }) => substrate === 'non-porous'));
    if (room === undefined || system === undefined || primer === undefined) throw new Error('the sample lacks a data sheet');
    const rooms = ready.job.rooms.map((r) => ({ ...r, primerId: primer.id, moistureSystemId: system.id }));
    // Later lifts go on new underlayment, which is porous.
    const uses = [...primer.primer, ...primer.primer.slice(0, 1).map((use) => ({ ...use, substrate: 'porous' as const }))];
    const sheets = ready.materials.map((m) => (m.id === primer.id ? { ...m, primer: uses } : m));
    const records = { ...ready, materials: sheets, job: { ...ready.job, rooms } };
    const chosen = [room.materialId, primer.id, system.id];

    it('keeps its figures and its price when its data sheets are archived, and says so', () => {
      const materials = records.materials.map((m) => (chosen.includes(m.id) ? { ...m, deletedAt: NOW } : m));
      const [before, after] = [records, { ...records, materials }].map((one) => estimateJob(one, '2026-05-12'));
      expect(after?.ready).toBe(true);
      expect(after?.base.price).toEqual(before?.base.price);
      expect(after?.base.price.lines.some(({ key }) => key.endsWith('/mitigation'))).toBe(true);
      const told = after?.base.problems.filter(({ key }) => key.startsWith('archived-sheet:')) ?? [];
      expect(told).toHaveLength(3 * ready.job.rooms.length);
      expect(told.every(({ message }) => message.endsWith('is archived. This job keeps using it until you choose another.'))).toBe(true);
      const frozen = issued({ ...records, materials }).frozen.materials.map(({ id }) => id);
      expect(frozen).toEqual(expect.arrayContaining(chosen));
    });

    it('is priced in the whole kits that the job buys, shared by area', () => {
      const several = jobs.find(({ job }) => job.rooms.length > 1);
      if (several === undefined) throw new Error('the sample has a job of two rooms');
      const two = several.job.rooms.slice(0, 2).map((r) => ({ ...r, primerId: primer.id, moistureSystemId: system.id }));
      const priced = (perContainer: number) => {
        const kit = { ...system, goes: { unit: 'm2' as const, perContainer }, prices: [{ from: '2026-01-01', minor: 10_001, note: '' }] };
        const materials = several.materials.map((one) => (one.id === system.id ? kit : one));
        const { base } = estimateJob({ ...several, materials, job: { ...several.job, rooms: two } }, '2026-05-12');
        const areas = base.rooms.map(({ takeoff }) => takeoff.room.mitigation?.areaM2 ?? 0);
        const lines = base.price.lines.filter(({ key }) => key.endsWith('/mitigation'));
        const list = shoppingList(
          base.rooms.map(({ takeoff }) => takeoff),
          [],
          materials,
        );
        const bought = list.items.find(({ materialId }) => materialId === system.id);
        return { areas, costs: lines.map(({ costMinor }) => costMinor), containers: bought?.containers };
      };
      const [one = 0, other = 0] = priced(1).areas;
      expect(Math.min(one, other)).toBeGreaterThan(0);
      // A kit that covers both rooms and a tenth more is bought once; each room for itself would take one.
      const { costs, containers } = priced((one + other) * 1.1);
      expect(containers).toBe(1);
      expect(costs.reduce((sum, cost) => sum + cost, 0)).toBe(10_001);
      expect(costs[0]).toBeCloseTo((10_001 * one) / (one + other), -1);
    });

    it.each([
      ['material', room.materialId],
      ['primer', primer.id],
      ['moisture mitigation system', system.id],
    ])('has no price while the data sheet of its %s cannot be found', (what, id) => {
      const { base, ready: isReady } = estimateJob({ ...records, materials: ready.materials.filter((m) => m.id !== id) }, '2026-05-12');
      expect(isReady).toBe(false);
      expect(base.problems.find(({ key }) => key === `lost-sheet:${what}`)).toMatchObject({ stops: true });
      expect(base.problems.some(({ message }) => message.includes('is chosen'))).toBe(false);
    });
  });
  it('asks on which side of a removed layer the readings were taken, and still has a price', () => {
    const [jobRoom] = ready.job.rooms;
    const rooms = ready.rooms.map((room) => {
      if (room.id !== jobRoom?.roomId) return room;
      const [layer] = room.layers;
      if (layer === undefined) throw new Error('the room has a floor');
      const { over: _, ...survey } = room.survey;
      const taken = (id: string, material: typeof layer.material) => ({ ...layer, id, material, fate: 'remove' as const });
      return { ...room, survey, layers: [taken('tile', 'ceramic-tile'), taken('bed', 'thinset'), ...room.layers] };
    });
    const { base } = estimateJob({ ...ready, rooms }, '2026-05-12');
    expect(base.problems.filter(({ key }) => key === 'taken-out')).toMatchObject([
      {
        roomId: jobRoom?.roomId,
        stops: false,
        message: expect.stringContaining('ceramic tile, thinset, and carpet come out. Under Readings, choose'),
      },
    ]);
    expect(base.price.totalMinor).toBeGreaterThan(0);
  });
  it('detects a shifted decimal in the price of a bag, and none at 2 to 3 dollars a square foot (common practice, no source)', () => {
    const area = 168 * SQ_FT_M2;
    const depth = (12 * 0.45 * CU_FT_M3) / area;
    expect(depth / IN_M).toBeCloseTo(0.386, 3);
    const verdictAt = (bagMinor: number) =>
      pricePerArea({ priceMinor: 100_000, materialCostMinor: 12 * bagMinor, areaM2: area, meanDepthM: depth }, 'USD', 'us')?.verdict;
    expect(verdictAt(3400)).toBe('usual');
    expect(verdictAt(34_000)).toBe('slip');
    expect(verdictAt(340)).toBe('slip');
  });
});

describe('a quote', () => {
  it('is a valid record, and reads the same when every price has changed since', () => {
    const quote = issued();
    expect(quoteSchema.safeParse(quote).success).toBe(true);
    const estimateOfQuote = (q: typeof quote) => estimateJob(q.frozen, q.issuedAt.slice(0, 10));
    const recalculated = estimateOfQuote(JSON.parse(JSON.stringify(quote)));
    expect(recalculated.suggested.price.totalMinor).toBe(quote.totalMinor);
    const dearer = ready.materials.map((m) => ({ ...m, prices: m.prices.map((p) => ({ ...p, minor: p.minor * 2 })) }));
    expect(estimateJob({ ...ready, materials: dearer }, '2026-05-12').suggested.price.totalMinor).toBeGreaterThan(quote.totalMinor);
    expect(estimateOfQuote(quote).suggested.price.totalMinor).toBe(quote.totalMinor);
  });
  it('freezes the data sheets in use, and none that no room has but sundries', () => {
    const used = new Set(ready.job.rooms.flatMap((room) => [room.materialId, room.primerId, room.moistureSystemId]));
    for (const option of ready.job.estimate.options) for (const room of option.rooms) used.add(room.materialId);
    const [any] = ready.materials.filter(({ id, powder }) => powder !== null && !used.has(id));
    if (any === undefined) throw new Error('The sample has a data sheet that this job does not use.');
    const [other] = ready.materials.filter(({ powder, primer }) => powder === null && primer.length === 0);
    if (other === undefined) throw new Error('The sample has sundries.');
    const sundry = { ...other, id: 'sundry-1', deletedAt: null };
    const archived = { ...sundry, id: 'sundry-2', deletedAt: NOW };
    const materials = [...ready.materials, sundry, archived, { ...any, id: 'powder-unused' }];
    const frozen = issued({ ...ready, materials }).frozen;
    const ids = frozen.materials.map(({ id }) => id);
    expect(ids).toContain('sundry-1');
    expect(ids).not.toContain('sundry-2');
    for (const { id, powder, primer } of materials)
      if (powder !== null || primer.length > 0) expect(ids.includes(id), id).toBe(used.has(id));
    expect(frozen.rooms.map(({ id }) => id).toSorted()).toEqual(ready.job.rooms.map(({ roomId }) => roomId).toSorted());
  });
  it('is accepted while it is valid, and not once it has expired', () => {
    const quote = issued();
    const yes = { state: 'accepted' as const, by: 'Vivian', note: '', optionId: null };
    const accepted = answerQuote(quote, { ...yes, instant: '2026-05-20T10:00:00.000Z' });
    expect(accepted.ok && accepted.value).toMatchObject({ state: 'accepted', acceptedOptionId: 'base' });
    expect(accepted.ok && accepted.value.history.at(-1)).toMatchObject({ state: 'accepted', by: 'Vivian' });
    const late = answerQuote(quote, { ...yes, instant: '2027-05-20T10:00:00.000Z' });
    expect(late.ok ? '' : late.message).toMatch(/expired on .*Issue the next revision/);
    expect(standingAt(quote, '2027-05-20T10:00:00.000Z')).toBe('expired');
    if (accepted.ok) expect(answerQuote(accepted.value, { ...yes, state: 'declined', instant: '2026-05-21T10:00:00.000Z' }).ok).toBe(false);
    expect(answerQuote(quote, { ...yes, by: ' ', instant: '2026-05-20T10:00:00.000Z' }).ok).toBe(false);
    expect(answerQuote(quote, { ...yes, optionId: 'no-such-option', instant: '2026-05-20T10:00:00.000Z' }).ok).toBe(false);
  });
  it('is valid through the last day in the company’s own zone', () => {
    const quote = { ...issued(), validUntil: '2026-06-11' };
    expect(standingAt(quote, '2026-06-12T03:59:00.000Z')).toBe('issued');
    expect(standingAt(quote, '2026-06-12T04:01:00.000Z')).toBe('expired');
  });
  it('supersedes the one before with the next number', () => {
    const first = issued();
    const next = issueQuote(ready, { id: 'quote-two', instant: '2026-05-13T15:00:00.000Z', by: 'Owner', note: '', earlier: [first] });
    expect(next.ok && next.value.quote.revision).toBe(2);
    expect(next.ok && next.value.superseded[0]).toMatchObject({ id: first.id, state: 'superseded' });
  });
  it('is not issued while something is missing', () => {
    const job = { ...ready.job, rooms: ready.job.rooms.map((room) => ({ ...room, materialId: null })) };
    const read = issueQuote({ ...ready, job }, { id: 'quote-one', instant: NOW, by: 'Owner', note: '', earlier: [] });
    expect(read.ok ? '' : read.message).toMatch(/no material is chosen/);
  });
  it('lists what changed in the job with its money, and nothing when nothing changed', () => {
    const priceOf = (records: typeof ready) => quotedPrice(estimateJob(records, '2026-05-12'), records.materials);
    const before = priceOf(ready);
    expect(quoteDifferences(before, before, ready.business)).toMatchObject({
      differences: [],
      text: 'Nothing changed.',
    });
    const rooms = ready.job.rooms.map((room) => ({ ...room, level: { ...room.level, mode: 'follow' as const, followThicknessM: 0.02 } }));
    const after = priceOf({ ...ready, job: { ...ready.job, rooms } });
    const found = quoteDifferences(before, after, ready.business);
    const [from, to] = [suggestedOption(before).totalMinor / 100, suggestedOption(after).totalMinor / 100];
    const money = (amount: number): string => new Intl.NumberFormat('en-US', { style: 'currency', currency: 'USD' }).format(amount);
    const change = `${money(Math.abs(to - from))} ${to > from ? 'more' : 'less'}`;
    expect(found.text).toBe(`The total is ${money(to)}. It was ${money(from)}: ${change}.`);
    const base = found.differences.filter((d) => d.optionId === 'base' && d.kind === 'line');
    const net = (priced: typeof before): number => priced.options.find((o) => o.id === 'base')?.netMinor ?? 0;
    expect(base.reduce((sum, d) => sum + (d.changeMinor ?? 0), 0)).toBe(net(after) - net(before));
    expect(found.differences.some((d) => /bags \(was/.test(d.text))).toBe(true);
  });
  it('has one bag and one lift in the singular', () => {
    const before = quotedPrice(estimateJob(ready, '2026-05-12'), ready.materials);
    const counted = (bags: number, lifts: number): typeof before => ({
      ...before,
      options: before.options.map((option) => ({ ...option, rooms: option.rooms.map((room) => ({ ...room, bags, lifts })) })),
    });
    const texts = quoteDifferences(counted(2, 3), counted(1, 1), ready.business).differences.map(({ text }) => text.replace(/^.*: /, ''));
    expect(texts).toEqual(expect.arrayContaining(['1 bag (was 2).', '1 lift (was 3).']));
    const none = quoteDifferences(counted(1, 1), counted(0, 2), ready.business).differences.map(({ text }) => text.replace(/^.*: /, ''));
    expect(none).toEqual(expect.arrayContaining(['0 bags (was 1).', '2 lifts (was 1).']));
  });
  it('lists changed payments', () => {
    const priceOf = (records: typeof ready) => quotedPrice(estimateJob(records, '2026-05-12'), records.materials);
    const stages = [{ name: 'In full', share: 1, due: 'on-handover' as const }];
    const changed = { ...ready, job: { ...ready.job, estimate: { ...ready.job.estimate, stages } } };
    const found = quoteDifferences(priceOf(ready), priceOf(changed), ready.business);
    expect(found.text).toMatch(/^The total is still /);
    expect(found.differences.some((d) => d.text.startsWith('Payments: In full $'))).toBe(true);
  });
  it('has no total while a room has no volume, and names the room', () => {
    expect(missingForPrice(estimateJob(ready, '2026-05-12'))).toEqual([]);
    const rooms = ready.rooms.map((room) => ({ ...room, survey: { ...room.survey, readings: [] } }));
    const missing = missingForPrice(estimateJob({ ...ready, rooms }, '2026-05-12'));
    expect(missing.length).toBe(ready.job.rooms.length);
    for (const room of ready.rooms.filter((r) => ready.job.rooms.some((j) => j.roomId === r.id)))
      expect(missing.some((text) => text.startsWith(`${room.name}: `))).toBe(true);
  });
  it('refuses readings dated after the quote', () => {
    const [first] = ready.job.rooms;
    const rooms = ready.rooms.map((room) =>
      room.id === first?.roomId ? { ...room, survey: { ...room.survey, takenAt: '2026-05-20T15:00:00.000Z' } } : room,
    );
    const read = issueQuote({ ...ready, rooms }, { id: 'quote-one', instant: NOW, by: 'Owner', note: '', earlier: [] });
    expect(read.ok ? '' : read.message).toMatch(/dated after this quote/);
  });
});
