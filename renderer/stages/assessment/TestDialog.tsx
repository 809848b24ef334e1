import { useState } from 'react';
import { type FloorTest, type FloorTestKind, testSchema } from '../../../shared-core/book/layer.ts';
import { parseNumber } from '../../../shared-core/measure/number.ts';
import { CheckRow } from '../../parts/CheckRow.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { Field } from '../../parts/Field.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { Notice } from '../../parts/Notice.tsx';
import { NumberField } from '../../parts/NumberField.tsx';
import { PercentField } from '../../parts/PercentField.tsx';
import { QuantityField } from '../../parts/QuantityField.tsx';
import { SelectField } from '../../parts/SelectField.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TEST_FORMS, type TestField } from './test-forms.ts';

interface TestDialogProps {
  readonly kind: Exclude<FloorTestKind, 'laboratory'>;
  readonly stamps: Pick<FloorTest, 'id' | 'takenAt' | 'by' | 'at' | 'note'>;
  readonly values: Readonly<Record<string, unknown>>;
  readonly onKeep: (test: FloorTest) => void;
  readonly onClose: () => void;
}

type Values = Readonly<Record<string, unknown>>;
const numberIn = (values: Values, key: string): number | null => (typeof values[key] === 'number' ? values[key] : null);

/** One test entered, with what its method asks. */
export function TestDialog({ kind, stamps, values: first, onKeep, onClose }: TestDialogProps) {
  const form = TEST_FORMS[kind];
  const [values, setValues] = useState<Values>(first);
  const [problem, setProblem] = useState<string | null>(null);
  const set = (key: string, value: unknown): void => setValues((now) => ({ ...now, [key]: value }));
  const keep = (): void => {
    const missing = form.fields.find((field) => field.optional !== true && (values[field.key] === null || values[field.key] === undefined));
    if (missing !== undefined) {
      setProblem(`${missing.label}: a reading is needed here. Without it the test is missing, not passed.`);
      return;
    }
    const read = testSchema.safeParse({ ...stamps, kind, ...values });
    if (read.success) onKeep(read.data);
    else setProblem(read.error.issues[0]?.message ?? 'This test cannot be read.');
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title={form.title}
      actions={
        <>
          <TextButton onPress={onClose}>Back</TextButton>
          <TextButton kind="outlined" onPress={keep}>
            Keep the test
          </TextButton>
        </>
      }
    >
      <p className="caption">{form.source}</p>
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      <Fields>
        {form.fields.map((field) => (
          <OneField key={field.key} field={field} values={values} onSet={set} />
        ))}
      </Fields>
    </Dialog>
  );
}

function OneField({
  field,
  values,
  onSet,
}: {
  readonly field: TestField;
  readonly values: Values;
  readonly onSet: (key: string, value: unknown) => void;
}) {
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
    case 'share':
      return <PercentField label={field.label} value={numberIn(values, field.key)} onChange={onChange} {...hint} />;
    case 'shares':
      return (
        <Field
          label={field.label}
          value={Array.isArray(values[field.key]) ? (values[field.key] as number[]) : null}
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
          value={String(value)}
          options={field.options}
          onChange={(picked) => {
            if (picked !== null) onChange(isNumber ? Number(picked) : picked);
          }}
        />
      );
    }
    case 'choices': {
      const chosen = Array.isArray(values[field.key]) ? (values[field.key] as string[]) : [];
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

/** Percents one after another. */
function parseShares(text: string): { ok: true; value: number[] } | { ok: false; message: string } {
  const shares: number[] = [];
  for (const part of text.trim().split(/[\s;]+/)) {
    const read = parseNumber(part.replace(/%$/, '').replace(/,$/, ''));
    if (!read.ok) return read;
    if (read.value < 0 || read.value > 150)
      return { ok: false, message: `${part}: moisture of timber lies between 0 and 150 %. Did a decimal point slip?` };
    shares.push(read.value / 100);
  }
  return { ok: true, value: shares };
}
