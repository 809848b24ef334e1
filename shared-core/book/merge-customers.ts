/** Merges two records of one customer. */
import { phoneParts, phonesIn } from '../measure/phone-email.ts';
import type { Contact, Customer } from './customer.ts';

const plain = (text: string): string => text.trim().toLowerCase();
/** The numbers of a phone field to compare, each with its extension; without digits, its words. */
const phoneKey = (text: string): string =>
  phonesIn(text)
    .map(phoneParts)
    .map(({ number, extension }) => (number === '' ? plain(text) : `${number} ${extension}`))
    .join(', ');

const REACH = ['role', 'phone', 'email'] as const;

/** Contacts of both. One of the same name is the same person, with the empty fields filled, unless a field differs. */
function mergedContacts(present: readonly Contact[], added: readonly Contact[]): Contact[] {
  const merged = [...present];
  const key = (field: (typeof REACH)[number], text: string): string => (field === 'phone' ? phoneKey(text) : plain(text));
  const isSame = (a: Contact, b: Contact): boolean =>
    plain(a.name) === plain(b.name) && REACH.every((f) => a[f] === '' || b[f] === '' || key(f, a[f]) === key(f, b[f]));
  for (const contact of added) {
    const at = merged.findIndex((one) => isSame(one, contact));
    const same = merged[at];
    if (same === undefined) merged.push(contact);
    else merged[at] = { ...same, role: same.role || contact.role, phone: same.phone || contact.phone, email: same.email || contact.email };
  }
  return merged;
}

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
  const key = ({ kind, text }: Customer['more'][number]): string => `${kind} ${kind === 'phone' ? phoneKey(text) : plain(text)}`;
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
  return {
    ...survivor,
    phone,
    email,
    address: survivor.address ?? duplicate.address,
    more: [...survivor.more, ...added].slice(0, 20),
    contacts: mergedContacts(survivor.contacts, duplicate.contacts).slice(0, 20),
    notes: [survivor.notes, duplicate.notes].filter((text) => text.trim() !== '').join('\n'),
  };
}
