import { Field, type FieldCommon } from './Field.tsx';
import { QUANTITY_KINDS, type QuantityKindName } from '../../shared-core/measure/quantity-kinds.ts';
import { useMeasure } from './use-measure.ts';

interface QuantityFieldProps extends FieldCommon<number> {
  readonly kind: QuantityKindName;
  /** Checks a parsed value; returns an error or null. */
  readonly check?: (value: number) => string | null;
}

/** A quantity in the company's units; the value is SI. */
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
      // The text includes the unit, so that it can be edited as shown.
      format={(value) => quantityKind.format(value, units, locale)}
      // A bare number for a wall is feet; how it is understood shows while it is typed.
      {...(kind === 'wall' ? { readAs: (value: number) => quantityKind.format(value, units, locale) } : {})}
      // Parsing the rounded text again must not change the stored value.
      same={(a, b) => a === b}
    />
  );
}
