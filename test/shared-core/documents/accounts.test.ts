/** Comma-separated values: RFC 4180. Cells a spreadsheet would run are guarded as the OWASP notes on CSV injection recommend. */
import Papa from 'papaparse';
import { beforeAll, describe, expect, it } from 'vitest';
import { type AccountList, accountLists, type AccountRows } from '../../../shared-core/documents/accounts.ts';
import { sampleAt } from '../../sample-at.ts';

let rows: AccountRows;
let lists: readonly AccountList[];
const table = (name: string, from: readonly AccountList[] = lists): string[][] =>
  Papa.parse<string[]>(from.find((list) => list.name === name)?.csv ?? '', { skipEmptyLines: true }).data;
beforeAll(() => {
  rows = sampleAt('2026-05-12T11:05:00.000Z');
  lists = accountLists(rows);
}, 90_000);

describe('the lists for the accounts', () => {
  it('hold every customer, job, quote, batch and reading once', () => {
    const readings = rows.rooms.reduce((sum, room) => sum + room.survey.readings.length + (room.surveyAfter?.readings.length ?? 0), 0);
    const undone = new Set(rows.pourEvents.flatMap((e) => (e.kind === 'undone' ? [e.eventId] : [])));
    const batches = rows.pourEvents.filter((e) => e.kind === 'placed' && !undone.has(e.id)).length;
    for (const [name, count] of [
      ['customers', rows.customers.length],
      ['jobs', rows.jobs.length],
      ['quotes', rows.quotes.length],
      ['batches', batches],
      ['readings', readings],
    ] as const) {
      const read = table(name);
      expect(read.length - 1, name).toBe(count);
      expect(new Set(read.map((row) => row.length)).size, name).toBe(1);
    }
  });

  it('write money as a plain decimal with its currency', () => {
    const [head, first] = table('quotes');
    const quote = rows.quotes[0];
    expect(Number(first?.[head?.indexOf('Total') ?? 0])).toBeCloseTo((quote?.totalMinor ?? 0) / 100, 6);
    expect(first?.[head?.indexOf('Currency') ?? 0]).toBe(quote?.currency);
  });

  it('leave no cell that a spreadsheet would run', () => {
    const attacks = ['=1+1', '+1+1', '-1+1', '@SUM(A1)', '\t=1+1', '\r=1+1', '  =1+1', '＝1+1', '=HYPERLINK("https://x.invalid","a"),b'];
    const hostile = rows.customers.slice(0, 1).flatMap((c) => attacks.map((name, i) => ({ ...c, id: `client-${i}`, name, notes: name })));
    const read = table('customers', accountLists({ ...rows, customers: hostile })).slice(1);
    expect(read).toHaveLength(attacks.length);
    for (const cell of read.flat()) expect(cell).not.toMatch(/^\s*[=+\-@＝]/);
    expect(read[0]?.[0]).toBe("'=1+1");
  });
});
