/** Stops the page from leaving, opening windows, embedding, and asking for devices. */
import { session, shell, type App } from 'electron';
import { isOwnAddress } from './scheme.ts';

/** Screen lock for pour mode, writing to the clipboard, notifications and full screen; everything else is refused. */
const GRANTED: ReadonlySet<string> = new Set(['screen-wake-lock', 'clipboard-sanitized-write', 'notifications', 'fullscreen']);

/** Maximum length of an address passed to another program; Windows refuses longer ones. */
const MAX_ADDRESS = 2000;

/** Only addresses that start an email or a call are passed to the system. */
export function mayOpenOutside(address: string): boolean {
  return address.length <= MAX_ADDRESS && /^(mailto|tel):[!-~]+$/i.test(address);
}

/** Installs every refusal; call before any window exists. */
export function denyEverything(app: App): void {
  const openOutside = (address: string): void => {
    if (mayOpenOutside(address)) void shell.openExternal(address);
  };
  app.enableSandbox();
  app.on('web-contents-created', (_event, contents) => {
    // A link for email or a call arrives here as a navigation.
    contents.on('will-navigate', (event, address) => {
      if (isOwnAddress(address)) return;
      event.preventDefault();
      openOutside(address);
    });
    contents.on('will-attach-webview', (event) => event.preventDefault());
    contents.setWindowOpenHandler(({ url }) => {
      openOutside(url);
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
