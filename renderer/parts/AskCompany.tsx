import { useState } from 'react';
import type { Business } from '../../shared-core/book/business.ts';
import { inventedCompany } from '../../shared-core/book/sample-company.ts';
import { missingForLetterhead } from '../../shared-core/documents/letterhead.ts';
import { AddressFields } from './AddressFields.tsx';
import { CrewSizeField } from './CrewSizeField.tsx';
import { Fields, MoneyField, PercentField, TextField } from './Fields.tsx';
import { TextButton } from './Buttons.tsx';
import { Notice } from './Dialog.tsx';
import './AskCompany.css';

interface AskCompanyProps {
  readonly business: Business;
  readonly jobId: string;
  readonly onEdit: (label: string, edit: Partial<Business> | ((was: Business) => Business)) => void;
  readonly onDone: () => void;
  /** Gives back the user's own company record in place of the sample's. */
  readonly onOwn: () => void;
}

/**
 * Asks once for the company facts that every quote prints. Shows nothing when they are known; Settings changes them later. The sample's
 * company is not the user's.
 */
export function AskCompany({ business, jobId, onEdit, onDone, onOwn }: AskCompanyProps) {
  const invented = inventedCompany(business, jobId);
  // Stays open until the screen closes, so that the panel does not vanish while it is being filled in.
  const [isKnown] = useState(invented === null && missingForLetterhead(business) === null);
  if (invented !== null)
    return (
      <Notice kind="failure" action={{ word: 'Enter your company', run: onOwn }}>
        {invented}
      </Notice>
    );
  if (isKnown || business.companyAskedAt !== undefined) return null;
  const { contract, costs, pricing } = business;
  const materialTax = business.taxRates.find((rate) => rate.id === pricing.materialTaxId) ?? null;
  return (
    <section className="ask-company stack" aria-labelledby="ask-company">
      <h2 className="caption" id="ask-company">
        Your company
      </h2>
      <Fields wide>
        <TextField label="Company name" value={business.name} onChange={(name) => onEdit('company name', { name })} />
        <TextField label="Your name" value={business.ownerName} onChange={(ownerName) => onEdit('your name', { ownerName })} />
      </Fields>
      <AddressFields
        lineLabel="Company address"
        lineOnly={`${business.address.line}${business.address.city}${business.address.region}` === ''}
        address={business.address}
        onChange={(part) => onEdit('company address', (b) => ({ ...b, address: { ...b.address, ...part } }))}
      />
      <Fields wide>
        <TextField label="Company phone" kind="tel" value={business.phone} onChange={(phone) => onEdit('company phone', { phone })} />
        <TextField
          label="License"
          value={contract.license}
          onChange={(license) => onEdit('license', (b) => ({ ...b, contract: { ...b.contract, license } }))}
        />
        <MoneyField
          label="Labor rate per hour"
          hint="Your cost. Typical until you change it."
          value={costs.ownHourMinor}
          emptyMessage="Enter 0 for none."
          onChange={(minor) => onEdit('labor rate', (b) => ({ ...b, costs: { ...b.costs, ownHourMinor: minor } }))}
        />
        <CrewSizeField business={business} onEdit={onEdit} />
        {materialTax !== null && (
          <PercentField
            label={materialTax.name}
            decimals={4}
            value={materialTax.rate}
            onChange={(rate) =>
              rate !== null &&
              onEdit('tax rate', (b) => ({
                ...b,
                taxRates: b.taxRates.map((one) => (one.id === materialTax.id ? { ...one, rate } : one)),
              }))
            }
          />
        )}
      </Fields>
      <div className="words">
        <TextButton kind="outlined" onPress={onDone}>
          Done
        </TextButton>
      </div>
    </section>
  );
}
