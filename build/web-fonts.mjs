/**
 * The page's fonts as WOFF2 with the characters it can show: Latin, figures, fractions, signs, and every character in the built code. Other
 * scripts use the system's fonts.
 */
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import subsetFont from 'subset-font';
import { ROOT } from './local-tool.mjs';

/** ASCII and Latin-1. */
const RANGES = [
  [0x20, 0x7e],
  [0xa0, 0xff],
];
/** Latin Extended-A, for names and places: files of their own, which the page loads when it shows such a letter. */
const FAR = [0x100, 0x17f];
const FAR_RANGE = `U+${FAR.map((code) => code.toString(16)).join('-')}`;

const charactersOf = ([from, to]) => Array.from({ length: to - from + 1 }, (_, i) => String.fromCodePoint(from + i)).join('');
/** Punctuation, fractions, superscripts and signs that a user may type or paste. */
const SIGNS = '‐‑‒–—―‘’‚“”„†‡•…‰′″‹›⁄⁰⁴⁵⁶⁷⁸⁹₀₁₂₃₄₅₆₇₈₉€№™⅓⅔⅛⅜⅝⅞←↑→↓−≈≠≤≥\u2009\u200a\u202f';

/** Symbols in the code that may be shown, but not the letter tables of libraries. */
const SHOWN = /[\u2010-\u27bf]/g;

/** What browsers apply by themselves, to fractions too, and the figures that the style sheets ask for. The letters of other features are half of a file. */
const FEATURES = ['calt', 'ccmp', 'clig', 'dnom', 'frac', 'kern', 'liga', 'locl', 'mark', 'mkmk', 'numr', 'lnum', 'tnum'];

/** Fonts of the first screen, which the page requests with its code rather than after its style sheet. */
const PRELOADED = /SourceSans3_(400Regular|600SemiBold)-|SourceSerif4_400Regular-/;

const charactersIn = (chunks) => {
  const found = new Set(SIGNS + RANGES.map(charactersOf).join(''));
  for (const { code } of chunks) for (const [one] of code.matchAll(SHOWN)) found.add(one);
  return [...found].join('');
};

/** The file of the far letters beside another. */
const farOf = (text) => text.replace('.woff2', '.far.woff2');

/** Cached by content: the same font and characters are not subset again. */
async function subset(font, text) {
  const path = join(
    ROOT,
    '.cache',
    'web-fonts',
    `${createHash('sha256').update(font).update(text).update(FEATURES.join()).digest('hex')}.woff2`,
  );
  if (existsSync(path)) return readFileSync(path);
  const source = await subsetFont(font, text, { targetFormat: 'woff2', keepFeatures: FEATURES });
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, source);
  return source;
}

/** Replaces the font files of a built page; the development server uses the whole fonts. */
export function webFonts() {
  return {
    name: 'web-fonts',
    apply: 'build',
    enforce: 'post',
    async generateBundle(_options, output) {
      const all = Object.values(output);
      const fonts = all.filter((one) => one.type === 'asset' && one.fileName.endsWith('.ttf'));
      if (fonts.length === 0) return;
      const text = charactersIn(all.filter((one) => one.type === 'chunk'));
      const renamed = new Map();
      for (const font of fonts) {
        const whole = Buffer.from(font.source);
        const fileName = font.fileName.replace(/\.ttf$/, '.woff2');
        renamed.set(font.fileName.split('/').at(-1), fileName.split('/').at(-1));
        delete output[font.fileName];
        this.emitFile({ type: 'asset', fileName, source: await subset(whole, text) });
        this.emitFile({ type: 'asset', fileName: farOf(fileName), source: await subset(whole, charactersOf(FAR)) });
      }
      for (const sheet of all.filter((one) => one.type === 'asset' && one.fileName.endsWith('.css'))) {
        let css = String(sheet.source);
        for (const [before, after] of renamed) css = css.replaceAll(before, after);
        css = css.replaceAll(/format\((["']?)truetype\1\)/g, 'format("woff2")');
        // A face of the same name with a range, after the one without, is for that range.
        sheet.source = css.replaceAll(
          /@font-face\s*\{([^}]*)\}/g,
          (face, rules) => `${face}@font-face{${farOf(rules)};unicode-range:${FAR_RANGE}}`,
        );
      }
      const links = [...renamed.values()]
        .filter((name) => PRELOADED.test(name))
        .map((name) => `<link rel="preload" href="/assets/${name}" as="font" type="font/woff2" crossorigin />`);
      const page = all.find((one) => one.fileName === 'index.html');
      if (page !== undefined) page.source = String(page.source).replace('</head>', `  ${links.join('\n    ')}\n  </head>`);
    },
  };
}
