import { beforeAll, describe, expect, it } from 'vitest';
import { rowKey } from '../../../shared-core/book/book-index.ts';
import {
  briefRow,
  type Chosen,
  importClashes,
  importKeys,
  importLines,
  importPlan,
  suggestedFields,
  type TakenFields,
} from '../../../shared-core/book/import-plan.ts';
import type { StoredRow } from '../../../shared-core/book/migrations/all-steps.ts';
import type { BookRows } from '../../../shared-core/book/backup.ts';
import { checkBookRows } from './check-book-rows.ts';
import { TABLE_NAMES, type TableName } from '../../../shared-core/book/tables.ts';
import { sampleAt } from '../../sample-at.ts';

const AT = '2026-05-12T11:05:00.000Z';
const JOB = 'sample-job-odell';
let copy: BookRows;
let bare: BookRows;
beforeAll(() => {
  copy = JSON.parse(JSON.stringify(sampleAt(AT))) as BookRows;
  bare = { ...(Object.fromEntries(TABLE_NAMES.map((t) => [t, []])) as unknown as BookRows), business: copy.business };
}, 90_000);

const none: ReadonlySet<string> = new Set();
/** Plans an import from whole sets of data. */
const planFor = (of: BookRows, present: BookRows, chosen: Chosen, fields: TakenFields = new Map()) =>
  importPlan(of, present, chosen, present, fields);
/** The data after the import. */
const written = (present: BookRows, plan: ReturnType<typeof importPlan>): BookRows => {
  const tables = new Map<TableName, Map<string, StoredRow>>();
  for (const table of TABLE_NAMES) tables.set(table, new Map(present[table].map((row) => [String(row['id']), row])));
  for (const { table, row } of plan.puts) tables.get(table)?.set(String(row['id']), row);
  return Object.fromEntries([...tables].map(([table, rows]) => [table, [...rows.values()]])) as unknown as BookRows;
};

describe('importing from a backup', () => {
  it('imports a job with everything it depends on, so that no record lacks what it belongs to', () => {
    const after = written(bare, planFor(copy, bare, { customers: none, jobs: new Set([JOB]) }));
    expect(after.jobs.map((j) => j['id'])).toEqual([JOB]);
    expect(checkBookRows(after, []).filter((o) => o.kind === 'orphan' || o.kind === 'room-gone' || o.kind === 'unreadable')).toEqual([]);
    for (const table of ['quotes', 'pours', 'visits', 'documents'] as const)
      expect(after[table]).toEqual(copy[table].filter((row) => row['jobId'] === JOB));
  });

  it('has nothing to import from the same data, and shows a conflict with both dates when it changed', () => {
    expect(importLines(copy, copy).every((line) => line.state === 'same')).toBe(true);
    const LATER = '2027-01-01T00:00:00.000Z';
    const changed = { ...copy, jobs: copy.jobs.map((job) => (job['id'] === JOB ? { ...job, title: 'Other', changedAt: LATER } : job)) };
    const clash = importLines(copy, changed).filter((line) => line.state === 'clash');
    expect(clash).toMatchObject([{ kind: 'job', id: JOB, inBook: LATER }]);
    expect(importLines(copy, bare).every((line) => line.state === 'new')).toBe(true);
  });

  it('merges records field by field, and deletes or replaces nothing of yours unseen', () => {
    const LATER = '2027-01-01T00:00:00.000Z';
    const chosen = { customers: none, jobs: new Set([JOB]) };
    const hall = copy.rooms.find((room) => room['id'] === 'sample-hall');
    const changed: BookRows = {
      ...copy,
      customers: copy.customers.map((c) => ({ ...c, notes: 'Kept here' })),
      jobs: copy.jobs.map((job) => (job['id'] === JOB ? { ...job, title: 'Here', notes: 'Here too', changedAt: LATER } : job)),
      visits: [...copy.visits, { id: 'later-visit', jobId: JOB }],
    };
    const clashes = importClashes(copy, changed, chosen);
    const job = clashes.find(({ table }) => table === 'jobs');
    const theirs = copy.jobs.find((row) => row['id'] === JOB);
    expect(job).toMatchObject({ inBook: LATER, fields: [{ path: 'title', ours: 'Here', theirs: theirs?.['title'] }, { path: 'notes' }] });
    // Yours changed last, so all of it is suggested to stay, and nothing is written unless a field is chosen.
    expect(job === undefined ? null : [...suggestedFields(job)]).toEqual([]);
    expect(planFor(copy, changed, chosen).puts).toEqual([]);
    const after = written(changed, planFor(copy, changed, chosen, new Map([[`jobs/${JOB}`, new Set(['title'])]])));
    expect(after.jobs.find((row) => row['id'] === JOB)).toMatchObject({ title: theirs?.['title'], notes: 'Here too', changedAt: LATER });
    expect(after.visits.some((visit) => visit['id'] === 'later-visit')).toBe(true);
    expect(after.customers).toEqual(changed.customers);
    // Rooms that the job depends on are also compared, reading by reading.
    const survey = hall?.['survey'] as { readings: { id: string; valueM: number }[] };
    const [first] = survey.readings;
    const other = { ...survey, readings: survey.readings.map((r, i) => (i === 0 ? { ...r, valueM: 9 } : r)) };
    const rooms = { ...copy, rooms: copy.rooms.map((room) => (room['id'] === 'sample-hall' ? { ...room, survey: other } : room)) };
    expect(importClashes(copy, rooms, chosen).flatMap(({ fields }) => fields)).toEqual([
      { path: `survey.readings[${first?.id ?? ''}].valueM`, ours: 9, theirs: first?.valueM },
    ]);
  });

  it('unites entries of a pour log by id, and gives a new one the next free number', () => {
    const [pour] = copy.pours;
    const jobId = String(pour?.['jobId']);
    const own = copy.pourEvents.filter((event) => event['pourId'] === pour?.['id']);
    const last = own.at(-1);
    const [here, other] = [
      { ...last, id: 'entry-here', kind: 'note', text: 'here', photoIds: [], seq: own.length + 1 },
      { ...last, id: 'entry-there', kind: 'note', text: 'there', photoIds: [], seq: own.length + 1 },
    ].map(({ id, kind, text, photoIds, seq }) => ({
      id,
      kind,
      text,
      photoIds,
      seq,
      pourId: pour?.['id'],
      instant: last?.['instant'],
      estimated: false,
    }));
    if (here === undefined || other === undefined) throw new Error('no entries');
    const theirs = { ...copy, pourEvents: [...copy.pourEvents, other] };
    const ours = { ...copy, pourEvents: [...copy.pourEvents, here] };
    const after = written(ours, planFor(theirs, ours, { customers: none, jobs: new Set([jobId]) }));
    const entries = after.pourEvents.filter((event) => event['pourId'] === pour?.['id']);
    expect(entries).toHaveLength(own.length + 2);
    expect(new Set(entries.map((event) => event['seq'])).size).toBe(entries.length);
    expect(entries.find((event) => event['id'] === 'entry-here')?.['seq']).toBe(own.length + 1);
    expect(entries.find((event) => event['id'] === 'entry-there')?.['seq']).toBe(own.length + 2);
  });

  it('imports a customer’s properties and rooms', () => {
    const [customer] = copy.customers;
    const after = written(bare, planFor(copy, bare, { customers: new Set([String(customer?.['id'])]), jobs: none }));
    const houses = copy.properties.filter((p) => p['customerId'] === customer?.['id']);
    expect(after.customers).toEqual([customer]);
    expect(after.properties).toEqual(houses);
    expect(after.rooms).toEqual(copy.rooms.filter((r) => houses.some((h) => h['id'] === r['propertyId'])));
    expect(after.jobs).toEqual([]);
  });

  it('imports a customer’s leads that are no job yet', () => {
    const [customer] = copy.customers;
    const customerId = String(customer?.['id']);
    const [house] = copy.properties.filter((p) => p['customerId'] === customerId);
    const lead = { ...copy.leads[0], id: 'lead-open', customerId, propertyId: house?.['id'] ?? null, jobId: null };
    const others = [
      { ...lead, id: 'lead-won', jobId: JOB },
      { ...lead, id: 'lead-elsewhere', propertyId: 'other-property' },
    ];
    const plan = planFor({ ...copy, leads: [lead, ...others] }, bare, { customers: new Set([customerId]), jobs: none });
    expect(written(bare, plan).leads).toEqual([lead]);
  });

  it('never uses the number of one of your jobs twice', () => {
    const theirs = copy.jobs.find((job) => job['id'] === JOB);
    const own: BookRows = { ...bare, jobs: [{ ...theirs, id: 'own-job' }] };
    const plan = planFor(copy, own, { customers: none, jobs: new Set([JOB]) });
    expect(plan.renumbered).toHaveLength(1);
    const after = written(own, plan);
    expect(new Set(after.jobs.map((j) => j['number'])).size).toBe(2);
    expect(checkBookRows(after, []).filter((o) => o.kind === 'number')).toEqual([]);
  });

  it.each(['quotes', 'documents'] as const)('keeps the number of a job whose customer has %s with it, and says so', (table) => {
    const theirs = copy.jobs.find(({ id }) => [copy.quotes, copy.documents].every((papers) => papers.some(({ jobId }) => jobId === id)));
    const own: BookRows = { ...bare, jobs: [{ ...theirs, id: 'own-job' }] };
    const backup = { ...copy, quotes: [], documents: [], [table]: copy[table] };
    const plan = planFor(backup, own, { customers: none, jobs: new Set([String(theirs?.['id'])]) });
    expect([plan.renumbered, plan.shared.jobs]).toEqual([[], [theirs?.['number']]]);
    const after = written(own, plan);
    expect(after.jobs.find((job) => job['id'] === theirs?.['id'])?.['number']).toBe(theirs?.['number']);
    // Your job has no papers yet, so that one can take the next number.
    expect(checkBookRows(after, []).filter((o) => o.kind.startsWith('number'))).toMatchObject([{ id: 'own-job', kind: 'number' }]);
  });

  it('says which invoice numbers two invoices have', () => {
    const theirs = copy.ledger.find((entry) => entry['kind'] === 'invoice');
    const chosen = { customers: none, jobs: new Set([String(theirs?.['jobId'])]) };
    const own: BookRows = { ...bare, ledger: [{ ...theirs, id: 'own-invoice' }] };
    const plan = planFor(copy, own, chosen);
    expect(plan.shared.invoices).toEqual([theirs?.['number']]);
    expect(planFor(copy, copy, chosen).shared.invoices).toEqual([]);
    const repeated = checkBookRows(written(own, plan), []).filter((o) => o.kind === 'number-issued');
    expect(repeated).toMatchObject([{ table: 'ledger', message: expect.stringContaining(String(theirs?.['number'])) }]);
  });

  it('gives the next number of the same year, whatever the numbers of other years', () => {
    const theirs = copy.jobs.find((job) => job['id'] === JOB);
    const year = String(theirs?.['number']).split('-')[0] ?? '';
    const own: BookRows = {
      ...bare,
      jobs: [
        { ...theirs, id: 'own-job' },
        { ...theirs, id: 'old-job', number: '19-900' },
        { ...theirs, id: 'last-job', number: `${year}-120` },
      ],
    };
    const plan = planFor(copy, own, { customers: none, jobs: new Set([JOB]) });
    expect(plan.renumbered).toMatchObject([{ from: theirs?.['number'], to: `${year}-121` }]);
  });

  it('leaves unreadable records in the backup and counts them', () => {
    const broken: BookRows = { ...copy, visits: [...copy.visits, { id: 'visit-broken', jobId: JOB }] };
    const plan = planFor(broken, bare, { customers: none, jobs: new Set([JOB]) });
    expect(plan.left).toBe(1);
    expect(plan.puts.some(({ row }) => row['id'] === 'visit-broken')).toBe(false);
  });

  it('lists and stores the same from summaries as from all records', () => {
    const changed: BookRows = {
      ...copy,
      customers: copy.customers.slice(1),
      jobs: copy.jobs.map((job) => (job['id'] === JOB ? { ...job, id: 'own-job' } : { ...job, title: 'Other' })),
      rooms: copy.rooms.map((room, i) => (i % 2 === 0 ? room : { ...room, notes: 'Other' })),
      visits: [...copy.visits, { id: 'later-visit', jobId: JOB }],
    };
    const inBrief = (rows: BookRows) =>
      Object.fromEntries(TABLE_NAMES.map((table) => [table, rows[table].map(briefRow)])) as unknown as BookRows;
    const states = new Set<string>();
    for (const present of [bare, copy, changed]) {
      const lines = importLines(copy, present);
      expect(importLines(inBrief(copy), inBrief(present))).toEqual(lines);
      for (const { state } of lines) states.add(state);
      for (const customers of [none, new Set(copy.customers.map((c) => String(c['id'])))])
        for (const jobs of [none, new Set([JOB]), new Set(copy.jobs.map((j) => String(j['id'])))]) {
          const keys = importKeys(inBrief(copy), inBrief(present), { customers, jobs });
          const named = (rows: BookRows) =>
            Object.fromEntries(TABLE_NAMES.map((t) => [t, rows[t].filter((row) => keys.has(rowKey(t, row)))])) as unknown as BookRows;
          const plan = importPlan(named(copy), named(present), { customers, jobs }, inBrief(present), new Map());
          expect(plan).toEqual(planFor(copy, present, { customers, jobs }));
        }
    }
    expect([...states].sort()).toEqual(['clash', 'new', 'same']);
  });
});
