import { Field, type FieldCommon } from './Field.tsx';
import { QUANTITY_KINDS, type QuantityKindName } from './quantity-kinds.ts';
import { useMeasure } from './use-measure.ts';

interface QuantityFieldProps extends FieldCommon<number> {
  readonly kind: QuantityKindName;
  /** What is wrong with a value that could be read, in a sentence, or null. */
  readonly check?: (value: number) => string | null;
}

/** A quantity typed the way people say it and read back the way they measure it; the value is SI. */
export function QuantityField({ kind, check, ...rest }: QuantityFieldProps) {
  const { units, locale } = useMeasure();
  const quantityKind = QUANTITY_KINDS[kind];
  return (
    <Field
      {...rest}
      parse={(text) => {
        const read = quantityKind.parse(text, units, locale);
        const message = read.ok ? (check?.(read.value) ?? null) : null;
        return message === null ? read : { ok: false, message };
      }}
      // The field shows its unit within the text, so that what is shown can be typed.
      format={(value) => quantityKind.format(value, units, locale)}
      // A bare number for a wall is feet: what it is taken as shows while it is typed.
      {...(kind === 'wall' ? { readAs: (value: number) => quantityKind.format(value, units, locale) } : {})}
      // A value read back from its own rounded text is the same value.
      same={(a, b) => a === b}
    />
  );
}
