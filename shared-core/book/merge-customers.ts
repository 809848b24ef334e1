/** Merges two records of one customer. */
import { emailsIn, phoneParts, phonesIn } from '../measure/phone-email.ts';
import type { MoreReach } from './contact-rows.ts';
import type { Contact, Customer } from './customer.ts';

const plain = (text: string): string => text.trim().toLowerCase();

type Field = MoreReach['kind'] | 'role';

/** What a field holds, each of several numbers or emails on its own. */
const partsOf = (field: Field, text: string): string[] =>
  (field === 'phone' ? phonesIn(text) : field === 'email' ? emailsIn(text) : [text]).filter((part) => part !== '');

/** One of these to compare: a number with its extension, or else the words. */
function keyOf(field: Field, part: string): string {
  const { number, extension } = phoneParts(part);
  return field === 'phone' && number !== '' ? `${number} ${extension}` : plain(part);
}

/** Whether a field holds all that another holds. */
function holds(field: Field, text: string, other: string): boolean {
  const keys = partsOf(field, text).map((part) => keyOf(field, part));
  return partsOf(field, other).every((part) => keys.includes(keyOf(field, part)));
}

const REACH = ['role', 'phone', 'email'] as const;

/** Contacts of both. One of the same name is the same person, with the fuller of each field, unless each holds what the other lacks. */
function mergedContacts(present: readonly Contact[], added: readonly Contact[]): Contact[] {
  const merged = [...present];
  const isSame = (a: Contact, b: Contact): boolean =>
    plain(a.name) === plain(b.name) && REACH.every((f) => holds(f, a[f], b[f]) || holds(f, b[f], a[f]));
  for (const contact of added) {
    const at = merged.findIndex((one) => isSame(one, contact));
    const same = merged[at];
    const fuller = (f: (typeof REACH)[number]): string => (same !== undefined && holds(f, same[f], contact[f]) ? same[f] : contact[f]);
    if (same === undefined) merged.push(contact);
    else merged[at] = { ...same, role: fuller('role'), phone: fuller('phone'), email: fuller('email') };
  }
  return merged;
}

/**
 * The customer that stays, with the fields only the other has: phone, email, billing address, contacts, further numbers, notes.
 * Where both have a phone or an email, what only the other's holds is kept among the further numbers, one by one.
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
  const each = (reach: MoreReach): MoreReach[] => partsOf(reach.kind, reach.text).map((text) => ({ ...reach, text }));
  const key = ({ kind, text }: MoreReach): string => `${kind} ${keyOf(kind, text)}`;
  const phone = survivor.phone === '' ? duplicate.phone : survivor.phone;
  const email = survivor.email === '' ? duplicate.email : survivor.email;
  const present: Customer['more'] = [
    { kind: 'phone', label: '', text: phone },
    { kind: 'email', label: '', text: email },
    ...survivor.more,
  ];
  const seenKeys = new Set(present.flatMap(each).map(key));
  const added = offered.flatMap(each).filter((reach) => {
    if (seenKeys.has(key(reach))) return false;
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
