import { useState } from 'react';
import type { Customer } from '../../shared-core/book/customer.ts';
import { mergeCustomers } from '../book/owner-commands.ts';
import type { Outcome } from '../book/command.ts';
import { useAll } from '../book/use-records.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { SelectField } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { joined } from '../../shared-core/measure/list.ts';

interface MergePartProps {
  readonly customer: Customer;
  readonly onSay: (outcome: Outcome<unknown>) => void;
}

const reachOf = ({ phone, email, more, contacts }: Customer): string[] =>
  [phone, email, ...more.map((m) => m.text), ...contacts.map((c) => joined([c.name, c.phone]))].filter((w) => w !== '');

/** Merges a duplicate record of the same customer into this one. */
export function MergePart({ customer, onSay }: MergePartProps) {
  const [open, setOpen] = useState(false);
  return (
    <>
      <TextButton kind="plain" onPress={() => setOpen(true)}>
        Merge with another customer…
      </TextButton>
      {open && <MergeDialog customer={customer} onSay={onSay} onClose={() => setOpen(false)} />}
    </>
  );
}

function MergeDialog({ customer, onSay, onClose }: MergePartProps & { readonly onClose: () => void }) {
  const others = (useAll('customers') ?? []).filter((one) => one.id !== customer.id).sort((a, b) => a.name.localeCompare(b.name));
  const [id, setId] = useState<string | null>(null);
  const other = others.find((one) => one.id === id) ?? null;
  return (
    <Dialog
      firm
      onClose={onClose}
      title="Merge customers"
      onSave={() => {
        if (other === null) return;
        void mergeCustomers(customer, other).then(onSay);
        onClose();
      }}
      saveWord={other === null ? 'Merge' : `Merge into ${customer.name}`}
      blocked={other === null}
    >
      <SelectField
        label="Other customer"
        value={id}
        none="Choose"
        options={others.map((one) => ({ value: one.id, word: joined([one.name, one.phone]) }))}
        onChange={setId}
      />
      <div className="customer-merge">
        {[customer, ...(other === null ? [] : [other])].map((one) => (
          <section key={one.id} aria-label={one.name}>
            <h3>{one.name}</h3>
            <ul>
              {reachOf(one).map((line) => (
                <li key={line}>{line}</li>
              ))}
            </ul>
          </section>
        ))}
      </div>
      <p className="small">
        Properties, jobs, leads, and contacts move to {customer.name}. The other record is archived. Issued quotes and documents do not
        change.
      </p>
    </Dialog>
  );
}
