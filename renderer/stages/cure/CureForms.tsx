import { useState } from 'react';
import { nowInstant } from '../../book/moment.ts';
import { Fields } from '../../parts/Fields.tsx';
import { MomentField } from '../../parts/MomentField.tsx';
import { NumberField } from '../../parts/NumberField.tsx';
import { PercentField } from '../../parts/PercentField.tsx';
import { QuantityField } from '../../parts/QuantityField.tsx';
import { SelectField } from '../../parts/SelectField.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';

type OneReading = { readonly at: string; readonly tempC: number; readonly relativeHumidity: number | null };

/** A reading by hand. */
export function ReadingForm({
  now,
  zone,
  onKeep,
}: {
  readonly now: string;
  readonly zone: string;
  readonly onKeep: (readings: OneReading[]) => void;
}) {
  const [at, setAt] = useState<string | null>(null);
  const [tempC, setTempC] = useState<number | null>(null);
  const [humidity, setHumidity] = useState<number | null>(null);
  return (
    <div className="cure-reading">
      <Fields>
        <MomentField label="When" zone={zone} now={now} value={at} placeholder="now" onChange={setAt} />
        <QuantityField kind="temperature" label="Air" value={tempC} onChange={setTempC} />
        <PercentField label="Humidity" value={humidity} onChange={setHumidity} />
      </Fields>
      <TextButton
        kind="outlined"
        disabled={tempC === null}
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
  readonly method: 'slab-humidity' | 'moisture-dish' | 'carbide' | 'wood-moisture' | 'maker-method';
  readonly unit: 'share' | 'lb' | 'cm-percent';
  readonly limit: number | null;
};
const METHOD_WORDS: Readonly<Record<Method['method'], string>> = {
  'slab-humidity': 'humidity',
  'moisture-dish': 'dish',
  carbide: 'carbide',
  'wood-moisture': 'timber',
  'maker-method': 'the maker’s way',
};
const UNIT_WORDS: Readonly<Record<Method['unit'], string>> = { share: '%', lb: 'lb', 'cm-percent': 'CM-%' };

/** A test before covering. */
export function CoverTestForm({
  methods,
  by: owner,
  onKeep,
}: {
  readonly methods: readonly Method[];
  readonly by: string;
  readonly onKeep: (test: { method: Method['method']; value: number; unit: Method['unit']; by: string }) => void;
}) {
  const [picked, setPicked] = useState<Method['method']>(methods[0]?.method ?? 'maker-method');
  const [value, setValue] = useState<number | null>(null);
  const [by, setBy] = useState(owner);
  const method = methods.find((m) => m.method === picked) ?? methods[0];
  if (method === undefined) return null;
  return (
    <div className="cure-reading">
      <Fields>
        <SelectField
          label="By"
          value={picked}
          options={methods.map((m) => ({ value: m.method, word: METHOD_WORDS[m.method] }))}
          onChange={(m) => m !== null && setPicked(m)}
        />
        <NumberField label="Result" unit={UNIT_WORDS[method.unit]} least={0} most={100} value={value} onChange={setValue} />
        <TextField label="Tested by" value={by} onChange={setBy} />
      </Fields>
      <TextButton
        kind="outlined"
        disabled={value === null || by.trim() === ''}
        onPress={() => {
          if (value === null) return;
          onKeep({ method: method.method, value: method.unit === 'share' ? value / 100 : value, unit: method.unit, by: by.trim() });
          setValue(null);
        }}
      >
        Keep the test
      </TextButton>
    </div>
  );
}
