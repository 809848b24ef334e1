/**
 * Checks the style sheets, as part of `npm run lint`. Media queries are named, spaces are of the scale, lengths have names, no rule set is
 * written twice, and no class lacks a rule or a use.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { loadSource } from './load-source.mjs';
import { ROOT } from './local-tool.mjs';

/** Properties that take a space of the scale (`--g0` to `--g6`) or another variable. */
const SPACE = /^(padding|margin|scroll-(padding|margin)|(row-|column-)?gap)/;
/** Properties of type and pens, which take a variable or a length that follows the text. */
const PEN = /^(font|line-height|border|outline|text|box-shadow|stroke)/;
/** Queries about the user's settings rather than the window. */
const SETTINGS = /prefers-\w|forced-colors/;
/** Fewest declarations that count as one rule set written twice. */
const LEAST_REPEATED = 4;

/** The declarations of a sheet with their selector and the at-rules around it. */
function rulesOf(text) {
  const plain = text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/url\([^)]*\)/g, 'none');
  const rules = [];
  const around = [];
  for (const [, head, mark] of plain.matchAll(/([^{};]*)([{};])/g)) {
    const words = head.trim().replace(/\s+/g, ' ');
    if (mark === '{') around.push(words);
    if (mark === '{') rules.push({ around: around.slice(0, -1), selector: words, lines: [] });
    if (mark === ';' && around.length > 0) rules.findLast((rule) => rule.selector === around.at(-1)).lines.push(words);
    if (mark === '}') around.pop();
  }
  return rules;
}

/** What is wrong in one sheet by itself. */
export function problemsOf(text, names) {
  const found = [];
  const lengths = new Set();
  for (const { selector, lines } of rulesOf(text)) {
    if (selector.startsWith('@media') && !SETTINGS.test(selector)) {
      const rest = selector.replace(/^@media/, '').replace(/\(--(\w+)\)/g, (all, name) => (names.includes(name) ? '' : all));
      if (/[^\s()]/.test(rest.replace(/\b(and|or|not)\b/g, ''))) found.push(`${selector}: use a size of look/media.ts`);
    }
    for (const line of lines) {
      const [, property, value] = /^([\w-]+): ?(.*)$/.exec(line) ?? [];
      if (property === undefined || property.startsWith('--')) continue;
      if (SPACE.test(property) && /\d(px|r?em|v[wh]|ch)\b/.test(value)) found.push(`${selector} { ${line} }: use a space, --g0 to --g6`);
      else if (PEN.test(property) && /\dpx/.test(value)) found.push(`${selector} { ${line} }: use a variable`);
      else
        for (const [length] of value.matchAll(/[\d.]+px/g)) {
          if (lengths.has(length)) found.push(`${selector} { ${line} }: name ${length}, which the file has twice`);
          lengths.add(length);
        }
    }
  }
  return found;
}

/** Rule sets that stand in two places. */
function repeated(sheets) {
  const seen = new Map();
  const found = [];
  for (const [file, text] of sheets)
    for (const { around, selector, lines } of rulesOf(text)) {
      const key = `${around.join()} ${[...lines].sort().join(';')}`;
      if (lines.length < LEAST_REPEATED || around.some((one) => one.startsWith('@keyframes'))) continue;
      if (seen.has(key)) found.push(`${file}: ${selector} repeats ${seen.get(key)}`);
      seen.set(key, `${selector} (${file})`);
    }
  return found;
}

/** Classes and variables that the style sheets or the screens lack. */
function unmatched(sheets, code) {
  const found = [];
  const css = [...sheets.values()].join('\n').replace(/url\([^)]*\)/g, '');
  const rules = new Set();
  for (const [file, text] of sheets)
    for (const { selector } of rulesOf(text))
      for (const [, name] of selector.startsWith('@') ? [] : selector.matchAll(/\.([a-z][\w-]*)/g)) {
        if (!rules.has(name) && !code.words.has(name) && !code.stems.some((stem) => name.startsWith(stem)))
          found.push(`${file}: no screen uses .${name}`);
        rules.add(name);
      }
  // A class without a rule may be how code or a journey finds an element.
  for (const name of code.classes) if (!rules.has(name) && !code.text.includes(`.${name}`)) found.push(`no rule for the class ${name}`);
  for (const [, name] of css.matchAll(/var\(--([\w-]+)/g))
    if (!css.includes(`--${name}:`) && !code.text.includes(`'--${name}'`)) found.push(`--${name} is not set anywhere`);
  return found;
}

/** The classes that code names: whole words, stems before a `${`, and those of `className`. */
function readCode(text) {
  const classes = new Set();
  for (const [, plain, made] of text.matchAll(/className=(?:"([^"]*)"|\{([^}]*(?:\{[^}]*\}[^}]*)*)\})/g)) {
    const quoted = [...(made ?? '').replace(/[!=]== '[^']*'/g, '').matchAll(/'([^']*)'|`([^`]*)`/g)].map(
      ([, a, b]) => a ?? b.replace(/\$\{[^}]*\}/g, ' '),
    );
    for (const word of (plain ?? quoted.join(' ')).split(/\s+/)) if (/^[a-z][\w-]*[a-z0-9]$/.test(word)) classes.add(word);
  }
  return {
    text,
    classes,
    words: new Set(text.match(/[a-zA-Z][\w-]*/g)),
    stems: [...text.matchAll(/([a-z][\w-]*-)\$\{/g)].map((m) => m[1]),
  };
}

/** Every problem of the renderer's style sheets. */
export async function checkStyles() {
  const folder = join(ROOT, 'renderer');
  const files = readdirSync(folder, { recursive: true }).map(String);
  const read = (ending) => files.filter((name) => ending.test(name)).map((name) => [name, readFileSync(join(folder, name), 'utf8')]);
  const sheets = new Map(read(/\.css$/));
  const { MEDIA } = await loadSource('renderer/look/media.ts');
  const own = [...sheets].filter(([name]) => !/(tokens|fonts)\.css$/.test(name));
  const journeys = join(ROOT, 'test', 'journeys');
  const found = readdirSync(journeys).map((name) => readFileSync(join(journeys, name), 'utf8'));
  const code = readCode(
    read(/\.tsx?$/)
      .map(([, text]) => text)
      .concat(found)
      .join('\n'),
  );
  return [
    ...own.flatMap(([name, text]) => problemsOf(text, Object.keys(MEDIA)).map((problem) => `${name}: ${problem}`)),
    ...repeated(own),
    ...unmatched(sheets, code),
    ...(sheets.size > 40 ? [] : [`only ${sheets.size} style sheets were read`]),
  ];
}
