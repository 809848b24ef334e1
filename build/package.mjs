/** `npm run package`: builds the installer for this system with electron-builder; arguments are passed on. */
import { entryOf, runHere } from './local-tool.mjs';
import { buildWhenChanged, installPackages, inWords } from './ready.mjs';

await inWords(async () => {
  installPackages();
  await buildWhenChanged();
  process.exit(
    runHere(entryOf('electron-builder'), ['--config', 'build/electron-builder.config.mjs', '--publish', 'never', ...process.argv.slice(2)]),
  );
});
