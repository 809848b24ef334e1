/** Folders of this computer. */
import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { homedir } from 'node:os';
import path from 'node:path';

/** What the search reads of the computer; tests inject another. */
export type PlaceSources = {
  readonly platform: NodeJS.Platform;
  readonly environment: NodeJS.ProcessEnv;
  readonly homeFolder: string;
  readonly isThere: (path: string) => boolean;
  /** The text of a file, or null. */
  readonly readText: (path: string) => Promise<string | null>;
  /** The output of a command, or null when it fails. */
  readonly ask: (command: string, args: readonly string[]) => Promise<string | null>;
};

/** Hosts have separate data: `desktop` is the Electron window, `browser` the browser window. */
export type HostName = 'desktop' | 'browser';

/** Timeout of a system command, ms. */
const ASK_MS = 5000;

export function thisPlace(): PlaceSources {
  return {
    platform: process.platform,
    environment: process.env,
    homeFolder: homedir(),
    isThere: existsSync,
    readText: (file) => readFile(file, 'utf8').catch(() => null),
    ask: (command, args) =>
      new Promise((resolve) => {
        execFile(command, [...args], { encoding: 'utf8', timeout: ASK_MS, windowsHide: true }, (error, out) =>
          resolve(error === null ? out : null),
        );
      }),
  };
}

export const pathsOf = (platform: NodeJS.Platform) => (platform === 'win32' ? path.win32 : path.posix);

/** The value of a variable; empty counts as not set. */
const setting = (environment: NodeJS.ProcessEnv, name: string): string | null => {
  const value = environment[name];
  return value === undefined || value === '' ? null : value;
};

type FolderSources = Pick<PlaceSources, 'platform' | 'environment' | 'homeFolder'>;

/** The program's own folder for one host: database profile, log, notes of running hosts. */
export function dataFolder(host: HostName, { platform, environment, homeFolder }: FolderSources): string {
  const paths = pathsOf(platform);
  const own = setting(environment, 'STRAIGHTEDGE_DATA');
  if (own !== null) return paths.join(own, host);
  if (platform === 'win32')
    return paths.join(setting(environment, 'APPDATA') ?? paths.join(homeFolder, 'AppData', 'Roaming'), 'Straightedge', host);
  if (platform === 'darwin') return paths.join(homeFolder, 'Library', 'Application Support', 'Straightedge', host);
  return paths.join(setting(environment, 'XDG_DATA_HOME') ?? paths.join(homeFolder, '.local', 'share'), 'straightedge', host);
}

/** Windows' registry entry of the folder, which cloud storage or the user may have moved. */
const USER_FOLDERS = 'HKCU\\Software\\Microsoft\\Windows\\CurrentVersion\\Explorer\\User Shell Folders';

/** The value in the output of `reg query`, its `%VARIABLES%` expanded; null for none. */
export function parseRegistryFolder(printed: string, environment: NodeJS.ProcessEnv): string | null {
  const value = /REG_(?:EXPAND_)?SZ[ \t]+(.+?)[ \t]*\r?$/m.exec(printed)?.[1];
  if (value === undefined) return null;
  const names = Object.keys(environment);
  return value.replace(/%([^%]+)%/g, (whole, name: string) => {
    const key = names.find((one) => one.toLowerCase() === name.toLowerCase());
    return (key === undefined ? undefined : environment[key]) ?? whole;
  });
}

/** The documents folder in the file of xdg-user-dirs; null for none. */
export function parseUserDirs(text: string, homeFolder: string): string | null {
  const value = /^[ \t]*XDG_DOCUMENTS_DIR[ \t]*=[ \t]*"((?:[^"\\]|\\.)*)"/m.exec(text)?.[1];
  if (value === undefined) return null;
  const plain = value.replace(/\\(.)/g, '$1');
  const folder = plain.startsWith('$HOME') ? homeFolder + plain.slice('$HOME'.length) : plain;
  // xdg-user-dirs: the home folder itself means that there is no documents folder.
  return folder.startsWith('/') && folder.replace(/\/+$/, '') !== homeFolder.replace(/\/+$/, '') ? folder : null;
}

/** The system's documents folder, wherever it was moved. */
async function systemDocuments(sources: PlaceSources): Promise<string | null> {
  const { platform, environment, homeFolder } = sources;
  const paths = pathsOf(platform);
  if (platform === 'win32') {
    const printed = await sources.ask('reg.exe', ['query', USER_FOLDERS, '/v', 'Personal']);
    return printed === null ? null : parseRegistryFolder(printed, environment);
  }
  if (platform === 'darwin') return null;
  const config = setting(environment, 'XDG_CONFIG_HOME') ?? paths.join(homeFolder, '.config');
  const text = await sources.readText(paths.join(config, 'user-dirs.dirs'));
  return text === null ? null : parseUserDirs(text, homeFolder);
}

/** The folder for documents: in the system's documents folder, or in the home folder where there is none. */
export async function documentsFolder(sources: PlaceSources): Promise<string> {
  const paths = pathsOf(sources.platform);
  const own = setting(sources.environment, 'STRAIGHTEDGE_DOCUMENTS');
  if (own !== null) return own;
  const usual = paths.join(sources.homeFolder, 'Documents');
  const named = await systemDocuments(sources);
  const found = [named, usual].find((folder) => folder !== null && sources.isThere(folder));
  return paths.join(found ?? sources.homeFolder, 'Straightedge');
}

/** Default folder of backups. */
export function backupsFolder({ platform, environment }: Pick<PlaceSources, 'platform' | 'environment'>, documents: string): string {
  return setting(environment, 'STRAIGHTEDGE_BACKUPS') ?? pathsOf(platform).join(documents, 'Backups');
}
