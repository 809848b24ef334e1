import { METHOD_NAMES } from '../../../shared-core/cure/clearance-method.ts';
import { useState } from 'react';
import type { ClearanceTest, CureReading } from '../../../shared-core/book/cure-record.ts';
import { formatInstant } from '../../../shared-core/measure/moment.ts';
import { nowInstant } from '../../book/command.ts';
import { Fields, MomentField, NumberField, PercentField, QuantityField, TextField } from '../../parts/Fields.tsx';
import { SelectField } from '../../parts/Choices.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

/** Error for a time that is not between the pour and now; null for a valid one. */
function momentProblem(
  instant: string | null,
  notBefore: string,
  now: string,
  say: { readonly zone: string; readonly locale: string },
): string | null {
  if (instant === null) return null;
  if (instant < notBefore) return `Enter a time after the pour, ${formatInstant(notBefore, say.zone, 'short', say.locale)}.`;
  return instant > now && instant > nowInstant() ? 'Enter a time that is not in the future.' : null;
}

interface ReadingFormProps {
  readonly now: string;
  readonly zone: string;
  /** The end of the pour; earlier readings do not affect the floor. */
  readonly notBefore: string;
  readonly onSave: (readings: CureReading[]) => void;
}

export function ReadingForm({ now, zone, notBefore, onSave }: ReadingFormProps) {
  const { locale } = useMeasure();
  const [instant, setInstant] = useState<string | null>(null);
  const [tempC, setTempC] = useState<number | null>(null);
  const [humidity, setHumidity] = useState<number | null>(null);
  const problem = momentProblem(instant, notBefore, now, { zone, locale });
  return (
    <div className="cure-form">
      <Fields>
        <MomentField label="Time" zone={zone} now={now} past value={instant} placeholder="Now" onChange={setInstant} />
        <QuantityField kind="temperature" label="Air temperature" value={tempC} onChange={setTempC} />
        <PercentField label="Humidity" value={humidity} onChange={setHumidity} />
      </Fields>
      {problem !== null && <p className="late">{problem}</p>}
      <TextButton
        kind="outlined"
        disabled={tempC === null || problem !== null}
        onPress={() => {
          if (tempC === null) return;
          onSave([{ instant: instant ?? nowInstant(), tempC, relativeHumidity: humidity }]);
          setInstant(null);
          setTempC(null);
          setHumidity(null);
        }}
      >
        Save
      </TextButton>
    </div>
  );
}

type Method = {
  readonly method: ClearanceTest['method'];
  readonly unit: ClearanceTest['unit'];
  /** Null while the flooring manufacturer's limit is not entered. */
  readonly limitWords: string | null;
};
const UNIT_WORDS: Readonly<Record<ClearanceTest['unit'], string>> = { share: '%', lb: 'lb', 'cm-percent': 'CM-%' };

interface ClearanceTestFormProps {
  readonly methods: readonly Method[];
  readonly by: string;
  readonly now: string;
  readonly zone: string;
  readonly notBefore: string;
  readonly onSave: (test: Pick<ClearanceTest, 'method' | 'value' | 'unit' | 'by' | 'takenAt' | 'note'>) => void;
}

/** A clearance test: method, result, tester and date. */
export function ClearanceTestForm({ methods, by: owner, now, zone, notBefore, onSave }: ClearanceTestFormProps) {
  const { locale } = useMeasure();
  const [picked, setPicked] = useState<ClearanceTest['method']>(methods[0]?.method ?? 'manufacturer-method');
  const [value, setValue] = useState<number | null>(null);
  const [by, setBy] = useState(owner);
  const [instant, setInstant] = useState<string | null>(null);
  const [note, setNote] = useState('');
  const method = methods.find((m) => m.method === picked) ?? methods[0];
  if (method === undefined) return null;
  const problem = momentProblem(instant, notBefore, now, { zone, locale });
  const limit = method.limitWords === null ? 'Limit on the flooring data sheet' : `Max ${method.limitWords}`;
  return (
    <div className="cure-form">
      <Fields>
        <SelectField
          label="Test method"
          value={method.method}
          options={methods.map((m) => ({ value: m.method, word: METHOD_NAMES[m.method] }))}
          onChange={setPicked}
        />
        {method.unit === 'share' ? (
          <PercentField label="Result" value={value} hint={limit} onChange={setValue} />
        ) : (
          <NumberField label="Result" unit={UNIT_WORDS[method.unit]} least={0} most={100} value={value} hint={limit} onChange={setValue} />
        )}
        <TextField label="Tested by" value={by} emptyMessage="Enter who did the test." onChange={setBy} />
        <MomentField label="Time" zone={zone} now={now} past value={instant} placeholder="Now" onChange={setInstant} />
      </Fields>
      <TextField label="Note" value={note} placeholder="Location of the hole" onChange={setNote} />
      {problem !== null && <p className="late">{problem}</p>}
      <TextButton
        kind="outlined"
        disabled={value === null || by.trim() === '' || problem !== null}
        onPress={() => {
          if (value === null) return;
          onSave({
            method: method.method,
            value,
            unit: method.unit,
            by: by.trim(),
            takenAt: instant ?? nowInstant(),
            note: note.slice(0, 200),
          });
          setValue(null);
          setNote('');
          setInstant(null);
        }}
      >
        Save
      </TextButton>
    </div>
  );
}
