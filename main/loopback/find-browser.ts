/** Finds an installed program on the path, or where the system's installers put browsers, for all users and for one. */
import { pathsOf, type PlaceSources } from '../desk/places.ts';

/** What the search reads of the computer; tests inject another. */
export type Surroundings = Pick<PlaceSources, 'platform' | 'environment' | 'homeFolder' | 'isThere'>;
export type SearchPath = Pick<Surroundings, 'platform' | 'environment' | 'isThere'>;

const ON_PATH = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'microsoft-edge', 'brave-browser'];
const MAC_APPS = ['Google Chrome', 'Chromium', 'Microsoft Edge', 'Brave Browser'];
const WINDOWS_PROGRAMS = [
  ['Google', 'Chrome', 'Application', 'chrome.exe'],
  ['Chromium', 'Application', 'chrome.exe'],
  ['Microsoft', 'Edge', 'Application', 'msedge.exe'],
  ['BraveSoftware', 'Brave-Browser', 'Application', 'brave.exe'],
];
/** Installed for all users (64 and 32 bit), then for this user. */
const WINDOWS_FOLDERS = ['ProgramFiles', 'ProgramFiles(x86)', 'LOCALAPPDATA'];

/** Windows ignores case in names of variables. */
function variable({ platform, environment }: Pick<Surroundings, 'platform' | 'environment'>, name: string): string | undefined {
  if (platform !== 'win32') return environment[name];
  const key = Object.keys(environment).find((one) => one.toLowerCase() === name.toLowerCase());
  return key === undefined ? undefined : environment[key];
}

/** The first of these programs on the path, or null. */
export function findProgram(names: readonly string[], machine: SearchPath): string | null {
  const paths = pathsOf(machine.platform);
  const endings = machine.platform === 'win32' ? ['.exe', ''] : [''];
  for (const folder of (variable(machine, 'PATH') ?? '').split(paths.delimiter)) {
    if (folder === '') continue;
    for (const name of names)
      for (const ending of endings) {
        const candidate = paths.join(folder, `${name}${ending}`);
        if (machine.isThere(candidate)) return candidate;
      }
  }
  return null;
}

/** All possible locations of a browser, in order of preference. */
function browserPlaces(machine: Surroundings): string[] {
  const paths = pathsOf(machine.platform);
  if (machine.platform === 'darwin')
    return ['/Applications', paths.join(machine.homeFolder, 'Applications')].flatMap((folder) =>
      MAC_APPS.map((name) => paths.join(folder, `${name}.app`, 'Contents', 'MacOS', name)),
    );
  if (machine.platform !== 'win32') return [];
  return WINDOWS_PROGRAMS.flatMap((parts) =>
    WINDOWS_FOLDERS.flatMap((name) => {
      const folder = variable(machine, name);
      return folder === undefined ? [] : [paths.join(folder, ...parts)];
    }),
  );
}

/** An installed Chromium-family browser, or null. `STRAIGHTEDGE_CHROMIUM` overrides the search. */
export function findBrowser(machine: Surroundings): string | null {
  const named = machine.environment['STRAIGHTEDGE_CHROMIUM'];
  if (named !== undefined && named !== '') return named;
  return findProgram(ON_PATH, machine) ?? browserPlaces(machine).find((place) => machine.isThere(place)) ?? null;
}
