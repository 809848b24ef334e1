import { describe, expect, it } from 'vitest';
import type { Customer } from '../../../shared-core/book/customer.ts';
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
  it('is found by letters within a word', () => {
    expect(names('tro')).toEqual(['Zoë Ångström']);
  });
});

describe('a customer’s phone', () => {
  const [first, second, third] = customers;
  if (first === undefined || second === undefined || third === undefined) throw new Error('three customers');
  const called: Customer[] = [
    { ...first, phone: '(617) 555-0134', more: [{ kind: 'phone', label: 'Work', text: '508.555.0163 x12' }] },
    { ...second, phone: '555-0199' },
    { ...third, contacts: [{ name: 'Lee', role: '', phone: '+1 413 555 0101', email: 'lee.pond@example.com' }] },
  ];
  const found = (sought: string): string[] =>
    customerList({ customers: called, properties: [], jobs: [] }, sought, 'en-US').map((row) => row.customer.name);

  // The North American Numbering Plan: three digits of area, three of exchange, four of line, after a 1 from outside. From memory.
  it.each(['(617) 555-0134', '617-555-0134', '617.555.0134', '6175550134', '16175550134', '+1 617-555-0134', '5550134', '617 555', '0134'])(
    'is found by %s',
    (typed) => {
      expect(found(typed)).toEqual(['Zoë Ångström']);
    },
  );
  it.each(['617-555-0134x12', '617-555-0134ext12', '(617) 555-0134EXT. 12', '617–555–0134', '617‑555‑0134 x12', '1–617–555–0134x12'])(
    'written %s is found by its digits, and by their start and end',
    (phone) => {
      const one = { customers: [{ ...first, phone, more: [], contacts: [] }], properties: [], jobs: [] };
      for (const typed of ['6175550134', '617-555-0134', '5550134', '0134', '1-617-555', '+1 (617) 555-01', phone])
        expect(customerList(one, typed, 'en-US'), typed).toHaveLength(1);
      expect(customerList(one, '6175550135', 'en-US')).toEqual([]);
    },
  );
  it('is found by a further number, by a contact’s number and by a contact’s email', () => {
    expect(found('5085550163')).toEqual(['Zoë Ångström']);
    expect(found('413-555-0101')).toEqual(['Bo Marsh']);
    expect(found('lee.pond')).toEqual(['Bo Marsh']);
  });
  it('stored without its area code is found by a caller ID, and another number is not', () => {
    expect(found('+16175550199')).toEqual(['ada Marsh']);
    expect(found('6175550135')).toEqual([]);
    expect(found('508-555-0134')).toEqual([]);
  });
});
