import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { openSync } from 'fontkit';
import { expect, it } from 'vitest';

const ASSETS = '.out/renderer/assets';

// Browsers set what stands around U+2044 as a fraction (Unicode 15, 6.2, fraction slash); without these letters 1 3/16 reads as 13/16.
it('keeps the letters of fractions in every font of the page', () => {
  const files = readdirSync(ASSETS).filter((name) => name.endsWith('.woff2') && !name.includes('.far.'));
  expect(files).toHaveLength(8);
  for (const file of files) {
    const { availableFeatures } = openSync(join(ASSETS, file));
    for (const feature of ['frac', 'numr', 'dnom']) expect(availableFeatures, `${feature} of ${file}`).toContain(feature);
  }
});
