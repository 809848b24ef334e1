import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import type { Material } from '../../../shared-core/book/material.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { dayShoppingList } from '../../../shared-core/documents/day-shopping-list.ts';
import { shoppingFor } from '../../../shared-core/standing/shopping-for.ts';
import { shoppingListSheet } from '../../../shared-core/documents/shopping-list.ts';
import { type Block, documentTreeSchema } from '../../../shared-core/documents/tree.ts';
import { shoppingCsv } from '../../../shared-core/documents/lists/shopping-csv.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import type { OptionEstimate } from '../../../shared-core/price/estimate-job.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const wholes = wholeJobsOf(sampleAt(NOW));
const wholeOf = (number: string): WholeJob => {
  const found = wholes.find((whole) => whole.job.number === number);
  if (found === undefined) throw new Error(`the sample has no job ${number}`);
  return found;
};
const odell = wholeOf('26-031');

type Table = Extract<Block, { kind: 'table' }>;
function listOf(whole: WholeJob) {
  const reading = readJob(whole, NOW);
  const option = reading.estimate.suggested;
  const tree = shoppingListSheet(reading, option, NOW, 1);
  const table = tree.blocks.find((block): block is Table => block.kind === 'table');
  const rows = (table?.rows ?? []).map((row) => row.cells.map((runs) => runs.map((run) => run.text).join('')));
  return { reading, option, tree, rows: rows.filter((cells) => cells[0] !== 'Total'), total: rows.find((cells) => cells[0] === 'Total') };
}
/** Bags of the estimate by powder. */
function bagsOf({ takeoff }: OptionEstimate): Map<string, number> {
  const bags = new Map<string, number>();
  for (const room of takeoff.rooms)
    if (room.sheet !== null) bags.set(room.sheet.name, (bags.get(room.sheet.name) ?? 0) + (room.bags?.quotedBags ?? 0));
  expect(bags.size).toBeGreaterThan(0);
  return bags;
}
const dollars = (text: string): number => Math.round(Number(text.replace(/[$,]/g, '')) * 100);

describe('the shopping list of a day', () => {
  it('names its day, or says that it is of all jobs', () => {
    const head = (day: string | null) => JSON.stringify(dayShoppingList(odell.business, odell.materials, [], day, NOW));
    expect(head('2026-05-14')).toContain('Shopping list for May 14, 2026');
    expect(head('2026-05-14')).not.toContain('all accepted jobs');
    expect(head(null)).toContain('Shopping list for all accepted jobs');
  });
});

describe('the shopping list', () => {
  it('has as many bags as the estimate, and adds up their cost', () => {
    const { option, tree, rows, total } = listOf(odell);
    expect(documentTreeSchema.safeParse(tree).error).toBeUndefined();
    for (const [name, bags] of bagsOf(option)) expect(rows.find((cells) => cells[1] === name)?.[0]).toBe(`${bags} × 50 lb bag`);
    const costs = rows.flatMap((cells) => (cells[4] === '' ? [] : [dollars(cells[4] ?? '')]));
    expect(costs.reduce((a, b) => a + b, 0)).toBe(dollars(total?.[4] ?? ''));
  });

  it('has as many bags as the estimate where a bag holds 40 lb, and says 40 lb (pound: NIST SP 811)', () => {
    const bagKg = { value: 40 * 0.45359237, source: 'bag' } as const;
    const materials = odell.materials.map((m): Material => (m.powder === null ? m : { ...m, powder: { ...m.powder, bagKg } }));
    const list = listOf({ ...odell, materials });
    for (const [name, bags] of bagsOf(list.option)) {
      expect(bags).toBeGreaterThan(0);
      expect(list.rows.find((cells) => cells[1] === name)?.[0]).toBe(`${bags} × 40 lb bag`);
    }
  });

  it('leaves out rooms that are poured, and says which', () => {
    const { reading, tree, rows } = listOf(wholeOf('26-024'));
    const poured = reading.whole.rooms.filter((room) =>
      reading.whole.pours.some((p) => p.finishedAt !== null && p.roomIds.includes(room.id)),
    );
    expect(poured.length).toBeGreaterThan(0);
    for (const room of poured) {
      expect(rows.some((cells) => (cells[2] ?? '').includes(room.name))).toBe(false);
      expect(JSON.stringify(tree)).toContain(room.name);
    }
  });

  it('has the same items and counts as its table for a spreadsheet, read by a general-purpose reader (papaparse)', () => {
    const { reading, option, rows } = listOf(odell);
    const { list } = shoppingFor(reading, option);
    const read = Papa.parse<string[]>(shoppingCsv(list, reading.whole.business), { skipEmptyLines: true });
    expect(read.errors).toEqual([]);
    expect(read.data.length - 1).toBe(rows.length);
    for (const [i, cells] of read.data.slice(1).entries()) {
      expect(cells).toContain(rows[i]?.[1]);
      if (rows[i]?.[0] !== 'As needed') expect(rows[i]?.[0]?.split(' × ')[0]).toBe(cells[0]);
    }
  });
});
