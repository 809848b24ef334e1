import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { shoppingListSheet } from '../../../shared-core/documents/shopping-list.ts';
import { type Block, documentTreeSchema } from '../../../shared-core/documents/tree.ts';
import { shoppingCsv } from '../../../shared-core/material/shopping-csv.ts';
import { estimateJob } from '../../../shared-core/price/estimate-job.ts';
import { sampleBook } from '../../../shared-core/sample/sample-book.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';

const NOW = '2026-05-12T15:00:00.000Z';
const found = wholeJobsOf(sampleBook(NOW)).find((whole) => whole.job.number === '26-031');
if (found === undefined) throw new Error('the sample has no such job');
const odell: WholeJob = { ...found, business: { ...found.business, vanStock: [] } };

type Table = Extract<Block, { kind: 'table' }>;
function listOf(whole: WholeJob) {
  const option = estimateJob(whole, '2026-05-12').suggested;
  const tree = shoppingListSheet(whole, option, NOW);
  const table = tree.blocks.find((block): block is Table => block.kind === 'table');
  const rows = (table?.rows ?? []).map((row) => row.cells.map((runs) => runs.map((run) => run.text).join('')));
  return { option, tree, rows };
}

describe('the shopping list', () => {
  it('buys whole bags, never fewer than the estimate counts', () => {
    const { option, tree, rows } = listOf(odell);
    expect(documentTreeSchema.safeParse(tree).error).toBeUndefined();
    for (const sheet of option.takeoff.bagsByMaterial) {
      const row = rows.find((cells) => cells[1] === sheet.name);
      expect(row?.[0]).toMatch(new RegExp(`^${sheet.bags} × `));
    }
  });

  it('takes off what is in the van, and sets apart what need not be bought at all', () => {
    const { option } = listOf(odell);
    const [sheet] = option.takeoff.bagsByMaterial;
    if (sheet === undefined) throw new Error('nothing is poured');
    const withVan = (containers: number): WholeJob => ({
      ...odell,
      business: { ...odell.business, vanStock: [{ materialId: sheet.materialId, containers }] },
    });
    const some = listOf(withVan(4)).rows.find((cells) => cells[1] === sheet.name);
    expect(some?.[0]).toMatch(new RegExp(`^${sheet.bags - 4} × `));
    expect(some?.[3]).toBe('4');
    const plenty = listOf(withVan(sheet.bags + 3));
    expect(plenty.rows.some((cells) => cells[1] === sheet.name)).toBe(false);
    const have = plenty.tree.blocks.find((block) => block.kind === 'list');
    expect(JSON.stringify(have)).toContain(sheet.name);
  });

  it('lists a tool that was bought for the job, less one in the van, and the job pays for it', () => {
    const [lane] = odell.materials.filter((m) => m.kind === 'perimeter-strip');
    if (lane === undefined) throw new Error('the sample has no strip');
    const rake = {
      ...lane,
      id: 'rake-0001',
      kind: 'tool' as const,
      name: 'Gauge rake',
      container: { name: 'rake', unit: 'piece' as const, holds: 1 },
      goes: null,
    };
    const line = { id: 'line-0001', name: 'Gauge rake, 3', kind: 'material' as const, roomId: null, costMinor: 12_600, taxId: null };
    const bought: WholeJob = {
      ...odell,
      business: { ...odell.business, vanStock: [{ materialId: rake.id, containers: 1 }] },
      materials: [...odell.materials, rake],
      job: {
        ...odell.job,
        estimate: { ...odell.job.estimate, added: [{ ...line, bought: { materialId: rake.id, containers: 3 } }] },
      },
    };
    const { option, rows } = listOf(bought);
    const row = rows.find((cells) => cells[1] === 'Gauge rake');
    expect(row).toEqual(['2 × rake', 'Gauge rake', '3', '1', 'the whole job']);
    expect(option.price.lines.find((l) => l.name === line.name)?.costMinor).toBe(line.costMinor);
  });

  it('says the same as the table for a spreadsheet, as a general-purpose reader finds it there (papaparse)', () => {
    const { option, rows } = listOf(odell);
    const read = Papa.parse<Record<string, string>>(shoppingCsv(option.takeoff.shopping), { header: true, skipEmptyLines: true });
    expect(read.errors).toEqual([]);
    const toBuy = read.data.filter((row) => row['Buy'] !== '0');
    expect(toBuy).toHaveLength(rows.length);
    for (const [i, row] of toBuy.entries()) {
      expect(rows[i]?.[1]).toBe(row['What']);
      expect(rows[i]?.[2]).toBe(row['Needed in all']);
      if (row['Buy'] !== '') expect(rows[i]?.[0]).toBe(`${row['Buy'] ?? ''} × ${row['Container'] ?? ''}`);
    }
  });
});
