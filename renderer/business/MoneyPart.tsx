import { lienRuleSchema, taxRateSchema } from '../../shared-core/book/business.ts';
import { USUAL_CATEGORIES } from '../../shared-core/book/ledger.ts';
import { Fields, NumberField, TextField, checkName } from '../parts/Fields.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { type BusinessPart, moneySummary, SettingsPart, taxSummary } from './SettingsPart.tsx';
import { parsePercent } from '../../shared-core/measure/percent.ts';
import { formatTaxRate } from '../../shared-core/price/tax.ts';
import type { Parsed } from '../../shared-core/measure/parsed.ts';
import { removeTaxRate } from '../book/business-commands.ts';
import { newId, type Outcome } from '../book/command.ts';
import { Field } from '../parts/Field.tsx';
import { ChoiceRow, SelectField } from '../parts/Choices.tsx';

/** Limits of the company record's schema. */
const [MAX_CATEGORIES, MAX_DAYS] = [60, 1000];

export function MoneyPart({ business, edit }: BusinessPart) {
  const { expenseCategories, lienRules } = business;
  const setCategories = (label: string, change: (names: string[]) => string[]): void =>
    edit(label, (b) => ({ ...b, expenseCategories: change(b.expenseCategories) }));
  const setRule = (index: number, change: Partial<(typeof lienRules)[number]>): void =>
    edit('lien deadline', (b) => ({ ...b, lienRules: b.lienRules.map((rule, i) => (i === index ? { ...rule, ...change } : rule)) }));
  const isUsual = expenseCategories.join() === USUAL_CATEGORIES.join();
  return (
    <SettingsPart
      heading="Expenses and lien deadlines"
      text="Categories as your bookkeeper wants them. Lien deadlines as your state sets them."
      fold={{ key: 'money', summary: moneySummary(business) }}
    >
      <h3>Expense categories</h3>
      {expenseCategories.map((name, i) => (
        <div className="field-row" key={`${i}/${expenseCategories.length}`}>
          <TextField
            label={`Category ${i + 1}`}
            value={name}
            emptyMessage="Enter a category, or delete it."
            check={checkName}
            onChange={(next) => setCategories('expense category', (names) => names.with(i, next))}
          />
          {expenseCategories.length > 1 && (
            <TextButton
              kind="delete"
              label={`Delete ${name}`}
              onPress={() => setCategories(`delete ${name}`, (names) => names.filter((_, index) => index !== i))}
            >
              Delete
            </TextButton>
          )}
        </div>
      ))}
      <p>
        {expenseCategories.length < MAX_CATEGORIES && (
          <TextButton onPress={() => setCategories('new expense category', (names) => [...names, `Category ${names.length + 1}`])}>
            Add category
          </TextButton>
        )}{' '}
        {!isUsual && (
          <TextButton kind="plain" onPress={() => setCategories('usual expense categories', () => [...USUAL_CATEGORIES])}>
            Use the usual list
          </TextButton>
        )}
      </p>
      <h3>Lien deadlines</h3>
      <p className="small">
        Reminders only, from the days you enter. States count these days differently, and some want other notices. Ask a lawyer.
      </p>
      {lienRules.map((rule, i) => (
        <div className="field-row" key={`${i}/${lienRules.length}`}>
          <Fields>
            <TextField
              label="State"
              value={rule.state}
              hint="As in the property’s address, such as VT"
              check={(text) => lienRuleSchema.shape.state.safeParse(text).error?.issues[0]?.message ?? null}
              onChange={(state) => setRule(i, { state })}
            />
            <NumberField
              label="Notice, days from first work"
              whole
              least={0}
              most={MAX_DAYS}
              value={rule.noticeDays}
              onChange={(noticeDays) => setRule(i, { noticeDays })}
            />
            <NumberField
              label="Lien, days from last work"
              whole
              least={0}
              most={MAX_DAYS}
              value={rule.lienDays}
              onChange={(lienDays) => setRule(i, { lienDays })}
            />
          </Fields>
          <TextButton
            kind="delete"
            label={`Delete the deadlines of ${rule.state === '' ? 'this state' : rule.state}`}
            onPress={() => edit('delete lien deadlines', (b) => ({ ...b, lienRules: b.lienRules.filter((_, index) => index !== i) }))}
          >
            Delete
          </TextButton>
        </div>
      ))}
      <p>
        <TextButton
          onPress={() =>
            edit('new lien deadlines', (b) => ({
              ...b,
              lienRules: [...b.lienRules, { state: b.lienRules.length === 0 ? b.address.region : '', noticeDays: null, lienDays: null }],
            }))
          }
        >
          Add state
        </TextButton>
      </p>
    </SettingsPart>
  );
}

/** Limit of the company record's schema. */
const MOST_RATES = 12;
/** Parses any percentage, so that the schema's own message appears. */
const ANY_PERCENT = { least: -1e6, most: 1e6 };

function parseRate(text: string, locale: string): Parsed<number> {
  const read = parsePercent(text, ANY_PERCENT, locale);
  if (!read.ok) return read;
  const wrong = taxRateSchema.shape.rate.safeParse(read.value).error?.issues[0]?.message;
  return wrong === undefined ? read : { ok: false, message: `“${text.trim()}”: ${wrong}` };
}

export function TaxPart({ business, edit, say }: BusinessPart & { readonly say: (outcome: Outcome<unknown>) => void }) {
  const { taxRates, pricing, locale } = business;
  const setRate = (label: string, id: string, change: Partial<(typeof taxRates)[number]>): void =>
    edit(label, (b) => ({ ...b, taxRates: b.taxRates.map((rate) => (rate.id === id ? { ...rate, ...change } : rate)) }));
  const rates = taxRates.map((rate) => ({ value: rate.id, word: `${rate.name}, ${formatTaxRate(rate.rate, locale)}` }));
  return (
    <SettingsPart
      heading="Taxes"
      text="Your state decides whether labor is taxed, at what rate, and how tax is rounded. Ask your accountant."
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
              onChange={(name) => setRate('tax name', rate.id, { name })}
            />
            <Field
              label="Rate"
              value={rate.rate}
              inputMode="decimal"
              parse={(text) => parseRate(text, locale)}
              format={(share) => formatTaxRate(share, locale)}
              emptyMessage="Enter a rate, or 0%."
              onChange={(share) => setRate(`rate of ${rate.name}`, rate.id, { rate: share })}
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
      <ChoiceRow
        label="Round tax to the cent"
        captioned
        value={pricing.rounding === 'line' ? 'line' : 'rate'}
        options={{ rate: 'On the taxable total', line: 'On each line' }}
        onChange={(rounding) => edit('tax rounding', (b) => ({ ...b, pricing: { ...b.pricing, rounding } }))}
      />
    </SettingsPart>
  );
}
