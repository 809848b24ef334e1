import { describe, expect, it } from 'vitest';
import { emptyAddress, nearCompany } from '../../../shared-core/book/new-records.ts';

describe('the address of a new property', () => {
  const own = { line: '3 Works Road', city: 'Tarrow Falls', region: 'VT', zip: '05000', country: 'US' };
  const entered = { ...emptyAddress('US'), line: '12 Oak St' };

  it('is in the company’s city and state where neither city, state nor ZIP code was entered', () =>
    expect(nearCompany({ ...entered, city: ' ' }, own)).toEqual({ ...entered, city: 'Tarrow Falls', region: 'VT' }));

  it.each([{ region: 'NH', zip: '03766' }, { region: 'NH' }, { zip: '03766' }, { city: 'Fenwick Bend' }])(
    'keeps what was entered: %o',
    (part) => expect(nearCompany({ ...entered, ...part }, own)).toEqual({ ...entered, ...part }),
  );
});
