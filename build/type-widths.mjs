/** `node build/type-widths.mjs`: reads the advance widths of the bundled fonts and writes shared-core/drawing/type-widths.ts. */
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { openSync } from 'fontkit';
import { ROOT } from './local-tool.mjs';

const root = join(ROOT, 'node_modules', '@expo-google-fonts');
const faces = {
  'sans-400': 'source-sans-3/400Regular/SourceSans3_400Regular.ttf',
  'sans-400-italic': 'source-sans-3/400Regular_Italic/SourceSans3_400Regular_Italic.ttf',
  'sans-600': 'source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf',
  'sans-700': 'source-sans-3/700Bold/SourceSans3_700Bold.ttf',
  'serif-300': 'source-serif-4/300Light/SourceSerif4_300Light.ttf',
  'serif-400': 'source-serif-4/400Regular/SourceSerif4_400Regular.ttf',
  'serif-400-italic': 'source-serif-4/400Regular_Italic/SourceSerif4_400Regular_Italic.ttf',
  'serif-600': 'source-serif-4/600SemiBold/SourceSerif4_600SemiBold.ttf',
};
let glyphs = '';
for (let c = 0x20; c < 0x7f; c += 1) glyphs += String.fromCodePoint(c);
for (let c = 0xa0; c < 0x100; c += 1) if (c !== 0xad) glyphs += String.fromCodePoint(c);
glyphs += '⅛⅜⅝⅞⅓⅔⁄⁰⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉′″–—‘’“”…−€\u200a\u2009\u202f';
const rows = Object.entries(faces).map(([name, file]) => {
  const face = openSync(join(root, file));
  const widths = [...glyphs].map((g) => {
    const code = g.codePointAt(0);
    return face.hasGlyphForCodePoint(code) ? Math.round((face.glyphForCodePoint(code).advanceWidth * 1000) / face.unitsPerEm) : 0;
  });
  const missing = [...glyphs].filter((_, i) => widths[i] === 0);
  if (missing.length > 0) console.warn(`${name} lacks ${missing.join(' ')}`);
  return `  '${name}':\n    '${widths.join(' ')}',`;
});
const text = `/**
 * Advance widths of the bundled faces, thousandths of an em, in the order of WIDTH_GLYPHS; 0 where a face lacks the glyph.
 * Written by build/type-widths.mjs from the font files; not to be edited by hand.
 */
export const WIDTH_GLYPHS = ${JSON.stringify(glyphs)};
export const FACE_WIDTHS: Readonly<Record<string, string>> = {
${rows.join('\n')}
};
`;
writeFileSync(join(ROOT, 'shared-core', 'drawing', 'type-widths.ts'), text);
