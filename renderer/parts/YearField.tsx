import { parseNumber } from '../../shared-core/measure/number.ts';
import type { Parsed } from '../../shared-core/measure/parsed.ts';
import { Field, type FieldCommon } from './Field.tsx';

const EARLIEST = 1500;

interface YearFieldProps extends FieldCommon<number> {
  /** A year this one cannot come before, and what happened in it. */
  readonly notBefore?: { readonly year: number; readonly what: string } | null;
}

/** A year gone by, four digits, never grouped: when something was built or laid. */
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
    return { ok: false, message: 'A year is four digits, such as 1951. Leave it empty when nobody knows.' };
  if (year > thisYear)
    return {
      ok: false,
      message: `${year} is still to come${year - 100 <= thisYear && year - 100 >= EARLIEST ? `: did you mean ${year - 100}?` : '.'}`,
    };
  if (notBefore && year < notBefore.year)
    return { ok: false, message: `${year} is before the house was ${notBefore.what}, ${notBefore.year}. Put the wrong one right.` };
  return read;
}
