/** The same questions put to the desk through every way in: directly, over the loopback host, over the shell. */
import { expect } from 'vitest';
import { TABLE_NAMES } from '../../../shared-core/book/tables.ts';
import type { Envelope } from '../../../shared-core/desk/envelope.ts';

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
    name: 'a book kept as a snapshot is listed and comes back the same',
    run: async (ask) => {
      const rows = { ...Object.fromEntries(TABLE_NAMES.map((table) => [table, []])), clients: [{ id: 'client-1', name: 'Odell' }] };
      expect(await ask('snapshot.keep', { madeAt: '2026-05-12T11:05:00.000Z', reason: 'asked', rows })).toMatchObject({ ok: true });
      const name = 'Book 2026-05-12 11-05-00-000.zip';
      expect(await ask('snapshot.list', {})).toMatchObject({ ok: true, value: { snapshots: [{ name }] } });
      expect(await ask('snapshot.read', { name })).toMatchObject({ ok: true, value: { rows } });
      expect(await ask('snapshot.read', { name: 'Book 2026-05-12 11-05-00-001.zip' })).toMatchObject({
        ok: false,
        error: { code: 'not-found' },
      });
      expect(await ask('snapshot.read', { name: '../running.json' })).toMatchObject({ ok: false, error: { code: 'bad-input' } });
      expect(await ask('snapshot.open', { base64: Buffer.from('no zip at all, whatever').toString('base64') })).toMatchObject({
        ok: false,
        error: { code: 'bad-input' },
      });
    },
  },
];
