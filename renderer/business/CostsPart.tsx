import type { Costs } from '../../shared-core/book/business.ts';
import { newBusiness } from '../../shared-core/book/typical-business.ts';
import { rateAsStored, rateAsShown, rateUnitName, rateWords } from '../../shared-core/price/rate-words.ts';
import { MoneyField } from '../parts/Fields.tsx';
import { Reason } from '../parts/Reason.tsx';
import type { BusinessPart } from './business-edit.ts';
import { COST_KINDS, type CostKind } from './cost-kinds.ts';
import { costsSummary } from './part-summaries.ts';
import { SettingsPart } from './SettingsPart.tsx';

/** Costs before markup. */
export function CostsPart({ business, edit }: BusinessPart) {
  const typical = newBusiness(business.createdAt, business.timeZone, business.locale).costs;
  return (
    <SettingsPart
      heading="Costs"
      text="Your cost before markup. Figures in italic are typical, in US dollars. Enter your own."
      fold={{ key: 'costs', summary: costsSummary(business) }}
    >
      <div className="settings-costs">
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
  const unitName = kind.unit === 'h' ? 'hour' : rateUnitName(kind.unit, units);
  return (
    <MoneyField
      label={kind.label}
      currency={currency}
      unit={`per ${unitName}`}
      typical={isTypical}
      value={rateAsShown(ownCost, kind.unit, units)}
      emptyMessage="Enter a cost, or 0."
      onChange={(entered) =>
        edit(`cost of ${kind.label.toLowerCase()}`, (b) => ({
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
