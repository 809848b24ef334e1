import { useState } from 'react';
import type { Business } from '../../shared-core/book/business.ts';
import { emptyAddress } from '../../shared-core/book/new-records.ts';
import { parseTimeZone } from '../../shared-core/measure/moment.ts';
import { addProperty } from '../book/people-commands.ts';
import { AddressFields } from '../parts/AddressFields.tsx';
import { Field } from '../parts/Field.tsx';

/** What is typed about a house that is not in the book yet. */
export interface NewHouse {
  readonly address: ReturnType<typeof emptyAddress>;
  /** Null takes the business's own. */
  readonly timeZone: string | null;
}

/** A house being typed, and adding it. `add` gives its id, or null when something is missing; the sentence then stands at the field. */
export function useNewHouse(customerId: string, business: Business | undefined) {
  const [house, setHouse] = useState<NewHouse>(() => ({ address: emptyAddress('US'), timeZone: null }));
  const [problem, setProblem] = useState<string | null>(null);
  const change = (how: (house: NewHouse) => NewHouse): void => {
    setHouse(how);
    setProblem(null);
  };
  const add = async (): Promise<string | null> => {
    if (house.address.line.trim() === '') {
      setProblem('Type the street and number of the house first.');
      return null;
    }
    const own = business?.address ?? house.address;
    // A house is mostly in the business's own town: what is left empty is taken from there.
    const near = house.address.city === '' ? { ...house.address, city: own.city, region: own.region } : house.address;
    const added = await addProperty(customerId, { ...near, country: own.country }, house.timeZone ?? business?.timeZone ?? 'UTC');
    if (added.ok) return added.value;
    setProblem(added.message);
    return null;
  };
  return { house, change, problem, add };
}

interface HouseFormProps {
  readonly house: NewHouse;
  readonly onChange: (how: (house: NewHouse) => NewHouse) => void;
  readonly problem: string | null;
  readonly business: Business | undefined;
  readonly onAdd: () => void;
}

/** The fields of a house to be added. */
export function HouseForm({ house, onChange, problem, business, onAdd }: HouseFormProps) {
  const zone = house.timeZone ?? business?.timeZone ?? null;
  return (
    <form
      className="person-house"
      onSubmit={(event) => {
        event.preventDefault();
        onAdd();
      }}
    >
      <AddressFields
        address={house.address}
        onChange={(change) => onChange((h) => ({ ...h, address: { ...h.address, ...change } }))}
        lineLabel="A house: street and number"
        problem={problem}
      />
      <Field
        label="Time zone"
        value={zone}
        parse={parseTimeZone}
        format={(name) => name}
        hint="Dates promised there are kept in it."
        onChange={(timeZone) => onChange((h) => ({ ...h, timeZone }))}
      />
      {/* Enter in any field adds the house, as the main action does. */}
      <button type="submit" className="hidden-words" tabIndex={-1} aria-hidden="true">
        Add the house
      </button>
    </form>
  );
}
