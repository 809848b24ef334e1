import type { Customer } from '../../shared-core/book/customer.ts';
import type { Property } from '../../shared-core/book/property.ts';
import { CheckRow, SelectField } from '../parts/Choices.tsx';
import { propertyName } from '../parts/property-name.ts';

interface KnownCustomerProps {
  readonly match: Customer;
  readonly properties: readonly Property[];
  /** The property for the rooms; null for a new one. */
  readonly property: Property | null;
  /** Called when the caller is not this customer. */
  readonly isApart: boolean;
  readonly onApart: (isApart: boolean) => void;
  readonly onProperty: (propertyId: string | null) => void;
}

/** Adds the lead to a customer who already has a record, and its rooms to a property. */
export function KnownCustomer({ match, properties, property, isApart, onApart, onProperty }: KnownCustomerProps) {
  return (
    <div className="stack">
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
