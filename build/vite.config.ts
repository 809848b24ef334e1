import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

/** The screens. The gallery is served in development only and never bundled. */
export default defineConfig({
  root: new URL('../renderer', import.meta.url).pathname,
  base: '/',
  cacheDir: new URL('../.cache/vite', import.meta.url).pathname,
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
