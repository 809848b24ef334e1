/** A copy named on the command line of the loopback host: opened once, by that launch or by the host that runs already. */
import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { noteHanded, takeNotedCopy } from '../../../main/loopback/running.ts';
import { emptyBook, packRows } from '../desk/snapshots/pack-rows.ts';

const folder = mkdtempSync(join(tmpdir(), 'straightedge-named-'));
const data = join(folder, 'data');
const host = join(process.cwd(), '.out', 'main', 'loopback.mjs');
const children: ChildProcess[] = [];

const launch = (port: string, ...more: string[]): Promise<{ readonly address: URL; readonly said: string }> =>
  new Promise((resolve, reject) => {
    const child = spawn(process.execPath, [host, '--no-window', ...more], {
      cwd: folder,
      env: { ...process.env, STRAIGHTEDGE_PORT: port, STRAIGHTEDGE_DATA: data, STRAIGHTEDGE_DOCUMENTS: join(folder, 'papers') },
      stdio: ['ignore', 'pipe', 'pipe'],
    });
    children.push(child);
    let said = '';
    child.stdout.on('data', (part: Buffer) => {
      said += part.toString();
      const found = /http:\/\/127\.0\.0\.1:\d+\/#\S+/.exec(said);
      if (found !== null) resolve({ address: new URL(found[0]), said });
    });
    child.stderr.on('data', (part: Buffer) => (said += part.toString()));
    child.on('exit', () => reject(new Error(said)));
  });

const ask = async (address: URL, input: object): Promise<unknown> => {
  const key = /key=([\w-]+)/.exec(address.hash)?.[1] ?? '';
  const answer = await fetch(new URL('/call/snapshot.handed', address.origin), {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: address.origin, 'x-straightedge-key': key },
    body: JSON.stringify(input),
  });
  return answer.json();
};

beforeAll(() => {
  writeFileSync(join(folder, 'Book one.zip'), packRows(emptyBook()));
  writeFileSync(join(folder, 'Book two.zip'), packRows(emptyBook()));
});
afterAll(() => {
  for (const child of children) child.kill();
  rmSync(folder, { recursive: true, force: true });
});

describe('a copy named on the command line', () => {
  it('waits for the page of that launch, once; the next launch leaves its own with the host that runs', async () => {
    const first = await launch('0', 'Book one.zip', 'shopping.txt');
    expect(first.address.hash).toMatch(/&copy$/);
    expect(first.said).toContain('Not a copy of the book: shopping.txt.');
    expect(await ask(first.address, {})).toMatchObject({ ok: true, value: { name: 'Book one.zip', arrived: expect.any(String) } });
    expect(await ask(first.address, {})).toMatchObject({ ok: true, value: { name: null, arrived: null } });

    const second = await launch(first.address.port, 'Book two.zip');
    expect(second.said).toContain('running already');
    expect(second.address.hash).toBe(first.address.hash);
    expect(await ask(second.address, {})).toMatchObject({ ok: true, value: { name: 'Book two.zip', arrived: expect.any(String) } });
    expect(await ask(second.address, {})).toMatchObject({ ok: true, value: { name: null } });

    // A call can name no file.
    for (const input of [{ path: '/etc/passwd' }, { name: 'Book one.zip' }, { file: '../Book one.zip' }])
      expect(await ask(first.address, input)).toMatchObject({ ok: false, error: { code: 'bad-input' } });
  }, 60_000);

  it('that is gone is said in words', async () => {
    const { address } = await launch('0', 'Gone.zip');
    expect(await ask(address, {})).toMatchObject({ ok: false, error: { message: expect.stringContaining('gone or cannot be read') } });
  }, 60_000);
});

describe('the word left for the host that runs', () => {
  it('is this user’s alone, read once, and names a copy by its whole path or nothing', async () => {
    const own = join(folder, 'own');
    await noteHanded(own, '/copies/Book.zip');
    expect(statSync(join(own, 'handed.json')).mode & 0o777).toBe(0o600);
    expect(await takeNotedCopy(own)).toBe('/copies/Book.zip');
    expect(existsSync(join(own, 'handed.json'))).toBe(false);
    expect(await takeNotedCopy(own)).toBeNull();
    for (const path of ['Book.zip', '../Book.zip', '/etc/passwd', '']) {
      await noteHanded(own, path);
      expect(await takeNotedCopy(own), path).toBeNull();
    }
    for (const text of ['', '{', 'null', '7', '{"path":7}']) {
      writeFileSync(join(own, 'handed.json'), text);
      expect(await takeNotedCopy(own), text).toBeNull();
    }
  });
});
