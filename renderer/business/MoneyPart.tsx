import { lienRuleSchema } from '../../shared-core/book/business.ts';
import { USUAL_CATEGORIES } from '../../shared-core/book/ledger.ts';
import { Fields, NumberField, TextField, checkName } from '../parts/Fields.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import type { BusinessPart } from './business-edit.ts';
import { moneySummary } from './part-summaries.ts';
import { SettingsPart } from './SettingsPart.tsx';

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
