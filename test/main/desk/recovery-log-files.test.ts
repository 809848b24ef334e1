import { appendFileSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { aPour, entry } from '../../shared-core/pour/journal-entries.ts';
import { workingDesk } from './working-desk.ts';

const pours = (papers: string): string => join(papers, '..', 'data', 'pours');

describe('the recovery log of a pour on the disk', () => {
  it('stores a hundred entries added at once, each complete and once', async () => {
    const { dispatch } = workingDesk();
    const entries = Array.from({ length: 100 }, (_, i) => entry(i + 1));
    await Promise.all(entries.map((event) => dispatch('journal.add', { pour: aPour, event })));
    const read = await dispatch('journal.read', { pourId: aPour.id });
    expect(read).toMatchObject({ ok: true, value: { pour: aPour, unreadable: 0 } });
    const ids = read.ok ? (read.value as { events: { id: string }[] }).events.map(({ id }) => id) : [];
    expect(ids.sort()).toEqual(entries.map(({ id }) => id).sort());
  });

  it('loses no line beside one that was torn, is not JSON, or belongs to another pour', async () => {
    const { dispatch, papers } = workingDesk();
    await dispatch('journal.add', { pour: aPour, event: entry(1) });
    const path = join(pours(papers), `pour-${aPour.id}.jsonl`);
    appendFileSync(path, '\n{"version":1,"event":{"id":"torn-2","pourId":"po');
    await dispatch('journal.add', { pour: aPour, event: entry(3) });
    appendFileSync(path, `\nnull\n{"version":1,"event":${JSON.stringify({ ...entry(4), pourId: 'other-pour' })}}\n`);
    appendFileSync(path, `{"version":99,"event":${JSON.stringify(entry(5))}}\n`);
    await dispatch('journal.add', { pour: aPour, event: entry(6) });
    expect(await dispatch('journal.read', { pourId: aPour.id })).toEqual({
      ok: true,
      value: { pour: aPour, events: [entry(1), entry(3), entry(6)], unreadable: 4 },
    });
  });

  it('only appends: earlier content stays at the start of the file', async () => {
    const { dispatch, papers } = workingDesk();
    await dispatch('journal.add', { pour: aPour, event: entry(1) });
    const path = join(pours(papers), `pour-${aPour.id}.jsonl`);
    const before = readFileSync(path, 'utf8');
    await dispatch('journal.add', { pour: { ...aPour, notes: 'changed since' }, event: entry(2) });
    expect(readFileSync(path, 'utf8').startsWith(before)).toBe(true);
  });

  it('refuses to grow past its size, and a log beyond the permitted number, in a sentence', async () => {
    const { dispatch, papers } = workingDesk();
    mkdirSync(pours(papers), { recursive: true });
    writeFileSync(join(pours(papers), `pour-${aPour.id}.jsonl`), Buffer.alloc(4_000_000, '\n'));
    expect(await dispatch('journal.add', { pour: aPour, event: entry(1) })).toMatchObject({
      ok: false,
      error: { code: 'too-large', message: expect.stringContaining('still saved in the pour log') },
    });
    for (let i = 0; i < 200; i++) writeFileSync(join(pours(papers), `pour-full-${i}.jsonl`), '');
    const other = { ...aPour, id: 'pour-other' };
    expect(await dispatch('journal.add', { pour: other, event: { ...entry(1), pourId: other.id } })).toMatchObject({
      ok: false,
      error: { code: 'too-large', message: expect.stringContaining('Back up now') },
    });
  });

  it('is renamed when its entries are discarded', async () => {
    const { dispatch, papers } = workingDesk();
    await dispatch('journal.add', { pour: aPour, event: entry(1) });
    await dispatch('journal.close', { pourId: aPour.id, fate: 'set-aside' });
    expect(readdirSync(pours(papers))).toEqual([`aside-${aPour.id}.jsonl`]);
    expect(await dispatch('journal.list', {})).toEqual({ ok: true, value: { pourIds: [] } });
  });

  it('reports a folder that cannot be written', async () => {
    const { dispatch, papers } = workingDesk();
    mkdirSync(join(papers, '..', 'data'), { recursive: true });
    writeFileSync(pours(papers), 'a file where the folder should be');
    expect(await dispatch('journal.add', { pour: aPour, event: entry(1) })).toMatchObject({
      ok: false,
      error: { code: 'read-only', message: expect.stringContaining('recovery log') },
    });
  });
});
