import { describe, expect, it } from 'vitest';
import { emptyAddress, newCustomer, newProperty } from '../../../shared-core/book/new-records.ts';
import { customerList } from '../../../renderer/customers/customer-list.ts';

const now = '2026-05-06T12:00:00.000Z';
const customers = ['Zoë Ångström', 'ada Marsh', 'Bo Marsh'].map((name, i) => newCustomer({ id: `customer-${i}`, now }, name));
const properties = [newProperty({ id: 'house-1', now }, 'customer-2', { ...emptyAddress('US'), line: '12 Mill Lane' }, 'UTC')];
const names = (sought: string): string[] =>
  customerList({ customers, properties, jobs: [] }, sought, 'en-US').map((row) => row.customer.name);

describe('the list of customers', () => {
  it('is sorted by name, whatever the case', () => {
    expect(names('')).toEqual(['ada Marsh', 'Bo Marsh', 'Zoë Ångström']);
  });
  it('is found without accents', () => {
    expect(names('angstrom zoe')).toEqual(['Zoë Ångström']);
  });
  it('is narrowed by every word, in name and property together', () => {
    expect(names('marsh mill')).toEqual(['Bo Marsh']);
    expect(names('marsh pond')).toEqual([]);
  });
});
