import { formatMoment, parseMoment } from '../../shared-core/measure/typed-moment.ts';
import { Field, type FieldCommon } from './Field.tsx';
import { useMeasure } from './use-measure.ts';

interface MomentFieldProps extends FieldCommon<string> {
  /** The IANA time zone of the entry. */
  readonly zone: string;
  readonly now: string;
  /** Set where the moment is on record already: a weekday alone is then the last one, not the next. */
  readonly past?: boolean;
}

/** Date and time in one field: `May 12 9:40 am`, `mon 8 am`, a time alone for today, or `end of May 12`. The value is an instant. */
export function MomentField({ zone, now, past = false, ...rest }: MomentFieldProps) {
  const { locale } = useMeasure();
  return (
    <Field
      {...rest}
      parse={(text) => parseMoment(text, now, zone, locale, past ? 'past' : 'coming')}
      format={(instant) => formatMoment(instant, now, zone, locale)}
    />
  );
}
