/** A backup named on the command line of the loopback host: opened once, by that launch or by the running host. */
import { existsSync, statSync, writeFileSync } from 'node:fs';
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { noteHanded, takeNotedCopy } from '../../../main/loopback/running.ts';
import { emptyBook, packRows } from '../desk/backups/pack-rows.ts';
import { type StartedHost, startHost } from '../../start-host.ts';
import { scratchFolder } from '../../scratch-folder.ts';

const folder = scratchFolder('named');
const hosts: StartedHost[] = [];
const launch = async (...args: string[]): Promise<StartedHost> => {
  const host = await startHost({ folder, args });
  hosts.push(host);
  return host;
};

/** Exchanges the code of an address for the key, as the page does. */
const keyOf = async (address: URL): Promise<string> => {
  const code = /code=([\w.-]+)/.exec(address.hash)?.[1] ?? '';
  const answer = await fetch(new URL('/key', address.origin), {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin: address.origin },
    body: JSON.stringify({ code }),
  });
  return ((await answer.json()) as { value: { key: string } }).value.key;
};
const call = async ({ origin }: StartedHost, key: string, input: object): Promise<unknown> => {
  const answer = await fetch(new URL('/call/backup.handed', origin), {
    method: 'POST',
    headers: { 'content-type': 'application/json', origin, 'x-straightedge-key': key },
    body: JSON.stringify(input),
  });
  return answer.json();
};

beforeAll(() => {
  writeFileSync(join(folder, 'Book one.zip'), packRows(emptyBook()));
  writeFileSync(join(folder, 'Book two.zip'), packRows(emptyBook()));
});
afterAll(async () => {
  for (const host of hosts) await host.end();
});

describe('a backup named on the command line', () => {
  it('waits for the page of that launch, once; the next launch leaves its own with the running host', async () => {
    const first = await launch(join(folder, 'Book one.zip'), 'shopping.txt');
    const key = await keyOf(new URL(first.address()));
    expect(await call(first, key, {})).toMatchObject({ ok: true, value: { name: 'Book one.zip', uploaded: expect.any(String) } });
    expect(await call(first, key, {})).toMatchObject({ ok: true, value: { name: null, uploaded: null } });
    expect(first.printed()).toContain('Not a backup: shopping.txt.');

    const second = spawnSync(process.execPath, ['.out/main/loopback.mjs', '--no-window', join(folder, 'Book two.zip')], {
      encoding: 'utf8',
      env: { ...process.env, STRAIGHTEDGE_PORT: String(first.port), STRAIGHTEDGE_DATA: join(folder, 'data') },
    });
    expect(second.status).toBe(0);
    expect(second.stdout).toContain('Straightedge is already running.');
    const address = new URL(/http:\S+/.exec(second.stdout)?.[0] ?? 'http://none.invalid');
    expect(address.origin).toBe(first.origin);
    expect(address.hash).toMatch(/&backup$/);
    expect(await keyOf(address)).toBe(key);
    expect(await call(first, key, {})).toMatchObject({ ok: true, value: { name: 'Book two.zip', uploaded: expect.any(String) } });
    expect(await call(first, key, {})).toMatchObject({ ok: true, value: { name: null } });

    // A call cannot name a file.
    for (const input of [{ path: '/etc/passwd' }, { name: 'Book one.zip' }, { file: '../Book one.zip' }])
      expect(await call(first, key, input)).toMatchObject({ ok: false, error: { code: 'bad-input' } });
    await first.end();
  }, 60_000);

  it('that is missing gives a sentence', async () => {
    const host = await launch(join(folder, 'Gone.zip'));
    const key = await keyOf(new URL(host.address()));
    expect(await call(host, key, {})).toMatchObject({
      ok: false,
      error: { message: expect.stringContaining('was moved or cannot be read') },
    });
  }, 60_000);
});

describe('the record left for the running host', () => {
  it('is private to this user, read once, and names a backup by its absolute path or nothing', async () => {
    const own = join(folder, 'own');
    const whole = join(folder, 'Book one.zip');
    await noteHanded(own, whole);
    if (process.platform !== 'win32') expect(statSync(join(own, 'handed.json')).mode & 0o777).toBe(0o600);
    expect(await takeNotedCopy(own)).toBe(whole);
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
