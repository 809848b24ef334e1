import { taxRateSchema } from '../../shared-core/book/business.ts';
import { parsePercent, formatPercent } from '../../shared-core/measure/percent.ts';
import type { Parsed } from '../../shared-core/measure/parsed.ts';
import { removeTaxRate } from '../book/business-commands.ts';
import { newId } from '../book/now-instant.ts';
import type { Outcome } from '../book/outcome.ts';
import { Field } from '../parts/Field.tsx';
import { Fields, TextField, checkName } from '../parts/Fields.tsx';
import { SelectField } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import type { BusinessPart } from './business-edit.ts';
import { taxSummary } from './part-summaries.ts';
import { SettingsPart } from './SettingsPart.tsx';

/** Limit of the company record's schema. */
const MOST_RATES = 12;
/** Parses any percentage, so that the schema's own message appears. */
const ANY_PERCENT = { least: -1e6, most: 1e6 };

function parseRate(text: string, locale: string): Parsed<number> {
  const read = parsePercent(text, ANY_PERCENT, locale);
  if (!read.ok) return read;
  const wrong = taxRateSchema.shape.rate.safeParse(read.value).error?.issues[0]?.message;
  return wrong === undefined ? read : { ok: false, message: `${text.trim()}: ${wrong}` };
}

export function TaxPart({ business, edit, say }: BusinessPart & { readonly say: (outcome: Outcome<unknown>) => void }) {
  const { taxRates, pricing, locale } = business;
  const rates = taxRates.map((rate) => ({ value: rate.id, word: `${rate.name}, ${formatPercent(rate.rate, 3, locale)}` }));
  return (
    <SettingsPart
      heading="Taxes"
      text="Your state decides whether labor is taxed and at what rate. Ask your accountant."
      fold={{ key: 'tax', summary: taxSummary(business) }}
    >
      {taxRates.map((rate) => (
        <div className="field-row" key={rate.id}>
          <Fields>
            <TextField
              label="Tax name"
              value={rate.name}
              emptyMessage="Enter the tax name as the quote should show it."
              check={checkName}
              onChange={(name) =>
                edit('tax name', (b) => ({ ...b, taxRates: b.taxRates.map((r) => (r.id === rate.id ? { ...r, name } : r)) }))
              }
            />
            <Field
              label="Rate"
              value={rate.rate}
              inputMode="decimal"
              parse={(text) => parseRate(text, locale)}
              format={(share) => formatPercent(share, 4, locale)}
              emptyMessage="Enter a rate, or 0%."
              onChange={(share) =>
                edit(`rate of ${rate.name}`, (b) => ({
                  ...b,
                  taxRates: b.taxRates.map((r) => (r.id === rate.id ? { ...r, rate: share } : r)),
                }))
              }
            />
          </Fields>
          <TextButton kind="delete" label={`Delete ${rate.name}`} onPress={() => void removeTaxRate(rate.id).then(say)}>
            Delete
          </TextButton>
        </div>
      ))}
      {taxRates.length < MOST_RATES && (
        <div>
          <TextButton
            onPress={() =>
              edit('new tax rate', (b) => ({
                ...b,
                taxRates: [...b.taxRates, { id: newId(), name: `Tax ${b.taxRates.length + 1}`, rate: 0 }],
              }))
            }
          >
            Add tax rate
          </TextButton>
        </div>
      )}
      <Fields wide>
        <SelectField
          label="Tax on materials"
          none="Not taxed"
          value={pricing.materialTaxId}
          options={rates}
          onChange={(materialTaxId) => edit('tax on materials', (b) => ({ ...b, pricing: { ...b.pricing, materialTaxId } }))}
        />
        <SelectField
          label="Tax on labor"
          none="Not taxed"
          value={pricing.laborTaxId}
          options={rates}
          onChange={(laborTaxId) => edit('tax on labor', (b) => ({ ...b, pricing: { ...b.pricing, laborTaxId } }))}
        />
      </Fields>
    </SettingsPart>
  );
}
