/** The part of the job record after the pour: days counted in the property's time zone, rows in order, averages by hand. */
import { describe, expect, it } from 'vitest';
import type { CureLog, Visit } from '../../../shared-core/book/cure-record.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { filledTable } from '../../../shared-core/documents/blocks.ts';
import { placeOf } from '../../../shared-core/documents/handover-sheet.ts';
import { statedWords } from '../../../shared-core/documents/handover-tables.ts';
import { recordCure } from '../../../shared-core/documents/record-cure.ts';
import type { Block, DocumentTree } from '../../../shared-core/documents/tree.ts';
import { jobReadingCures } from '../../../shared-core/standing/job-cures.ts';
import { readJob } from '../../../shared-core/standing/read-job.ts';
import { sampleAt } from '../../sample-at.ts';
import { wholeJobsOf } from '../../../shared-core/sample/whole-jobs.ts';
import { visit as visitOf } from '../agenda/bundle-fixture.ts';
import { rowsOf, textOf } from './tree-text.ts';

const NOW = '2026-05-12T16:00:00.000Z';
const found = wholeJobsOf(sampleAt(NOW)).find((whole) => whole.job.id === 'sample-job-abara');
if (found === undefined) throw new Error('The sample has the job of the three floors.');
const whole: WholeJob = found;
const hall = whole.rooms[0];
if (hall === undefined) throw new Error('a room');
const treeOf = (blocks: readonly Block[]): DocumentTree => ({ blocks }) as unknown as DocumentTree;
const recordOf = (of: Partial<WholeJob>, cured: Parameters<typeof recordCure>[1] = []) =>
  treeOf(recordCure({ ...whole, ...of }, cured, placeOf(readJob(whole, NOW), NOW), new Map()));

const visit = (id: string, day: string, of: Partial<Visit>): Visit => ({
  ...visitOf(id, 'callback', `${day}T14:00:00.000Z`, [hall.id]),
  ...{ jobId: whole.job.id, title: id, ...of },
});

describe('visits in the record', () => {
  it('are in order, each planned, done or canceled, with cause and fix', () => {
    const visits = [
      visit('later', '2026-06-02', {}),
      visit('crack', '2026-05-20', { doneAt: '2026-05-20T15:00:00.000Z', cause: 'Tight dam.', fix: 'Filled.', notes: 'Look again.' }),
      visit('off', '2026-05-25', { cancelledAt: NOW, doneAt: NOW, roomIds: [] }),
      visit('deleted', '2026-05-01', { deletedAt: NOW }),
    ];
    const rows = rowsOf(recordOf({ visits }), 'Visits and callbacks');
    expect(rows.map((row) => [row['Visit'], row['Result']])).toEqual([
      [`crack, ${hall.name}`, expect.stringMatching(/^Done May 20, 2026\. Cause: Tight dam\. Fix: Filled\. Look again\.$/)],
      ['off', 'Canceled.'],
      [`later, ${hall.name}`, 'Planned.'],
    ]);
    // 14:00 UTC is 10 am in New York in May.
    expect(rows[0]?.['Date']).toMatch(/May 20, 10(:00)? am/);
  });
});

describe('tests and promised dates in the record', () => {
  it('are in the order they were taken and made, those deleted left out', () => {
    const [test] = whole.clearanceTests;
    if (test === undefined) throw new Error('a test');
    const of = (id: string, takenAt: string, rest: object = {}) => ({ ...test, id, takenAt, by: id, note: '', ...rest });
    const clearanceTests = [
      of('second', '2026-05-03T14:00:00.000Z', { unit: 'lb', value: 2.5, note: 'at the door' }),
      of('first', '2026-05-01T14:00:00.000Z', { unit: 'share', value: 0.71 }),
      of('gone', '2026-05-02T14:00:00.000Z', { deletedAt: NOW }),
      of('third', '2026-05-04T14:00:00.000Z', { unit: 'cm', value: 1.8 }),
    ] as WholeJob['clearanceTests'];
    const rows = rowsOf(recordOf({ clearanceTests }), 'Moisture tests');
    expect(rows.map((row) => [row['Test']?.split(': ')[1], row['Tested by, note']])).toEqual([
      ['71%', 'first'],
      ['2.5 lb', 'second, at the door'],
      ['1.8 CM-%', 'third'],
    ]);
    const [promise] = whole.promises;
    if (promise === undefined) throw new Error('a promise');
    const promises = [
      { ...promise, id: 'b', madeAt: '2026-05-02T14:00:00.000Z', to: 'Ann', documentId: null },
      { ...promise, id: 'a', madeAt: '2026-05-01T14:00:00.000Z', to: '', documentId: 'gone' },
      { ...promise, id: 'c', madeAt: '2026-05-01T14:00:00.000Z', deletedAt: NOW },
    ];
    const told = rowsOf(recordOf({ promises }), 'Promised dates');
    expect(told.map((row) => [row['Promised on'], row['Given to, document']])).toEqual([
      ['May 1, 2026', 'in a document'],
      ['May 2, 2026', 'Ann, verbally'],
    ]);
    // As the customer was told: an hour for foot traffic, a day for furniture.
    const promisedFor = '2026-05-09T11:30:00.000Z';
    const stated = (['walk-on', 'furniture'] as const).map((milestone) => ({ ...promise, milestone, flooring: null, promisedFor }));
    expect(rowsOf(recordOf({ promises: stated }), 'Promised dates').map((row) => row['Promised for'])).toEqual([
      'May 9, 2026, 7:30 am',
      'May 9, 2026',
    ]);
  });
});

describe('the expected dates in the record', () => {
  it('end with the date the customer is told, and round the others up to the hour', () => {
    const [cured] = jobReadingCures(readJob(whole, NOW));
    const walkOn = cured?.schedule.milestones.find(({ kind }) => kind === 'walk-on');
    if (cured === undefined || walkOn === undefined) throw new Error('a room that cures');
    // In New York in May: 5:10 am, 6:40 am, and 7:30 am, when work starts.
    const early = { ...walkOn, earliestAt: '2026-05-14T09:10:00.000Z', likelyAt: '2026-05-14T10:40:00.000Z' };
    const milestone = { ...early, latestAt: '2026-05-14T11:00:00.000Z', statedAt: '2026-05-14T11:30:00.000Z' };
    const schedule = { ...cured.schedule, milestones: [milestone] };
    const [row] = rowsOf(recordOf({}, [{ ...cured, schedule }]), `${cured.room.name}: expected dates`);
    expect([row?.['Earliest'], row?.['Likely'], row?.['Latest']]).toEqual(['May 14, 6 am', 'May 14, 7 am', 'May 14, 7:30 am']);
    expect(row?.['Latest']).toBe(statedWords(milestone, placeOf(readJob(whole, NOW), NOW)));
  });
});

describe('the air in the record', () => {
  const cured = jobReadingCures(readJob(whole, NOW))[0];
  it('has a line for each day where the property is, with its extremes and average', () => {
    if (cured === undefined) throw new Error('a room that cures');
    const [known] = whole.cureLogs;
    if (known === undefined) throw new Error('a log');
    const readings: CureLog['readings'] = [
      // 3:30 UTC on May 2 is 11:30 pm on May 1 in New York.
      { instant: '2026-05-02T03:30:00.000Z', tempC: 20, relativeHumidity: 0.5 },
      { instant: '2026-05-01T14:00:00.000Z', tempC: 25, relativeHumidity: 0.4 },
      { instant: '2026-05-01T20:00:00.000Z', tempC: 15, relativeHumidity: 0.6 },
      { instant: '2026-05-02T14:00:00.000Z', tempC: 10, relativeHumidity: null },
    ];
    const log: CureLog = { ...known, id: 'log', roomId: cured.room.id, name: 'Logger', readings, deletedAt: null };
    const tree = recordOf({ cureLogs: [log, { ...log, id: 'gone', deletedAt: NOW }, { ...log, id: 'other', roomId: 'other' }] }, [cured]);
    const rows = rowsOf(tree, `${cured.room.name}: air by day`);
    expect(rows.map((row) => [row['Day'], row['Readings'], row['Coldest'], row['Warmest'], row['Average humidity']])).toEqual([
      ['May 1, 2026', '3', '59 °F', '77 °F', '50%'],
      ['May 2, 2026', '1', '50 °F', '50 °F', ''],
    ]);
    expect(textOf(tree)).toContain(`${cured.room.name}: 4 air readings (Logger).`);
    const none = textOf(recordOf({ cureLogs: [] }, [cured]));
    expect(none).toContain(`${cured.room.name}: no air readings.`);
  });
});

describe('a table of the record', () => {
  it('leaves out columns with nothing in them and gives the rest to the last', () => {
    const rows = [
      { a: '1', b: '', c: '' },
      { a: '2', b: '3', c: '' },
    ];
    const [table] = filledTable('One', rows, [
      ['A', 0.3, ({ a }) => a],
      ['B', 0.3, ({ b }) => b],
      ['C', null, ({ c }) => c],
    ]);
    if (table?.kind !== 'table') throw new Error('a table');
    expect(table.columns.map(({ title, share }) => [title, share])).toEqual([
      ['A', 0.3],
      ['B', null],
    ]);
    expect(table.rows.map(({ cells }) => cells.map((runs) => runs.map((run) => run.text).join('')))).toEqual([
      ['1', ''],
      ['2', '3'],
    ]);
  });
});
