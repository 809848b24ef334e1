import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { namedMedia } from './named-media.ts';
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

/** The gallery is served in development only and never bundled. */
export default defineConfig({
  root: here('../renderer'),
  base: '/',
  cacheDir: here('../.cache/vite'),
  define: { __ARITHMETIC__: JSON.stringify(arithmetic()) },
  plugins: [react(), webFonts()],
  css: { postcss: { plugins: [namedMedia] } },
  worker: { format: 'es' },
  build: {
    outDir: here('../.out/renderer'),
    emptyOutDir: true,
    assetsInlineLimit: 0,
    target: 'chrome120',
    chunkSizeWarningLimit: 2000,
    rollupOptions: { checks: { pluginTimings: false }, input: { index: here('../renderer/index.html') } },
  },
});
