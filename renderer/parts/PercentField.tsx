import { formatPercent, parsePercent } from '../../shared-core/measure/percent.ts';
import { Field, type FieldCommon } from './Field.tsx';
import { useMeasure } from './use-measure.ts';

interface PercentFieldProps extends FieldCommon<number> {
  /** Limits in percent; 0 to 100 by default. */
  readonly least?: number;
  readonly most?: number;
  readonly decimals?: number;
}

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
