/** The installed Chromium that tests run in. */
import { homedir } from 'node:os';
import { findBrowser, thisMachine } from '../main/loopback/find-browser.ts';

/** Its path, or the bare name where none is found, so that the error names it. */
export const chromiumPath = (): string => findBrowser(thisMachine(homedir())) ?? 'chromium';
