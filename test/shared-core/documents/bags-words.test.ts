import { expect, it } from 'vitest';
import { bagsWords } from '../../../shared-core/documents/log-words.ts';

it('one bag is one as it is shown, to a tenth', () => {
  expect([0, 0.5, 0.96, 1, 1.04, 1.06, 12].map((bags) => bagsWords(bags, 'en-US'))).toEqual([
    '0 bags',
    '0.5 bags',
    '1 bag',
    '1 bag',
    '1 bag',
    '1.1 bags',
    '12 bags',
  ]);
});
