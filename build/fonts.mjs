/** Fonts of the screens and documents. */
import { cpSync, mkdirSync, readdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

const require = createRequire(import.meta.url);

/** Font files of the screens. */
export const FONTS = {
  '@expo-google-fonts/source-sans-3': ['400Regular', '400Regular_Italic', '600SemiBold', '700Bold'],
  '@expo-google-fonts/source-serif-4': ['300Light', '400Regular', '400Regular_Italic', '600SemiBold'],
};

export function copyFonts(target) {
  mkdirSync(target, { recursive: true });
  for (const [name, cuts] of Object.entries(FONTS)) {
    const folder = dirname(require.resolve(`${name}/package.json`));
    const files = readdirSync(folder, { recursive: true }).map(String);
    for (const cut of cuts) {
      const file = files.find((f) => f.endsWith(`_${cut}.ttf`));
      if (file === undefined) throw new Error(`${name} has no ${cut}`);
      cpSync(join(folder, file), join(target, file.split(/[\\/]/).at(-1)));
    }
  }
}
