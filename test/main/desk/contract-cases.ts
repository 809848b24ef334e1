/** The same questions put to the desk through every way in: directly, over the loopback host, over the shell. */
import { createHash } from 'node:crypto';
import { expect } from 'vitest';
import type { Envelope } from '../../../shared-core/desk/envelope.ts';
import { aPour } from '../../shared-core/pour/journal-entries.ts';

export type Ask = (name: string, input: unknown) => Promise<Envelope<unknown>>;

export const CONTRACT_CASES: readonly { readonly name: string; readonly run: (ask: Ask) => Promise<void> }[] = [
  {
    name: 'a good call gives its value',
    run: async (ask) => {
      expect(await ask('desk.about', {})).toMatchObject({ ok: true, value: { can: { keepFiles: true } } });
    },
  },
  {
    name: 'an unknown call is refused by name',
    run: async (ask) => {
      for (const name of ['desk.erase', 'constructor', '__proto__', ''])
        expect(await ask(name, {})).toMatchObject({ ok: false, error: { code: 'unknown-call' } });
    },
  },
  {
    name: 'input that does not fit is refused in a sentence',
    run: async (ask) => {
      expect(await ask('file.keep', { name: 'quote.pdf', base64: 7 })).toMatchObject({ ok: false, error: { code: 'bad-input' } });
      expect(await ask('desk.about', { extra: true })).toMatchObject({ ok: false, error: { code: 'bad-input' } });
      expect(await ask('notice.show', null)).toMatchObject({ ok: false, error: { code: 'bad-input' } });
    },
  },
  {
    name: 'a file name that reaches for a folder is refused',
    run: async (ask) => {
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
        expect(await ask('file.keep', { name, base64: '' }), name).toMatchObject({ ok: false, error: { code: 'bad-input' } });
      }
    },
  },
  {
    name: 'a kept file is there, whole, and opens',
    run: async (ask) => {
      expect(
        await ask('file.keep', { name: 'Quote 26-031, revision 1.pdf', base64: Buffer.from('paper').toString('base64') }),
      ).toMatchObject({ ok: true, value: { bytes: 5 } });
      expect(await ask('file.open', { name: 'Quote 26-031, revision 1.pdf' })).toMatchObject({ ok: true });
      expect(await ask('file.open', { name: 'Not made.pdf' })).toMatchObject({ ok: false, error: { code: 'not-found' } });
    },
  },
  {
    name: 'a calendar file is kept in its place, and a notice says whether it was shown',
    run: async (ask) => {
      const place = await ask('calendar.place', {});
      expect(place).toMatchObject({ ok: true, value: { chosen: false } });
      const kept = await ask('calendar.keep', { file: 'Calendar.ics', name: 'Calendar', events: [], sentAt: '2026-05-12T11:05:00.000Z' });
      expect(kept).toMatchObject({
        ok: true,
        value: { name: 'Calendar.ics', folder: place.ok && (place.value as { folder: string }).folder },
      });
      expect(
        await ask('calendar.keep', { file: '../Calendar.ics', name: 'Calendar', events: [], sentAt: '2026-05-12T11:05:00.000Z' }),
      ).toMatchObject({
        ok: false,
        error: { code: 'bad-input' },
      });
      expect(await ask('notice.show', { title: 'Pour the hall', body: 'Today.' })).toMatchObject({ ok: true });
    },
  },
  {
    name: 'a pour’s journal is added to, read back in order, and closed; an id that reaches for a folder is refused',
    run: async (ask) => {
      const stamp = { pourId: 'pour-7', at: '2026-05-12T11:05:00.000Z', estimated: false };
      const entries = [
        { ...stamp, id: 'entry-1', seq: 1, kind: 'started' },
        { ...stamp, id: 'entry-2', seq: 2, kind: 'mixed', batch: 1, bags: 2, waterL: null },
      ];
      for (const event of entries) expect(await ask('journal.add', { pour: aPour, event })).toMatchObject({ ok: true });
      expect(await ask('journal.list', {})).toEqual({ ok: true, value: { pourIds: ['pour-7'] } });
      expect(await ask('journal.read', { pourId: 'pour-7' })).toEqual({
        ok: true,
        value: { pour: aPour, events: entries, unreadable: 0 },
      });
      for (const pourId of ['../pour-7', 'pour/7', 'C:pour', '..', ''])
        expect(await ask('journal.read', { pourId }), pourId).toMatchObject({ ok: false, error: { code: 'bad-input' } });
      expect(await ask('journal.add', { pour: { ...aPour, id: 'another' }, event: entries[0] })).toMatchObject({
        ok: false,
        error: { code: 'bad-input', message: expect.stringContaining('another pour') },
      });
      expect(await ask('journal.close', { pourId: 'pour-7', how: 'remove' })).toEqual({ ok: true, value: { closed: true } });
      expect(await ask('journal.close', { pourId: 'pour-7', how: 'remove' })).toEqual({ ok: true, value: { closed: false } });
      expect(await ask('journal.list', {})).toEqual({ ok: true, value: { pourIds: [] } });
    },
  },
  {
    name: 'a book copied in pieces is listed and comes back the same, its photo with it',
    run: async (ask) => {
      const value = async (name: string, input: unknown): Promise<Record<string, unknown>> => {
        const answer = await ask(name, input);
        expect(answer, name).toMatchObject({ ok: true });
        return answer.ok ? (answer.value as Record<string, unknown>) : {};
      };
      const base64 = Buffer.from('a photo').toString('base64');
      const photo = `photos/${createHash('sha256').update('a photo').digest('hex')}.jpg`;
      expect(await value('picture.wanted', { names: [photo], locked: false })).toEqual({ wanted: [photo] });
      await value('picture.keep', { pictures: [{ name: photo, base64 }], locked: false });
      expect(await value('picture.wanted', { names: [photo], locked: false })).toEqual({ wanted: [] });
      const { id } = await value('snapshot.begin', { madeAt: '2026-05-12T11:05:00.000Z', reason: 'asked', lock: null });
      const rows = [
        { id: 'customer-1', name: 'Odell' },
        { id: 'customer-2', name: 'Rusk' },
      ];
      for (const row of rows) await value('snapshot.add', { id, table: 'customers', rows: [row] });
      const name = 'Book 2026-05-12 11-05-00-000.zip';
      expect(await value('snapshot.finish', { id, pictures: [photo] })).toMatchObject({ name });
      expect(await value('snapshot.list', {})).toMatchObject({ snapshots: [{ name }] });
      const looked = await value('snapshot.look', { from: { name }, lock: null, passphrase: null });
      expect(looked).toMatchObject({ counts: { customers: 2, jobs: 0 }, pictures: [photo] });
      expect(await value('snapshot.rows', { id: looked['id'], table: 'customers', from: 0 })).toEqual({ rows, next: null });
      expect(await value('snapshot.pictures', { id: looked['id'], names: [photo] })).toEqual({ pictures: [{ name: photo, base64 }] });
      expect(await value('snapshot.close', { id: looked['id'] })).toEqual({ closed: true });
    },
  },
  {
    name: 'a copy that is not there, not ours or no copy at all is refused in words',
    run: async (ask) => {
      const look = (from: unknown) => ask('snapshot.look', { from, lock: null, passphrase: null });
      expect(await look({ name: 'Book 2026-05-12 11-05-00-001.zip' })).toMatchObject({ ok: false, error: { code: 'not-found' } });
      expect(await look({ name: '../running-1.json' })).toMatchObject({ ok: false, error: { code: 'bad-input' } });
      const arrived = await ask('snapshot.arrive', { id: null, base64: Buffer.from('no zip at all, whatever').toString('base64') });
      if (!arrived.ok) throw new Error(arrived.error.message);
      expect(await look({ arrived: (arrived.value as { id: string }).id })).toMatchObject({ ok: false, error: { code: 'bad-input' } });
      expect(await ask('snapshot.rows', { id: 'f'.repeat(24), table: 'customers', from: 0 })).toMatchObject({
        ok: false,
        error: { code: 'not-found' },
      });
    },
  },
];
