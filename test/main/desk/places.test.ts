/** Folders by the systems' own rules: Windows known folders (User Shell Folders), xdg-user-dirs(5), the XDG base directory specification. */
import { describe, expect, it } from 'vitest';
import {
  backupsFolder,
  dataFolder,
  documentsFolder,
  parseRegistryFolder,
  parseUserDirs,
  type PlaceSources,
} from '../../../main/desk/places.ts';

const sources = (change: Partial<PlaceSources>): PlaceSources => ({
  platform: 'linux',
  environment: {},
  homeFolder: '/home/ida',
  isThere: () => true,
  readText: () => Promise.resolve(null),
  ask: () => Promise.resolve(null),
  ...change,
});
const WINDOWS = { platform: 'win32', homeFolder: 'C:\\Users\\Ida' } as const;
const REGISTRY = [
  '',
  'HKEY_CURRENT_USER\\Software\\Microsoft\\Windows\\CurrentVersion\\Explorer\\User Shell Folders',
  '    Personal    REG_EXPAND_SZ    %USERPROFILE%\\OneDrive\\Dokumente & Ü',
  '',
].join('\r\n');

describe('the data folder', () => {
  it('is separate for the two hosts, on every system and where the user sets it', () => {
    for (const machine of [
      sources({}),
      sources({ platform: 'darwin' }),
      sources(WINDOWS),
      sources({ environment: { STRAIGHTEDGE_DATA: '/data' } }),
    ])
      expect(dataFolder('desktop', machine)).not.toBe(dataFolder('browser', machine));
  });

  it('is where each system stores program data', () => {
    expect(dataFolder('browser', sources({}))).toBe('/home/ida/.local/share/straightedge/browser');
    expect(dataFolder('browser', sources({ environment: { XDG_DATA_HOME: '/xdg' } }))).toBe('/xdg/straightedge/browser');
    expect(dataFolder('desktop', sources({ platform: 'darwin', homeFolder: '/Users/ida' }))).toBe(
      '/Users/ida/Library/Application Support/Straightedge/desktop',
    );
    expect(dataFolder('desktop', sources(WINDOWS))).toBe('C:\\Users\\Ida\\AppData\\Roaming\\Straightedge\\desktop');
    expect(dataFolder('browser', sources({ ...WINDOWS, environment: { APPDATA: 'D:\\Roaming' } }))).toBe(
      'D:\\Roaming\\Straightedge\\browser',
    );
    expect(dataFolder('desktop', sources({ environment: { STRAIGHTEDGE_DATA: '/data' } }))).toBe('/data/desktop');
  });
});

describe('the documents folder', () => {
  it('on Windows is where the system moved it', async () => {
    const machine = sources({ ...WINDOWS, environment: { USERPROFILE: 'C:\\Users\\Ida' }, ask: () => Promise.resolve(REGISTRY) });
    expect(await documentsFolder(machine)).toBe('C:\\Users\\Ida\\OneDrive\\Dokumente & Ü\\Straightedge');
    expect(await documentsFolder(sources(WINDOWS))).toBe('C:\\Users\\Ida\\Documents\\Straightedge');
  });

  it('on Linux is the one that user-dirs.dirs names', async () => {
    const text = '# comment\nXDG_DESKTOP_DIR="$HOME/Schreibtisch"\nXDG_DOCUMENTS_DIR="$HOME/Dokumente"\n';
    const commands: string[] = [];
    const readText = (path: string) => {
      commands.push(path);
      return Promise.resolve(text);
    };
    expect(await documentsFolder(sources({ readText }))).toBe('/home/ida/Dokumente/Straightedge');
    expect(commands).toEqual(['/home/ida/.config/user-dirs.dirs']);
  });

  it('is Documents, or the home folder, where the named one is gone', async () => {
    const readText = () => Promise.resolve('XDG_DOCUMENTS_DIR="/media/gone"\n');
    expect(await documentsFolder(sources({ readText, isThere: (path) => path === '/home/ida/Documents' }))).toBe(
      '/home/ida/Documents/Straightedge',
    );
    expect(await documentsFolder(sources({ readText, isThere: () => false }))).toBe('/home/ida/Straightedge');
    expect(await documentsFolder(sources({ platform: 'darwin', homeFolder: '/Users/ida' }))).toBe('/Users/ida/Documents/Straightedge');
  });

  it('is the user’s own choice first, and backups go below it', async () => {
    const machine = sources({ environment: { STRAIGHTEDGE_DOCUMENTS: '/own' } });
    expect(await documentsFolder(machine)).toBe('/own');
    expect(backupsFolder(machine, '/own')).toBe('/own/Backups');
    expect(backupsFolder(sources({ environment: { STRAIGHTEDGE_BACKUPS: '/backups' } }), '/own')).toBe('/backups');
    expect(backupsFolder(sources(WINDOWS), 'C:\\Own')).toBe('C:\\Own\\Backups');
  });

  it('is read from unusual text without guessing', () => {
    expect(parseRegistryFolder('ERROR: The system was unable to find it', {})).toBeNull();
    expect(parseRegistryFolder('    Personal    REG_SZ    E:\\Documents', {})).toBe('E:\\Documents');
    expect(parseRegistryFolder('    Personal    REG_EXPAND_SZ    %NOWHERE%\\D', {})).toBe('%NOWHERE%\\D');
    expect(parseUserDirs('XDG_DOCUMENTS_DIR="$HOME/"', '/home/ida')).toBeNull();
    expect(parseUserDirs('#XDG_DOCUMENTS_DIR="$HOME/D"', '/home/ida')).toBeNull();
    expect(parseUserDirs('XDG_DOCUMENTS_DIR="relative"', '/home/ida')).toBeNull();
    expect(parseUserDirs('XDG_DOCUMENTS_DIR="$HOME/a \\"b\\""', '/home/ida')).toBe('/home/ida/a "b"');
  });
});
