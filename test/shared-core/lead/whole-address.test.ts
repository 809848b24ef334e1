import { expect, it } from 'vitest';
import { splitAddress } from '../../../shared-core/lead/whole-address.ts';

// The last line of an address as USPS Publication 28 has it: city, state, ZIP code or ZIP+4.
it('takes an address in one line apart, and leaves a street alone', () => {
  expect(splitAddress('88 Elm St, Grove City, OH 43123')).toEqual({ line: '88 Elm St', city: 'Grove City', region: 'OH', zip: '43123' });
  expect(splitAddress('4 Tern Road, Apt 2, Salem OR 97301-0042')).toEqual({
    ...{ line: '4 Tern Road, Apt 2', city: 'Salem', region: 'OR', zip: '97301-0042' },
  });
  for (const line of ['88 Elm St', '88 Elm St, Apt 4', '88 Elm St, Grove City', 'PO Box 9', ''])
    expect(splitAddress(line)).toEqual({ line });
});
