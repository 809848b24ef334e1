import { type DurationUnit, formatDuration, parseDuration } from '../../shared-core/measure/duration.ts';
import { Field, type FieldCommon } from './Field.tsx';
import { useMeasure } from './use-measure.ts';

interface DurationFieldProps extends FieldCommon<number> {
  /** The unit of a bare number. */
  readonly typedIn: DurationUnit;
}

/** A length of time; the value is in seconds. */
export function DurationField({ typedIn, ...rest }: DurationFieldProps) {
  const { locale } = useMeasure();
  return <Field {...rest} parse={(text) => parseDuration(text, typedIn, locale)} format={(seconds) => formatDuration(seconds, locale)} />;
}
