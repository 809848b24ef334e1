import { explainShare, otherShare } from '../../shared-core/price/markup.ts';
import { ChoiceRow } from '../parts/Choices.tsx';
import { Fields, MoneyField, PercentField } from '../parts/Fields.tsx';
import { type BusinessPart, pricingSummary, SettingsPart } from './SettingsPart.tsx';

/** Limits of the company record's schema: markup to 500%, margin below 100%. */
const MOST_MARKUP = 500;
const MOST_MARGIN = 95;

export function PricingPart({ business, edit }: BusinessPart) {
  const { pricing, currency } = business;
  const set = (label: string, change: Partial<typeof pricing>): void =>
    edit(label, (b) => ({ ...b, pricing: { ...b.pricing, ...change } }));
  return (
    <SettingsPart heading="Price" text="From your cost to the customer’s price." fold={{ key: 'price', summary: pricingSummary(business) }}>
      <ChoiceRow
        label="Pricing method"
        captioned
        value={pricing.method}
        options={{ markup: 'Markup on cost', margin: 'Margin on price' }}
        // Converts the share, so that changing the method keeps the price.
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
          emptyMessage="Enter a percent, or 0."
          onChange={(share) => set(pricing.method, { share })}
        />
        <PercentField
          label="Contingency"
          value={pricing.contingencyShare}
          emptyMessage="Enter a percent, or 0."
          hint="A share of the cost, folded into the price."
          onChange={(contingencyShare) => set('contingency', { contingencyShare })}
        />
        <MoneyField
          label="Minimum charge"
          currency={currency}
          value={pricing.minimumChargeMinor}
          emptyMessage="Enter an amount, or 0."
          onChange={(minimumChargeMinor) => set('minimum charge', { minimumChargeMinor })}
        />
      </Fields>
      <ChoiceRow
        label="Round to the cent"
        captioned
        value={pricing.rounding}
        options={{ line: 'On each line', total: 'On the total' }}
        onChange={(rounding) => set('rounding', { rounding })}
      />
    </SettingsPart>
  );
}
