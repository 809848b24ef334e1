import { parseNumber } from '../../shared-core/measure/number.ts';
import type { Parsed } from '../../shared-core/measure/parsed.ts';
import { Field, type FieldCommon } from './Field.tsx';

const EARLIEST = 1500;

interface YearFieldProps extends FieldCommon<number> {
  /** The earliest year, with the event that sets it. */
  readonly notBefore?: { readonly year: number; readonly event: string } | null;
}

/** A past year with 4 digits: when something was built or installed. */
export function YearField({ notBefore, ...props }: YearFieldProps) {
  return (
    <Field
      {...props}
      inputMode="numeric"
      parse={(text) => readYear(text, new Date().getFullYear(), notBefore ?? null)}
      format={(year) => String(year)}
    />
  );
}

function readYear(text: string, thisYear: number, notBefore: YearFieldProps['notBefore']): Parsed<number> {
  const read = parseNumber(text);
  if (!read.ok) return read;
  const year = read.value;
  if (!Number.isInteger(year) || year < EARLIEST || year > 9999)
    return { ok: false, message: 'Enter a year with 4 digits, such as 1951, or leave it blank if unknown.' };
  if (year > thisYear)
    return {
      ok: false,
      message:
        year - 100 <= thisYear && year - 100 >= EARLIEST
          ? `${year} is in the future. Did you mean ${year - 100}?`
          : `${year} is in the future.`,
    };
  if (notBefore && year < notBefore.year)
    return { ok: false, message: `${year} is before ${notBefore.year}, when the building was ${notBefore.event}. Check both years.` };
  return read;
}
