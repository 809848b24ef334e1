/**
 * Electron's security checklist (electronjs.org/docs/latest/tutorial/security), point by point: each tried with the double of Electron's
 * API that runs the real shell, or read from the build.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from '@playwright/test';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import builder from '../../../build/electron-builder.config.mjs';
import { CALL_NAMES } from '../../../shared-core/desk/call-names.ts';
import { type BrowserWindow, closeDouble, invokeFrom, openShell, record, registeredChannels } from './electron-double.ts';
import { scratchFolder } from '../../scratch-folder.ts';

vi.mock('electron', () => import('./electron-double.ts'));

const folder = scratchFolder('checklist');
const built = (file: string): string => readFileSync(join('.out', file), 'utf8');
/** All of this program's code that the page runs. */
const pageCode = (): string =>
  readdirSync('.out/renderer/assets')
    .filter((name) => name.endsWith('.js'))
    .map((name) => built(`renderer/assets/${name}`))
    .join('\n');
let window: BrowserWindow;
let page: Page;

beforeAll(async () => {
  window = await openShell(folder);
  page = await window.loaded;
  await page.getByRole('heading', { level: 1 }).waitFor();
}, 60_000);
afterAll(closeDouble);

const preferences = (): Record<string, unknown> => window.options.webPreferences;
const policy = (): Promise<string> => page.evaluate(async () => (await fetch('/index.html')).headers.get('content-security-policy') ?? '');

const POINTS: readonly { readonly point: string; readonly holds: () => void | Promise<void> }[] = [
  {
    point: '1. only secure content is loaded: every address asked for is the page’s own',
    holds: async () => {
      const requested = await page.evaluate(() => performance.getEntriesByType('resource').map((entry) => entry.name));
      expect(requested.length).toBeGreaterThan(3);
      expect(requested.filter((address) => !address.startsWith('https://app-book.test/'))).toEqual([]);
    },
  },
  {
    point: '2. no Node in the page, its workers or its frames',
    holds: async () => {
      expect(preferences()).toMatchObject({ nodeIntegration: false, nodeIntegrationInWorker: false, nodeIntegrationInSubFrames: false });
      expect(await page.evaluate(() => ['require', 'process', 'Buffer', 'module'].filter((name) => name in globalThis))).toEqual([]);
    },
  },
  { point: '3. the preload is isolated from the page', holds: () => expect(preferences()['contextIsolation']).toBe(true) },
  {
    point: '4. every process is in the sandbox',
    holds: () => {
      expect(record.sandboxed).toBe(true);
      expect(preferences()['sandbox']).toBe(true);
      expect(built('main/electron.cjs')).not.toMatch(/no-sandbox/);
    },
  },
  {
    point: '5. permissions are refused but for a few, and only to the page itself',
    holds: () => {
      for (const permission of ['geolocation', 'media', 'midi', 'hid', 'serial', 'usb', 'clipboard-read', 'display-capture', 'unknown']) {
        let granted: boolean | null = null;
        record.permissionRequest?.(window.webContents, permission, (yes) => (granted = yes));
        expect(granted, permission).toBe(false);
        expect(record.permissionCheck?.(null, permission, 'app://book'), permission).toBe(false);
      }
      expect(record.permissionCheck?.(null, 'notifications', 'https://straightedge.example')).toBe(false);
      expect(record.device?.()).toBe(false);
    },
  },
  { point: '6. the rule of one origin stands', holds: () => expect(preferences()['webSecurity']).toBe(true) },
  {
    point: '7. a policy says where content may come from',
    holds: async () => {
      expect(await policy()).toContain("default-src 'none'");
      expect(await policy()).not.toMatch(/unsafe|\*|https?:/);
    },
  },
  {
    point: '8. no insecure content beside secure',
    holds: () => expect(preferences()['allowRunningInsecureContent']).toBe(false),
  },
  { point: '9. no experimental features', holds: () => expect(preferences()['experimentalFeatures']).toBe(false) },
  {
    point: '10. no Blink features switched on',
    holds: () => {
      expect(preferences()).not.toHaveProperty('enableBlinkFeatures');
      expect(built('main/electron.cjs')).not.toMatch(/enable-blink-features|enableBlinkFeatures/);
    },
  },
  {
    point: '11. no webview, so none that opens windows',
    holds: () => {
      expect(preferences()['webviewTag']).toBe(false);
      expect(pageCode()).not.toMatch(/createElement\(["'`]webview|allowpopups/);
    },
  },
  {
    point: '12. a webview that is attached all the same is refused',
    holds: () => {
      let prevented = false;
      window.webContents.emit('will-attach-webview', { preventDefault: () => (prevented = true) }, {}, {});
      expect(prevented).toBe(true);
    },
  },
  {
    point: '13. the page does not leave for another address',
    holds: () => {
      for (const address of ['https://straightedge.example/', 'file:///etc/passwd', 'app://elsewhere/', 'data:text/html,x']) {
        let prevented = false;
        window.webContents.emit('will-navigate', { preventDefault: () => (prevented = true) }, address);
        expect(prevented, address).toBe(true);
      }
    },
  },
  {
    point: '14. no window is opened by the page',
    holds: () => {
      for (const url of ['https://straightedge.example/', 'app://book/', 'about:blank', 'file:///etc/passwd'])
        expect(window.webContents.opens({ url }), url).toEqual({ action: 'deny' });
    },
  },
  {
    point: '15. only email and phone addresses are handed to the system',
    holds: () => {
      record.openedOutside.length = 0;
      for (const url of [
        'file:///etc/passwd',
        'javascript:alert(1)',
        'smb://host/share',
        'ms-msdt:x',
        'app://book/',
        'https://straightedge.example/',
        '\\\\host\\share',
      ])
        window.webContents.opens({ url });
      expect(record.openedOutside).toEqual([]);
      window.webContents.opens({ url: 'tel:5550100' });
      expect(record.openedOutside).toEqual(['tel:5550100']);
    },
  },
  {
    point: '16. the release of Electron is pinned to one exact version',
    holds: () => {
      const { devDependencies } = JSON.parse(readFileSync('package.json', 'utf8')) as { devDependencies: Record<string, string> };
      expect(devDependencies['electron']).toMatch(/^\d+\.\d+\.\d+$/);
    },
  },
  {
    point: '17. every call asks who sends it',
    holds: async () => {
      expect(registeredChannels().length).toBe(CALL_NAMES.length);
      for (const channel of registeredChannels())
        for (const frame of [null, { url: 'https://straightedge.example/', parent: null }, { url: 'app://book/', parent: {} }])
          expect(await invokeFrom(channel, frame, {}), channel).toMatchObject({ ok: false, error: { code: 'not-allowed' } });
    },
  },
  {
    point: '18. pages come by a scheme of their own, never as files',
    holds: () => {
      expect(record.privileged).toMatchObject([{ scheme: 'app' }]);
      expect(built('main/electron.cjs')).not.toMatch(/loadFile\(|["'`]file:\/\//);
    },
  },
  {
    point: '19. the fuses are set',
    holds: () =>
      expect(builder.electronFuses).toEqual({
        runAsNode: false,
        enableCookieEncryption: true,
        enableNodeOptionsEnvironmentVariable: false,
        enableNodeCliInspectArguments: false,
        enableEmbeddedAsarIntegrityValidation: true,
        onlyLoadAppFromAsar: true,
        grantFileProtocolExtraPrivileges: false,
      }),
  },
  {
    point: '20. nothing of Electron is handed to the page: only the contract’s calls',
    holds: async () => {
      const exposed = await page.evaluate(() =>
        Object.entries((globalThis as unknown as { straightedgeDesk: object }).straightedgeDesk).map(([name, value]) => [
          name,
          typeof value,
        ]),
      );
      expect(Object.fromEntries(exposed)).toEqual(Object.fromEntries(CALL_NAMES.map((name) => [name, 'function'])));
      expect(await page.evaluate(() => Object.keys(globalThis).filter((name) => /electron|ipc/i.test(name)))).toEqual([]);
    },
  },
];

describe('Electron’s security checklist', () => {
  for (const { point, holds } of POINTS) it(point, () => holds());
  it('is met completely', () =>
    expect(POINTS.map(({ point }) => Number(point.split('.')[0]))).toEqual([...Array(20).keys()].map((i) => i + 1)));
});
