import type { Update } from '../book/write.ts';
import { useState } from 'react';
import type { Property } from '../../shared-core/book/property.ts';
import { parseTimeZone } from '../../shared-core/measure/moment.ts';
import type { Outcome } from '../book/command.ts';
import { AddressFields } from '../parts/AddressFields.tsx';
import { DistanceField, Fields, TextField, YearField, checkName } from '../parts/Fields.tsx';
import { Field } from '../parts/Field.tsx';
import { moveProperty } from '../book/owner-commands.ts';
import { useAll } from '../book/use-records.ts';
import { SelectField } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';

interface PropertyFactsProps {
  readonly property: Property;
  readonly onSay: (outcome: Outcome<unknown>) => void;
  readonly onEdit: (label: string, change: Update<Property>) => void;
}

/** Address, age, distance, time zone and notes, folded to leave space for the plan. */
export function PropertyFacts({ property, onEdit, onSay }: PropertyFactsProps) {
  // Starts open while the year is missing, and stays open while it is entered.
  const [open] = useState(property.yearBuilt === null);
  return (
    <details className="below property-facts" open={open}>
      <summary>Address, year built, distance, owners, notes</summary>
      <div className="stack-wide">
        <AddressFields
          address={property.address}
          onChange={(change) => onEdit('address', (p) => ({ ...p, address: { ...p.address, ...change } }))}
        />
        <Fields>
          <YearField
            label="Year built"
            value={property.yearBuilt}
            placeholder="Unknown"
            hint="Leave blank if unknown. The building then counts as old."
            onChange={(yearBuilt) => onEdit('year built', { yearBuilt })}
          />
          <YearField
            label="Addition built"
            value={property.yearExtended}
            placeholder="None"
            notBefore={property.yearBuilt === null ? null : { year: property.yearBuilt, event: 'built' }}
            onChange={(yearExtended) => onEdit('year of the addition', { yearExtended })}
          />
          <DistanceField
            label="One-way distance"
            value={property.travelKm}
            placeholder="Unknown"
            onChange={(travelKm) => onEdit('distance', { travelKm })}
          />
          <Field
            label="Time zone"
            value={property.timeZone}
            parse={parseTimeZone}
            format={(zone) => zone}
            emptyMessage="Enter a time zone, such as America/New_York."
            onChange={(timeZone) => onEdit('time zone', { timeZone })}
          />
        </Fields>
        <OwnerFields property={property} onEdit={onEdit} onSay={onSay} />
        <TextField label="Notes" long value={property.notes} onChange={(notes) => onEdit('notes on the property', { notes })} />
      </div>
    </details>
  );
}

/** The owner of a property, and a second one who also signs. */
function OwnerFields({ property, onEdit, onSay }: PropertyFactsProps) {
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
          onChange={(name) => (name === '' ? onEdit('second owner', { secondOwner: null }) : set({ name }))}
        />
      </Fields>
      {secondOwner !== null && (
        <>
          <Fields>
            <TextField label="Second owner phone" kind="tel" value={secondOwner.phone} onChange={(phone) => set({ phone })} />
            <TextField label="Second owner email" kind="email" value={secondOwner.email} onChange={(email) => set({ email })} />
          </Fields>
          <div>
            <TextButton kind="delete" onPress={() => onEdit('remove second owner', { secondOwner: null })}>
              Remove second owner
            </TextButton>
          </div>
        </>
      )}
    </>
  );
}
