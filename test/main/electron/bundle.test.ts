/**
 * Electron's security checklist (electronjs.org/docs/latest/tutorial/security), the points that can be checked in the build: only own
 * content, isolation, no inline scripts, and nothing exposed to the page. The shell's test checks the others.
 */
import { readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { describe, expect, it } from 'vitest';
import { CONTENT_POLICY } from '../../../main/desk/policy.ts';

const shell = readFileSync('.out/main/electron.cjs', 'utf8');
const preload = readFileSync('.out/main/preload.cjs', 'utf8');
const required = (code: string): Set<string> =>
  new Set([...code.matchAll(/\b(?:require|import)\("([^"]+)"\)/g)].map((found) => (found[1] ?? '').replace(/^node:/, '')));

describe('the built shell', () => {
  it('limits the preload to Electron, and the shell to Node, Electron and the PDF library', () => {
    expect([...required(preload)]).toEqual(['electron']);
    expect([...required(shell)].filter((name) => !builtinModules.includes(name)).sort()).toEqual(['electron', 'pdfkit']);
  });

  it('limits the preload to the names of the calls, because every window runs it before its page', () => {
    expect(preload.length).toBeLessThan(8_000);
  });

  it('exposes nothing of Electron itself to the page', () => {
    expect(preload).not.toMatch(/exposeInMainWorld\([^,]+,\s*(import_electron|ipcRenderer)/);
    expect(preload).not.toMatch(/ipcRenderer\.(on|once|send|sendSync|postMessage)\b/);
  });

  it('turns no guard off', () => {
    for (const loose of [
      /nodeIntegration(InWorker|InSubFrames)?:\s*(true|!0)/,
      /contextIsolation:\s*(false|!1)/,
      /webSecurity:\s*(false|!1)/,
      /sandbox:\s*(false|!1)/,
      /allowRunningInsecureContent:\s*(true|!0)/,
      /webviewTag:\s*(true|!0)/,
      /enableBlinkFeatures/,
      /openDevTools/,
      /remote-debugging/,
    ])
      expect(shell).not.toMatch(loose);
  });

  it('has a policy that allows scripts, styles and data only from itself', () => {
    expect(CONTENT_POLICY).toContain("default-src 'none'");
    expect(CONTENT_POLICY).not.toMatch(/unsafe|https?:|\*/);
  });
});
