import { useState } from 'react';
import { type FloorTest, type FloorTestKind, type Layer, testSchema } from '../../../shared-core/book/layer.ts';
import { type ArithmeticContext, testArithmetic } from '../../../shared-core/assess/test-arithmetic.ts';
import { LAYER_WORDS } from '../../../shared-core/substrate/layer-words.ts';
import { Dialog } from '../Dialog.tsx';
import { Fields, MomentField, TextField, NumberField, PercentField, QuantityField, ReadingsField } from '../Fields.tsx';
import { TextButton } from '../Buttons.tsx';
import { TEST_KINDS } from '../../../shared-core/substrate/test-kinds.ts';
import { CheckRow, SelectField } from '../Choices.tsx';
import type { TestField } from '../../../shared-core/substrate/test-kind.ts';
import { lowerFirst } from '../../../shared-core/measure/first-letter.ts';

/** Who measured, when and where. */
export type TestStamps = Pick<FloorTest, 'id' | 'takenAt' | 'by' | 'point' | 'note'>;

interface TestDialogProps {
  readonly kind: Exclude<FloorTestKind, 'lab'>;
  readonly stamps: TestStamps;
  readonly values: Readonly<Record<string, unknown>>;
  readonly layers: readonly Layer[];
  readonly context: ArithmeticContext;
  readonly zone: string;
  /** True for a new test, after which the next place can be measured. */
  readonly isNew: boolean;
  readonly onSave: (test: FloorTest) => void;
  /** Saves, and starts the next place with the same settings. */
  readonly onNext: (test: FloorTest, values: Readonly<Record<string, unknown>>) => void;
  readonly onClose: () => void;
}

/** One test with the fields of its method, and its result as it is entered. */
export function TestDialog(props: TestDialogProps) {
  const { kind, layers, context, zone, isNew, onSave, onNext, onClose } = props;
  const form = TEST_KINDS[kind].form;
  const [stamps, setStamps] = useState(props.stamps);
  const [values, setValues] = useState(props.values);
  const [problem, setProblem] = useState<string | null>(null);
  const typed = testSchema.safeParse({ ...stamps, kind, ...values });
  // The screen's clock updates once a minute, so a newer test is not in the future.
  const now = isNew && props.stamps.takenAt > context.now ? props.stamps.takenAt : context.now;
  const worked = typed.success ? testArithmetic(typed.data, { ...context, now }) : null;
  const readingKeys = form.again;
  const save = (then: (test: FloorTest) => void): void => {
    const missing =
      form.fields.find((field) => field.optional !== true && (values[field.key] === null || values[field.key] === undefined)) ??
      form.fields.find((field) => values[field.key] === undefined);
    if (missing !== undefined) return setProblem(`Enter a value for ${lowerFirst(missing.label)}.`);
    const nothingIn = (value: unknown): boolean => Array.isArray(value) && value.length === 0;
    const empty = form.fields.find((field) => field.as === 'choices' && nothingIn(values[field.key]));
    if (empty !== undefined) return setProblem('Select at least one condition, or cancel.');
    return typed.success ? then(typed.data) : setProblem(typed.error.issues[0]?.message ?? 'This test cannot be saved. Check each field.');
  };
  const next = (test: FloorTest): void =>
    onNext(test, { ...values, ...Object.fromEntries((readingKeys ?? []).map((key) => [key, form.begins[key] ?? null])) });
  return (
    <Dialog
      onClose={onClose}
      title={form.title}
      problem={problem}
      onSave={() => save(onSave)}
      extra={
        isNew &&
        readingKeys !== undefined && (
          <TextButton saves onPress={() => save(next)}>
            Save and add next
          </TextButton>
        )
      }
    >
      <p className="caption">{form.source}</p>
      <Fields>
        {form.fields.map((field) => (
          <TestFieldView
            key={field.key}
            field={field}
            values={values}
            layers={layers.map((layer) => ({ value: layer.id, word: LAYER_WORDS[layer.material] }))}
            onSet={(key, value) => {
              setProblem(null);
              setValues((now) => ({ ...now, [key]: value }));
            }}
          />
        ))}
      </Fields>
      <div className="test-worked" role="status">
        {worked?.sentences.map((line) => (
          <p key={line}>{line}</p>
        ))}
        {worked?.doesNotCount != null && (
          <p>
            <strong>Does not count.</strong> {worked.doesNotCount}
          </p>
        )}
        {worked?.questions
          .filter((question) => question !== worked.doesNotCount)
          .map((question) => (
            <p key={question} className="test-question">
              {question}
            </p>
          ))}
      </div>
      <Fields>
        <MomentField
          label="Measured"
          zone={zone}
          now={now}
          past
          value={stamps.takenAt}
          onChange={(takenAt) => setStamps((now) => ({ ...now, takenAt: takenAt ?? props.stamps.takenAt }))}
        />
        <TextField label="Tested by" value={stamps.by} onChange={(by) => setStamps((now) => ({ ...now, by }))} />
        <TextField label="Location or note" value={stamps.note} onChange={(note) => setStamps((now) => ({ ...now, note }))} />
      </Fields>
    </Dialog>
  );
}

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
function TestFieldView({ field, values, layers, onSet }: TestFieldViewProps) {
  const onChange = (value: unknown): void => onSet(field.key, value);
  switch (field.as) {
    case 'quantity':
      return (
        <QuantityField kind={field.kind} label={field.label} value={numberIn(values, field.key)} onChange={onChange} hint={field.hint} />
      );
    case 'number':
      return (
        <NumberField
          label={field.label}
          unit={field.unit}
          least={field.least}
          most={field.most}
          value={numberIn(values, field.key)}
          onChange={onChange}
          hint={field.hint}
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
            hint={field.hint}
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
      return <PercentField label={field.label} value={numberIn(values, field.key)} onChange={onChange} hint={field.hint} />;
    case 'shares':
      return <ReadingsField label={field.label} value={numbersIn(values, field.key)} most={150} onChange={onChange} hint={field.hint} />;
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
          none="Select"
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
