/** What the page may not do: leave, open windows, embed, or ask for the machine's devices. */
import { session, shell, type App } from 'electron';
import { isOwnAddress } from './scheme.ts';

/** Screen lock for pour mode and writing to the clipboard; all else is refused. */
const GRANTED: ReadonlySet<string> = new Set(['screen-wake-lock', 'clipboard-sanitized-write', 'notifications', 'fullscreen']);

/** Whether a link may be handed to the system: mail and telephone only, and plain web pages. */
export function mayOpenOutside(address: string): boolean {
  return /^(https?|mailto|tel):/i.test(address);
}

/** Sets every refusal; call before any window exists. */
export function denyEverything(app: App): void {
  app.enableSandbox();
  app.on('web-contents-created', (_event, contents) => {
    contents.on('will-navigate', (event, address) => {
      if (!isOwnAddress(address)) event.preventDefault();
    });
    contents.on('will-attach-webview', (event) => event.preventDefault());
    contents.setWindowOpenHandler(({ url }) => {
      if (mayOpenOutside(url)) void shell.openExternal(url);
      return { action: 'deny' };
    });
  });
  void app.whenReady().then(() => {
    session.defaultSession.setPermissionRequestHandler((contents, permission, answer) =>
      answer(GRANTED.has(permission) && isOwnAddress(contents.getURL())),
    );
    session.defaultSession.setPermissionCheckHandler((_contents, permission, origin) => GRANTED.has(permission) && isOwnAddress(origin));
    session.defaultSession.setDevicePermissionHandler(() => false);
  });
}
