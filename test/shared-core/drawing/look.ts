/** Draws the samples to .cache/drawing/look.html, light and dark, for a browser: esbuild bundles it, node runs it. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { samples } from './samples.ts';
import { svgDrawing } from './svg.ts';

const faces = [
  ['Source Sans 3', 400, 'normal', 'source-sans-3/400Regular/SourceSans3_400Regular.ttf'],
  ['Source Sans 3', 600, 'normal', 'source-sans-3/600SemiBold/SourceSans3_600SemiBold.ttf'],
  ['Source Sans 3', 700, 'normal', 'source-sans-3/700Bold/SourceSans3_700Bold.ttf'],
  ['Source Serif 4', 400, 'normal', 'source-serif-4/400Regular/SourceSerif4_400Regular.ttf'],
  ['Source Serif 4', 400, 'italic', 'source-serif-4/400Regular_Italic/SourceSerif4_400Regular_Italic.ttf'],
]
  .map(
    ([family, weight, style, file]) =>
      `@font-face{font-family:"${String(family)}";font-weight:${String(weight)};font-style:${String(style)};src:url("../../node_modules/@expo-google-fonts/${String(file)}")}`,
  )
  .join('');
const light =
  '--paper:#F6F2E8;--tracing:#FDFBF5;--ink:#1B1F22;--ink2:#484C4E;--line:#6B6960;--faint:#C6BFAE;--chalk:#8E3218;--on-chalk:#FFFBF4;--d0:#F2EBDB;--d1:#E7E2D4;--d2:#DBD8CD;--d3:#CFCFC7;--d4:#C3C6C1;--d5:#B8BDBB;--d6:#ADB4B5;--d7:#A2ABAF;--dot:#2A3035';
const dark =
  '--paper:#15222C;--tracing:#1D2D39;--ink:#EDF1F2;--ink2:#BAC6CC;--line:#8699A4;--faint:#3A4C59;--chalk:#F0A584;--on-chalk:#1B1512;--d0:#1A2833;--d1:#203039;--d2:#273841;--d3:#2E404A;--d4:#354852;--d5:#3C505B;--d6:#435863;--d7:#4A606C;--dot:#DCE5E9';
const dir = '.cache/drawing';
mkdirSync(dir, { recursive: true });
for (const [look, tokens] of Object.entries({ light, dark })) {
  const body = Object.entries(samples())
    .map(([name, drawing]) => `<figure id="${name}">${svgDrawing(drawing)}</figure>`)
    .join('');
  writeFileSync(
    `${dir}/${look}.html`,
    `<!doctype html><meta charset="utf-8"><style>${faces}:root{${tokens}}body{margin:0;background:var(--paper)}figure{margin:0 0 12px}svg{display:block}</style>${body}`,
  );
}
