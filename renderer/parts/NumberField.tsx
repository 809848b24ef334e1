import { formatNumber, parseNumber } from '../../shared-core/measure/number.ts';
import { Field, type FieldCommon } from './Field.tsx';
import { useMeasure } from './use-measure.ts';

interface NumberFieldProps extends FieldCommon<number> {
  readonly least?: number;
  readonly most?: number;
  /** Whole numbers only, for bags and helpers. */
  readonly whole?: boolean;
  readonly decimals?: number;
}

export function NumberField({ least, most, whole = false, decimals = 2, ...rest }: NumberFieldProps) {
  const { locale } = useMeasure();
  const shown = (n: number) => formatNumber(n, { most: whole ? 0 : decimals }, locale);
  return (
    <Field
      {...rest}
      inputMode={whole ? 'numeric' : 'decimal'}
      format={shown}
      parse={(text) => {
        const read = parseNumber(text, locale);
        if (!read.ok) return read;
        if (whole && !Number.isInteger(read.value)) return { ok: false, message: 'Enter a whole number.' };
        if (least !== undefined && read.value < least) return { ok: false, message: `Enter ${shown(least)} or more.` };
        if (most !== undefined && read.value > most) return { ok: false, message: `Enter ${shown(most)} or less.` };
        return read;
      }}
    />
  );
}
