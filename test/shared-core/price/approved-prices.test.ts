/**
 * What an estimate comes to when one field of its records is another: bags, water, weight, hours, lines, tax, payments and what to buy, as last
 * approved: a guard against a change that nobody meant. A line names the field, and what reads differently. After a change that was
 * meant, run `npx vitest run --config build/vitest.config.ts test/shared-core/price/approved -u` and read the difference.
 */
import { expect, it } from 'vitest';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { shoppingList } from '../../../shared-core/material/shopping.ts';
import { estimateJob } from '../../../shared-core/price/estimate-job.ts';
import { quotedPrice } from '../../../shared-core/price/quoted-price.ts';
import { factLines, letterSum } from '../fact-lines.ts';
import { wholeOf } from '../job-variants.ts';
import { changesOf } from '../record-changes.ts';

const DAY = '2026-11-13';

function facts(whole: WholeJob): readonly string[] {
  const estimate = estimateJob(whole, DAY);
  const { ready, options } = estimate;
  return factLines({
    ready,
    ...Object.fromEntries(
      options.flatMap(({ id, rooms, takeoff: { rooms: taken, ...all }, price: { lines, ...price }, problems, ...option }) => [
        [id, option],
        [`${id} takeoff`, all],
        [`${id} price`, price],
        ...lines.map((line) => [`${id} line ${line.key}`, line] as const),
        ...problems.map((problem) => [`${id} problem ${problem.key}`, problem] as const),
        ...shoppingList(taken, whole.job.estimate.added, whole.materials).items.map((item) => [`${id} buy ${item.key}`, item] as const),
        ...taken.flatMap((one) => Object.entries(one).map(([key, value]) => [`${id} ${one.room.roomName} ${key}`, value] as const)),
        ...rooms.map((room) => [`${id} ${room.roomId} flat`, [room.flatness, room.ballpark]] as const),
      ]),
    ),
    quoted: quotedPrice(estimate, whole.materials).options.map(({ lines: _, rooms: __, ...option }) => option),
  });
}

const SKIP =
  /survey|\.plan\b|pourPlan|signed|overrides#|rampThrough|lienRules|contract|ownTimes|taskTimes|\.hours|milestones|lienDone|overlays|calendar|reminders/;

/** A job with its choices changed, and each field of its records: of those of its price, or of all. */
function* changed(whole: WholeJob, of: 'price' | 'all'): Generator<readonly [string, WholeJob]> {
  for (const [name, change] of CHOICES) yield [name, change(whole)];
  const used = new Set(whole.job.rooms.flatMap((room) => [room.materialId, room.primerId, room.moistureSystemId ?? null]));
  for (const [name, business] of changesOf('business', whole.business, { skip: SKIP })) yield [name, { ...whole, business }];
  for (const [name, property] of changesOf('properties', whole.property, { skip: SKIP })) yield [name, { ...whole, property }];
  for (const [name, job] of changesOf('jobs', whole.job, { skip: SKIP })) yield [name, { ...whole, job }];
  if (of === 'price') return;
  for (const [i, material] of whole.materials.entries())
    if (used.has(material.id))
      for (const [name, other] of changesOf('materials', material, { skip: SKIP, others: whole.materials }))
        yield [`${material.kind} ${name}`, { ...whole, materials: whole.materials.with(i, other) }];
  const seen = new Set<string>();
  for (const [i, room] of whole.rooms.entries())
    for (const [name, other] of changesOf('rooms', room, { skip: SKIP, others: whole.rooms })) {
      if (seen.has(name)) continue;
      seen.add(name);
      yield [name, { ...whole, rooms: whole.rooms.with(i, other) }];
    }
}

const withChoices = (whole: WholeJob, estimate: Partial<WholeJob['job']['estimate']>): WholeJob => ({
  ...whole,
  job: { ...whole.job, estimate: { ...whole.job.estimate, ...estimate } },
});
const priced = (whole: WholeJob, pricing: Partial<WholeJob['business']['pricing']>): WholeJob => ({
  ...whole,
  business: { ...whole.business, pricing: { ...whole.business.pricing, ...pricing } },
});
const leveled = (whole: WholeJob, level: Partial<WholeJob['job']['rooms'][number]['level']>): WholeJob => ({
  ...whole,
  job: { ...whole.job, rooms: whole.job.rooms.map((room) => ({ ...room, level: { ...room.level, ...level } })) },
});
const override = (lineKey: string, over: object) => ({
  ...{ lineKey, costMinor: null, priceMinor: null, leftOut: false, note: 'agreed' },
  ...over,
});
const added = (id: string, over: object) => ({
  ...{ id, roomId: null, name: 'Rented grinder', kind: 'other' as const, costMinor: 12_000, taxId: null },
  ...over,
});

/** Choices that the sample has not made. */
const CHOICES: readonly (readonly [string, (whole: WholeJob) => WholeJob])[] = [
  ['a discount', (whole) => withChoices(whole, { discountMinor: 12_345 })],
  ['a discount over the price', (whole) => withChoices(whole, { discountMinor: 99_999_999 })],
  ['payments that do not add up', (whole) => withChoices(whole, { stages: [{ name: 'Half', share: 0.5, due: 'before-pour' }] })],
  [
    'three payments',
    (whole) =>
      withChoices(whole, {
        stages: [
          { name: 'Deposit', share: 1 / 3, due: 'on-acceptance' },
          { name: 'Second', share: 1 / 3, due: 'after-pour' },
          { name: 'Rest', share: 1 / 3, due: 'on-handover' },
        ],
      }),
  ],
  ['a price by hand', (whole) => withChoices(whole, { overrides: [override('travel', { priceMinor: 5_000 })] })],
  ['a cost by hand', (whole) => withChoices(whole, { overrides: [override('travel', { costMinor: 5_000 })] })],
  ['a line left out', (whole) => withChoices(whole, { overrides: [override('travel', { leftOut: true })] })],
  ['a line given away', (whole) => withChoices(whole, { overrides: [override('travel', { priceMinor: 0 })] })],
  ['contingency by hand', (whole) => withChoices(whole, { overrides: [override('contingency', { priceMinor: 1 })] })],
  ['a change of a line that is gone', (whole) => withChoices(whole, { overrides: [override('nowhere', { priceMinor: 1 })] })],
  ['lines added', (whole) => withChoices(whole, { added: [added('add-1', {}), added('add-2', { roomId: whole.job.rooms[0]?.roomId })] })],
  ['a line added in a room that is gone', (whole) => withChoices(whole, { added: [added('add-1', { roomId: 'nowhere' })] })],
  ['four days on site', (whole) => withChoices(whole, { daysOnSite: 4 })],
  ['no contingency', (whole) => priced(whole, { contingencyShare: 0 })],
  ['much contingency', (whole) => priced(whole, { contingencyShare: 0.4 })],
  ['a minimum charge over the price', (whole) => priced(whole, { minimumChargeMinor: 9_000_000 })],
  [
    'a minimum charge waived',
    (whole) => withChoices(priced(whole, { minimumChargeMinor: 9_000_000 }), { overrides: [override('least-charge', { leftOut: true })] }),
  ],
  ['by margin', (whole) => priced(whole, { method: 'margin', share: 0.3 })],
  ['by a margin of all', (whole) => priced(whole, { method: 'margin', share: 1 })],
  ['tax of each line', (whole) => priced(whole, { rounding: 'line' })],
  ['prices and tax of the whole', (whole) => priced(whole, { rounding: 'total' })],
  ['a tax that is gone', (whole) => priced(whole, { laborTaxId: 'gone', materialTaxId: 'gone' })],
  ['no deposit', (whole) => priced(whole, { depositShare: 0 })],
  ['all as deposit', (whole) => priced(whole, { depositShare: 1 })],
  ['following the floor', (whole) => leveled(whole, { mode: 'follow' })],
  ['1 in. thick at least', (whole) => leveled(whole, { leastThicknessM: 0.0254 })],
  ['2 in. thick at least', (whole) => leveled(whole, { leastThicknessM: 0.0508 })],
  ['ground first', (whole) => leveled(whole, { grindMostM: 0.004 })],
  ['textured', (whole) => leveled(whole, { textureM: 0.004 })],
  ['without prices', (whole) => ({ ...whole, materials: whole.materials.map((material) => ({ ...material, prices: [] })) })],
  ['without primer', (whole) => ({ ...whole, job: { ...whole.job, rooms: whole.job.rooms.map((room) => ({ ...room, primerId: null })) } })],
  ['without rooms', (whole) => ({ ...whole, rooms: [] })],
  [
    'without tools to buy',
    (whole) => ({ ...whole, materials: whole.materials.filter(({ powder, kind }) => powder !== null || kind === 'primer') }),
  ],
  [
    'with data sheets of its own for sundries',
    (whole) => ({
      ...whole,
      materials: whole.materials.map((one) => (one.powder === null ? { ...one, typical: false, goes: null } : one)),
    }),
  ],
];

const short = (line: string): string => (line.length > 150 ? `${line.slice(0, 150)}…` : line);

it.each([
  ['26-031', 'price'],
  ['26-022', 'all'],
] as const)('a change of one field of job %s', async (jobNumber, of) => {
  const whole = wholeOf(jobNumber);
  const before = new Set(facts(whole));
  const lines = [...changed(whole, of)].flatMap(([name, other]) => {
    const differing = facts(other).filter((line) => !before.has(line));
    if (differing.length === 0) return [];
    return [`${name}: ${differing.length} #${letterSum(differing.join('\n'))}`, ...differing.slice(0, 2).map((line) => `  ${short(line)}`)];
  });
  await expect(`${lines.join('\n')}\n`).toMatchFileSnapshot(`./approved/changes-${jobNumber}.txt`);
});
