import { Fields, NumberField, PercentField, QuantityField, TextField, checkLong } from '../parts/Fields.tsx';
import type { BusinessPart } from './business-edit.ts';
import { calculationSummary, quoteSummary } from './part-summaries.ts';
import { SettingsPart } from './SettingsPart.tsx';

const LONGEST_DAYS = 365;

export function QuotePart({ business, edit }: BusinessPart) {
  return (
    <SettingsPart
      heading="Quotes"
      text="Applies to new quotes. Issued quotes stay as they are."
      fold={{ key: 'quotes', summary: quoteSummary(business) }}
    >
      <Fields>
        <NumberField
          label="Quote validity"
          unit="days"
          whole
          least={1}
          most={LONGEST_DAYS}
          value={business.quoteValidDays}
          emptyMessage="Enter a number of days, such as 30."
          onChange={(quoteValidDays) => edit('quote validity', { quoteValidDays })}
        />
        <PercentField
          label="Deposit"
          value={business.pricing.depositShare}
          emptyMessage="Enter a percent, or 0."
          hint="For new jobs. Some states limit deposits by law."
          onChange={(depositShare) => edit('deposit', (b) => ({ ...b, pricing: { ...b.pricing, depositShare } }))}
        />
      </Fields>
      <TextField
        label="Terms"
        long
        value={business.quoteTerms}
        check={checkLong}
        placeholder="Scope, exclusions, payment"
        onChange={(quoteTerms) => edit('terms', { quoteTerms })}
      />
    </SettingsPart>
  );
}

export function CalculationPart({ business, edit }: BusinessPart) {
  return (
    <SettingsPart
      heading="Bags and pours"
      text="Typical values until you change them."
      fold={{ key: 'bags', summary: calculationSummary(business) }}
    >
      <Fields>
        <PercentField
          label="Enough bags in"
          least={50}
          most={99}
          decimals={0}
          unit="of pours"
          value={business.bagPercentile}
          emptyMessage="Enter a percent from 50 to 99."
          hint="A higher percent leaves more bags unopened."
          onChange={(bagPercentile) => edit('enough bags', { bagPercentile })}
        />
        <PercentField
          label="Waste factor"
          value={business.usualLossShare}
          emptyMessage="Enter a percent, or 0."
          hint="Material left in buckets and hoses."
          onChange={(usualLossShare) => edit('waste factor', { usualLossShare })}
        />
        <QuantityField
          label="Mixing bucket"
          kind="liquid"
          value={business.bucketL}
          emptyMessage="Enter the size of your mixing bucket."
          check={(liters) => (liters > 0 ? null : 'Enter a bucket size greater than 0.')}
          hint="Filled to the brim. A batch that does not fit is flagged."
          onChange={(bucketL) => edit('mixing bucket', { bucketL })}
        />
        <PercentField
          label="Maximum cold joint risk"
          decimals={1}
          value={business.coldJointChance}
          emptyMessage="Enter a percent."
          hint="A pour plan above it is flagged."
          onChange={(coldJointChance) => edit('cold joint risk', { coldJointChance })}
        />
      </Fields>
    </SettingsPart>
  );
}
