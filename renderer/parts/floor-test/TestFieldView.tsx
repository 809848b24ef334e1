import { parseNumber } from '../../../shared-core/measure/number.ts';
import { CheckRow, SelectField } from '../Choices.tsx';
import { Field } from '../Field.tsx';
import { NumberField, PercentField, QuantityField } from '../Fields.tsx';
import type { TestField } from '../../../shared-core/substrate/test-kind.ts';

type Values = Readonly<Record<string, unknown>>;

interface TestFieldViewProps {
  readonly field: TestField;
  readonly values: Values;
  readonly layers: readonly { readonly value: string; readonly word: string }[];
  readonly onSet: (key: string, value: unknown) => void;
}

const numberIn = (values: Values, key: string): number | null => (typeof values[key] === 'number' ? values[key] : null);
const listIn = (values: Values, key: string): readonly unknown[] | null => (Array.isArray(values[key]) ? values[key] : null);
const numbersIn = (values: Values, key: string): number[] | null =>
  listIn(values, key)?.filter((value): value is number => typeof value === 'number') ?? null;
const wordsIn = (values: Values, key: string): string[] =>
  listIn(values, key)?.filter((value): value is string => typeof value === 'string') ?? [];

/** A field of a test form, by its type. */
export function TestFieldView({ field, values, layers, onSet }: TestFieldViewProps) {
  const hint = field.hint === undefined ? {} : { hint: field.hint };
  const onChange = (value: unknown): void => onSet(field.key, value);
  switch (field.as) {
    case 'quantity':
      return <QuantityField kind={field.kind} label={field.label} value={numberIn(values, field.key)} onChange={onChange} {...hint} />;
    case 'number':
      return (
        <NumberField
          label={field.label}
          unit={field.unit}
          least={field.least}
          most={field.most}
          value={numberIn(values, field.key)}
          onChange={onChange}
          {...hint}
        />
      );
    case 'drop':
      return (
        <div>
          <NumberField
            label={field.label}
            unit="s"
            least={0}
            most={3600}
            value={numberIn(values, field.key)}
            onChange={(seconds) => onChange(seconds ?? undefined)}
            {...hint}
          />
          <CheckRow
            dense
            label="Drop stayed"
            checked={values[field.key] === null}
            onChange={(stayed) => onChange(stayed ? null : undefined)}
          />
        </div>
      );
    case 'share':
      return <PercentField label={field.label} value={numberIn(values, field.key)} onChange={onChange} {...hint} />;
    case 'shares':
      return (
        <Field
          label={field.label}
          value={numbersIn(values, field.key)}
          parse={parseShares}
          format={(shares) => shares.map((share) => String(Math.round(share * 1000) / 10)).join(' ')}
          same={(a, b) => a.join() === b.join()}
          onChange={onChange}
          {...hint}
        />
      );
    case 'choice': {
      const value = values[field.key];
      const isNumber = typeof value === 'number';
      return (
        <SelectField
          label={field.label}
          value={isNumber || typeof value === 'string' ? String(value) : null}
          none="choose"
          options={field.options}
          onChange={(picked) => {
            onChange(picked === null ? null : isNumber ? Number(picked) : picked);
          }}
        />
      );
    }
    case 'layer':
      return (
        <SelectField
          label={field.label}
          value={typeof values[field.key] === 'string' ? String(values[field.key]) : null}
          none="top layer that stays"
          options={layers}
          onChange={onChange}
        />
      );
    case 'choices': {
      const chosen = wordsIn(values, field.key);
      return (
        <div>
          {field.options.map((option) => (
            <CheckRow
              key={option.value}
              dense
              label={option.word}
              checked={chosen.includes(option.value)}
              onChange={(on) => onChange(on ? [...chosen, option.value] : chosen.filter((c) => c !== option.value))}
            />
          ))}
        </div>
      );
    }
  }
}

/** Percentages separated by spaces. */
function parseShares(text: string): { ok: true; value: number[] } | { ok: false; message: string } {
  const shares: number[] = [];
  for (const part of text.trim().split(/[\s;]+/)) {
    const read = parseNumber(part.replace(/%$/, '').replace(/,$/, ''));
    if (!read.ok) return read;
    if (read.value < 0 || read.value > 150) return { ok: false, message: `${part}: enter a moisture content from 0 to 150%.` };
    shares.push(read.value / 100);
  }
  return { ok: true, value: shares };
}
