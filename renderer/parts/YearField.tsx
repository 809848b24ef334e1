import { parseNumber } from '../../shared-core/measure/number.ts';
import { Field, type FieldCommon } from './Field.tsx';

const [EARLIEST, LATEST] = [1500, 2200];

/** A year, four digits, never grouped. */
export function YearField(props: FieldCommon<number>) {
  return (
    <Field
      {...props}
      inputMode="numeric"
      parse={(text) => {
        const read = parseNumber(text);
        if (!read.ok) return read;
        if (!Number.isInteger(read.value) || read.value < EARLIEST || read.value > LATEST)
          return { ok: false, message: 'A year is four digits, such as 1951. Leave it empty when nobody knows.' };
        return read;
      }}
      format={(year) => String(year)}
    />
  );
}
