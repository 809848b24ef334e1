import { formatDay } from '../../shared-core/measure/day.ts';
import { parseTimeZone } from '../../shared-core/measure/moment.ts';
import { formatMoney } from '../../shared-core/price/money.ts';
import { currencyName, parseCurrency } from '../../shared-core/price/currency.ts';
import { ChoiceRow } from '../parts/ChoiceRow.tsx';
import { Field } from '../parts/Field.tsx';
import { Fields } from '../parts/Fields.tsx';
import { SelectField } from '../parts/SelectField.tsx';
import type { BusinessPart } from './business-edit.ts';
import { SettingsPart } from './SettingsPart.tsx';

/** Places whose way of writing numbers and dates can be chosen. The words stay English. */
const LOCALES = [
  ['en-US', 'United States'],
  ['en-CA', 'Canada'],
  ['en-GB', 'United Kingdom'],
  ['en-IE', 'Ireland'],
  ['en-AU', 'Australia'],
  ['en-NZ', 'New Zealand'],
  ['en-ZA', 'South Africa'],
  ['en-IN', 'India'],
  ['de-DE', 'Germany'],
  ['fr-FR', 'France'],
  ['es-ES', 'Spain'],
] as const;
/** Shows how a place writes: a large amount and a day. */
const SHOWN_MINOR = 123450;
const SHOWN_DAY = '2026-03-09';

/** How quantities, money, dates and papers are written. */
export function WaysPart({ business, edit }: BusinessPart) {
  const known = LOCALES.map(([value, word]): { value: string; word: string } => ({ value, word }));
  const locales = known.some((l) => l.value === business.locale) ? known : [{ value: business.locale, word: business.locale }, ...known];
  return (
    <SettingsPart heading="Units and ways" says="What is in the book stays as it is; only how it is written changes.">
      <div className="settings-choices">
        <ChoiceRow
          label="Units"
          captioned
          value={business.units}
          options={[
            { value: 'us', word: 'Feet and pounds' },
            { value: 'metric', word: 'Meters and kilograms' },
          ]}
          onChange={(units) => edit('units', (b) => ({ ...b, units }))}
        />
        <ChoiceRow
          label="Paper"
          captioned
          value={business.paper}
          options={[
            { value: 'letter', word: 'US letter' },
            { value: 'a4', word: 'A4' },
          ]}
          onChange={(paper) => edit('paper', (b) => ({ ...b, paper }))}
        />
      </div>
      <Fields wide>
        <SelectField
          label="Numbers and dates as in"
          value={business.locale}
          options={locales}
          hint={`${formatMoney(SHOWN_MINOR, business.currency, business.locale)}; ${formatDay(SHOWN_DAY, 'dated', business.locale)}`}
          onChange={(locale) => {
            if (locale !== null) edit('way of writing numbers', (b) => ({ ...b, locale }));
          }}
        />
        <Field
          label="Time zone"
          value={business.timeZone}
          parse={parseTimeZone}
          format={(zone) => zone}
          emptyMessage="A time zone is needed here, such as America/New_York."
          hint="New houses begin with it; each can have its own."
          onChange={(timeZone) => {
            if (timeZone !== null) edit('time zone', (b) => ({ ...b, timeZone }));
          }}
        />
        <Field
          label="Currency"
          value={business.currency}
          parse={parseCurrency}
          format={(code) => code}
          emptyMessage="A currency is needed here, in three letters."
          hint={`${currencyName(business.currency)}. Amounts in the book keep their figures: nothing is converted.`}
          onChange={(currency) => {
            if (currency !== null) edit('currency', (b) => ({ ...b, currency }));
          }}
        />
      </Fields>
    </SettingsPart>
  );
}
