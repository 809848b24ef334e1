import { useState } from 'react';
import type { Property } from '../../shared-core/book/property.ts';
import { parseTimeZone } from '../../shared-core/measure/moment.ts';
import type { Outcome } from '../book/outcome.ts';
import { AddressFields } from '../parts/AddressFields.tsx';
import { DistanceField, Fields, TextField, checkLong, YearField } from '../parts/Fields.tsx';
import { Field } from '../parts/Field.tsx';
import { OwnerFields } from './OwnerFields.tsx';

interface PropertyFactsProps {
  readonly property: Property;
  readonly onSay: (outcome: Outcome<unknown>) => void;
  readonly onEdit: (label: string, change: (p: Property) => Property) => void;
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
            onChange={(yearBuilt) => onEdit('year built', (p) => ({ ...p, yearBuilt }))}
          />
          <YearField
            label="Addition built"
            value={property.yearExtended}
            placeholder="None"
            notBefore={property.yearBuilt === null ? null : { year: property.yearBuilt, event: 'built' }}
            onChange={(yearExtended) => onEdit('year of the addition', (p) => ({ ...p, yearExtended }))}
          />
          <DistanceField
            label="One-way distance"
            value={property.travelKm}
            placeholder="Unknown"
            onChange={(travelKm) => onEdit('distance', (p) => ({ ...p, travelKm }))}
          />
          <Field
            label="Time zone"
            value={property.timeZone}
            parse={parseTimeZone}
            format={(zone) => zone}
            emptyMessage="Enter a time zone, such as America/New_York."
            onChange={(timeZone) => onEdit('time zone', (p) => ({ ...p, timeZone }))}
          />
        </Fields>
        <OwnerFields property={property} onEdit={onEdit} onSay={onSay} />
        <TextField
          label="Notes"
          long
          value={property.notes}
          check={checkLong}
          onChange={(notes) => onEdit('notes on the property', (p) => ({ ...p, notes }))}
        />
      </div>
    </details>
  );
}
