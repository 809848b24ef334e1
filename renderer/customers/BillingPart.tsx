import type { Customer } from '../../shared-core/book/customer.ts';
import { emptyAddress } from '../../shared-core/book/new-records.ts';
import { AddressFields } from '../parts/AddressFields.tsx';
import { CheckRow } from '../parts/Choices.tsx';

interface BillingPartProps {
  readonly customer: Customer;
  /** Two-letter country code of the company. */
  readonly country: string;
  readonly onEdit: (label: string, change: (c: Customer) => Customer) => void;
}

/** Asked for only where it differs from the property. */
export function BillingPart({ customer, country, onEdit }: BillingPartProps) {
  return (
    <section className="stack customer-part" aria-labelledby="customer-billing">
      <h2 className="caption" id="customer-billing">
        Billing address
      </h2>
      <CheckRow
        label="Different from the property address"
        checked={customer.address !== null}
        onChange={(on) => onEdit('billing address', (c) => ({ ...c, address: on ? emptyAddress(country) : null }))}
      />
      {customer.address !== null && (
        <AddressFields
          address={customer.address}
          lineLabel="Billing street address"
          onChange={(change) =>
            onEdit('billing address', (c) => ({ ...c, address: { ...(c.address ?? emptyAddress(country)), ...change } }))
          }
        />
      )}
    </section>
  );
}
