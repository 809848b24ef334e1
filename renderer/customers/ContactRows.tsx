import { useState } from 'react';
import type { Customer, Contact } from '../../shared-core/book/customer.ts';
import { Fields } from '../parts/Fields.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { TextField } from '../parts/TextField.tsx';
import { checkEmail, checkName, checkPhone, checkShort } from '../parts/text-checks.ts';
import { ReachLinks } from './ReachLinks.tsx';

interface ContactRowsProps {
  readonly customer: Customer;
  readonly onEdit: (label: string, how: (c: Customer) => Customer) => void;
}

/** The book's own limit. */
const MOST_CONTACTS = 20;

/** Whom else to reach about this customer's houses, and what for. */
export function ContactRows({ customer, onEdit }: ContactRowsProps) {
  const [adding, setAdding] = useState(false);
  const edit = (i: number, change: Partial<Contact>): void =>
    onEdit(`contact of ${customer.name}`, (c) => ({ ...c, contacts: c.contacts.map((one, k) => (k === i ? { ...one, ...change } : one)) }));
  return (
    <section className="person-contacts" aria-labelledby="person-contacts">
      <h2 className="caption" id="person-contacts">
        Who else to reach
      </h2>
      {customer.contacts.map((contact, i) => (
        // Contacts have no id of their own; their order is what tells them apart.
        <div className="person-contact" key={`${i}-${customer.contacts.length}`}>
          <Fields>
            <TextField
              label="Whom"
              value={contact.name}
              emptyMessage="A name is needed here."
              check={checkName}
              onChange={(name) => edit(i, { name })}
            />
            <TextField
              label="What for"
              value={contact.role}
              placeholder="decides; lays the oak"
              check={checkShort}
              onChange={(role) => edit(i, { role })}
            />
            <TextField label="Phone" kind="tel" value={contact.phone} check={checkPhone} onChange={(phone) => edit(i, { phone })} />
            <TextField label="Email" kind="email" value={contact.email} check={checkEmail} onChange={(email) => edit(i, { email })} />
          </Fields>
          <div className="person-ways">
            <ReachLinks name={contact.name} phone={contact.phone} email={contact.email} />
            <TextButton
              kind="plain"
              label={`Take ${contact.name} out`}
              onPress={() => onEdit(`took out ${contact.name}`, (c) => ({ ...c, contacts: c.contacts.filter((_, k) => k !== i) }))}
            >
              Take out
            </TextButton>
          </div>
        </div>
      ))}
      {adding ? (
        <Fields wide>
          <TextField
            label="Name of somebody else to reach"
            autoFocus
            value=""
            check={checkShort}
            onChange={(name) => {
              if (name === '') return;
              setAdding(false);
              onEdit(`new contact ${name}`, (c) => ({ ...c, contacts: [...c.contacts, { name, role: '', phone: '', email: '' }] }));
            }}
          />
        </Fields>
      ) : (
        customer.contacts.length < MOST_CONTACTS && (
          <div>
            <TextButton onPress={() => setAdding(true)}>Somebody else to reach</TextButton>
          </div>
        )
      )}
    </section>
  );
}
