/** Where installers put browsers: the systems' documented program folders, for all users and for one. */
import { describe, expect, it } from 'vitest';
import { findBrowser, findProgram, type Surroundings } from '../../../main/loopback/find-browser.ts';

const machine = (platform: NodeJS.Platform, files: readonly string[], environment: NodeJS.ProcessEnv = {}): Surroundings => ({
  platform,
  environment,
  homeFolder: platform === 'win32' ? 'C:\\Users\\Ida Ü' : '/Users/ida',
  isThere: (path) => files.includes(path),
});
const WINDOWS = {
  Path: 'C:\\Windows;C:\\Tools & more',
  ProgramFiles: 'D:\\Programs',
  'ProgramFiles(x86)': 'D:\\Programs (x86)',
  LOCALAPPDATA: 'C:\\Users\\Ida Ü\\AppData\\Local',
};

describe('an installed browser', () => {
  it('on macOS is found for all users and for one', () => {
    const app = '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome';
    const own = '/Users/ida/Applications/Microsoft Edge.app/Contents/MacOS/Microsoft Edge';
    expect(findBrowser(machine('darwin', [own, app]))).toBe(app);
    expect(findBrowser(machine('darwin', [own]))).toBe(own);
    expect(findBrowser(machine('darwin', []))).toBeNull();
  });

  it('on Windows is found where the system installs programs, also on another drive and for one user', () => {
    const edge = 'D:\\Programs (x86)\\Microsoft\\Edge\\Application\\msedge.exe';
    const own = 'C:\\Users\\Ida Ü\\AppData\\Local\\Google\\Chrome\\Application\\chrome.exe';
    expect(findBrowser(machine('win32', [edge], WINDOWS))).toBe(edge);
    expect(findBrowser(machine('win32', [own, edge], WINDOWS))).toBe(own);
    expect(findBrowser(machine('win32', [], WINDOWS))).toBeNull();
    expect(findBrowser(machine('win32', [edge], {}))).toBeNull();
  });

  it('on Linux is found on the path only', () => {
    const paths = { PATH: '/opt/a b & ü:/usr/bin' };
    expect(findBrowser(machine('linux', ['/usr/bin/chromium', '/opt/a b & ü/google-chrome'], paths))).toBe('/opt/a b & ü/google-chrome');
    expect(findBrowser(machine('linux', ['/usr/bin/firefox'], paths))).toBeNull();
  });

  it('named by a variable comes before any other', () => {
    const named = { PATH: '/usr/bin', STRAIGHTEDGE_CHROMIUM: '/opt/own/chromium' };
    expect(findBrowser(machine('linux', ['/usr/bin/chromium'], named))).toBe('/opt/own/chromium');
  });
});

describe('a program on the path', () => {
  it('on Windows has its extension, and the path’s own name is read in any case', () => {
    expect(findProgram(['qpdf'], machine('win32', ['C:\\Tools & more\\qpdf.exe'], WINDOWS))).toBe('C:\\Tools & more\\qpdf.exe');
  });

  it('is not looked for in an empty part of the path', () => {
    expect(findProgram(['zenity'], machine('linux', ['zenity', '/zenity'], { PATH: '::' }))).toBeNull();
  });
});
