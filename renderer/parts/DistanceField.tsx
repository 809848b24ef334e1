import { parseDistance } from '../../shared-core/measure/distance.ts';
import { formatDistance } from '../../shared-core/measure/length-format.ts';
import { Field, type FieldCommon } from './Field.tsx';
import { useMeasure } from './use-measure.ts';

/** As far as a house may lie, kilometers: the book's own limit. */
const FARTHEST_KM = 5000;

/** A distance driven; the value is kilometers. */
export function DistanceField(props: FieldCommon<number>) {
  const { units, locale } = useMeasure();
  return (
    <Field
      {...props}
      inputMode="decimal"
      parse={(text) => {
        const read = parseDistance(text, units, locale);
        return read.ok && read.value > FARTHEST_KM
          ? { ok: false, message: `${text.trim()}: this is at most ${formatDistance(FARTHEST_KM, units, locale)}.` }
          : read;
      }}
      format={(km) => formatDistance(km, units, locale)}
    />
  );
}
