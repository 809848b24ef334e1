import { type ReactNode, useId, useRef } from 'react';
import './Field.css';
import { FieldShell, describedBy, Field, type FieldCommon } from './Field.tsx';
import { useAction } from './form-check.ts';
import { useDraft } from './use-draft.ts';
import { formatNumber, parseNumber } from '../../shared-core/measure/number.ts';
import { useMeasure } from './use-measure.ts';
import { isEmails, isPhones, spacedPhone } from '../../shared-core/measure/phone-email.ts';
import { formatPercent, parsePercent } from '../../shared-core/measure/percent.ts';
import { QUANTITY_KINDS, type QuantityKindName } from '../../shared-core/measure/quantity-kinds.ts';
import { formatMoney, parseMoney } from '../../shared-core/price/money.ts';
import { parseDistance } from '../../shared-core/measure/distance.ts';
import { formatDistance } from '../../shared-core/measure/length-format.ts';
import { type DurationUnit, formatDuration, parseDuration } from '../../shared-core/measure/duration.ts';
import { formatClockTime, parseClockTime } from '../../shared-core/measure/clock-time.ts';
import { formatDay, parseDay, parseLastDay } from '../../shared-core/measure/day.ts';
import { formatMoment, parseMoment } from '../../shared-core/measure/typed-moment.ts';
import { longText, nameText, shortText } from '../../shared-core/book/fields.ts';

/** Fields side by side, as many as fit. `wide` is for sentences and names. */
export function Fields({ children, wide = false }: { readonly children: ReactNode; readonly wide?: boolean }) {
  return <div className={`fields${wide ? ' fields-wide' : ''}`}>{children}</div>;
}

interface TextFieldProps {
  readonly label: string;
  readonly value: string;
  /** Called with the trimmed text on blur or after a pause. */
  readonly onChange: (value: string) => void;
  /** Several lines; the field grows with its text. */
  readonly long?: boolean;
  readonly hint?: ReactNode;
  readonly placeholder?: string;
  readonly problem?: string | null;
  readonly emptyMessage?: string;
  /** Returns an error or null; by default the schema's length is checked, and the form of a phone number or an email address. */
  readonly check?: (text: string) => string | null;
  readonly kind?: 'text' | 'tel' | 'email' | 'url';
  readonly bare?: boolean;
  readonly autoFocus?: boolean;
  readonly onEnter?: () => void;
  /** Takes the text on Enter or when the field is left, not after a pause: for a field that goes away with its value. */
  readonly waits?: boolean;
}

export function TextField(props: TextFieldProps) {
  const { label, value, onChange, long = false, hint } = props;
  const { country } = useMeasure();
  const onEnter = useAction(true, props.onEnter);
  const check = props.check ?? (props.kind === 'tel' ? checkPhone : props.kind === 'email' ? checkEmail : long ? checkLong : checkShort);
  const id = useId();
  const draft = useDraft<string>({
    value: value === '' ? null : value,
    parse: (text) => {
      const message = check(text.trim());
      const value = props.kind === 'tel' && country === 'US' ? spacedPhone(text.trim()) : text.trim();
      return message === null ? { ok: true, value } : { ok: false, message };
    },
    format: (text) => text,
    onChange: (text) => onChange(text ?? ''),
    same: Object.is,
    emptyMessage: props.emptyMessage ?? null,
    waits: props.waits ?? false,
  });
  const problem = draft.problem ?? props.problem ?? null;
  const shared = {
    id,
    value: draft.text,
    onBlur: draft.commit,
    placeholder: props.placeholder,
    autoFocus: props.autoFocus ?? false,
    autoComplete: 'off',
    'aria-invalid': problem !== null || undefined,
    'aria-required': props.emptyMessage === undefined ? undefined : true,
    'aria-describedby': describedBy(id, { unit: false, hint: hint !== undefined, problem: problem !== null }),
  };
  return (
    <FieldShell id={id} label={label} problem={problem} bare={props.bare ?? false} hint={hint}>
      {long ? (
        <textarea {...shared} rows={3} onChange={(event) => draft.type(event.target.value)} />
      ) : (
        <input
          {...shared}
          type={props.kind ?? 'text'}
          onChange={(event) => draft.type(event.target.value)}
          onKeyDown={(event) => {
            if (event.key !== 'Enter') return;
            draft.commit();
            if (check(draft.text.trim()) === null) onEnter?.();
          }}
        />
      )}
    </FieldShell>
  );
}

type NumberFieldProps = FieldCommon<number> & {
  readonly least?: number;
  readonly most?: number;
  readonly whole?: boolean;
  readonly decimals?: number;
};

export function NumberField({ least, most, whole = false, decimals = 2, ...rest }: NumberFieldProps) {
  const { locale } = useMeasure();
  const shown = (n: number) => formatNumber(n, { most: whole ? 0 : decimals }, locale);
  return (
    <Field
      {...rest}
      inputMode={whole ? 'numeric' : 'decimal'}
      format={shown}
      parse={(text) => parseNumber(text, locale)}
      check={(value) => {
        if (whole && !Number.isInteger(value)) return 'Enter a whole number.';
        if (least !== undefined && value < least) return `Enter ${shown(least)} or more.`;
        return most !== undefined && value > most ? `Enter ${shown(most)} or less.` : null;
      }}
    />
  );
}

type PercentFieldProps = FieldCommon<number> & {
  /** Limits in percent; 0 to 100 by default. */
  readonly least?: number;
  readonly most?: number;
  readonly decimals?: number;
};

/** A percentage; the value is a share, 0.0825 for 8.25%. */
export function PercentField({ least = 0, most = 100, decimals = 2, ...rest }: PercentFieldProps) {
  const { locale } = useMeasure();
  return (
    <Field
      {...rest}
      inputMode="decimal"
      parse={(text) => parsePercent(text, { least, most }, locale)}
      format={(share) => formatPercent(share, decimals, locale)}
    />
  );
}

type ReadingsFieldProps = FieldCommon<number[]> & {
  /** The greatest reading, as it is entered. */
  readonly most?: number;
  /** Other than percent, of which the values are shares. */
  readonly otherUnit?: string | null;
};

/** Several readings separated by spaces. */
export function ReadingsField({ most = 100, otherUnit = null, ...rest }: ReadingsFieldProps) {
  const { locale } = useMeasure();
  const scale = otherUnit === null ? 100 : 1;
  const shown = (reading: number): string => formatNumber(reading * scale, { most: 2 }, locale);
  return (
    <Field
      {...rest}
      unit={otherUnit ?? rest.unit}
      parse={(text) => {
        const readings: number[] = [];
        for (const part of text.trim().split(/[\s;]+/)) {
          const read = parseNumber(part.replace(/%$/, '').replace(/,$/, ''), locale);
          if (!read.ok) return read;
          if (read.value < 0 || read.value > most)
            return { ok: false, message: `${part}: enter a reading from 0 to ${most}${otherUnit === null ? '%' : ''}.` };
          readings.push(read.value / scale);
        }
        return { ok: true, value: readings };
      }}
      format={(readings) => readings.map(shown).join(' ')}
      same={(a, b) => a.join() === b.join()}
    />
  );
}

type QuantityFieldProps = FieldCommon<number> & {
  readonly kind: QuantityKindName;
  readonly check?: (value: number) => string | null;
};

/** A quantity in the company's units; the value is SI. */
export function QuantityField({ kind, ...rest }: QuantityFieldProps) {
  const { units, locale } = useMeasure();
  const quantityKind = QUANTITY_KINDS[kind];
  return (
    <Field
      {...rest}
      parse={(text) => quantityKind.parse(text, units, locale)}
      // The text includes the unit, so that it can be edited as shown.
      format={(value) => quantityKind.format(value, units, locale)}
      // A bare number is feet or inches by the field; how it is understood shows while it is typed.
      {...(kind === 'wall' || kind === 'length' ? { readAs: (value: number) => quantityKind.format(value, units, locale) } : {})}
    />
  );
}

/** An amount, zero or more, in minor units. */
export function MoneyField(props: FieldCommon<number>) {
  const { currency, locale } = useMeasure();
  return (
    <Field
      {...props}
      inputMode="decimal"
      parse={(text) => parseMoney(text, currency, locale)}
      check={(minor) => (minor < 0 ? 'Enter an amount of 0 or more.' : null)}
      format={(minor) => formatMoney(minor, currency, locale)}
    />
  );
}

/** Maximum distance to a property in the record, km. */
const FARTHEST_KM = 5000;

/** A driving distance. The value is in kilometers. */
export function DistanceField(props: FieldCommon<number>) {
  const { units, locale } = useMeasure();
  return (
    <Field
      {...props}
      inputMode="decimal"
      parse={(text) => parseDistance(text, units, locale)}
      check={(km) => (km > FARTHEST_KM ? `Enter a distance of ${formatDistance(FARTHEST_KM, units, locale)} or less.` : null)}
      format={(km) => formatDistance(km, units, locale)}
    />
  );
}

type DurationFieldProps = FieldCommon<number> & {
  /** The unit of a bare number. */
  readonly typedIn: DurationUnit;
};

/** A length of time; the value is in seconds. */
export function DurationField({ typedIn, ...rest }: DurationFieldProps) {
  const { locale } = useMeasure();
  return <Field {...rest} parse={(text) => parseDuration(text, typedIn, locale)} format={(seconds) => formatDuration(seconds, locale)} />;
}

/** A time of day; the value is `18:00`. */
export function ClockField(props: FieldCommon<string> & { readonly check?: (clock: string) => string | null }) {
  const { locale } = useMeasure();
  return <Field {...props} parse={parseClockTime} format={(clock) => formatClockTime(clock, locale)} />;
}

type DateFieldProps = FieldCommon<string> & {
  /** Today, to resolve `tomorrow` and dates without a year. */
  readonly today: string;
  readonly earliest?: string;
  readonly latest?: string;
  /** The day on which something expires: a month alone is its last day. */
  readonly last?: boolean;
};

/** A date, entered or picked from the system's calendar. The value is `2026-05-12`. */
export function DateField({ today, earliest, latest, last = false, ...rest }: DateFieldProps) {
  const { locale } = useMeasure();
  const native = useRef<HTMLInputElement>(null);
  return (
    <Field
      {...rest}
      parse={(text) =>
        last
          ? parseLastDay(text, today, locale)
          : parseDay(text, today, locale, latest !== undefined && latest <= today ? 'past' : 'coming')
      }
      check={(day) =>
        latest !== undefined && day > latest
          ? `Enter ${formatDay(latest, 'dated', locale)} or earlier.`
          : earliest !== undefined && day < earliest
            ? `Enter ${formatDay(earliest, 'dated', locale)} or later.`
            : null
      }
      format={(day) => formatDay(day, 'field', locale)}
      within={(pick) => (
        <>
          <button
            type="button"
            className="field-pick"
            aria-label={`${rest.label}: calendar`}
            disabled={rest.disabled ?? false}
            onClick={() => native.current?.showPicker()}
          >
            <svg width="18" height="18" viewBox="0 0 18 18" aria-hidden="true">
              <path d="M1 4.5H17M1 4.5V17H17V4.5M5 1V7M13 1V7M1 10.5H17M6.5 10.5V17M11.5 10.5V17" fill="none" stroke="var(--ink)" />
            </svg>
          </button>
          <input
            ref={native}
            type="date"
            className="field-pick-native"
            tabIndex={-1}
            aria-hidden="true"
            value={rest.value ?? ''}
            max={latest}
            onChange={({ target }) => {
              if (target.value !== '' || rest.emptyMessage === undefined) pick(target.value === '' ? null : target.value);
            }}
          />
        </>
      )}
    />
  );
}

type MomentFieldProps = FieldCommon<string> & {
  readonly zone: string;
  readonly now: string;
  /** Set where the moment is on record already: a weekday alone is then the last one, not the next. */
  readonly past?: boolean;
};

/** Date and time in one field: `May 12 9:40 am`, `mon 8 am`, a time alone for today, or `end of May 12`. The value is an instant. */
export function MomentField({ zone, now, past = false, ...rest }: MomentFieldProps) {
  const { locale } = useMeasure();
  return (
    <Field
      {...rest}
      parse={(text) => parseMoment(text, now, zone, locale, past ? 'past' : 'coming')}
      format={(instant) => formatMoment(instant, now, zone, locale)}
    />
  );
}

const EARLIEST = 1500;

type YearFieldProps = FieldCommon<number> & {
  /** The earliest year, with the event that sets it. */
  readonly notBefore?: { readonly year: number; readonly event: string } | null;
};

/** A past year with 4 digits: when something was built or installed. */
export function YearField({ notBefore, ...props }: YearFieldProps) {
  return (
    <Field
      {...props}
      inputMode="numeric"
      parse={(text) => parseNumber(text)}
      check={(year) => yearProblem(year, new Date().getFullYear(), notBefore ?? null)}
      format={(year) => String(year)}
    />
  );
}

function yearProblem(year: number, thisYear: number, notBefore: YearFieldProps['notBefore']): string | null {
  if (!Number.isInteger(year) || year < EARLIEST || year > 9999)
    return 'Enter a year with 4 digits, such as 1951, or leave it blank if unknown.';
  const meant = year - 100;
  if (year > thisYear) return `${year} is in the future.${meant <= thisYear && meant >= EARLIEST ? ` Did you mean ${meant}?` : ''}`;
  return notBefore && year < notBefore.year
    ? `${year} is before ${notBefore.year}, when the building was ${notBefore.event}. Check both years.`
    : null;
}

/** Checks of entered text, with the messages of the record schemas. */
type Check = (text: string) => string | null;

const checkBy =
  (schema: typeof shortText): Check =>
  (text) =>
    schema.safeParse(text).error?.issues[0]?.message ?? null;

export const checkShort: Check = checkBy(shortText);
/** A name, which must not be empty. */
export const checkName: Check = checkBy(nameText);
export const checkLong: Check = checkBy(longText);

const checkEmail: Check = (text) => (text === '' || isEmails(text) ? checkShort(text) : 'Enter an email address, such as ann@example.com.');

const checkPhone: Check = (text) => (text === '' || isPhones(text) ? checkShort(text) : 'Enter a phone number, such as 555-0117.');
