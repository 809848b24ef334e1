/** Merges two records of one customer. */
import type { Customer } from './customer.ts';

const plain = (text: string): string => text.trim().toLowerCase();
const digits = (text: string): string => text.replace(/\D/g, '');

/**
 * The customer that stays, with the fields only the other has: phone, email, billing address, contacts, further numbers, notes.
 * Where both have a phone or an email, the other's is kept among the further numbers.
 */
export function mergedCustomer(stays: Customer, goes: Customer): Customer {
  const address =
    goes.address === null
      ? ''
      : [goes.address.line, goes.address.city, goes.address.region, goes.address.zip].filter((w) => w !== '').join(', ');
  const offered: Customer['more'] = [
    { kind: 'phone', label: '', text: goes.phone },
    { kind: 'email', label: '', text: goes.email },
    { kind: 'address', label: 'billing', text: stays.address === null ? '' : address },
    ...goes.more,
  ];
  const key = ({ kind, text }: Customer['more'][number]): string => `${kind} ${kind === 'phone' ? digits(text) : plain(text)}`;
  const phone = stays.phone === '' ? goes.phone : stays.phone;
  const email = stays.email === '' ? goes.email : stays.email;
  const seen = new Set([
    key({ kind: 'phone', label: '', text: phone }),
    key({ kind: 'email', label: '', text: email }),
    ...stays.more.map(key),
  ]);
  const added = offered.filter((reach) => {
    if (reach.text === '' || seen.has(key(reach))) return false;
    seen.add(key(reach));
    return true;
  });
  const names = new Set(stays.contacts.map((contact) => plain(contact.name)));
  return {
    ...stays,
    phone,
    email,
    address: stays.address ?? goes.address,
    more: [...stays.more, ...added].slice(0, 20),
    contacts: [...stays.contacts, ...goes.contacts.filter((contact) => !names.has(plain(contact.name)))].slice(0, 20),
    notes: [stays.notes, goes.notes].filter((text) => text.trim() !== '').join('\n'),
  };
}
