/** Programs that tests inspect results with. `node build/test-programs.mjs` installs missing ones. */
import { spawnSync } from 'node:child_process';
import { homedir } from 'node:os';
import { fileURLToPath } from 'node:url';
import { loadSource } from './load-source.mjs';

/** The package of each program. An installed browser is used as it is. */
const PACKAGES = {
  linux: { chromium: 'chromium', qpdf: 'qpdf', pdftotext: 'poppler-utils' },
  darwin: { chromium: 'chromium', qpdf: 'qpdf', pdftotext: 'poppler' },
  win32: { chromium: 'chromium', qpdf: 'qpdf', pdftotext: 'poppler' },
};
const INSTALLERS = {
  linux: { program: 'apt-get', args: ['install', '-y', '-qq', '--no-install-recommends'] },
  darwin: { program: 'brew', args: ['install', '--quiet'] },
  win32: { program: 'choco', args: ['install', '-y', '--no-progress'] },
};

/** Installs what is missing if this user may; otherwise says what to install. */
export async function installPrograms() {
  const { findBrowser, findProgram, thisMachine } = await loadSource('main/loopback/find-browser.ts');
  const machine = thisMachine(homedir());
  const packages = PACKAGES[process.platform] ?? PACKAGES.linux;
  const isThere = (name) => (name === 'chromium' ? findBrowser(machine) : findProgram([name], machine)) !== null;
  const wanted = Object.keys(packages)
    .filter((name) => !isThere(name))
    .map((name) => packages[name]);
  if (wanted.length === 0) return;
  const { program, args } = INSTALLERS[process.platform] ?? INSTALLERS.linux;
  const found = findProgram([program], machine);
  if (found === null || (program === 'apt-get' && process.getuid?.() !== 0)) {
    console.log(`Some tests need programs that are missing. Install ${wanted.join(', ')} with your system's package manager.`);
    return;
  }
  console.log(`Installing ${wanted.join(', ')}…`);
  const options = { stdio: ['ignore', 'ignore', 'inherit'], env: { ...process.env, DEBIAN_FRONTEND: 'noninteractive' } };
  if (program === 'apt-get') spawnSync(found, ['update', '-qq'], options);
  spawnSync(found, [...args, ...wanted], options);
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await installPrograms();
