/** The installed Chromium that tests run in. */
import { thisPlace } from '../main/desk/places.ts';
import { findBrowser, findProgram } from '../main/loopback/find-browser.ts';

/** The path of the installed browser, or the bare name where none is found, so that the error names it. */
export const chromiumPath = (): string => findBrowser(thisPlace()) ?? 'chromium';

/** Chromium built without windows, where it is installed: the same engine with less around it. `STRAIGHTEDGE_CHROMIUM` names another. */
export function journeyBrowserPath(): string {
  const machine = thisPlace();
  const isNamed = machine.environment['STRAIGHTEDGE_CHROMIUM'] !== undefined;
  return (isNamed ? null : findProgram(['chromium-headless-shell'], machine)) ?? chromiumPath();
}
