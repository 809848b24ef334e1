import type { Costs } from '../../shared-core/book/business.ts';
import { newBusiness } from '../../shared-core/book/typical-business.ts';
import { rateAsStored, rateAsShown, rateUnitName, rateWords } from '../../shared-core/price/rate-words.ts';
import { MoneyField, Fields, PercentField } from '../parts/Fields.tsx';
import { CrewSizeField } from '../parts/CrewSizeField.tsx';
import { Reason } from '../parts/Reason.tsx';
import { type BusinessPart, costsSummary, SettingsPart, pricingSummary } from './SettingsPart.tsx';
import type { LineUnit } from '../../shared-core/price/line.ts';
import { explainShare, otherShare } from '../../shared-core/price/markup.ts';
import { ChoiceRow } from '../parts/Choices.tsx';
import { lowerFirst } from '../../shared-core/measure/first-letter.ts';

export function CostsPart({ business, edit }: BusinessPart) {
  const typical = newBusiness(business.createdAt, business.timeZone, business.locale).costs;
  return (
    <SettingsPart
      heading="Costs"
      text="Your cost before markup. Figures in italic are typical, in US dollars. Enter your own."
      fold={{ key: 'costs', summary: costsSummary(business) }}
    >
      <div className="settings-costs">
        <CrewSizeField business={business} onEdit={(label, change) => edit(label, (b) => ({ ...b, ...change }))} />
        {COST_KINDS.map((kind) => (
          <CostField key={kind.key} kind={kind} business={business} typical={typical} edit={edit} />
        ))}
      </div>
    </SettingsPart>
  );
}

function CostField({ kind, business, typical, edit }: BusinessPart & { readonly kind: CostKind; readonly typical: Costs }) {
  const { units, currency, locale } = business;
  const ownCost = business.costs[kind.key];
  const isTypical = ownCost === typical[kind.key];
  return (
    <MoneyField
      label={kind.label}
      unit={`per ${rateUnitName(kind.unit, units)}`}
      typical={isTypical}
      value={rateAsShown(ownCost, kind.unit, units)}
      emptyMessage="Enter a cost, or 0."
      onChange={(entered) =>
        edit(`cost of ${lowerFirst(kind.label)}`, (b) => ({
          ...b,
          costs: { ...b.costs, [kind.key]: rateAsStored(entered, kind.unit, b.units) },
        }))
      }
      under={
        <Reason
          why={{
            figureName: kind.label,
            inputs: [
              { name: isTypical ? 'Typical' : 'Yours', value: rateWords(ownCost, kind.unit, units, currency, locale) },
              ...(isTypical ? [] : [{ name: 'Typical', value: rateWords(typical[kind.key], kind.unit, units, 'USD', locale) }]),
            ],
            formula: kind.goesInto,
            source: isTypical ? 'Typical for a small crew, no source. Enter your own figure.' : 'Your own figure.',
            range: null,
          }}
        >
          {isTypical ? 'Typical' : 'Yours'}
        </Reason>
      }
    />
  );
}

/** The company's costs: label, unit, and the estimate lines that use each. */
interface CostKind {
  readonly key: keyof Costs;
  readonly label: string;
  readonly unit: LineUnit;
  /** How estimate lines use it. */
  readonly goesInto: string;
}

const KINDS: Readonly<Record<keyof Costs, Omit<CostKind, 'key'>>> = {
  ownHourMinor: { label: 'Labor rate: owner', unit: 'h', goesInto: 'Your hours of prep and pour × this rate.' },
  helperHourMinor: { label: 'Labor rate: helper', unit: 'h', goesInto: 'Helper hours of prep and pour × this rate.' },
  grindM2Minor: { label: 'Grinding or sanding (area)', unit: 'm2', goesInto: 'Area to grind or sand × this rate: machine and one pass.' },
  grindM3Minor: {
    label: 'Grinding or sanding (volume)',
    unit: 'm3',
    goesInto: 'Volume ground or sanded off × this rate: tool wear and disposal.',
  },
  abradeM2Minor: { label: 'Abrading', unit: 'm2', goesInto: 'Area to abrade × this rate.' },
  disposalKgMinor: { label: 'Disposal', unit: 'kg', goesInto: 'Weight removed × this rate.' },
  travelKmMinor: { label: 'Travel', unit: 'km', goesInto: 'Round trip for each day on site × this rate.' },
  perimeterStripMMinor: { label: 'Perimeter isolation strip', unit: 'm', goesInto: 'Length of wall with strip × this rate.' },
  damMMinor: { label: 'Dams at doorways', unit: 'm', goesInto: 'Width of dammed openings × this rate.' },
  crackFillerMMinor: { label: 'Crack filler', unit: 'm', goesInto: 'Length of cracks × this rate.' },
  reinforcementM2Minor: { label: 'Reinforcement', unit: 'm2', goesInto: 'Area to reinforce × this rate.' },
  sealerM2Minor: { label: 'Sealer', unit: 'm2', goesInto: 'Area to seal × this rate.' },
};

const COST_KINDS: readonly CostKind[] = (Object.keys(KINDS) as (keyof Costs)[]).map((key) => ({ key, ...KINDS[key] }));

/** Limits of the company record's schema: markup to 500%, margin below 100%. */
const MOST_MARKUP = 500;
const MOST_MARGIN = 95;

export function PricingPart({ business, edit }: BusinessPart) {
  const { pricing } = business;
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
          value={pricing.minimumChargeMinor}
          emptyMessage="Enter an amount, or 0."
          onChange={(minimumChargeMinor) => set('minimum charge', { minimumChargeMinor })}
        />
      </Fields>
    </SettingsPart>
  );
}
