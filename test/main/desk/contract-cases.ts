/** The same calls through every entry to the desk: directly, over the loopback host, over the shell. */
import { createHash } from 'node:crypto';
import { expect } from 'vitest';
import type { Envelope } from '../../../shared-core/desk/envelope.ts';
import { rangeBytes } from './backups/pack-rows.ts';
import { aPour } from '../../shared-core/pour/journal-entries.ts';

export type Ask = (name: string, input: unknown) => Promise<Envelope<unknown>>;

export const CONTRACT_CASES: readonly { readonly name: string; readonly run: (ask: Ask) => Promise<void> }[] = [
  {
    name: 'a good call gives its value',
    run: async (call) => {
      expect(await call('desk.about', {})).toMatchObject({ ok: true, value: { can: { keepFiles: true } } });
    },
  },
  {
    name: 'an unknown call is refused by name',
    run: async (call) => {
      for (const name of ['desk.erase', 'constructor', '__proto__', ''])
        expect(await call(name, {})).toMatchObject({ ok: false, error: { code: 'unknown-call' } });
    },
  },
  {
    name: 'input that does not fit is refused in a sentence',
    run: async (call) => {
      expect(await call('file.save', { name: 'quote.pdf', base64: 7 })).toMatchObject({ ok: false, error: { code: 'bad-input' } });
      expect(await call('desk.about', { extra: true })).toMatchObject({ ok: false, error: { code: 'bad-input' } });
      expect(await call('notice.show', null)).toMatchObject({ ok: false, error: { code: 'bad-input' } });
    },
  },
  {
    name: 'a file name that reaches for a folder is refused',
    run: async (call) => {
      for (const name of [
        '../quote.pdf',
        '/etc/passwd.pdf',
        '..\\quote.pdf',
        '.hidden.pdf',
        'a/b.pdf',
        'quote..pdf',
        'quote.sh',
        'CON.pdf',
        'aux.ics',
        'Lpt1 .csv',
        `${'x'.repeat(200)}.pdf`,
      ]) {
        expect(await call('file.save', { name, base64: '' }), name).toMatchObject({ ok: false, error: { code: 'bad-input' } });
      }
    },
  },
  {
    name: 'a kept file is there, whole, and opens',
    run: async (call) => {
      expect(
        await call('file.save', { name: 'Quote 26-031, revision 1.pdf', base64: Buffer.from('paper').toString('base64') }),
      ).toMatchObject({ ok: true, value: { bytes: 5 } });
      expect(await call('file.open', { name: 'Quote 26-031, revision 1.pdf' })).toMatchObject({ ok: true });
      expect(await call('file.open', { name: 'Not made.pdf' })).toMatchObject({ ok: false, error: { code: 'not-found' } });
    },
  },
  {
    name: 'a calendar file is kept in its place, and a notice says whether it was shown',
    run: async (call) => {
      const place = await call('calendar.place', {});
      expect(place).toMatchObject({ ok: true, value: { chosen: false } });
      const saved = await call('calendar.save', { file: 'Calendar.ics', name: 'Calendar', events: [], sentAt: '2026-05-12T11:05:00.000Z' });
      expect(saved).toMatchObject({
        ok: true,
        value: { name: 'Calendar.ics', folder: place.ok && (place.value as { folder: string }).folder },
      });
      expect(
        await call('calendar.save', { file: '../Calendar.ics', name: 'Calendar', events: [], sentAt: '2026-05-12T11:05:00.000Z' }),
      ).toMatchObject({
        ok: false,
        error: { code: 'bad-input' },
      });
      expect(await call('notice.show', { title: 'Pour the hall', body: 'Today.' })).toMatchObject({ ok: true });
    },
  },
  {
    name: 'a pour’s journal is added to, read back in order, and closed; an id that reaches for a folder is refused',
    run: async (call) => {
      const stamp = { pourId: 'pour-7', instant: '2026-05-12T11:05:00.000Z', estimated: false };
      const entries = [
        { ...stamp, id: 'entry-1', seq: 1, kind: 'started' },
        { ...stamp, id: 'entry-2', seq: 2, kind: 'mixed', batch: 1, bags: 2, waterL: null },
      ];
      for (const event of entries) expect(await call('journal.add', { pour: aPour, event })).toMatchObject({ ok: true });
      expect(await call('journal.list', {})).toEqual({ ok: true, value: { pourIds: ['pour-7'] } });
      expect(await call('journal.read', { pourId: 'pour-7' })).toEqual({
        ok: true,
        value: { pour: aPour, events: entries, unreadable: 0 },
      });
      for (const pourId of ['../pour-7', 'pour/7', 'C:pour', '..', ''])
        expect(await call('journal.read', { pourId }), pourId).toMatchObject({ ok: false, error: { code: 'bad-input' } });
      expect(await call('journal.add', { pour: { ...aPour, id: 'another' }, event: entries[0] })).toMatchObject({
        ok: false,
        error: { code: 'bad-input', message: expect.stringContaining('another pour') },
      });
      expect(await call('journal.close', { pourId: 'pour-7', fate: 'remove' })).toEqual({ ok: true, value: { closed: true } });
      expect(await call('journal.close', { pourId: 'pour-7', fate: 'remove' })).toEqual({ ok: true, value: { closed: false } });
      expect(await call('journal.list', {})).toEqual({ ok: true, value: { pourIds: [] } });
    },
  },
  {
    name: 'data backed up in pieces is listed and comes back the same, its photo with it; the next backup copies what did not change',
    run: async (call) => {
      const value = async (name: string, input: unknown): Promise<Record<string, unknown>> => {
        const answer = await call(name, input);
        expect(answer, name).toMatchObject({ ok: true });
        return answer.ok ? (answer.value as Record<string, unknown>) : {};
      };
      const customersOf = async (opened: Record<string, unknown>): Promise<unknown> => {
        const { bytes, next } = await value('backup.rows', { id: opened['id'], table: 'customers', from: 0 });
        return { rows: JSON.parse(Buffer.from(bytes as Uint8Array).toString()) as unknown, next };
      };
      const bytesOf = (range: readonly unknown[]): Uint8Array => new Uint8Array(rangeBytes(range));
      const dataset = '0a1b2c3d';
      const base64 = Buffer.from('a photo').toString('base64');
      const sha256 = createHash('sha256').update('a photo').digest('hex');
      const photo = `photos/${sha256}.jpg`;
      const beginBackup = (madeAt: string, base: string | null) =>
        value('backup.begin', { dataset, madeAt, reason: 'manual', key: null, base });
      const first = await beginBackup('2026-05-12T11:05:00.000Z', null);
      expect(first['ranges']).toBeNull();
      const rows = [
        { id: 'customer-1', name: 'Odell' },
        { id: 'customer-2', name: 'Rusk' },
      ];
      const photoRow = { id: 'photo-1', mediaType: 'image/jpeg', sha256 };
      for (const row of rows) await value('backup.add-rows', { id: first['id'], table: 'customers', bytes: bytesOf([row]) });
      await value('backup.add-rows', { id: first['id'], table: 'photos', bytes: bytesOf([photoRow]) });
      expect(await value('backup.missing-photos', { id: first['id'] })).toEqual({ names: [photo] });
      await value('backup.add-photos', { photos: [{ name: photo, base64 }], encrypted: false });
      expect(await value('backup.missing-photos', { id: first['id'] })).toEqual({ names: [] });
      const name = `Job Book ${dataset} 2026-05-12 11-05-00-000 manual.zip`;
      expect(await value('backup.finish', { id: first['id'], withoutPhotos: [] })).toMatchObject({ name });
      expect(await value('backup.list', { dataset })).toMatchObject({ backups: [{ name, isOwn: true, reason: 'manual' }] });
      expect(await value('backup.list', { dataset: 'ffffffff' })).toMatchObject({ backups: [{ name, isOwn: false }] });
      const opened = await value('backup.open', { from: { name }, key: null, passphrase: null });
      expect(opened).toMatchObject({ dataset, counts: { customers: 2, jobs: 0 }, photos: [photo] });
      expect(await customersOf(opened)).toEqual({ rows, next: null });
      expect(await value('backup.photos', { id: opened['id'], names: [photo] })).toEqual({ photos: [{ name: photo, base64 }] });
      expect(await value('backup.close', { id: opened['id'] })).toEqual({ closed: true });
      const second = await beginBackup('2026-05-12T12:05:00.000Z', name);
      expect(second['ranges']).toMatchObject([{ table: 'customers', first: 'customer-1' }, { first: 'customer-2' }, { table: 'photos' }]);
      await value('backup.copy', { id: second['id'], table: 'customers', from: 0, count: 1 });
      await value('backup.add-rows', { id: second['id'], table: 'customers', bytes: bytesOf([{ id: 'customer-2', name: 'Abara' }]) });
      await value('backup.copy', { id: second['id'], table: 'photos', from: 0, count: 1 });
      const next = await value('backup.finish', { id: second['id'], withoutPhotos: [] });
      const reopened = await value('backup.open', { from: { name: next['name'] }, key: null, passphrase: null });
      expect(reopened).toMatchObject({ counts: { customers: 2, photos: 1 }, photos: [photo] });
      expect(await customersOf(reopened)).toEqual({
        rows: [rows[0], { id: 'customer-2', name: 'Abara' }],
        next: null,
      });
      const span = { table: 'customers', after: 'customer-1', before: null, from: 1, rows: 1 };
      const alike = await value('backup.differences', { id: reopened['id'], name, key: null });
      expect(alike).toMatchObject({ spans: [span], counts: { customers: 2, photos: 1, jobs: 0 } });
      expect(await value('backup.differences', { id: reopened['id'], name: next['name'], key: null })).toMatchObject({ spans: [] });
      expect(await value('backup.delete', { name: next['name'] })).toEqual({ deleted: true });
    },
  },
  {
    name: 'a backup that is not there, not ours or no backup at all is refused in words',
    run: async (call) => {
      const look = (from: unknown) => call('backup.open', { from, key: null, passphrase: null });
      expect(await look({ name: 'Job Book 0a1b2c3d 2026-05-12 11-05-00-001.zip' })).toMatchObject({
        ok: false,
        error: { code: 'not-found' },
      });
      expect(await look({ name: '../running-1.json' })).toMatchObject({ ok: false, error: { code: 'bad-input' } });
      const arrived = await call('backup.upload', { id: null, base64: Buffer.from('no zip at all, whatever').toString('base64') });
      if (!arrived.ok) throw new Error(arrived.error.message);
      expect(await look({ uploaded: (arrived.value as { id: string }).id })).toMatchObject({ ok: false, error: { code: 'bad-input' } });
      expect(await call('backup.rows', { id: 'f'.repeat(24), table: 'customers', from: 0 })).toMatchObject({
        ok: false,
        error: { code: 'not-found' },
      });
    },
  },
];
