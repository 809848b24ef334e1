import { describe, expect, it } from 'vitest';
import type { Contact, Customer } from '../../../shared-core/book/customer.ts';
import { mergedCustomer } from '../../../shared-core/book/merge-customers.ts';
import { newCustomer } from '../../../shared-core/book/new-records.ts';

const contact = (name: string, role = '', phone = '', email = ''): Contact => ({ name, role, phone, email });
const merged = (stays: readonly Contact[], goes: readonly Contact[]): Contact[] => {
  const customer = (id: string, contacts: readonly Contact[]) => ({
    ...newCustomer({ id, now: '2026-05-12T11:05:00.000Z' }, 'Vivian Odell'),
    contacts: [...contacts],
  });
  return mergedCustomer(customer('a-01', stays), customer('b-01', goes)).contacts;
};

describe('contacts of merged customers', () => {
  it('of one name are one, with the role, phone and email that only one of them has', () => {
    expect(
      merged([contact('Dana Odell', '', '555-0199')], [contact('dana odell', 'Second owner', '(555) 0199', 'dana@x.invalid')]),
    ).toEqual([contact('Dana Odell', 'Second owner', '555-0199', 'dana@x.invalid')]);
  });

  it('of one name stay two where a phone, email or role differs', () => {
    const [first, second] = [contact('Dana Odell', 'Owner', '555-0199'), contact('Dana Odell', 'Owner', '555-0142', 'dana@x.invalid')];
    expect(merged([first], [second])).toEqual([first, second]);
    expect(merged([first], [first, contact('Bo Odell')])).toEqual([first, contact('Bo Odell')]);
  });

  it('of one name are one where one field holds all of the other, which is kept', () => {
    const [one, both] = ['303-555-0101', '303-555-0100 / 303-555-0101'].map((phone) => contact('Dana Odell', '', phone));
    if (one === undefined || both === undefined) throw new Error('two contacts');
    expect([merged([one], [both]), merged([both], [one])]).toEqual([[both], [both]]);
  });
});

describe('phones of merged customers', () => {
  const merge = (stays: string, goes: string) => {
    const customer = (id: string, phone: string) => ({ ...newCustomer({ id, now: '2026-05-12T11:05:00.000Z' }, 'Vivian Odell'), phone });
    return mergedCustomer(customer('a-01', stays), customer('b-01', goes)).more.map(({ text }) => text);
  };
  it.each([
    ['(312) 555-0142', '+1 312 555 0142', []],
    ['312-555-0142 x4', '312-555-0142 ext. 4', []],
    ['312-555-0142', '312-555-0142 x4', ['312-555-0142 x4']],
    ['312-555-0143', '312-555-0142 / 312-555-0143', ['312-555-0142']],
    ['303-555-0100 / 303-555-0101', '303-555-0101', []],
    ['303-555-0100 / 303-555-0101', '(303) 555-0101 or 303-555-0100', []],
    ['303-555-0100', '303-555-0101 / 303-555-0102', ['303-555-0101', '303-555-0102']],
    ['ask at the desk', 'see the note', ['see the note']],
  ])('of %s and %s keep what differs', (stays, goes, kept) => expect(merge(stays, goes)).toEqual(kept));
  it('and emails are compared one by one, in the further ones too', () => {
    const customer = (id: string, of: Partial<Customer>) => ({
      ...newCustomer({ id, now: '2026-05-12T11:05:00.000Z' }, 'Vivian Odell'),
      ...of,
    });
    const cell = { kind: 'phone' as const, label: 'cell', text: '303-555-0100 / 303-555-0101' };
    const stays = customer('a-01', { email: 'a@example.invalid; b@example.invalid', more: [cell] });
    const goes = customer('b-01', { phone: '303-555-0101', email: 'B@example.invalid, c@example.invalid' });
    expect(mergedCustomer(stays, goes)).toMatchObject({
      phone: '303-555-0101',
      email: 'a@example.invalid; b@example.invalid',
      more: [cell, { kind: 'email', label: '', text: 'c@example.invalid' }],
    });
  });
});
