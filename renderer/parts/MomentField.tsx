import { formatMoment, parseMoment } from '../../shared-core/measure/typed-moment.ts';
import { Field, type FieldCommon } from './Field.tsx';
import { useMeasure } from './use-measure.ts';

interface MomentFieldProps extends FieldCommon<string> {
  /** The zone whose clock is meant. */
  readonly zone: string;
  readonly now: string;
}

/** A day and a time in one line, `May 12 9:40 am`, or the time alone for today, or `end of May 12`; the value is an instant. */
export function MomentField({ zone, now, ...rest }: MomentFieldProps) {
  const { locale } = useMeasure();
  return (
    <Field
      {...rest}
      parse={(text) => parseMoment(text, now, zone, locale)}
      format={(instant) => formatMoment(instant, now, zone, locale)}
    />
  );
}
