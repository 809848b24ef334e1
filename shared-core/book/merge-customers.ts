/** Merges two records of one customer. */
import type { Customer } from './customer.ts';

const plain = (text: string): string => text.trim().toLowerCase();
const digits = (text: string): string => text.replace(/\D/g, '');

/**
 * The customer that stays, with the fields only the other has: phone, email, billing address, contacts, further numbers, notes.
 * Where both have a phone or an email, the other's is kept among the further numbers.
 */
export function mergedCustomer(survivor: Customer, duplicate: Customer): Customer {
  const address =
    duplicate.address === null
      ? ''
      : [duplicate.address.line, duplicate.address.city, duplicate.address.region, duplicate.address.zip]
          .filter((w) => w !== '')
          .join(', ');
  const offered: Customer['more'] = [
    { kind: 'phone', label: '', text: duplicate.phone },
    { kind: 'email', label: '', text: duplicate.email },
    { kind: 'address', label: 'billing', text: survivor.address === null ? '' : address },
    ...duplicate.more,
  ];
  const key = ({ kind, text }: Customer['more'][number]): string => `${kind} ${kind === 'phone' ? digits(text) : plain(text)}`;
  const phone = survivor.phone === '' ? duplicate.phone : survivor.phone;
  const email = survivor.email === '' ? duplicate.email : survivor.email;
  const seenKeys = new Set([
    key({ kind: 'phone', label: '', text: phone }),
    key({ kind: 'email', label: '', text: email }),
    ...survivor.more.map(key),
  ]);
  const added = offered.filter((reach) => {
    if (reach.text === '' || seenKeys.has(key(reach))) return false;
    seenKeys.add(key(reach));
    return true;
  });
  const names = new Set(survivor.contacts.map((contact) => plain(contact.name)));
  return {
    ...survivor,
    phone,
    email,
    address: survivor.address ?? duplicate.address,
    more: [...survivor.more, ...added].slice(0, 20),
    contacts: [...survivor.contacts, ...duplicate.contacts.filter((contact) => !names.has(plain(contact.name)))].slice(0, 20),
    notes: [survivor.notes, duplicate.notes].filter((text) => text.trim() !== '').join('\n'),
  };
}
