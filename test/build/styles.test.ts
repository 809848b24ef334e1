import { expect, test } from 'vitest';
import { problemsOf } from '../../build/check-styles.mjs';

const found = (css: string): string[] => problemsOf(css, ['small', 'narrow']);

test('a style sheet uses the named sizes, the spaces and the pens', () => {
  const kept = '@media (--narrow) and (not (--small)) { .a { padding: var(--g3) 0 auto; border: var(--w-thin) solid; height: 9px } }';
  expect(found(kept)).toEqual([]);
  expect(found('@media (prefers-reduced-motion: reduce) { .a { width: 1px; } }')).toEqual([]);
  expect(found('.a { --own: 12px; height: 9px; width: 10px; }')).toEqual([]);
});

test.each([
  ['@media (max-width: 799px) { .a { color: red; } }', 'use a size of look/media.ts'],
  ['@media (--tiny) { .a { color: red; } }', 'use a size of look/media.ts'],
  ['.a { padding: 12px var(--g3); }', 'use a space'],
  ['.a { column-gap: 0.5rem; }', 'use a space'],
  ['.a { border-top: 1px solid; }', 'use a variable'],
  ['.a { font: 400 15px serif; }', 'use a variable'],
  ['.a { height: 9px; }\n.b { top: 9px; }', 'name 9px'],
])('%s is found', (css, problem) => {
  expect(found(css)).toEqual([expect.stringContaining(problem)]);
});
