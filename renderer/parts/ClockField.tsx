import { formatClockTime, parseClockTime } from '../../shared-core/measure/clock-time.ts';
import { Field, type FieldCommon } from './Field.tsx';
import { useMeasure } from './use-measure.ts';

/** A time of day; the value is `18:00`. */
export function ClockField(props: FieldCommon<string>) {
  const { locale } = useMeasure();
  return <Field {...props} parse={parseClockTime} format={(clock) => formatClockTime(clock, locale)} />;
}
