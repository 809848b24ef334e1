/** The zip container is checked against the published .ZIP application note (APPNOTE 6.3) by forging its fields. */
import { samplePictures } from '../../../../shared-core/sample/sample-pictures.ts';
import { strToU8, unzipSync, zipSync, type Zippable } from 'fflate';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openBackupBytes } from '../../../../main/desk/backups/read-backup.ts';
import { readZip, ZIP_LIMITS } from '../../../../main/desk/backups/read-zip.ts';
import { sha256Of } from '../../../../main/desk/files.ts';
import type { StoredRow } from '../../../../shared-core/book/migrations/all-steps.ts';
import { checkBookRows } from '../../../shared-core/book/check-book-rows.ts';
import { backupName, thinBackups, type BackupReason } from '../../../../shared-core/book/backup-names.ts';
import { customerSchema } from '../../../../shared-core/book/customer.ts';
import { type BookRows, carryRow, readManifest } from '../../../../shared-core/book/backup.ts';
import { TABLE_NAMES } from '../../../../shared-core/book/tables.ts';
import { sampleAt } from '../../../sample-at.ts';
import { AT, byId, DATASET, emptyBook, packRows, tableOf, unpackRows } from './pack-rows.ts';

/** `STRAIGHTEDGE_MANIFESTS` sets more. */
const MANIFESTS = Number(process.env['STRAIGHTEDGE_MANIFESTS'] ?? 10_000);

let bookRows: BookRows | null = null;
/** Made once, because it calculates whole jobs. */
const sample = (): BookRows => (bookRows ??= sampleAt(AT));
const empty = emptyBook;
const refusal = (bytes: Uint8Array): string => {
  const read = openBackupBytes(bytes);
  expect(read.ok).toBe(false);
  return read.ok ? '' : read.message;
};
const CUSTOMERS = [{ id: 'customer-1', name: 'Odell' }];
const parts = (): Record<string, Uint8Array> => unzipSync(packRows({ ...empty(), customers: CUSTOMERS }));
const RANGE_NAME = 'tables/customers/00000.json';
type Range = { name: string; table: string; rows: number; first: string; last: string; bytes: number; sha256: string };
type Head = { formatVersion: number; schemaVersion: number; ranges: Range[] };
const forged = (change: (manifest: Head) => unknown, more: Zippable = {}): Uint8Array => {
  const all = parts();
  const manifest = JSON.parse(new TextDecoder().decode(all['manifest.json'])) as Head;
  return zipSync({ ...all, 'manifest.json': strToU8(JSON.stringify(change(manifest) ?? manifest)), ...more });
};
/** A backup whose table has this text, with a matching manifest. */
const withTable = (text: string, rows: number, first = 'a', last = 'a'): Uint8Array => {
  const bytes = strToU8(text);
  return forged(
    (m) => ({ ...m, ranges: m.ranges.map((range) => ({ ...range, rows, first, last, bytes: bytes.length, sha256: sha256Of(bytes) })) }),
    { [RANGE_NAME]: bytes },
  );
};

describe('a backup', () => {
  it('of the sample restores record by record', () => {
    const read = unpackRows(packRows(sample()));
    if (!read.ok) throw new Error(read.message);
    for (const table of TABLE_NAMES)
      expect(read.value[table], table).toEqual(byId(JSON.parse(JSON.stringify(sample()[table])) as StoredRow[]));
    const pictures = samplePictures().map(({ sha256 }) => `photos/${sha256}.png`);
    expect(checkBookRows(read.value, pictures)).toEqual([]);
  });

  it('of any data restores record by record, photo by photo', () => {
    const id = fc.stringMatching(/^[A-Za-z0-9_-]{4,12}$/);
    const row = fc.record({
      id,
      name: fc.string({ unit: 'binary' }),
      n: fc.double({ noNaN: true, noDefaultInfinity: true }).map((n) => n + 0),
      list: fc.array(fc.jsonValue()),
    });
    const rows = fc.uniqueArray(row, { selector: (r) => r['id'], maxLength: 12 });
    fc.assert(
      fc.property(
        fc.record(Object.fromEntries(TABLE_NAMES.map((t) => [t, rows]))),
        fc.array(fc.uint8Array(), { maxLength: 5 }),
        (rows, photos) => {
          const book = JSON.parse(JSON.stringify(rows)) as BookRows;
          const pictures = new Map(photos.map((bytes) => [`photos/${sha256Of(bytes)}.webp`, bytes]));
          const read = openBackupBytes(packRows(book, pictures));
          if (!read.ok) throw new Error(read.message);
          for (const table of TABLE_NAMES) expect(tableOf(read.value, table)).toEqual(byId(book[table]));
          expect(read.value.pictures().sort()).toEqual([...pictures.keys()].sort());
          for (const [name, bytes] of pictures) expect(read.value.picture(name)?.equals(bytes)).toBe(true);
        },
      ),
      { numRuns: 40 },
    );
  });

  it('is a zip that any reader opens', () => {
    const all = unzipSync(packRows(sample()));
    const rows = Object.keys(all).flatMap((name) =>
      name.startsWith('tables/jobs/') ? (JSON.parse(new TextDecoder().decode(all[name])) as unknown[]) : [],
    );
    expect(rows).toHaveLength(sample().jobs.length);
  });

  it('is refused when cut short anywhere', () => {
    const whole = packRows(empty());
    for (let length = 0; length < whole.length; length += 31) expect(refusal(whole.subarray(0, length))).toMatch(/\.$/);
  });

  it('with any bit flipped is refused or reads the same', () => {
    const whole = packRows({ ...empty(), customers: [{ id: 'customer-1', name: 'Odell' }] });
    const good = unpackRows(whole);
    for (let bit = 0; bit < whole.length * 8; bit += 23) {
      const bytes = Uint8Array.from(whole);
      bytes[bit >> 3] = (bytes[bit >> 3] ?? 0) ^ (1 << (bit & 7));
      const read = unpackRows(bytes);
      if (read.ok) expect(read).toEqual(good);
    }
  });

  it('of a newer format or newer records is refused in a sentence', () => {
    for (const key of ['formatVersion', 'schemaVersion'] as const)
      expect(refusal(forged((m) => ({ ...m, [key]: 999 })))).toMatch(/newer version of Straightedge/);
  });

  it('with paths outside, links, unknown or missing parts is refused', () => {
    for (const name of ['../x.json', '/etc/x', 'tables/../../x', 'C:\\x', './x', 'tables//x', 'Quote 26-031.txt', 'pics/'])
      expect(refusal(zipSync({ ...parts(), [name]: strToU8('x') })), name).toMatch(/name that no backup uses.*not made by Straightedge/);
    expect(refusal(zipSync({ ...parts(), 'tables/customers/x.txt': strToU8('x') }))).toMatch(/does not name/);
    expect(refusal(zipSync({ ...parts(), link: [strToU8('/etc/passwd'), { os: 3, attrs: 0o120777 << 16 }] }))).toMatch(/link/);
    expect(refusal(forged((m) => ({ ...m, ranges: [...m.ranges, m.ranges[0]] })))).toMatch(/twice/);
    expect(refusal(forged((m) => ({ ...m, ranges: [] })))).toMatch(/damaged/);
    expect(refusal(zipSync({ ...parts(), [RANGE_NAME]: strToU8('[{"id":"evil"}]') }))).toMatch(/changed after it was written/);
    expect(refusal(forged((m) => ({ ...m, beside: ['../../etc/passwd'] })))).toMatch(/damaged/);
    const { 'manifest.json': _, ...bare } = parts();
    expect(refusal(zipSync(bare))).toMatch(/not a Straightedge backup/);
  });

  it('whose table is not one record per line, has a wrong count, or repeats a record is refused', () => {
    expect(refusal(withTable('[\n{"id":"a"},\n{"id":"a"}\n]\n', 2))).toMatch(/same record twice|out of order/);
    expect(refusal(withTable('[\n{"id":"a"}\n]\n', 2))).toMatch(/does not have the records/);
    expect(refusal(withTable('[{"id":"a"}]', 1))).toMatch(/one record per line/);
    expect(refusal(withTable('[\n{"name":"nobody"}\n]\n', 1))).toMatch(/not a record/);
    expect(refusal(withTable('[\n{"id":"a",}\n]\n', 1))).toMatch(/\.$/);
  });

  it('with two parts of one name is refused', () => {
    const zip = Buffer.from(zipSync({ 'aaaa.json': strToU8('1'), 'bbbb.json': strToU8('2') }));
    expect(refusal(Buffer.from(zip.toString('latin1').replaceAll('bbbb', 'aaaa'), 'latin1'))).toMatch(/two parts of the same name/);
  });

  it('that declares too much, or unpacks to more than it declares, is refused', () => {
    const limits = { ...ZIP_LIMITS, fileBytes: 1e6, entries: 10, entryBytes: 1000, totalBytes: 1500 };
    const zeros = new Uint8Array(900);
    expect(readZip(zipSync({ a: new Uint8Array(1001) }), limits).ok).toBe(false);
    expect(readZip(zipSync({ a: zeros, b: zeros }), limits).ok).toBe(false);
    const whole = readZip(zipSync({ a: zeros }), limits);
    expect(whole.ok && whole.value.get('a')?.unpack()).toMatchObject({ ok: true, value: Buffer.from(zeros) });
    const lying = Buffer.from(zipSync({ a: new Uint8Array(50_000_000) }, { level: 9 }));
    const directory = lying.readUInt32LE(lying.length - 6);
    for (const offset of [22, directory + 24]) lying.writeUInt32LE(900, offset);
    const read = readZip(lying, limits);
    expect(read.ok && read.value.get('a')?.unpack()).toMatchObject({ ok: false, message: expect.stringMatching(/cannot be unpacked/) });
  });

  it('that is a zip bomb is refused before anything is unpacked', () => {
    const bomb = zipSync({ a: [new Uint8Array(70_000_000), { level: 9 }] });
    expect(bomb.length).toBeLessThan(300_000);
    expect(readZip(bomb)).toMatchObject({ ok: false, message: expect.stringMatching(/larger than any backup/) });
  });

  it('whose manifest nests too deep is refused at once', () => {
    const deep = `${'['.repeat(2_000_000)}${']'.repeat(2_000_000)}`;
    expect(readManifest(deep)).toMatchObject({ ok: false });
    expect(refusal(zipSync({ ...parts(), 'manifest.json': strToU8(`{"format":"straightedge-backup","ranges":${deep}}`) }))).toMatch(
      /damaged/,
    );
  });

  it(`with any manifest is refused in a sentence or reads as it (${MANIFESTS} of them)`, () => {
    const all = parts();
    const real = JSON.parse(new TextDecoder().decode(all['manifest.json'])) as Record<string, unknown>;
    const manifests = fc.oneof(
      fc.jsonValue(),
      fc.tuple(fc.constantFrom(...Object.keys(real)), fc.jsonValue()).map(([key, value]) => ({ ...real, [key]: value })),
      fc
        .record({ name: fc.string(), bytes: fc.integer(), sha256: fc.string() })
        .map((entry) => ({ ...real, ranges: [...(real['ranges'] as unknown[]), entry] })),
    );
    fc.assert(
      fc.property(manifests, (manifest) => {
        const read = readManifest(JSON.stringify(manifest));
        if (!read.ok) expect(read.message).toMatch(/^[A-Z].*\.$/);
      }),
      { numRuns: MANIFESTS },
    );
    fc.assert(
      fc.property(manifests, (manifest) => {
        const read = unpackRows(zipSync({ ...all, 'manifest.json': strToU8(JSON.stringify(manifest)) }, { level: 0 }));
        if (read.ok) expect(read.value).toEqual({ ...empty(), customers: CUSTOMERS });
        else expect(read.message).toMatch(/^[A-Z].*\.$/);
      }),
      { numRuns: 200 },
    );
  }, 120_000);

  it('of older records goes through the migrations, and a row that a migration cannot read stays unchanged', () => {
    const steps = [
      {
        to: 2,
        changes: [
          {
            schema: customerSchema,
            change: (row: StoredRow) => {
              if (row['name'] === undefined) throw new Error('no name');
              return { ...row, kind: 'person' };
            },
          },
        ],
      },
    ];
    expect(carryRow('customers', { id: 'old-1', name: 'Odell' }, 1, 2, steps)).toEqual({ id: 'old-1', name: 'Odell', kind: 'person' });
    expect(carryRow('customers', { id: 'old-2' }, 1, 2, steps)).toEqual({ id: 'old-2' });
  });
});

describe('the data check', () => {
  it('lists each problem with its record: a property without a customer, a repeated number, an unreadable record, a photo without a picture', () => {
    const book = sample();
    const [job] = book.jobs;
    const photo = {
      id: 'photo-1',
      createdAt: AT,
      changedAt: AT,
      deletedAt: null,
      jobId: job?.['id'],
      roomId: null,
      takenAt: AT,
      caption: '',
      mediaType: 'image/jpeg',
      widthPx: 10,
      heightPx: 10,
      sha256: 'a'.repeat(64),
    };
    const odd: BookRows = {
      ...book,
      customers: [...book.customers.slice(1), { id: 'broken-1' }],
      jobs: [...book.jobs, { ...job, id: 'again-1' }],
      photos: [photo],
    };
    const report = checkBookRows(odd, [])
      .map((o) => o.message)
      .join('\n');
    expect(report).toMatch(/belongs to a customer that is missing/);
    expect(report).toMatch(/Two jobs have the number/);
    expect(report).toMatch(/This customer cannot be read/);
    expect(report).toMatch(/picture of this photo is missing/);
    expect(checkBookRows(odd, [`photos/${'a'.repeat(64)}.jpg`]).some((o) => o.kind === 'no-picture')).toBe(false);
  });
});

describe('thinning', () => {
  const HOUR = 3_600_000;
  const DAY = 24 * HOUR;
  const instantOf = (ms: number) => new Date(Date.parse(AT) + ms).toISOString();
  const file = (ms: number, reason: BackupReason = 'automatic', dataset = DATASET) => ({
    name: backupName({ dataset, madeAt: instantOf(ms), reason }),
    bytes: 10,
  });
  const files = Array.from({ length: 24 * 200 }, (_, i) => file(-i * (HOUR / 2)));

  it('keeps one per hour, day, week and month, and never removes the newest', () => {
    const removed = new Set(thinBackups(files, DATASET, AT, 1e9));
    const remaining = files.filter((f) => !removed.has(f.name));
    expect(remaining[0]).toEqual(files[0]);
    expect(remaining.length).toBeGreaterThan(24 + 13 + 7);
    expect(remaining.length).toBeLessThan(24 + 15 + 11 + 4);
  });
  it('stays within the limit, oldest first, and leaves files of others', () => {
    const removed = thinBackups([...files, { name: 'Mine.zip', bytes: 1e9 }], DATASET, AT, 55);
    expect(files.length - removed.length).toBe(5);
    expect(removed).not.toContain('Mine.zip');
    expect(thinBackups(files.slice(0, 1), DATASET, AT, 0)).toEqual([]);
  });
  it('leaves backups of other data in the folder, whatever their number', () => {
    const others = files.slice(0, 200).map((_, i) => file(-i * 60_000, 'automatic', 'ffffffff'));
    const removed = new Set(thinBackups([...files.slice(0, 100), ...others], DATASET, AT, 0));
    expect(others.some(({ name }) => removed.has(name))).toBe(false);
    expect(removed.size).toBe(99);
  });
  it('keeps manual ones and those before a restore or import for 90 days, also over the limit', () => {
    const manual = (['manual', 'before-restore', 'before-import'] as const).map((reason, i) => file(-89 * DAY + i, reason));
    const old = file(-91 * DAY, 'manual');
    const removed = thinBackups([...files.slice(0, 48 * 40), ...manual, old], DATASET, AT, 0);
    for (const { name } of manual) expect(removed).not.toContain(name);
    expect(removed).toContain(old.name);
  });
  it('does not trust a clock that jumped: one backup dated a year ahead, or behind, removes at most one per class', () => {
    const settled = (list: { name: string; bytes: number }[], now: string) => {
      const removed = new Set(thinBackups(list, DATASET, now, 1e9));
      return list.filter(({ name }) => !removed.has(name));
    };
    const manual = file(-2 * DAY, 'manual');
    const before = settled([...files, manual], AT);
    for (const jump of [365 * DAY, -365 * DAY]) {
      const backup = file(jump);
      const after = settled([backup, ...before], instantOf(jump));
      expect(before.filter(({ name }) => !after.some((one) => one.name === name)).length).toBeLessThanOrEqual(4);
      expect(after).toContainEqual(manual);
    }
  });
});

it('a checksum is SHA-256 (FIPS 180-4 example, “abc”)', () => {
  expect(sha256Of(strToU8('abc'))).toBe('ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad');
});
