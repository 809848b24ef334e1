import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

/** A name for the arithmetic as it is built: figures kept from another one are worked out anew. */
function arithmetic(): string {
  const folder = new URL('../shared-core', import.meta.url).pathname;
  const hash = createHash('sha256');
  for (const file of (readdirSync(folder, { recursive: true }) as string[]).filter((name) => name.endsWith('.ts')).sort())
    hash.update(file).update(readFileSync(join(folder, file)));
  return hash.digest('hex').slice(0, 16);
}

/** The screens. The gallery is served in development only and never bundled. */
export default defineConfig({
  root: new URL('../renderer', import.meta.url).pathname,
  base: '/',
  cacheDir: new URL('../.cache/vite', import.meta.url).pathname,
  define: { __ARITHMETIC__: JSON.stringify(arithmetic()) },
  plugins: [react()],
  worker: { format: 'es' },
  build: {
    outDir: new URL('../.out/renderer', import.meta.url).pathname,
    emptyOutDir: true,
    assetsInlineLimit: 0,
    target: 'chrome120',
    chunkSizeWarningLimit: 2000,
    rollupOptions: { input: { index: new URL('../renderer/index.html', import.meta.url).pathname } },
  },
});
