import type { Customer } from '../../shared-core/book/customer.ts';
import { emptyAddress } from '../../shared-core/book/new-records.ts';
import { AddressFields } from '../parts/AddressFields.tsx';
import { CheckRow } from '../parts/CheckRow.tsx';

interface BillingPartProps {
  readonly customer: Customer;
  /** Two letters: where the business is. */
  readonly country: string;
  readonly onEdit: (label: string, how: (c: Customer) => Customer) => void;
}

/** Where the bills go, when that is not the house. */
export function BillingPart({ customer, country, onEdit }: BillingPartProps) {
  return (
    <section className="person-billing" aria-labelledby="person-billing">
      <h2 className="caption" id="person-billing">
        Where the bills go
      </h2>
      <CheckRow
        label="Somewhere else than the house"
        checked={customer.address !== null}
        onChange={(on) => onEdit('where the bills go', (c) => ({ ...c, address: on ? emptyAddress(country) : null }))}
      />
      {customer.address !== null && (
        <AddressFields
          address={customer.address}
          lineLabel="Billing: street and number"
          onChange={(change) =>
            onEdit('where the bills go', (c) => ({ ...c, address: { ...(c.address ?? emptyAddress(country)), ...change } }))
          }
        />
      )}
    </section>
  );
}
