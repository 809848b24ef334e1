import type { Property } from '../../shared-core/book/property.ts';
import type { Outcome } from '../book/outcome.ts';
import { moveProperty } from '../book/owner-commands.ts';
import { useAll } from '../book/use-records.ts';
import { Fields, TextField, checkEmail, checkName, checkPhone } from '../parts/Fields.tsx';
import { SelectField } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';

interface OwnerFieldsProps {
  readonly property: Property;
  readonly onEdit: (label: string, change: (p: Property) => Property) => void;
  readonly onSay: (outcome: Outcome<unknown>) => void;
}

/** The owner of a property, and a second one who also signs. */
export function OwnerFields({ property, onEdit, onSay }: OwnerFieldsProps) {
  const customers = [...(useAll('customers') ?? [])].sort((a, b) => a.name.localeCompare(b.name));
  const { secondOwner } = property;
  const set = (change: Partial<NonNullable<Property['secondOwner']>>): void =>
    onEdit('second owner', (p) => ({ ...p, secondOwner: { ...(p.secondOwner ?? { name: '', phone: '', email: '' }), ...change } }));
  return (
    <>
      <Fields wide>
        <SelectField
          label="Customer"
          value={property.customerId}
          options={customers.map((customer) => ({ value: customer.id, word: customer.name }))}
          hint="Moves the property and its open jobs. Jobs with an issued quote stay with the customer who was quoted."
          onChange={(id) => {
            const to = customers.find((customer) => customer.id === id);
            if (to !== undefined) void moveProperty(property, to).then(onSay);
          }}
        />
        <TextField
          label="Second owner"
          value={secondOwner?.name ?? ''}
          hint="Signs the contract too."
          check={(text) => (text === '' ? null : checkName(text))}
          onChange={(name) => (name === '' ? onEdit('second owner', (p) => ({ ...p, secondOwner: null })) : set({ name }))}
        />
      </Fields>
      {secondOwner !== null && (
        <>
          <Fields>
            <TextField
              label="Second owner phone"
              kind="tel"
              value={secondOwner.phone}
              check={checkPhone}
              onChange={(phone) => set({ phone })}
            />
            <TextField
              label="Second owner email"
              kind="email"
              value={secondOwner.email}
              check={checkEmail}
              onChange={(email) => set({ email })}
            />
          </Fields>
          <div>
            <TextButton kind="delete" onPress={() => onEdit('remove second owner', (p) => ({ ...p, secondOwner: null }))}>
              Remove second owner
            </TextButton>
          </div>
        </>
      )}
    </>
  );
}
