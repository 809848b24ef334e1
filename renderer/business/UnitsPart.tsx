import { formatDay } from '../../shared-core/measure/day.ts';
import { parseTimeZone } from '../../shared-core/measure/moment.ts';
import { formatMoney } from '../../shared-core/price/money.ts';
import { currencyName, parseCurrency } from '../../shared-core/price/currency.ts';
import { ChoiceRow, SelectField } from '../parts/Choices.tsx';
import { Field } from '../parts/Field.tsx';
import { Fields } from '../parts/Fields.tsx';
import { type BusinessPart, unitsSummary, SettingsPart } from './SettingsPart.tsx';

/** Formats for numbers and dates. The language is always English. */
const LOCALES: Readonly<Record<string, string>> = {
  'en-US': 'United States',
  'en-CA': 'Canada',
  'en-GB': 'United Kingdom',
  'en-IE': 'Ireland',
  'en-AU': 'Australia',
  'en-NZ': 'New Zealand',
  'en-ZA': 'South Africa',
  'en-IN': 'India',
  'de-DE': 'Germany',
  'fr-FR': 'France',
  'es-ES': 'Spain',
};
/** A sample amount and date in the chosen format. */
const SHOWN_MINOR = 123450;
const SHOWN_DAY = '2026-03-09';

export function UnitsPart({ business, edit }: BusinessPart) {
  const { locale } = business;
  return (
    <SettingsPart
      heading="Units"
      text="Changes how values are shown. Your data is not converted."
      fold={{ key: 'units', summary: unitsSummary(business) }}
    >
      <div className="words">
        <ChoiceRow
          label="Units"
          captioned
          value={business.units}
          options={{ us: 'Feet and pounds', metric: 'Meters and kilograms' }}
          onChange={(units) => edit('units', { units })}
        />
        <ChoiceRow
          label="Paper size"
          captioned
          value={business.paper}
          options={{ letter: 'US Letter', a4: 'A4' }}
          onChange={(paper) => edit('paper', { paper })}
        />
      </div>
      <Fields wide>
        <SelectField
          label="Number and date format"
          value={business.locale}
          options={locale in LOCALES ? LOCALES : { [locale]: locale, ...LOCALES }}
          hint={`${formatMoney(SHOWN_MINOR, business.currency, business.locale)}, ${formatDay(SHOWN_DAY, 'dated', business.locale)}`}
          onChange={(locale) => edit('number format', { locale })}
        />
        <Field
          label="Time zone"
          value={business.timeZone}
          parse={parseTimeZone}
          format={(zone) => zone}
          emptyMessage="Enter a time zone, such as America/New_York."
          hint="New properties start with it. Each can have its own."
          onChange={(timeZone) => edit('time zone', { timeZone })}
        />
        <Field
          label="Currency"
          value={business.currency}
          parse={parseCurrency}
          format={(code) => code}
          emptyMessage="Enter a currency as three letters, such as USD."
          hint={`${currencyName(business.currency)}. Amounts keep their figures and are not converted.`}
          onChange={(currency) => edit('currency', { currency })}
        />
      </Fields>
    </SettingsPart>
  );
}
