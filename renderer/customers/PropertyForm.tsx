import { useState } from 'react';
import type { Business } from '../../shared-core/book/business.ts';
import { emptyAddress } from '../../shared-core/book/new-records.ts';
import { parseTimeZone } from '../../shared-core/measure/moment.ts';
import { addProperty } from '../book/customer-commands.ts';
import { AddressFields } from '../parts/AddressFields.tsx';
import { Field } from '../parts/Field.tsx';

/** A property being entered. */
export interface NewProperty {
  readonly address: ReturnType<typeof emptyAddress>;
  /** Null for the company's time zone. */
  readonly timeZone: string | null;
}

/** A property being entered. `add` gives its id, or null with a message at the field. */
export function useNewProperty(customerId: string, business: Business | undefined) {
  const [property, setProperty] = useState<NewProperty>(() => ({ address: emptyAddress('US'), timeZone: null }));
  const [problem, setProblem] = useState<string | null>(null);
  const change = (update: (property: NewProperty) => NewProperty): void => {
    setProperty(update);
    setProblem(null);
  };
  const add = async (): Promise<string | null> => {
    if (property.address.line.trim() === '') {
      setProblem('Enter the street address of the property.');
      return null;
    }
    const own = business?.address ?? property.address;
    // Most properties are in the company's own city: an empty city takes it.
    const near = property.address.city === '' ? { ...property.address, city: own.city, region: own.region } : property.address;
    const added = await addProperty(customerId, { ...near, country: own.country }, property.timeZone ?? business?.timeZone ?? 'UTC');
    if (added.ok) return added.value;
    setProblem(added.message);
    return null;
  };
  return { property, change, problem, add };
}

interface PropertyFormProps {
  readonly property: NewProperty;
  readonly onChange: (change: (property: NewProperty) => NewProperty) => void;
  readonly problem: string | null;
  readonly business: Business | undefined;
  readonly onAdd: () => void;
}

/** The fields of a new property. */
export function PropertyForm({ property, onChange, problem, business, onAdd }: PropertyFormProps) {
  const zone = property.timeZone ?? business?.timeZone ?? null;
  return (
    <form
      className="customer-property"
      onSubmit={(event) => {
        event.preventDefault();
        onAdd();
      }}
    >
      <AddressFields
        address={property.address}
        onChange={(change) => onChange((p) => ({ ...p, address: { ...p.address, ...change } }))}
        lineLabel="Street address of a new property"
        problem={problem}
      />
      <Field
        label="Time zone"
        value={zone}
        parse={parseTimeZone}
        format={(name) => name}
        hint="Used for all dates at this property."
        onChange={(timeZone) => onChange((p) => ({ ...p, timeZone }))}
      />
      {/* Enter in any field adds the property, as the main action does. */}
      <button type="submit" className="hidden-words" tabIndex={-1} aria-hidden="true">
        Add property
      </button>
    </form>
  );
}
