import { Fields } from '../parts/Fields.tsx';
import { NumberField } from '../parts/NumberField.tsx';
import { PercentField } from '../parts/PercentField.tsx';
import { QuantityField } from '../parts/QuantityField.tsx';
import { TextField } from '../parts/TextField.tsx';
import { checkLong } from '../parts/text-checks.ts';
import type { BusinessPart } from './business-edit.ts';
import { SettingsPart } from './SettingsPart.tsx';

const LONGEST_DAYS = 365;

/** What a quote promises, and how it is paid. */
export function QuotePart({ business, edit }: BusinessPart) {
  return (
    <SettingsPart heading="Quotes" says="They hold for quotes from now on; those already given stay as they are.">
      <Fields>
        <NumberField
          label="A quote stands for"
          unit="days"
          whole
          least={1}
          most={LONGEST_DAYS}
          value={business.quoteValidDays}
          emptyMessage="Days are needed here: 30 is usual."
          onChange={(quoteValidDays) => {
            if (quoteValidDays !== null) edit('how long a quote stands', (b) => ({ ...b, quoteValidDays }));
          }}
        />
        <PercentField
          label="Deposit"
          value={business.pricing.depositShare}
          emptyMessage="A percent is needed here; 0 % for none."
          hint="For jobs begun from now on. Some places limit it by law."
          onChange={(depositShare) => {
            if (depositShare !== null) edit('deposit', (b) => ({ ...b, pricing: { ...b.pricing, depositShare } }));
          }}
        />
      </Fields>
      <TextField
        label="Terms"
        long
        value={business.quoteTerms}
        check={checkLong}
        placeholder="what is included, what is not, how it is paid"
        onChange={(quoteTerms) => edit('terms', (b) => ({ ...b, quoteTerms }))}
      />
    </SettingsPart>
  );
}

/** How carefully the bags and the pour are reckoned. */
export function CalculationPart({ business, edit }: BusinessPart) {
  return (
    <SettingsPart heading="Bags and pours" says="How safe is safe enough. All four are typical until you change them.">
      <Fields>
        <PercentField
          label="Bags are enough in"
          least={50}
          most={99}
          decimals={0}
          unit="of pours"
          value={business.bagPercentile}
          emptyMessage="A percent from 50 to 99 is needed here."
          hint="The more often, the more bags come home unopened."
          onChange={(bagPercentile) => {
            if (bagPercentile !== null) edit('how often the bags are enough', (b) => ({ ...b, bagPercentile }));
          }}
        />
        <PercentField
          label="Usual loss"
          value={business.usualLossShare}
          emptyMessage="A percent is needed here; 0 % for none."
          hint="What stays in buckets and hoses, of all that is mixed."
          onChange={(usualLossShare) => {
            if (usualLossShare !== null) edit('usual loss', (b) => ({ ...b, usualLossShare }));
          }}
        />
        <QuantityField
          label="Mixing bucket"
          kind="liquid"
          value={business.bucketL}
          emptyMessage="How much your mixing bucket holds is needed here."
          check={(liters) => (liters > 0 ? null : 'A bucket holds more than nothing.')}
          hint="Brimful. A batch whose water does not fit it is pointed out."
          onChange={(bucketL) => {
            if (bucketL !== null) edit('mixing bucket', (b) => ({ ...b, bucketL }));
          }}
        />
        <PercentField
          label="Chance of a cold joint"
          decimals={1}
          value={business.coldJointChance}
          emptyMessage="A percent is needed here."
          hint="As much as a pour plan may carry."
          onChange={(coldJointChance) => {
            if (coldJointChance !== null) edit('chance of a cold joint', (b) => ({ ...b, coldJointChance }));
          }}
        />
      </Fields>
    </SettingsPart>
  );
}
