import { parseDistance } from '../../shared-core/measure/distance.ts';
import { formatDistance } from '../../shared-core/measure/length-format.ts';
import { Field, type FieldCommon } from './Field.tsx';
import { useMeasure } from './use-measure.ts';

/** Maximum distance to a property in the record, km. */
const FARTHEST_KM = 5000;

/** A driving distance. The value is in kilometers. */
export function DistanceField(props: FieldCommon<number>) {
  const { units, locale } = useMeasure();
  return (
    <Field
      {...props}
      inputMode="decimal"
      parse={(text) => {
        const read = parseDistance(text, units, locale);
        return read.ok && read.value > FARTHEST_KM
          ? { ok: false, message: `Enter a distance of ${formatDistance(FARTHEST_KM, units, locale)} or less.` }
          : read;
      }}
      format={(km) => formatDistance(km, units, locale)}
    />
  );
}
