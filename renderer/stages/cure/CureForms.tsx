import { useState } from 'react';
import type { ClearanceTest, CureReading } from '../../../shared-core/book/cure-record.ts';
import { formatInstant } from '../../../shared-core/measure/moment.ts';
import { nowInstant } from '../../book/moment.ts';
import { Fields } from '../../parts/Fields.tsx';
import { MomentField } from '../../parts/MomentField.tsx';
import { NumberField } from '../../parts/NumberField.tsx';
import { PercentField } from '../../parts/PercentField.tsx';
import { QuantityField } from '../../parts/QuantityField.tsx';
import { SelectField } from '../../parts/SelectField.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

/** A moment must lie between the pour and now; the sentence says which it does not. */
function momentProblem(
  at: string | null,
  notBefore: string,
  now: string,
  say: { readonly zone: string; readonly locale: string },
): string | null {
  if (at === null) return null;
  if (at < notBefore)
    return `That is before the pour was finished, ${formatInstant(notBefore, say.zone, 'short', say.locale)}: it says nothing about this floor.`;
  return at > now && at > nowInstant() ? 'That lies ahead of now: check the day and the time.' : null;
}

interface ReadingFormProps {
  readonly now: string;
  readonly zone: string;
  /** The end of the pour: earlier readings say nothing about the floor. */
  readonly notBefore: string;
  readonly onKeep: (readings: CureReading[]) => void;
}

/** A reading by hand. */
export function ReadingForm({ now, zone, notBefore, onKeep }: ReadingFormProps) {
  const { locale } = useMeasure();
  const [at, setAt] = useState<string | null>(null);
  const [tempC, setTempC] = useState<number | null>(null);
  const [humidity, setHumidity] = useState<number | null>(null);
  const problem = momentProblem(at, notBefore, now, { zone, locale });
  return (
    <div className="cure-form">
      <Fields>
        <MomentField label="When" zone={zone} now={now} value={at} placeholder="now" onChange={setAt} />
        <QuantityField kind="temperature" label="Air" value={tempC} onChange={setTempC} />
        <PercentField label="Humidity" value={humidity} onChange={setHumidity} />
      </Fields>
      {problem !== null && <p className="late">{problem}</p>}
      <TextButton
        kind="outlined"
        disabled={tempC === null || problem !== null}
        onPress={() => {
          if (tempC === null) return;
          onKeep([{ at: at ?? nowInstant(), tempC, relativeHumidity: humidity }]);
          setAt(null);
          setTempC(null);
          setHumidity(null);
        }}
      >
        Keep the reading
      </TextButton>
    </div>
  );
}

type Method = {
  readonly method: ClearanceTest['method'];
  readonly unit: ClearanceTest['unit'];
  /** Null while the limit of the covering's maker is not entered. */
  readonly limitWords: string | null;
};
export const METHOD_WORDS: Readonly<Record<ClearanceTest['method'], string>> = {
  'slab-humidity': 'In-slab RH (ASTM F2170)',
  'vapor-emission': 'Calcium chloride (ASTM F1869)',
  meter: 'Moisture meter (ASTM F2659)',
  'wood-moisture': 'Wood moisture content',
  'humidity-hood': 'Surface humidity hood',
  carbide: 'Carbide method',
  'manufacturer-method': 'Sealer data sheet method',
};
const UNIT_WORDS: Readonly<Record<ClearanceTest['unit'], string>> = { share: '%', lb: 'lb', 'cm-percent': 'CM-%' };

interface ClearanceTestFormProps {
  readonly methods: readonly Method[];
  readonly by: string;
  readonly now: string;
  readonly zone: string;
  readonly notBefore: string;
  readonly onKeep: (test: Pick<ClearanceTest, 'method' | 'value' | 'unit' | 'by' | 'takenAt' | 'note'>) => void;
}

/** A test before covering: by which method, what it showed, who made it and when. */
export function ClearanceTestForm({ methods, by: owner, now, zone, notBefore, onKeep }: ClearanceTestFormProps) {
  const { locale } = useMeasure();
  const [picked, setPicked] = useState<ClearanceTest['method']>(methods[0]?.method ?? 'manufacturer-method');
  const [value, setValue] = useState<number | null>(null);
  const [by, setBy] = useState(owner);
  const [at, setAt] = useState<string | null>(null);
  const [note, setNote] = useState('');
  const method = methods.find((m) => m.method === picked) ?? methods[0];
  if (method === undefined) return null;
  const problem = momentProblem(at, notBefore, now, { zone, locale });
  const limit = method.limitWords === null ? 'its limit stands on the covering’s sheet' : `at most ${method.limitWords}`;
  return (
    <div className="cure-form">
      <Fields>
        <SelectField
          label="Tested by way of"
          value={method.method}
          options={methods.map((m) => ({ value: m.method, word: METHOD_WORDS[m.method] }))}
          onChange={(m) => m !== null && setPicked(m)}
        />
        {method.unit === 'share' ? (
          <PercentField label="Result" value={value} hint={limit} onChange={setValue} />
        ) : (
          <NumberField label="Result" unit={UNIT_WORDS[method.unit]} least={0} most={100} value={value} hint={limit} onChange={setValue} />
        )}
        <TextField label="Tested by" value={by} emptyMessage="Say who made the test." onChange={setBy} />
        <MomentField label="When" zone={zone} now={now} value={at} placeholder="now" onChange={setAt} />
      </Fields>
      <TextField label="Note" value={note} placeholder="where the box stood" onChange={setNote} />
      {problem !== null && <p className="late">{problem}</p>}
      <TextButton
        kind="outlined"
        disabled={value === null || by.trim() === '' || problem !== null}
        onPress={() => {
          if (value === null) return;
          onKeep({ method: method.method, value, unit: method.unit, by: by.trim(), takenAt: at ?? nowInstant(), note: note.slice(0, 200) });
          setValue(null);
          setNote('');
          setAt(null);
        }}
      >
        Keep the test
      </TextButton>
    </div>
  );
}
