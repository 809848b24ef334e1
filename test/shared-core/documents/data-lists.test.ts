/**
 * Exported lists: RFC 4180. Cells that a spreadsheet would run are guarded as the OWASP notes on CSV injection recommend. Their content is
 * compared with the records.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Papa from 'papaparse';
import readWorkbook from 'read-excel-file/node';
import { beforeAll, describe, expect, it } from 'vitest';
import { workbookOf } from '../../../renderer/parts/workbook.ts';
import { pourEventSchema } from '../../../shared-core/book/pour-record.ts';
import { TABLE_NAMES } from '../../../shared-core/book/tables.ts';
import { dataLists } from '../../../shared-core/documents/lists/data-lists.ts';
import {
  columnsTable,
  dataCsv,
  dataTable,
  type DataTable,
  number,
  SHEET_ROWS_MOST,
} from '../../../shared-core/documents/lists/data-table.ts';
import type { ListRows } from '../../../shared-core/documents/lists/list-rows.ts';
import { sampleAt } from '../../sample-at.ts';
import { removeFolder } from '../../../build/remove-folder.mjs';

type Row = Record<string, string>;
let rows: ListRows;
let lists: readonly DataTable[];
/** A list as another program reads its file, using the CSV only. */
const read = (name: string, from: readonly DataTable[] = lists): Row[] => {
  const list = from.find((one) => one.name === name);
  if (list === undefined) throw new Error(`No list ${name}`);
  return Papa.parse<Row>(dataCsv(list).replace(/^\uFEFF/, ''), { header: true, skipEmptyLines: true }).data;
};
beforeAll(() => {
  rows = sampleAt('2026-05-12T11:05:00.000Z');
  lists = dataLists(rows);
}, 90_000);

describe('the lists', () => {
  it('begin with a byte order mark, have as many cells in each row as headings, and describe every column', () => {
    const described = new Set(read('columns').map((row) => `${row['List']}/${row['Column']}`));
    for (const list of lists) {
      const csv = dataCsv(list);
      expect(csv.startsWith('\uFEFF'), list.name).toBe(true);
      const { data, errors } = Papa.parse<string[]>(csv.slice(1).trimEnd());
      expect(errors, list.name).toEqual([]);
      expect(new Set(data.map((row) => row.length)).size, list.name).toBe(1);
      expect(data[0]?.length, list.name).toBe(new Set(data[0]).size);
      if (list.name !== 'columns') for (const head of data[0] ?? []) expect(described.has(`${list.name}/${head}`), head).toBe(true);
    }
  });

  it('have how and when a document was sent and signed, by the clock on site', () => {
    const [made] = rows.documents;
    const { timeZone } = rows.properties.find(({ id }) => id === rows.jobs.find((job) => job.id === made?.jobId)?.propertyId) ?? {};
    if (made === undefined) throw new Error('no document');
    // In New York, 4 hours behind UTC in summer and 5 in winter: 15 U.S.C. 260a and 261, from memory.
    expect(timeZone).toBe('America/New_York');
    const signature = { optionId: null, signedSha256: 'a'.repeat(64), picture: null, photoId: null };
    const documents = [
      {
        ...made,
        sent: [
          { instant: '2026-08-26T20:20:00.000Z', by: 'email', to: '' },
          { instant: '2026-12-01T02:05:00.000Z', by: 'in-person', to: 'Ann Rowe' },
        ] as const,
        signatures: [{ ...signature, name: 'Bo Rowe', role: 'second-owner', instant: '2026-08-27T01:00:00.000Z' }] as const,
      },
    ];
    const [row] = read(
      'documents',
      dataLists({ ...rows, documents: documents.map((d) => ({ ...d, sent: [...d.sent], signatures: [...d.signatures] })) }),
    );
    expect(row?.['Sent']).toBe('2026-08-26 16:20 by email; 2026-11-30 21:05 in person to Ann Rowe');
    expect(row?.['Signed by']).toBe('Bo Rowe (second owner) 2026-08-26 21:00');
  });

  it('have every record of every table', () => {
    const inUse = (list: readonly object[]): number => list.filter((row) => !('deletedAt' in row) || row.deletedAt === null).length;
    const counts: Readonly<Record<(typeof TABLE_NAMES)[number], number>> = {
      business: new Set(read('details').flatMap((row) => (row['Record'] === 'settings' ? [row['Record ID']] : []))).size,
      customers: read('customers').length,
      properties: read('properties').length,
      rooms: read('rooms').length,
      jobs: read('jobs').length,
      leads: read('leads').length,
      materials: read('materials').length,
      quotes: read('quotes').length,
      pours: read('pours').length,
      pourEvents: read('pour log').length,
      cureLogs: new Set(read('room conditions').map((row) => row['Log ID'])).size,
      promises: read('promised dates').length,
      clearanceTests: read('clearance tests').length,
      visits: read('visits').length,
      ledger: new Set(
        ['invoices', 'payments', 'purchases', 'hours', 'mileage', 'stock'].flatMap((name) => read(name).map((row) => row['Entry ID'])),
      ).size,
      documents: read('documents').length,
      photos: read('photos').length,
      calendarEntries: read('calendar entries').length,
    };
    for (const table of TABLE_NAMES) expect(counts[table], table).toBe(inUse(rows[table]));
  });

  it('give a quote the amounts of the option the customer accepted', () => {
    const [quote] = rows.quotes;
    const [first] = quote?.priced.options ?? [];
    if (quote === undefined || first === undefined) throw new Error('The sample has a quote.');
    const [netMinor, taxMinor] = [first.netMinor - 50_000, first.taxMinor - 1_000];
    const other = { ...first, id: 'fewer-lifts', name: 'Fewer lifts', netMinor, taxMinor, totalMinor: netMinor + taxMinor };
    const priced = { ...quote.priced, options: [...quote.priced.options, other] };
    const quotes = [{ ...quote, priced, state: 'accepted' as const, acceptedOptionId: other.id }];
    const [row] = read('quotes', dataLists({ ...rows, quotes }));
    const { Option, Subtotal, Tax, Total } = row ?? {};
    expect([Option, Number(Total)]).toEqual([other.name, other.totalMinor / 100]);
    expect(Number(Subtotal) + Number(Tax)).toBeCloseTo(Number(Total), 6);
  });

  it('name the room of a quote line as the quote does, whatever it is called now', () => {
    const renamed = dataLists({ ...rows, rooms: rows.rooms.map((room) => ({ ...room, name: 'Annex' })) });
    const named = (lists?: typeof renamed) => read('quote lines', lists).map(({ Room }) => Room);
    expect(named().filter((name) => name !== '').length).toBeGreaterThan(10);
    expect(named(renamed)).toEqual(named());
  });

  it('are enough to rebuild customers, jobs, quotes, pours and dates', () => {
    const [customers, properties, jobs, quotes, lines, taxes, pours, batches, dates] = [
      read('customers'),
      read('properties'),
      read('jobs'),
      read('quotes'),
      read('quote lines'),
      read('quote taxes'),
      read('pours'),
      read('batches'),
      read('promised dates'),
    ];
    const orNull = (cell: string | undefined): string | null => (cell === undefined || cell === '' ? null : cell);
    expect(customers.map((c) => [c['Customer ID'], c['Customer'], c['Email'], c['City']])).toEqual(
      rows.customers.map((c) => [c.id, c.name, c.email, c.address?.city ?? '']),
    );
    expect(properties.map((p) => [p['Property ID'], p['Customer ID'], p['Street address'], p['ZIP code'], p['Time zone']])).toEqual(
      rows.properties.map((p) => [p.id, p.customerId, p.address.line, p.address.zip, p.timeZone]),
    );
    expect(jobs.map((j) => [j['Job ID'], j['Job'], j['Customer ID'], j['Property ID'], j['State'], orNull(j['Prep visit (UTC)'])])).toEqual(
      rows.jobs.map((j) => [j.id, j.number, j.customerId, j.propertyId, j.state, j.prepVisitAt]),
    );
    for (const quote of rows.quotes) {
      const row = quotes.find((q) => q['Quote ID'] === quote.id);
      expect([row?.['Job ID'], Number(row?.['Revision']), row?.['State'], row?.['Issued (UTC)'], row?.['Valid until']]).toEqual([
        quote.jobId,
        quote.revision,
        quote.state,
        quote.issuedAt,
        quote.validUntil,
      ]);
      // Lines less the discount are the subtotal, and with taxes the total, in cents.
      const cents = (cell: string | undefined): number => Math.round(Number(cell) * 100);
      const own = (list: readonly Row[]): Row[] => list.filter((l) => l['Quote ID'] === quote.id && l['Option'] === row?.['Option']);
      const sum = own(lines).reduce((all, line) => all + cents(line['Price']), 0) - cents(row?.['Discount']);
      expect(sum).toBe(cents(row?.['Subtotal']));
      expect(sum + own(taxes).reduce((all, tax) => all + cents(tax['Tax amount']), 0)).toBe(quote.totalMinor);
    }
    for (const pour of rows.pours) {
      const row = pours.find((p) => p['Pour ID'] === pour.id);
      expect([row?.['Job ID'], row?.['Room IDs']?.split('; '), orNull(row?.['Started (UTC)']), orNull(row?.['Finished (UTC)'])]).toEqual([
        pour.jobId,
        pour.roomIds,
        pour.startedAt,
        pour.finishedAt,
      ]);
      const undone = new Set(rows.pourEvents.flatMap((e) => (e.kind === 'undone' ? [e.eventId] : [])));
      const bags = rows.pourEvents.reduce(
        (all, e) => all + (e.kind === 'placed' && e.pourId === pour.id && !undone.has(e.id) ? e.bags : 0),
        0,
      );
      const listed = batches.filter((b) => b['Pour ID'] === pour.id).reduce((all, b) => all + Number(b['Bags']), 0);
      expect(listed).toBeCloseTo(bags, 6);
    }
    expect(dates.map((d) => [d['Promise ID'], d['Milestone'], d['Promised for (UTC)']])).toEqual(
      rows.promises.map((p) => [p.id, p.milestone, p.promisedFor]),
    );
  });

  it('have the batches as corrected, and those restored by Redo', () => {
    const batch = rows.pourEvents.find((event) => event.kind === 'placed');
    if (batch?.kind !== 'placed') throw new Error('The sample has a batch.');
    const stamp = { pourId: batch.pourId, instant: batch.instant, estimated: false };
    const bagsWith = (...more: readonly Record<string, unknown>[]): string[] => {
      const events = [...rows.pourEvents, ...more.map((one) => pourEventSchema.parse({ ...stamp, ...one }))];
      return read('batches', dataLists({ ...rows, pourEvents: events }))
        .filter((row) => row['Pour ID'] === batch.pourId && row['Batch'] === String(batch.batch))
        .map((row) => row['Bags'] ?? '');
    };
    const undone = { id: 'undone-1', seq: 9001, kind: 'undone', eventId: batch.id };
    expect(bagsWith(undone)).toEqual([]);
    expect(bagsWith(undone, { id: 'redone-1', seq: 9002, kind: 'undone', eventId: 'undone-1' })).toEqual([String(batch.bags)]);
    const corrected = { id: 'corrected-1', seq: 9001, kind: 'corrected', eventId: batch.id, toAt: null, toBags: 1.25, by: '', why: '' };
    expect(bagsWith(corrected)).toEqual(['1.25']);
  });

  it('give an item of a record’s list one row, with each of its values', () => {
    const room = rows.rooms.find((one) => one.layers.length > 0);
    const layer = room?.layers[0];
    const value = read('details').find((row) => row['Record ID'] === room?.id && row['Field'] === 'layers.0')?.['Value'];
    expect(value?.split('; ')).toContain(`material: ${layer?.material ?? ''}`);
    expect(value?.split('; ')).toContain(`id: ${layer?.id ?? ''}`);
    const signed = rows.jobs.flatMap((job) => job.rooms.flatMap((jobRoom) => jobRoom.signed));
    expect(read('prep lines').map((row) => row['Line key'])).toEqual(signed.map((line) => line.itemKey));
  });

  it('have every word written about a pour, a date and a test', () => {
    const said = { ...rows, pours: rows.pours.map((p) => ({ ...p, notes: `pour ${p.id}`, bagsOnSite: 31, bagsPlanned: 29 })) };
    said.clearanceTests = rows.clearanceTests.map((t) => ({ ...t, by: `by ${t.id}`, note: `note ${t.id}` }));
    const from = dataLists(said);
    expect(read('pours', from).map((p) => [p['Notes'], p['Bags on site'], p['Bags planned'], p['Handwritten log'], p['Lift']])).toEqual(
      said.pours.map((p) => [p.notes, '31', '29', p.fromPaper ? 'yes' : 'no', String(p.lift)]),
    );
    expect(
      read('clearance tests', from).map((t) => [t['Test ID'], t['Flooring'], t['Method'], t['Unit'], t['Taken (UTC)'], t['By'], t['Note']]),
    ).toEqual(said.clearanceTests.map((t) => [t.id, t.flooring, t.method, t.unit, t.takenAt, t.by, t.note]));
    expect(read('promised dates').map((p) => [p['Flooring'], p['Told to'], p['Made (UTC)']])).toEqual(
      rows.promises.map((p) => [p.flooring ?? '', p.to, p.madeAt]),
    );
    const readings = rows.cureLogs.flatMap((log) => log.readings.map((reading) => ({ log, reading })));
    expect(read('room conditions').map((r) => [r['Log ID'], r['Logger'], r['Source'], r['At (UTC)']])).toEqual(
      readings.map(({ log, reading }) => [log.id, log.name, log.source, reading.instant]),
    );
    read('room conditions').forEach((row, i) => {
      expect(Number(row['Air (°C)'])).toBeCloseTo(readings[i]?.reading.tempC ?? Number.NaN, 1);
      expect(Number(row['Relative humidity (%)']) / 100).toBeCloseTo(readings[i]?.reading.relativeHumidity ?? 0, 3);
    });
    const log = new Map(read('pour log').map((row) => [row['Entry ID'], row]));
    for (const event of rows.pourEvents) {
      const row = log.get(event.id);
      expect([row?.['Entry'], Number(row?.['Number']), row?.['Estimated'], row?.['At (UTC)']], event.id).toEqual([
        event.kind,
        event.seq,
        event.estimated ? 'yes' : 'no',
        event.instant,
      ]);
      if (event.kind === 'placed') expect([row?.['Batch'], row?.['Bags']]).toEqual([String(event.batch), String(event.bags)]);
      if (event.kind === 'undone') expect(row?.['Voids or corrects']).toBe(event.eventId);
      if (event.kind === 'lot') expect(row?.['Details']).toContain(event.lot);
    }
  });

  it('give local time beside UTC, in the property’s time zone', () => {
    const [first] = read('pours');
    const job = rows.jobs.find((j) => j.id === first?.['Job ID']);
    const zone = rows.properties.find((p) => p.id === job?.propertyId)?.timeZone;
    const local = new Intl.DateTimeFormat('sv-SE', { timeZone: zone, dateStyle: 'short', timeStyle: 'short' }).format(
      new Date(first?.['Started (UTC)'] ?? ''),
    );
    expect(first?.['Started (local)']).toBe(local);
  });

  it('write phone numbers as text that is neither calculated nor rounded, without an apostrophe', () => {
    const phones = ['+1 555-010-0123', '+15550100123', '5550100123', '(555) 010-0123', '555.010.0123', '0201234567'];
    const one = rows.customers[0];
    if (one === undefined) throw new Error('no customer');
    const written = read(
      'customers',
      dataLists({ ...rows, customers: phones.map((phone, i) => ({ ...one, id: `phone-${i}`, phone })) }),
    ).map((row) => row['Phone']);
    for (const [i, cell] of written.entries()) {
      expect(cell?.replace(/\D/g, '')).toBe(phones[i]?.replace(/\D/g, ''));
      expect(cell).not.toMatch(/^'|^[+-]?\d+(\.\d+)?$|^\+\d+-/);
    }
  });

  it('have no cell that a spreadsheet would run', () => {
    const attacks = ['=1+1', '+1+1', '-1+1', '@SUM(A1)', '\t=1+1', '\r=1+1', '  =1+1', '＝1+1', '=HYPERLINK("https://x.invalid","a"),b'];
    const hostile = rows.customers.slice(0, 1).flatMap((c) => attacks.map((name, i) => ({ ...c, id: `client-${i}`, name, notes: name })));
    const cells = read('customers', dataLists({ ...rows, customers: hostile })).flatMap((row) => Object.values(row));
    expect(cells.filter((cell) => cell.includes('1+1'))).not.toHaveLength(0);
    for (const cell of cells) expect(cell).not.toMatch(/^\s*[=@＝]|^\s*[+-](?!\d+( [\d ]+)?$)/);
  });
});

describe('the workbook of all lists', () => {
  it('has a sheet per list with typed cells, as a second program reads them', async () => {
    const filled = lists.filter((list) => list.rows.length > 0);
    const folder = mkdtempSync(join(tmpdir(), 'straightedge-lists-'));
    try {
      const path = join(folder, 'all lists.xlsx');
      writeFileSync(path, await workbookOf(filled));
      const sheets = await readWorkbook(readFileSync(path));
      expect(sheets.map(({ sheet }) => sheet)).toEqual(filled.map(({ name }) => name));
      const quotes = sheets.find(({ sheet }) => sheet === 'quotes')?.data ?? [];
      const cellOf = (head: string): unknown => quotes[1]?.[(quotes[0] ?? []).indexOf(head)];
      expect(cellOf('Total')).toBe((rows.quotes[0]?.totalMinor ?? 0) / 100);
      expect(cellOf('Valid until')).toEqual(new Date(`${rows.quotes[0]?.validUntil ?? ''}T00:00:00Z`));
      expect(typeof (sheets.find(({ sheet }) => sheet === 'customers')?.data[1] ?? [])[2]).toBe('string');
    } finally {
      removeFolder(folder);
    }
  });

  it('leaves a list too long for a workbook to its CSV file, and says so', async () => {
    const long = dataTable(
      'readings',
      '',
      Array.from({ length: SHEET_ROWS_MOST + 1 }, (_, i) => i),
      [number('N', 0, (i) => i)],
    );
    const short = dataTable('rooms', '', [1], [number('N', 0, (i) => i)]);
    const sheets = await readWorkbook(Buffer.from(await workbookOf([long, short])));
    expect(sheets.map(({ sheet }) => sheet)).toEqual(['rooms']);
    expect(Papa.parse(dataCsv(long).trimEnd()).data).toHaveLength(SHEET_ROWS_MOST + 2);
    expect([...columnsTable([long, short]).rows].map((row) => row.at(-1))).toEqual(['CSV only', 'CSV and workbook']);
  });

  it.skipIf(!hasOffice())(
    'opens in a spreadsheet program, each sheet with its rows',
    async () => {
      const folder = mkdtempSync(join(tmpdir(), 'straightedge-office-'));
      try {
        writeFileSync(join(folder, 'all.xlsx'), await workbookOf(lists.filter(({ name }) => name === 'quotes')));
        execFileSync('soffice', [
          `-env:UserInstallation=file://${folder}/profile`,
          '--headless',
          '--convert-to',
          'csv',
          '--outdir',
          folder,
          join(folder, 'all.xlsx'),
        ]);
        const { data } = Papa.parse<string[]>(readFileSync(join(folder, 'all.csv'), 'utf8').trimEnd());
        expect(data).toHaveLength(rows.quotes.length + 1);
        expect(Number((data[1]?.[data[0]?.indexOf('Total') ?? 0] ?? '').replaceAll(',', ''))).toBe((rows.quotes[0]?.totalMinor ?? 0) / 100);
      } finally {
        removeFolder(folder);
      }
    },
    120_000,
  );
});

/** Whether this computer has a spreadsheet program to open the workbook. */
function hasOffice(): boolean {
  try {
    execFileSync('soffice', ['--version'], { stdio: 'ignore' });
    return true;
  } catch {
    return false;
  }
}
