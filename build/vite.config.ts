import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig, type Plugin } from 'vite';
import { namedMedia } from './named-media.ts';
import { stippleOrder } from '../shared-core/drawing/stipple-order.ts';
import { webFonts } from './web-fonts.mjs';

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** A hash of the built arithmetic. Stored figures with another hash are calculated again. */
function arithmetic(): string {
  const folder = here('../shared-core');
  const hash = createHash('sha256');
  for (const file of (readdirSync(folder, { recursive: true }) as string[]).filter((name) => name.endsWith('.ts')).sort())
    hash.update(file.replaceAll('\\', '/')).update(readFileSync(join(folder, file)));
  return hash.digest('hex').slice(0, 16);
}

/** Gives the page the order of the stipple's dots as data, the low bytes of all first, which compress best: making it takes 25 to 50 ms before Today shows. */
const madeStipple = {
  name: 'made-stipple',
  transform(_code: string, id: string) {
    if (!/\/stipple-order\.ts$/.test(id)) return null;
    const cells = [...stippleOrder()];
    const bytes = Buffer.from([0, 8, 16].flatMap((bits) => cells.map((cell) => (cell >> bits) & 255)));
    const code = `const text = atob('${bytes.toString('base64')}');
const count = text.length / 3;
export const stippleOrder = () => Uint32Array.from({ length: count }, (_, n) =>
  text.charCodeAt(n) + 256 * text.charCodeAt(count + n) + 65536 * text.charCodeAt(2 * count + n));`;
    return { code, map: null };
  },
};

/** The file of what every start needs, in one request. */
const START = 'start';

/**
 * Has the browser compile every function of a screen while its file loads, beside the page, and not when it is first called: a screen
 * opened for the first time spends a quarter of its script's time in compiling. Not what a start needs: reading all that compiled code
 * back takes a start twice as long. Browsers that do not know the words read a comment.
 */
const compiledAhead: Plugin = {
  name: 'compiled-ahead',
  generateBundle: {
    // The words count only above all code.
    order: 'post',
    handler(_options, bundle) {
      for (const file of Object.values(bundle))
        if (file.type === 'chunk' && file.name !== START) file.code = `//# allFunctionsCalledOnLoad\n${file.code}`;
    },
  },
};

/** No notes on slow plugins, which a slow computer prints above the sentences of `npm start`. */
const QUIET = { bundlerTimings: false } as const;

export default defineConfig({
  root: here('../renderer'),
  base: '/',
  cacheDir: here('../.cache/vite'),
  define: { __ARITHMETIC__: JSON.stringify(arithmetic()) },
  plugins: [react(), webFonts(), madeStipple, compiledAhead],
  css: { postcss: { plugins: [namedMedia] } },
  worker: { format: 'es', plugins: () => [madeStipple], rollupOptions: { checks: QUIET } },
  build: {
    outDir: here('../.out/renderer'),
    emptyOutDir: true,
    assetsInlineLimit: 0,
    target: 'chrome120',
    chunkSizeWarningLimit: 2000,
    rollupOptions: {
      checks: QUIET,
      input: { index: here('../renderer/index.html') },
      output: { codeSplitting: { groups: [{ name: START, tags: ['$initial'], test: /\.[cm]?[jt]sx?$/ }] } },
    },
  },
});
