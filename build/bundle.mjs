/** Builds the program into .out: the screens, the two hosts, and the fonts that documents embed. */
import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { brotliCompressSync, constants } from 'node:zlib';
import { build as bundleWith } from 'esbuild';
import { build as buildPage } from 'vite';
import { copyFonts, FONTS } from './fonts.mjs';
import { writeLicenses } from './licenses.mjs';
import { removeFolder } from './remove-folder.mjs';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');

const NODE = {
  bundle: true,
  metafile: true,
  platform: 'node',
  target: 'node20',
  sourcemap: false,
  logLevel: 'warning',
  absWorkingDir: root,
  legalComments: 'none',
};
/** pdfkit reads data files beside itself, so it stays a package. */
const EXTERNAL = ['electron', 'pdfkit'];

/** Builds the hosts and returns the files in them. */
export async function buildHosts() {
  const used = [];
  const bundle = async (options) => {
    const { metafile } = await bundleWith(options);
    used.push(...Object.keys(metafile.inputs));
  };
  const requireShim =
    "import { createRequire as straightedgeRequire } from 'node:module'; const require = straightedgeRequire(import.meta.url);";
  await bundle({
    ...NODE,
    entryPoints: ['main/loopback/serve.ts'],
    outfile: '.out/main/loopback.mjs',
    format: 'esm',
    external: EXTERNAL,
    banner: { js: requireShim },
  });
  await bundle({
    ...NODE,
    entryPoints: ['main/desk/sample-command.ts'],
    outfile: '.out/main/sample.mjs',
    format: 'esm',
    external: EXTERNAL,
    banner: { js: requireShim },
  });
  await bundle({ ...NODE, entryPoints: ['main/electron/start.ts'], outfile: '.out/main/electron.cjs', format: 'cjs', external: EXTERNAL });
  await bundle({
    ...NODE,
    entryPoints: ['main/electron/preload.ts'],
    outfile: '.out/main/preload.cjs',
    format: 'cjs',
    external: ['electron'],
  });
  return used;
}

/** Records every module of a bundle, workers included, which the page's own output does not list. */
const notingModules = (used) => ({
  name: 'note-modules',
  generateBundle(_options, output) {
    for (const chunk of Object.values(output))
      if (chunk.type === 'chunk') used.push(...chunk.moduleIds.map((id) => relative(root, id.replace(/^\0/, '').split('?')[0])));
  },
});

/** Minimum size of a file worth compressing, bytes. */
const COMPRESS_FROM = 1024;

/** Writes a compressed copy beside each text file of the page, as small as can be for those that every start asks for. */
function compressPage(folder) {
  const start = readFileSync(join(folder, 'index.html'), 'utf8');
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    if (!entry.isFile() || !/\.(js|css|html|svg|json)$/.test(entry.name)) continue;
    const path = join(entry.parentPath, entry.name);
    const bytes = readFileSync(path);
    if (bytes.length < COMPRESS_FROM) continue;
    const quality = start.includes(entry.name) ? 11 : 9;
    const options = { [constants.BROTLI_PARAM_QUALITY]: quality, [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length };
    writeFileSync(`${path}.br`, brotliCompressSync(bytes, { params: options }));
  }
}

export async function buildAll() {
  removeFolder(join(root, '.out'));
  copyFonts(join(root, '.out', 'fonts'));
  const used = await buildHosts();
  await buildPage({
    configFile: join(root, 'build', 'vite.config.ts'),
    logLevel: 'warn',
    plugins: [notingModules(used)],
    worker: { plugins: () => [notingModules(used)] },
  });
  writeLicenses(root, used, [...Object.keys(FONTS), 'pdfkit'], join(root, '.out', 'renderer', 'licenses.json'));
  compressPage(join(root, '.out', 'renderer'));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) await buildAll();
