import type { Update } from '../book/write.ts';
import type { Customer } from '../../shared-core/book/customer.ts';
import { Fields, TextField } from '../parts/Fields.tsx';
import { SelectField } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';

type More = Customer['more'][number];
const KINDS: Readonly<Record<More['kind'], string>> = { phone: 'Phone', email: 'Email', address: 'Address' };
/** Limit of the customer record's schema. */
const MOST = 20;

interface MoreReachRowsProps {
  readonly customer: Customer;
  readonly onEdit: (label: string, change: Update<Customer>) => void;
}

export function MoreReachRows({ customer, onEdit }: MoreReachRowsProps) {
  const edit = (i: number, change: Partial<More>): void =>
    onEdit(`contact details of ${customer.name}`, (c) => ({ ...c, more: c.more.map((one, k) => (k === i ? { ...one, ...change } : one)) }));
  return (
    <>
      {customer.more.map((one, i) => (
        // Rows have no id, so their order is the key.
        <div className="customer-contact" key={`${i}-${customer.more.length}`}>
          <Fields>
            <SelectField label="Kind" value={one.kind} options={KINDS} onChange={(kind) => edit(i, { kind })} />
            <TextField label="Label" value={one.label} placeholder="Work, mobile" onChange={(label) => edit(i, { label })} />
            <TextField label={KINDS[one.kind]} value={one.text} onChange={(text) => edit(i, { text })} />
          </Fields>
          <div className="words">
            <TextButton
              kind="delete"
              label={`Delete ${one.text}`}
              onPress={() => onEdit(`delete ${one.text}`, (c) => ({ ...c, more: c.more.filter((_, k) => k !== i) }))}
            >
              Delete
            </TextButton>
          </div>
        </div>
      ))}
      {customer.more.length < MOST && (
        <div>
          <TextButton
            kind="plain"
            onPress={() =>
              onEdit(`contact details of ${customer.name}`, (c) => ({ ...c, more: [...c.more, { kind: 'phone', label: '', text: '' }] }))
            }
          >
            Add phone, email, or address
          </TextButton>
        </div>
      )}
    </>
  );
}
