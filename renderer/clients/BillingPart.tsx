import type { Client } from '../../shared-core/book/client.ts';
import { emptyAddress } from '../../shared-core/book/new-records.ts';
import { AddressFields } from '../parts/AddressFields.tsx';
import { CheckRow } from '../parts/CheckRow.tsx';

interface BillingPartProps {
  readonly client: Client;
  /** Two letters: where the business is. */
  readonly country: string;
  readonly onEdit: (label: string, how: (c: Client) => Client) => void;
}

/** Where the bills go, when that is not the house. */
export function BillingPart({ client, country, onEdit }: BillingPartProps) {
  return (
    <section className="person-billing" aria-labelledby="person-billing">
      <h2 className="caption" id="person-billing">
        Where the bills go
      </h2>
      <CheckRow
        label="Somewhere else than the house"
        checked={client.address !== null}
        onChange={(on) => onEdit('where the bills go', (c) => ({ ...c, address: on ? emptyAddress(country) : null }))}
      />
      {client.address !== null && (
        <AddressFields
          address={client.address}
          lineLabel="Billing: street and number"
          onChange={(change) =>
            onEdit('where the bills go', (c) => ({ ...c, address: { ...(c.address ?? emptyAddress(country)), ...change } }))
          }
        />
      )}
    </section>
  );
}
