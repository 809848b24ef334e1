/** `node build/icons.mjs`: draws the packaged program's icon from the one mark; electron-builder makes each system's kinds from it. */
import { readFileSync } from 'node:fs';
import { chromium } from '@playwright/test';
import { chromiumArgs, chromiumPath } from './chromium.mjs';

const SIZE_PX = 1024;
const mark = readFileSync(new URL('../renderer/app/mark.svg', import.meta.url), 'utf8');
const browser = await chromium.launch({ executablePath: chromiumPath(), args: chromiumArgs() });
const page = await browser.newPage({ viewport: { width: SIZE_PX, height: SIZE_PX } });
await page.setContent(`<style>body{margin:0}svg{display:block;width:100vw;height:100vh}</style>${mark}`);
await page.screenshot({ path: new URL('icon.png', import.meta.url).pathname });
await browser.close();
