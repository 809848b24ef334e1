import type { Update } from '../book/write.ts';
import { useState } from 'react';
import type { Customer, Contact } from '../../shared-core/book/customer.ts';
import { Fields, TextField, checkName } from '../parts/Fields.tsx';
import { Folded } from '../parts/Folded.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { ReachLinks } from './ReachLinks.tsx';
import { joined } from '../../shared-core/measure/list.ts';

interface ContactRowsProps {
  readonly customer: Customer;
  readonly onEdit: (label: string, change: Update<Customer>) => void;
}

/** Limit of the customer record's schema. */
const MOST_CONTACTS = 20;

export function ContactRows({ customer, onEdit }: ContactRowsProps) {
  const [adding, setAdding] = useState(false);
  /** The contact just added with Enter, whose phone number comes next. */
  const [added, setAdded] = useState<number | null>(null);
  const edit = (i: number, change: Partial<Contact>): void =>
    onEdit(`contact of ${customer.name}`, (c) => ({ ...c, contacts: c.contacts.map((one, k) => (k === i ? { ...one, ...change } : one)) }));
  return (
    <section className="stack customer-part" aria-labelledby="customer-contacts">
      <h2 className="caption" id="customer-contacts">
        Contacts
      </h2>
      {customer.contacts.map((contact, i) => (
        // Contacts have no id, so their order is the key.
        <Folded
          key={`${i}-${customer.contacts.length}`}
          label={contact.name}
          holds={joined([contact.role, contact.phone, contact.email])}
          open={contact.phone === '' && contact.email === ''}
        >
          <Fields>
            <TextField
              label="Contact"
              value={contact.name}
              emptyMessage="Enter a name."
              check={checkName}
              onChange={(name) => edit(i, { name })}
            />
            <TextField
              label="Role"
              value={contact.role}
              placeholder="Second owner, flooring installer"
              onChange={(role) => edit(i, { role })}
            />
            <TextField label="Phone" kind="tel" value={contact.phone} autoFocus={i === added} onChange={(phone) => edit(i, { phone })} />
            <TextField label="Email" kind="email" value={contact.email} onChange={(email) => edit(i, { email })} />
          </Fields>
          <div className="words">
            <ReachLinks name={contact.name} phone={contact.phone} email={contact.email} />
            <TextButton
              kind="delete"
              label={`Delete ${contact.name}`}
              onPress={() => onEdit(`delete contact ${contact.name}`, (c) => ({ ...c, contacts: c.contacts.filter((_, k) => k !== i) }))}
            >
              Delete
            </TextButton>
          </div>
        </Folded>
      ))}
      {adding ? (
        <Fields wide>
          <TextField
            label="Name of the contact"
            autoFocus
            waits
            value=""
            check={checkName}
            onEnter={() => setAdded(customer.contacts.length)}
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
            <TextButton
              onPress={() => {
                setAdding(true);
                setAdded(null);
              }}
            >
              Add contact
            </TextButton>
          </div>
        )
      )}
    </section>
  );
}
