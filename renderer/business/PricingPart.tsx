import { explainShare, otherShare } from '../../shared-core/price/markup.ts';
import { ChoiceRow } from '../parts/ChoiceRow.tsx';
import { Fields } from '../parts/Fields.tsx';
import { MoneyField } from '../parts/MoneyField.tsx';
import { PercentField } from '../parts/PercentField.tsx';
import type { BusinessPart } from './business-edit.ts';
import { SettingsPart } from './SettingsPart.tsx';

/** The book's own limits: 500 % markup; a margin stays below the whole price. */
const MOST_MARKUP = 500;
const MOST_MARGIN = 95;

/** From what it costs to what is asked for it. */
export function PricingPart({ business, edit }: BusinessPart) {
  const { pricing, currency } = business;
  const set = (label: string, change: Partial<typeof pricing>): void =>
    edit(label, (b) => ({ ...b, pricing: { ...b.pricing, ...change } }));
  return (
    <SettingsPart heading="Price" says="From what it costs to what you ask for it.">
      <ChoiceRow
        label="Reckoned as"
        captioned
        value={pricing.method}
        options={[
          { value: 'markup', word: 'Markup on the cost' },
          { value: 'margin', word: 'Margin of the price' },
        ]}
        // The same prices said the other way: changing the word must not change a quote.
        onChange={(method) => {
          if (method !== pricing.method)
            set('markup or margin', {
              method,
              share: Math.min(
                otherShare(pricing.method, pricing.share) ?? pricing.share,
                method === 'margin' ? MOST_MARGIN / 100 : MOST_MARKUP / 100,
              ),
            });
        }}
      />
      <p className="small">{explainShare(pricing.method, pricing.share)}</p>
      <Fields>
        <PercentField
          label={pricing.method === 'markup' ? 'Markup' : 'Margin'}
          most={pricing.method === 'markup' ? MOST_MARKUP : MOST_MARGIN}
          value={pricing.share}
          emptyMessage="A percent is needed here; 0 % when nothing is added."
          onChange={(share) => {
            if (share !== null) set(pricing.method, { share });
          }}
        />
        <PercentField
          label="For the unforeseen"
          value={pricing.contingencyShare}
          emptyMessage="A percent is needed here; 0 % for none."
          hint="A share of the cost, on its own line."
          onChange={(contingencyShare) => {
            if (contingencyShare !== null) set('share for the unforeseen', { contingencyShare });
          }}
        />
        <MoneyField
          label="Least charge for a job"
          currency={currency}
          value={pricing.minimumChargeMinor}
          emptyMessage="An amount is needed here; 0 for none."
          onChange={(minimumChargeMinor) => {
            if (minimumChargeMinor !== null) set('least charge', { minimumChargeMinor });
          }}
        />
      </Fields>
      <ChoiceRow
        label="Rounded to the cent"
        captioned
        value={pricing.rounding}
        options={[
          { value: 'line', word: 'On each line' },
          { value: 'total', word: 'Once, over all' },
        ]}
        onChange={(rounding) => set('rounding', { rounding })}
      />
    </SettingsPart>
  );
}
