import { useState } from 'react';
import type { Business } from '../../shared-core/book/business.ts';
import { emptyAddress } from '../../shared-core/book/new-records.ts';
import { addProperty } from '../book/customer-commands.ts';
import { AddressFields } from '../parts/AddressFields.tsx';

type Address = ReturnType<typeof emptyAddress>;

/** State of the form. `add` returns the new id, or null after showing a message at the field. */
export function useNewProperty(customerId: string, business: Business | undefined) {
  const [address, setAddress] = useState<Address>(() => emptyAddress('US'));
  const [problem, setProblem] = useState<string | null>(null);
  const change = (changed: Partial<Address>): void => {
    setAddress((now) => ({ ...now, ...changed }));
    setProblem(null);
  };
  const add = async (): Promise<string | null> => {
    if (address.line.trim() === '') {
      setProblem('Enter the street address of the property.');
      return null;
    }
    const own = business?.address ?? address;
    // Defaults to the company's own city, where most properties are.
    const near = address.city === '' ? { ...address, city: own.city, region: own.region } : address;
    const added = await addProperty(customerId, { ...near, country: own.country }, business?.timeZone ?? 'UTC');
    if (added.ok) return added.value;
    setProblem(added.message);
    return null;
  };
  return { address, change, problem, add };
}

interface PropertyFormProps {
  readonly address: Address;
  readonly onChange: (changed: Partial<Address>) => void;
  readonly problem: string | null;
  readonly onAdd: () => void;
}

export function PropertyForm({ address, onChange, problem, onAdd }: PropertyFormProps) {
  return (
    <form
      className="stack customer-property"
      onSubmit={(event) => {
        event.preventDefault();
        onAdd();
      }}
    >
      <AddressFields address={address} onChange={onChange} lineLabel="Street address of a new property" problem={problem} />
      {/* Enter in any field runs the main action. */}
      <button type="submit" className="hidden-words" tabIndex={-1} aria-hidden="true">
        Add property
      </button>
    </form>
  );
}
