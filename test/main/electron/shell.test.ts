/** The real shell and the real preload, run with a double of Electron's API that drives a real Chromium page. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { CALL_NAMES } from '../../../shared-core/desk/call-names.ts';
import type { Envelope } from '../../../shared-core/desk/envelope.ts';
import { putRows } from '../../journeys/stored-rows.ts';
import { tornEntry } from '../../torn-log.ts';
import { CONTRACT_CASES } from '../desk/contract-cases.ts';
import { app, type BrowserWindow, closeDouble, lock, openShell, record, registeredChannels } from './electron-double.ts';
import { scratchFolder } from '../../scratch-folder.ts';

vi.mock('electron', () => import('./electron-double.ts'));

let page: Page;
let window: BrowserWindow;
const folder = scratchFolder('shell');
/** Separate from the browser host's folder, `browser`. */
const data = join(folder, 'desktop');

/** As a kill leaves it. */
const log = join(data, 'IndexedDB', 'app_straightedge_0.indexeddb.leveldb', '000003.log');

beforeAll(async () => {
  mkdirSync(join(log, '..'), { recursive: true });
  writeFileSync(log, tornEntry());
  window = await openShell(folder);
  page = await window.loaded;
  await page.getByRole('heading', { level: 1 }).waitFor();
}, 60_000);
afterAll(closeDouble);

const ask = (name: string, input: unknown): Promise<Envelope<unknown>> =>
  page.evaluate(
    ([n, i]) => {
      const desk = (globalThis as unknown as { straightedgeDesk: Record<string, (input: unknown) => Promise<unknown>> }).straightedgeDesk;
      const call = Object.prototype.hasOwnProperty.call(desk, n) ? desk[n] : undefined;
      return (call === undefined ? Promise.resolve({ ok: false, error: { code: 'unknown-call', message: '' } }) : call(i)) as Promise<
        Envelope<unknown>
      >;
    },
    [name, input] as const,
  );

describe('the desk over the shell', () => {
  for (const { name, run } of CONTRACT_CASES) it(name, () => run(ask));

  it('registers exactly the contract and exposes nothing else', async () => {
    expect(registeredChannels().sort()).toEqual(CALL_NAMES.map((n) => `desk:${n}`).sort());
    const exposed = await page.evaluate(() => Object.keys((globalThis as unknown as { straightedgeDesk: object }).straightedgeDesk));
    expect(exposed.sort()).toEqual([...CALL_NAMES].sort());
  });
});

describe('the shell', () => {
  it('keeps its data where STRAIGHTEDGE_DATA says, separate from the browser host’s', () => {
    expect(lock.userData).toBe(data);
  });

  it('mends its database after a kill', () => {
    expect(readFileSync(log)).toHaveLength(0);
  });

  it('opens on its first screen', async () => {
    expect(await page.getByRole('heading', { level: 1 }).count()).toBe(1);
    expect(window.shown).toBe(true);
  });

  it('gives the page no Node, an isolated preload and a sandbox', async () => {
    expect(window.options.webPreferences).toMatchObject({
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      nodeIntegrationInWorker: false,
      webSecurity: true,
      webviewTag: false,
    });
    expect(record.sandboxed).toBe(true);
    expect(
      await page.evaluate(() => [
        typeof (globalThis as { require?: unknown }).require,
        typeof (globalThis as { process?: unknown }).process,
      ]),
    ).toEqual(['undefined', 'undefined']);
  });

  it('serves the page from its own scheme under the strict policy', async () => {
    expect(record.privileged).toMatchObject([{ scheme: 'app', privileges: { standard: true, secure: true } }]);
    const policy = await page.evaluate(async () => (await fetch('/index.html')).headers.get('content-security-policy'));
    expect(policy).toContain("default-src 'none'");
    expect(policy).not.toContain('unsafe');
    expect(await page.evaluate(async () => (await fetch('/../package.json')).status)).toBe(404);
  });

  it('refuses a call from any frame except its page', async () => {
    const { isOwnAddress } = await import('../../../main/electron/scheme.ts');
    const { invokeFrom } = await import('./electron-double.ts');
    for (const [url, parent] of [
      ['https://straightedge.example/', null],
      ['app://book/', {}],
    ] as const) {
      expect(await invokeFrom('desk:desk.about', { url, parent }, {})).toMatchObject({ ok: false, error: { code: 'not-allowed' } });
    }
    for (const address of ['https://straightedge.example/', 'app://elsewhere/', 'file:///etc/passwd', 'app-book:', ''])
      expect(isOwnAddress(address)).toBe(false);
    expect(isOwnAddress('app://book/')).toBe(true);
  });

  it('does not leave its page', async () => {
    const opened: string[] = [];
    window.webContents.on('will-navigate', (_event: unknown, address: string) => void opened.push(address));
    await page.evaluate(() => {
      location.href = 'https://straightedge.example/';
    });
    await expect.poll(() => opened).toEqual(['https://straightedge.example/']);
    expect(page.url()).toContain('app-book.test');
    expect(await page.getByRole('heading', { level: 1 }).count()).toBe(1);
  });

  it('opens no window of its own; an email or phone address goes to the system, any other nowhere', () => {
    record.openedOutside.length = 0;
    const opened = (url: string) => window.webContents.opens({ url });
    expect(opened('https://straightedge.example/')).toEqual({ action: 'deny' });
    expect(opened('mailto:a@b.invalid')).toEqual({ action: 'deny' });
    expect(opened('file:///etc/passwd')).toEqual({ action: 'deny' });
    expect(opened('javascript:alert(1)')).toEqual({ action: 'deny' });
    expect(opened(`mailto:${'a'.repeat(3000)}@b.invalid`)).toEqual({ action: 'deny' });
    expect(opened('mailto:a@b.invalid?subject=x\ny')).toEqual({ action: 'deny' });
    expect(record.openedOutside).toEqual(['mailto:a@b.invalid']);
  });

  it('passes a pressed email or phone link to the system and stays on the page', async () => {
    record.openedOutside.length = 0;
    const before = page.url();
    await page.evaluate(() => {
      for (const [name, href, target] of [
        ['email', 'mailto:ida@example.invalid?subject=Quote%2026-031', ''],
        ['phone', 'tel:+15550100', ''],
        ['web', 'https://straightedge.example/', '_blank'],
        ['blob', URL.createObjectURL(new Blob(['x'])), '_blank'],
      ] as const) {
        const link = Object.assign(document.createElement('a'), { href, target, id: `try-${name}` });
        document.body.append(link);
        link.click();
        link.remove();
      }
    });
    await expect.poll(() => record.openedOutside).toEqual(['mailto:ida@example.invalid?subject=Quote%2026-031', 'tel:+15550100']);
    expect(page.url()).toBe(before);
    expect(page.context().pages()).toHaveLength(1);
  });

  it('grants the screen lock and few other permissions, and no device', () => {
    const granted: Record<string, boolean> = {};
    for (const permission of ['screen-wake-lock', 'notifications', 'geolocation', 'media', 'midi', 'clipboard-read', 'openExternal']) {
      record.permissionRequest?.(window.webContents, permission, (yes) => (granted[permission] = yes));
    }
    expect(granted).toEqual({
      'screen-wake-lock': true,
      notifications: true,
      geolocation: false,
      media: false,
      midi: false,
      'clipboard-read': false,
      openExternal: false,
    });
    expect(record.permissionCheck?.(null, 'notifications', 'https://straightedge.example')).toBe(false);
    expect(record.device?.()).toBe(false);
  });

  it('keeps the computer awake for a pour and lets it sleep afterward', async () => {
    expect(await ask('power.stay-awake', { on: true })).toMatchObject({ ok: true, value: { on: true } });
    expect(record.blockers.size).toBe(1);
    expect(await ask('power.stay-awake', { on: false })).toMatchObject({ ok: true, value: { on: false } });
    expect(record.blockers.size).toBe(0);
  });

  it('has a menu that opens every screen by keys, and no role that opens developer tools', async () => {
    type Item = { label?: string; role?: string; accelerator?: string; click?: () => void; submenu?: Item[] };
    const items = (list: readonly Item[]): Item[] => list.flatMap((item) => [item, ...items(item.submenu ?? [])]);
    const all = items(record.menu as Item[]);
    for (const role of ['toggleDevTools', 'reload', 'forceReload']) expect(all.some((item) => item.role === role)).toBe(false);
    const keys = all.flatMap((item) => (item.accelerator === undefined ? [] : [item.accelerator]));
    expect(new Set(keys).size).toBe(keys.length);
    all.find((item) => item.label === 'Jobs')?.click?.();
    await page.waitForFunction(() => location.hash === '#/jobs');
    all.find((item) => item.label === 'Today')?.click?.();
    await page.waitForFunction(() => location.hash === '#/');
    for (const code of record.ran) expect(code).toMatch(/^location\.hash = "#\/[a-z]*"; undefined$/);
    all.find((item) => item.label === 'Show Log File')?.click?.();
    expect(record.shownInFolder).toEqual([join(data, 'straightedge.log')]);
  });

  it('remembers opened documents, and asks for a folder in the system’s dialog', async () => {
    await ask('file.save', { name: 'Recent.pdf', base64: '' });
    await ask('file.open', { name: 'Recent.pdf' });
    expect(record.recent).toContain(join(folder, 'papers', 'Recent.pdf'));
    record.openProblem = 'no application is associated';
    expect(await ask('file.open', { name: 'Recent.pdf' })).toMatchObject({
      ok: false,
      error: { code: 'unsupported', message: expect.stringContaining(`saved in ${join(folder, 'papers')}`) },
    });
    record.openProblem = '';
    record.folder = null;
    expect(await ask('backup.folder', { choose: 'other' })).toMatchObject({ ok: true, value: { changed: false } });
    record.folder = join(folder, 'elsewhere');
    expect(await ask('backup.folder', { choose: 'other' })).toMatchObject({ ok: true, value: { folder: record.folder, changed: true } });
    expect(await ask('backup.folder', { choose: 'default' })).toMatchObject({ ok: true, value: { changed: true } });
    expect(await ask('backup.folder', { choose: '/etc' })).toMatchObject({ ok: false, error: { code: 'bad-input' } });
  });

  it('reports a page that stopped, and opens it again', async () => {
    record.answer = 0;
    const first = window.loaded;
    window.webContents.emit('render-process-gone', {}, { reason: 'crashed' });
    expect(record.asked.at(-1)?.message).toBe('Straightedge stopped working.');
    await vi.waitFor(() => expect(window.loaded).not.toBe(first), { timeout: 20_000 });
    page = await window.loaded;
    await page.getByRole('heading', { level: 1 }).waitFor();
    expect(readFileSync(join(data, 'straightedge.log'), 'utf8')).toContain('the page stopped: crashed');
  });

  it('brings its window to the front on a second start, and the second instance quits', async () => {
    const before = window.focused;
    app.emit('second-instance', {}, ['straightedge']);
    expect(window.focused).toBe(before + 1);
    lock.free = false;
    const { startShell } = await import('../../../main/electron/main.ts');
    await startShell(join(process.cwd(), '.out'));
    expect(record.quit).toBe(true);
    expect(record.windows).toHaveLength(1);
  });

  it('stays open when it is started again while it is closing', () => {
    vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval', 'Date'] });
    try {
      for (const started of ['second-instance', 'activate']) {
        window.emit('close', { preventDefault: () => undefined });
        expect(window.shown).toBe(false);
        app.emit(started, {}, ['straightedge']);
        expect(window.shown).toBe(true);
        // The longest wait before closing is 30 s.
        vi.advanceTimersByTime(60_000);
        expect(window.destroyed).toBe(false);
      }
    } finally {
      vi.useRealTimers();
    }
  });

  it('closes after the last backup is written, and remembers its position', async () => {
    await putRows(page, { changed: [{ key: 'customers/none', mark: 'test' }] });
    const before = await ask('backup.list', { dataset: '00000000' });
    let prevented = false;
    window.emit('close', { preventDefault: () => (prevented = true) });
    expect(prevented).toBe(true);
    expect(window.shown).toBe(false);
    await vi.waitFor(() => expect(window.destroyed).toBe(true), { timeout: 55_000, interval: 200 });
    const after = await ask('backup.list', { dataset: '00000000' });
    const many = (answer: Envelope<unknown>): number => (answer.ok ? (answer.value as { backups: unknown[] }).backups.length : -1);
    // The automatic backup after the start may come between; either one has the change.
    expect(many(after)).toBeGreaterThan(many(before));
    expect(JSON.parse(readFileSync(join(data, 'window.json'), 'utf8'))).toMatchObject({ x: 40, y: 30, width: 1200, height: 800 });
  });
});
