/** The installed Chromium that tests run in. */
import { homedir } from 'node:os';
import { findBrowser, findProgram, thisMachine } from '../main/loopback/find-browser.ts';

/** The path of the installed browser, or the bare name where none is found, so that the error names it. */
export const chromiumPath = (): string => findBrowser(thisMachine(homedir())) ?? 'chromium';

/** Chromium built without windows, where it is installed: the same engine with less around it. `STRAIGHTEDGE_CHROMIUM` names another. */
export function journeyBrowserPath(): string {
  const machine = thisMachine(homedir());
  const isNamed = machine.environment['STRAIGHTEDGE_CHROMIUM'] !== undefined;
  return (isNamed ? null : findProgram(['chromium-headless-shell'], machine)) ?? chromiumPath();
}
