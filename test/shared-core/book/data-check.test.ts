import { describe, expect, it } from 'vitest';
import type { BookRows } from '../../../shared-core/book/backup.ts';
import { type BackupFile, thinBackups } from '../../../shared-core/book/backup-names.ts';
import type { DataProblem } from '../../../shared-core/book/data-check.ts';
import { checkBookRows } from './check-book-rows.ts';
import { TABLE_NAMES } from '../../../shared-core/book/tables.ts';
import { sampleAt } from '../../sample-at.ts';

const sample = sampleAt('2026-05-12T12:00:00Z') as unknown as BookRows;
const pictures = sample.photos.map(
  (row) =>
    `photos/${String(row['sha256'])}.${{ 'image/jpeg': 'jpg', 'image/png': 'png', 'image/webp': 'webp' }[String(row['mediaType'])] ?? ''}`,
);
const told = (rows: Partial<BookRows>, seen: readonly string[] = pictures): readonly (readonly [string, string, string])[] =>
  checkBookRows({ ...sample, ...rows }, seen).map(({ table, kind, message }: DataProblem) => [table, kind, message] as const);
const changed = (table: keyof BookRows, i: number, over: object) => ({
  [table]: sample[table].map((row, k) => (k === i ? { ...row, ...over } : row)),
});

describe('the check of data', () => {
  it('finds nothing in sound data', () => {
    expect(told({})).toEqual([]);
  });

  it('says which record cannot be read, and why', () => {
    expect(told(changed('leads', 0, { source: 5 }))).toMatchObject([
      ['leads', 'unreadable', expect.stringMatching(/^This lead cannot be read \(source\)\. .+ It is kept unchanged\.$/)],
    ]);
  });

  it('says what a record belongs to when that is missing, and nothing of fields that name none', () => {
    const without = told({ customers: [] });
    const of = (table: string) => without.filter(([name]) => name === table).map(([, kind, message]) => `${kind} ${message}`);
    expect(new Set(of('properties'))).toEqual(
      new Set(['orphan This property belongs to a customer that is missing. It is kept, but no screen shows it.']),
    );
    expect(of('properties')).toHaveLength(sample.properties.length);
    expect(new Set(without.map(([table]) => table))).toEqual(new Set(['properties', 'jobs', 'leads']));
    const rooms = told({ rooms: [] });
    const jobs = rooms.filter(([table]) => table === 'jobs');
    expect(new Set(jobs.map(([, kind, message]) => `${kind} ${message}`))).toEqual(
      new Set(['room-gone This job has a room that is missing. The job is kept, and its screens leave the room out.']),
    );
    expect(rooms.filter(([table]) => table === 'cureLogs')[0]).toMatchObject([
      'cureLogs',
      'orphan',
      expect.stringMatching(/belongs to a room/),
    ]);
    expect(new Set(told({ jobs: [] }).map(([, kind]) => kind))).toEqual(new Set(['orphan']));
  });

  it('misses the picture of a photo', () => {
    expect(told({}, pictures.slice(1))).toEqual(
      sample.photos
        .filter((_, i) => pictures[i] === pictures[0])
        .map(() => ['photos', 'no-picture', 'The picture of this photo is missing. A backup may still have it.']),
    );
  });

  it('finds a number used twice', () => {
    const [first, second] = sample.jobs.map((row) => String(row['number']));
    const twice = (rows: Partial<BookRows> = {}) =>
      checkBookRows({ ...sample, quotes: [], documents: [], ...changed('jobs', 1, { number: first }), ...rows }, pictures)
        .filter(({ kind }) => kind.startsWith('number'))
        .map(({ id, kind, message }) => [id, kind, message]);
    const [one, two] = sample.jobs.map(({ id }) => id);
    const message = `Two jobs have the number ${first}. Give this one the next number before you send its quote.`;
    expect(twice()).toEqual([[two, 'number', message]]);
    expect(first).not.toBe(second);
    // A job keeps a number that the customer has.
    const [quote, document] = [sample.quotes[0], sample.documents[0]];
    if (quote === undefined || document === undefined) throw new Error('The sample has papers.');
    expect(twice({ quotes: [{ ...quote, jobId: two }] })).toEqual([[one, 'number', message]]);
    const documents = [{ ...document, jobId: one }];
    expect(twice({ documents })).toEqual([[two, 'number', message]]);
    expect(twice({ quotes: [{ ...quote, jobId: two }], documents })).toEqual([
      [
        two,
        'number-issued',
        `Two jobs have the number ${first}, and both have saved documents with it, so both keep it. Name the customer too when you refer to one of them.`,
      ],
    ]);
  });

  it('finds nothing in a counter behind a number that an import brought, because the next job takes the number after the highest', () => {
    expect(told({ ...changed('jobs', 0, { number: '27-041' }), ...changed('business', 0, { nextJobSerial: 3 }) })).toEqual([]);
  });

  it('covers every table', () => {
    expect(TABLE_NAMES.filter((table) => sample[table].length === 0)).toEqual(['calendarEntries']);
  });
});

describe('thinning backups', () => {
  const DATA = '0a1b2c3d';
  const file = (madeAt: string, reason = '', dataset = DATA): BackupFile => ({
    name: `Job Book ${dataset} ${madeAt.slice(0, 10)} ${madeAt.slice(11, 16).replace(':', '-')}-00-000${reason === '' ? '' : ` ${reason}`}.zip`,
    bytes: 1_000,
  });
  const removed = (files: readonly BackupFile[], limitBytes = 1e9, now = '2026-05-12T12:00:00.000Z') =>
    thinBackups(files, DATA, now, limitBytes);

  it('keeps one of each hour, and the newest always', () => {
    const [a, b, c] = [file('2026-05-12T10:05'), file('2026-05-12T10:35'), file('2026-05-12T11:00')] as const;
    expect(removed([c, a, b])).toEqual([a.name]);
    expect(removed([a])).toEqual([]);
  });

  it('leaves backups of other data and other files alone', () => {
    const others = [file('2026-05-12T10:05', '', 'ffffffff'), { name: 'photo.zip', bytes: 5 }];
    expect(removed([...others, file('2026-05-12T10:30')])).toEqual([]);
  });

  it('removes the oldest where they take too much space, but never the newest or one made by hand within 90 days', () => {
    const days = [8, 9, 10, 11].map((day) => file(`2026-05-${String(day).padStart(2, '0')}T09:00`));
    const byHand = file('2026-05-07T09:00', 'manual');
    expect(removed([byHand, ...days], 2_500)).toEqual([days[1]?.name, days[0]?.name]);
    expect(removed([byHand, ...days], 0)).toEqual([days[2]?.name, days[1]?.name, days[0]?.name]);
  });

  it('keeps one made by hand past 90 days while a clock set ahead has made few later ones', () => {
    const byHand = file('2026-01-01T09:00', 'before restore');
    const year = (count: number) => Array.from({ length: count }, (_, i) => file(new Date(Date.UTC(2026, 1, 1 + i, 9)).toISOString()));
    const other = file('2026-01-20T09:00');
    const goes = (count: number, now?: string) => removed([byHand, other, ...year(count)], 1e9, now).includes(byHand.name);
    expect([goes(18), goes(60), goes(60, '2026-03-30T12:00:00.000Z')]).toEqual([false, true, false]);
    // The only one of its month stays.
    expect(removed([byHand, ...year(60)]).includes(byHand.name)).toBe(false);
  });
});
