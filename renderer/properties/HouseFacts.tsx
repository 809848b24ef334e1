import { useState } from 'react';
import type { Property } from '../../shared-core/book/property.ts';
import { parseTimeZone } from '../../shared-core/measure/moment.ts';
import { AddressFields } from '../parts/AddressFields.tsx';
import { DistanceField } from '../parts/DistanceField.tsx';
import { Field } from '../parts/Field.tsx';
import { Fields } from '../parts/Fields.tsx';
import { TextField } from '../parts/TextField.tsx';
import { checkLong } from '../parts/text-checks.ts';
import { YearField } from '../parts/YearField.tsx';

interface HouseFactsProps {
  readonly property: Property;
  readonly onEdit: (label: string, how: (p: Property) => Property) => void;
}

/** Address, age, distance, time zone, notes: behind a word, so that the plan has the sheet. */
export function HouseFacts({ property, onEdit }: HouseFactsProps) {
  // Open at first where the year is missing; it stays open while somebody types on.
  const [open] = useState(property.yearBuilt === null);
  return (
    <details className="house-facts" open={open}>
      <summary>Address, age and distance</summary>
      <div className="house-facts-fields">
        <AddressFields
          address={property.address}
          onChange={(change) => onEdit('address', (p) => ({ ...p, address: { ...p.address, ...change } }))}
        />
        <Fields>
          <YearField
            label="Built in"
            value={property.yearBuilt}
            placeholder="not known"
            hint="Left empty counts as old wherever age matters."
            onChange={(yearBuilt) => onEdit('year built', (p) => ({ ...p, yearBuilt }))}
          />
          <YearField
            label="Extended in"
            value={property.yearExtended}
            placeholder="never"
            notBefore={property.yearBuilt === null ? null : { year: property.yearBuilt, what: 'built' }}
            onChange={(yearExtended) => onEdit('year extended', (p) => ({ ...p, yearExtended }))}
          />
          <DistanceField
            label="Drive, one way"
            value={property.travelKm}
            placeholder="not known"
            onChange={(travelKm) => onEdit('distance', (p) => ({ ...p, travelKm }))}
          />
          <Field
            label="Time zone"
            value={property.timeZone}
            parse={parseTimeZone}
            format={(zone) => zone}
            emptyMessage="A time zone is needed here, such as America/New_York."
            onChange={(timeZone) => {
              if (timeZone !== null) onEdit('time zone', (p) => ({ ...p, timeZone }));
            }}
          />
        </Fields>
        <TextField
          label="Notes"
          long
          value={property.notes}
          check={checkLong}
          onChange={(notes) => onEdit('notes on the house', (p) => ({ ...p, notes }))}
        />
      </div>
    </details>
  );
}
