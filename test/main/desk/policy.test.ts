import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { expect, it } from 'vitest';
import { LIBRARY_STYLE } from '../../../main/desk/policy.ts';

it('allows the style sheet of the installed component library and no other', () => {
  const require = createRequire(import.meta.url);
  // A dependency of the component library, resolved as the library does.
  const main = createRequire(require.resolve('react-aria-components')).resolve('react-aria');
  const source = readFileSync(main.replace(/react-aria\/dist\/.*$/, 'react-aria/dist/private/interactions/usePress.mjs'), 'utf8');
  const attribute = /'(data-react-aria-pressable)'/.exec(source)?.[1] ?? '';
  const template = /style\.textContent = `([^`]*)`\.trim\(\)/.exec(source)?.[1] ?? '';
  const text = template.replace(/\$\{[^}]*\}/g, attribute).trim();
  expect(`'sha256-${createHash('sha256').update(text).digest('base64')}'`).toBe(LIBRARY_STYLE);
});
