/**
 * A double of the part of Electron's API that the shell uses. Windows are real Chromium pages: the shell's scheme answers their requests,
 * the real preload runs in them, and its attempts to leave or open windows go to the shell's listeners.
 */
import { EventEmitter } from 'node:events';
import { join } from 'node:path';
import { build } from 'esbuild';
import { chromiumArgs } from '../../../build/chromium.mjs';
import { journeyBrowserPath } from '../../chromium.ts';
import { type Browser, type BrowserContext, chromium, type Frame, type Page, type Route } from '@playwright/test';

/** An ordinary Chromium cannot open `app://book`, so the page has another origin. */
const STAND_IN = 'https://app-book.test';
const OWN = 'app://book';
const outward = (address: string): string => address.replace(OWN, STAND_IN);
const inward = (address: string): string => address.replace(STAND_IN, OWN);

type Handler = (event: unknown, input: unknown) => unknown;
type WindowOpen = (details: { url: string }) => { action: string };

export const record = {
  privileged: [] as unknown[],
  menu: null as unknown,
  openedOutside: [] as string[],
  openedPaths: [] as string[],
  /** The system's answer to opening a file; empty for success. */
  openProblem: '',
  notifications: [] as { title: string; body: string }[],
  windows: [] as BrowserWindow[],
  sandboxed: false,
  quit: false,
  permissionRequest: null as null | ((contents: unknown, permission: string, answer: (granted: boolean) => void) => void),
  permissionCheck: null as null | ((contents: unknown, permission: string, origin: string) => boolean),
  device: null as null | (() => boolean),
  blockers: new Set<number>(),
  recent: [] as string[],
  ran: [] as string[],
  asked: [] as { message: string }[],
  answer: 0,
  folder: null as string | null,
  shownInFolder: [] as string[],
};
const handlers = new Map<string, Handler>();
let pages: ((request: Request) => Promise<Response>) | null = null;
let browser: Browser | null = null;
let preloadCode = '';

class App extends EventEmitter {
  whenReady = (): Promise<void> => Promise.resolve();
  requestSingleInstanceLock = (): boolean => lock.free;
  quit = (): void => {
    record.quit = true;
  };
  enableSandbox = (): void => {
    record.sandboxed = true;
  };
  getPath = (): string => lock.userData;
  setPath = (_name: string, path: string): void => {
    lock.userData = path;
  };
  getVersion = (): string => '0.0.0-double';
  addRecentDocument = (path: string): void => void record.recent.push(path);
  setAboutPanelOptions = (): void => undefined;
}
/** Whether a first instance is running, and the user data folder. */
export const lock = { free: true, userData: '' };
export const app = new App();
export const protocol = {
  registerSchemesAsPrivileged: (schemes: unknown[]): void => void record.privileged.push(...schemes),
  handle: (_scheme: string, handler: (request: Request) => Promise<Response>): void => {
    pages = handler;
  },
};
export const ipcMain = {
  handle: (channel: string, handler: Handler): void => {
    if (handlers.has(channel)) throw new Error(`${channel} is registered twice`);
    handlers.set(channel, handler);
  },
};
export const session = {
  defaultSession: {
    setPermissionRequestHandler: (handler: NonNullable<typeof record.permissionRequest>): void => {
      record.permissionRequest = handler;
    },
    setPermissionCheckHandler: (handler: NonNullable<typeof record.permissionCheck>): void => {
      record.permissionCheck = handler;
    },
    setDevicePermissionHandler: (handler: () => boolean): void => {
      record.device = handler;
    },
  },
};
export const shell = {
  openExternal: (address: string): Promise<void> => Promise.resolve(void record.openedOutside.push(address)),
  showItemInFolder: (path: string): void => void record.shownInFolder.push(path),
  openPath: (path: string): Promise<string> => Promise.resolve((record.openedPaths.push(path), record.openProblem)),
};
export const screen = { getAllDisplays: () => [{ workArea: { x: 0, y: 0, width: 1920, height: 1080 } }] };
export const dialog = {
  showMessageBox: (_window: unknown, options: { message: string }): Promise<{ response: number }> => {
    record.asked.push(options);
    return Promise.resolve({ response: record.answer });
  },
  showOpenDialog: (): Promise<{ canceled: boolean; filePaths: string[] }> =>
    Promise.resolve({ canceled: record.folder === null, filePaths: record.folder === null ? [] : [record.folder] }),
};
export const powerSaveBlocker = {
  start: (): number => {
    record.blockers.add(1);
    return 1;
  },
  stop: (id: number): void => void record.blockers.delete(id),
};
export class Notification {
  static isSupported = (): boolean => true;
  private readonly of: { title: string; body: string };
  constructor(of: { title: string; body: string }) {
    this.of = of;
  }
  show(): void {
    record.notifications.push(this.of);
  }
}
export const Menu = {
  buildFromTemplate: (template: unknown): unknown => template,
  setApplicationMenu: (menu: unknown): void => {
    record.menu = menu;
  },
};

class Contents extends EventEmitter {
  opens: WindowOpen = () => ({ action: 'allow' });
  page: Page | null = null;
  setWindowOpenHandler = (handler: WindowOpen): void => {
    this.opens = handler;
  };
  getURL = (): string => inward(this.page?.url() ?? '');
  executeJavaScript = (code: string): Promise<unknown> => {
    record.ran.push(code);
    return this.page?.evaluate(code) ?? Promise.resolve(undefined);
  };
}

export class BrowserWindow extends EventEmitter {
  readonly webContents = new Contents();
  readonly options: Record<string, unknown> & { webPreferences: Record<string, unknown> };
  shown = false;
  focused = 0;
  /** Resolves when the page has loaded. */
  loaded: Promise<Page> = Promise.reject(new Error('not loaded'));
  context: BrowserContext | null = null;
  constructor(options: Record<string, unknown> & { webPreferences: Record<string, unknown> }) {
    super();
    this.loaded.catch(() => undefined);
    this.options = options;
    record.windows.push(this);
    app.emit('web-contents-created', {}, this.webContents);
  }
  show = (): void => {
    this.shown = true;
    this.tellPage('visible');
  };
  focus = (): void => {
    this.focused += 1;
  };
  destroyed = false;
  bounds = { x: 40, y: 30, width: 1200, height: 800 };
  hide = (): void => {
    this.shown = false;
    this.tellPage('hidden');
  };
  private readonly tellPage = (state: 'visible' | 'hidden'): void => {
    void this.webContents.page?.evaluate((value) => {
      Object.defineProperty(document, 'visibilityState', { value, configurable: true });
      document.dispatchEvent(new Event('visibilitychange'));
    }, state);
  };
  destroy = (): void => {
    this.destroyed = true;
  };
  maximize = (): void => undefined;
  isMaximized = (): boolean => false;
  getNormalBounds = (): { x: number; y: number; width: number; height: number } => this.bounds;
  isMinimized = (): boolean => false;
  restore = (): void => undefined;
  loadURL(address: string): Promise<void> {
    this.loaded = this.open(address);
    return this.loaded.then(() => undefined);
  }

  private async open(address: string): Promise<Page> {
    browser ??= await chromium.launch({ executablePath: journeyBrowserPath(), args: chromiumArgs() });
    const context = await browser.newContext({ timezoneId: 'America/New_York', locale: 'en-US' });
    this.context = context;
    const page = await context.newPage();
    this.webContents.page = page;
    await context.route('**/*', (route) => this.answer(route, page));
    await page.exposeBinding('doubleInvoke', async ({ frame }: { frame: Frame }, channel: string, input: unknown) => {
      const handler = handlers.get(channel);
      if (handler === undefined) throw new Error(`No handler registered for '${channel}'`);
      // Electron clones an answer on its way to the page, which makes a Buffer plain bytes.
      return structuredClone(await handler({ senderFrame: { url: inward(frame.url()), parent: frame.parentFrame() } }, input));
    });
    // Chromium makes no request for a link to another program or a new window; Electron reports the one as a navigation and the other as a
    // new window.
    await page.exposeBinding('doubleLeave', (_source: unknown, to: string) => void this.leaves(to));
    await page.exposeBinding('doubleOpen', (_source: unknown, to: string) => void this.webContents.opens({ url: inward(to) }));
    await page.addInitScript(() => {
      const double = globalThis as unknown as Record<'doubleLeave' | 'doubleOpen', (to: string) => void>;
      globalThis.addEventListener('click', (event) => {
        const link = event.composedPath().find((node) => node instanceof HTMLAnchorElement);
        if (link === undefined || event.defaultPrevented) return;
        const isOpening = link.target === '_blank';
        if (!isOpening && /^(https?|blob|data|app):/.test(link.href)) return;
        event.preventDefault();
        if (isOpening) double.doubleOpen(link.href);
        else double.doubleLeave(link.href);
      });
    });
    await page.addInitScript(preloadCode);
    context.on('page', (popup) => void popup.close());
    await page.goto(outward(address));
    this.emit('ready-to-show');
    return page;
  }

  /** Passes a navigation to the shell's listeners; returns whether one prevented it. */
  private leaves(to: string): boolean {
    let prevented = false;
    this.webContents.emit('will-navigate', { preventDefault: () => (prevented = true) }, inward(to));
    return prevented;
  }

  private async answer(route: Route, page: Page): Promise<void> {
    const request = route.request();
    const address = request.url();
    if (request.isNavigationRequest() && request.frame().parentFrame() === null) {
      if (request.frame().page() !== page) {
        this.webContents.opens({ url: inward(address) });
        return route.abort();
      }
      if (!address.startsWith(STAND_IN)) {
        // No content: the browser stays on the page, as with a prevented navigation.
        return this.leaves(address) ? route.fulfill({ status: 204 }) : route.fulfill({ status: 200, body: 'left' });
      }
    }
    if (!address.startsWith(STAND_IN) || pages === null) return route.abort();
    const response = await pages(new Request(inward(address)));
    return route.fulfill({
      status: response.status,
      headers: Object.fromEntries(response.headers),
      body: Buffer.from(await response.arrayBuffer()),
    });
  }
}

/** Bundles the real preload, with the two modules it may use. */
async function readyPreload(entry: string): Promise<void> {
  const { outputFiles } = await build({
    entryPoints: [entry],
    bundle: true,
    write: false,
    format: 'cjs',
    platform: 'browser',
    external: ['electron'],
  });
  preloadCode = `(() => {
    const electron = {
      contextBridge: { exposeInMainWorld: (name, value) => Object.defineProperty(globalThis, name, { value: Object.freeze(value), enumerable: true }) },
      ipcRenderer: { invoke: (channel, input) => globalThis.doubleInvoke(channel, input) },
    };
    const require = (name) => { if (name !== 'electron') throw new Error('preload asked for ' + name); return electron; };
    const module = { exports: {} }; const exports = module.exports;
    ${outputFiles[0]?.text ?? ''}
  })();`;
}

/** Calls a channel as from any frame. */
export const invokeFrom = (channel: string, senderFrame: unknown, input: unknown): Promise<unknown> =>
  Promise.resolve(handlers.get(channel)?.({ senderFrame }, input));
export const registeredChannels = (): string[] => [...handlers.keys()];

/** Starts the real shell with its data in this folder; its window. */
export async function openShell(folder: string): Promise<BrowserWindow> {
  process.env['STRAIGHTEDGE_DOCUMENTS'] = join(folder, 'papers');
  process.env['STRAIGHTEDGE_DATA'] = folder;
  await readyPreload('main/electron/preload.ts');
  const { startShell } = await import('../../../main/electron/main.ts');
  await startShell(join(process.cwd(), '.out'));
  const [window] = record.windows;
  if (window === undefined) throw new Error('The shell opened no window.');
  return window;
}

export async function closeDouble(): Promise<void> {
  await browser?.close();
  browser = null;
  delete process.env['STRAIGHTEDGE_DOCUMENTS'];
  delete process.env['STRAIGHTEDGE_DATA'];
}
