/** Programs that tests inspect results with. `node build/test-programs.mjs` installs missing ones. */
import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { loadSource } from './load-source.mjs';

/** The package of each program. An installed browser is used as it is. */
const PACKAGES = {
  linux: { chromium: 'chromium', qpdf: 'qpdf', pdftotext: 'poppler-utils' },
  darwin: { chromium: 'chromium', qpdf: 'qpdf', pdftotext: 'poppler' },
  win32: { chromium: 'chromium', qpdf: 'qpdf', pdftotext: 'poppler' },
};
const INSTALLERS = {
  linux: {
    program: 'apt-get',
    args: ['-o', 'Acquire::Retries=0', '-o', 'Acquire::http::Timeout=20', 'install', '-y', '-qq', '--no-install-recommends'],
  },
  darwin: { program: 'brew', args: ['install', '--quiet'] },
  win32: { program: 'choco', args: ['install', '-y', '--no-progress'] },
};

/** Makes journeys a seventh shorter. Only some systems have it, so it is installed alone, and no test needs it. */
const QUICK_BROWSER = 'chromium-headless-shell';

/** Installs what is missing if this user may; otherwise says what to install. */
export async function installPrograms() {
  const { findBrowser, findProgram } = await loadSource('main/loopback/find-browser.ts');
  const machine = (await loadSource('main/desk/places.ts')).thisPlace();
  const packages = PACKAGES[process.platform] ?? PACKAGES.linux;
  const isThere = (name) => (name === 'chromium' ? findBrowser(machine) : findProgram([name], machine)) !== null;
  const wanted = Object.keys(packages)
    .filter((name) => !isThere(name))
    .map((name) => packages[name]);
  const { program, args } = INSTALLERS[process.platform] ?? INSTALLERS.linux;
  const found = findProgram([program], machine);
  const mayInstall = found !== null && (program !== 'apt-get' || process.getuid?.() === 0);
  const isSlow = program === 'apt-get' && mayInstall && !isThere(QUICK_BROWSER);
  if (wanted.length > 0 && !mayInstall) {
    console.log(`Some tests need programs that are missing. Install ${wanted.join(', ')} with your system's package manager.`);
    return;
  }
  if (wanted.length === 0 && !isSlow) return;
  console.log(`Installing ${[...wanted, ...(isSlow ? [QUICK_BROWSER] : [])].join(', ')}…`);
  const env = { ...process.env, DEBIAN_FRONTEND: 'noninteractive' };
  const install = (...what) => spawnSync(found, what, { stdio: ['ignore', 'ignore', 'inherit'], env });
  if (program === 'apt-get') install('-o', 'Acquire::Retries=0', '-o', 'Acquire::http::Timeout=20', 'update', '-qq');
  if (wanted.length > 0) install(...args, ...wanted);
  if (isSlow) spawnSync(found, [...args, QUICK_BROWSER], { stdio: 'ignore', env });
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await installPrograms();
