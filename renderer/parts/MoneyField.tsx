import { formatMoney, parseMoney } from '../../shared-core/price/money.ts';
import { Field, type FieldCommon } from './Field.tsx';
import { useMeasure } from './use-measure.ts';

interface MoneyFieldProps extends FieldCommon<number> {
  /** ISO 4217 code. */
  readonly currency: string;
}

/** An amount, zero or more, in minor units. */
export function MoneyField({ currency, ...rest }: MoneyFieldProps) {
  const { locale } = useMeasure();
  return (
    <Field
      {...rest}
      inputMode="decimal"
      parse={(text) => {
        const read = parseMoney(text, currency, locale);
        return read.ok && read.value < 0 ? { ok: false, message: 'Enter an amount of 0 or more.' } : read;
      }}
      format={(minor) => formatMoney(minor, currency, locale)}
    />
  );
}
