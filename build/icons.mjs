/** `node build/icons.mjs`: draws the packaged program's icon from its logo. electron-builder converts it for each system. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { chromium } from '@playwright/test';
import { chromiumArgs } from './chromium.mjs';
import { loadSource } from './load-source.mjs';
import { ROOT } from './local-tool.mjs';

const SIZE_PX = 1024;
const { findBrowser } = await loadSource('main/loopback/find-browser.ts');
const { thisPlace } = await loadSource('main/desk/places.ts');
const mark = readFileSync(join(ROOT, 'renderer', 'app', 'mark.svg'), 'utf8');
const browser = await chromium.launch({ executablePath: findBrowser(thisPlace()) ?? undefined, args: chromiumArgs() });
const page = await browser.newPage({ viewport: { width: SIZE_PX, height: SIZE_PX } });
await page.setContent(`<style>body{margin:0}svg{display:block;width:100vw;height:100vh}</style>${mark}`);
await page.screenshot({ path: join(ROOT, 'build', 'icon.png') });
await browser.close();
