import { useState } from 'react';
import { CheckRow } from '../parts/CheckRow.tsx';
import { ChoiceRow } from '../parts/ChoiceRow.tsx';
import { ChoiceList } from '../parts/ChoiceList.tsx';
import { ClockField } from '../parts/ClockField.tsx';
import { DateField } from '../parts/DateField.tsx';
import { DurationField } from '../parts/DurationField.tsx';
import { Fields } from '../parts/Fields.tsx';
import { NumberField } from '../parts/NumberField.tsx';
import { PercentField } from '../parts/PercentField.tsx';
import { QuantityField } from '../parts/QuantityField.tsx';
import { SelectField } from '../parts/SelectField.tsx';
import { StateShape } from '../parts/StateShape.tsx';
import { TextField } from '../parts/TextField.tsx';
import { Shown } from './Shown.tsx';

export function FieldsGallery() {
  const [depth, setDepth] = useState<number | null>(0.009525);
  const [wall, setWall] = useState<number | null>(null);
  const [temp, setTemp] = useState<number | null>(17.8);
  const [share, setShare] = useState<number | null>(0.05);
  const [bags, setBags] = useState<number | null>(25);
  const [day, setDay] = useState<string | null>('2026-05-12');
  const [clock, setClock] = useState<string | null>('09:10');
  const [keeps, setKeeps] = useState<number | null>(600);
  const [name, setName] = useState('');
  const [notes, setNotes] = useState('');
  const [kind, setKind] = useState<'slab' | 'boards' | null>(null);
  const [result, setResult] = useState<'out' | 'none' | 'found' | null>('out');
  const [product, setProduct] = useState<string | null>('fine');
  const [signed, setSigned] = useState<ReadonlySet<string>>(new Set(['1']));
  const sign = (id: string, on: boolean) =>
    setSigned((signedIds) => new Set(on ? [...signedIds, id] : [...signedIds].filter((x) => x !== id)));
  return (
    <>
      <Shown name="Fields">
        <div className="gallery-wide">
          <Fields>
            <QuantityField kind="depth" label="Max grinding depth" value={depth} onChange={setDepth} />
            <QuantityField
              kind="length"
              label="Long wall"
              value={wall}
              onChange={setWall}
              placeholder="type it here"
              emptyMessage="Type how long the wall is, such as 12' 4 1/2&quot;."
              suggestion={{ value: 6.2484, text: '20′ 6″', why: 'the wall across from it' }}
            />
            <QuantityField
              kind="temperature"
              label="Air in the hall"
              value={temp}
              onChange={setTemp}
              under={
                <span className="gallery-pair">
                  <StateShape state="done" sizePx={15} /> 50 to 86 °F
                </span>
              }
            />
            <PercentField
              label="Lost in the bucket"
              value={share}
              onChange={setShare}
              typical
              hint="Typical; the bag’s own sheet replaces it."
            />
            <NumberField label="Bags" whole least={0} value={bags} onChange={setBags} />
            <NumberField label="Old bags" value={3} onChange={() => undefined} disabled />
            <NumberField
              label="Refused"
              value={3}
              onChange={() => undefined}
              problem="The record keeps at least 4: change the pour first."
            />
          </Fields>
          <Fields>
            <DateField label="Promised" value={day} onChange={setDay} today="2026-05-12" earliest="2026-05-01" />
            <ClockField label="Primed at" value={clock} onChange={setClock} />
            <DurationField label="Open edge" typedIn="minute" value={keeps} onChange={setKeeps} />
            <SelectField
              label="Floor"
              value={kind}
              onChange={setKind}
              none="not seen yet"
              options={[
                { value: 'slab', word: 'concrete on the ground' },
                { value: 'boards', word: 'boards on joists' },
              ]}
            />
          </Fields>
          <Fields wide>
            <TextField label="Name" value={name} onChange={setName} emptyMessage="A name is needed here." />
            <TextField label="Notes" long value={notes} onChange={setNotes} hint="SavedFile as you type." />
          </Fields>
        </div>
      </Shown>
      <Shown name="Choices">
        <div className="gallery-column">
          <ChoiceRow
            label="The lab’s answer"
            captioned
            value={result}
            onChange={setResult}
            options={[
              { value: 'out', word: 'Not back yet' },
              { value: 'none', word: 'None found' },
              { value: 'found', word: 'Found' },
            ]}
          />
          <ChoiceList
            label="Material"
            value={product}
            onChange={setProduct}
            options={[
              { id: 'fine', word: 'Self-leveling underlayment, fine', right: '14 bags here' },
              { id: 'deep', word: 'Self-leveling underlayment, deep', right: 'none here' },
              { id: 'top', word: 'Self-leveling topping (wear surface)', right: 'no sheet yet' },
            ]}
          />
        </div>
        <div className="gallery-column">
          {[
            { id: '1', label: 'Clear, and cover the dining hall’s boards', because: 'the way in is through it', right: '7:20' },
            { id: '2', label: 'Dam three openings', because: 'two floors lie lower', right: 'now' },
          ].map((row) => (
            <CheckRow
              key={row.id}
              task
              dense
              mark={row.id}
              label={row.label}
              because={row.because}
              right={row.right}
              checked={signed.has(row.id)}
              onChange={(on) => sign(row.id, on)}
            />
          ))}
          <CheckRow label="Sound at each batch" checked={signed.has('s')} onChange={(on) => sign('s', on)} />
        </div>
      </Shown>
    </>
  );
}
