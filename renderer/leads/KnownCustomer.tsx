import type { Customer } from '../../shared-core/book/customer.ts';
import type { Property } from '../../shared-core/book/property.ts';
import { CheckRow } from '../parts/CheckRow.tsx';
import { propertyName } from '../parts/property-name.ts';
import { SelectField } from '../parts/SelectField.tsx';

interface KnownCustomerProps {
  readonly match: Customer;
  readonly properties: readonly Property[];
  /** Where the rooms go; null for a new property. */
  readonly property: Property | null;
  /** The caller is somebody else. */
  readonly isApart: boolean;
  readonly onApart: (isApart: boolean) => void;
  readonly onProperty: (propertyId: string | null) => void;
}

/** The caller is a customer already: the lead is added to that customer, and its rooms to a property. */
export function KnownCustomer({ match, properties, property, isApart, onApart, onProperty }: KnownCustomerProps) {
  return (
    <div className="lead-known">
      <CheckRow
        label={`Add to existing customer: ${[match.name, match.phone].filter((words) => words !== '').join(', ')}`}
        checked={!isApart}
        onChange={(isAdded) => onApart(!isAdded)}
      />
      {!isApart && properties.length > 0 && (
        <SelectField
          label="Property"
          value={property?.id ?? null}
          none="New property"
          options={properties.map((p) => ({ value: p.id, word: propertyName(p) }))}
          onChange={onProperty}
        />
      )}
    </div>
  );
}
