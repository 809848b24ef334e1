import type { Circumstances } from '../../../shared-core/book/layer.ts';
import { Fields } from '../../parts/Fields.tsx';
import { QuantityField } from '../../parts/QuantityField.tsx';
import { SelectField } from '../../parts/SelectField.tsx';

interface CircumstancesPartProps {
  readonly of: Circumstances;
  readonly onChange: (how: (c: Circumstances) => Circumstances) => void;
}

type Choice<K extends keyof Circumstances> = {
  readonly key: K;
  readonly label: string;
  readonly options: readonly { readonly value: string; readonly word: string; readonly is: Circumstances[K] }[];
};
const choice = <K extends keyof Circumstances>(key: K, label: string, options: readonly [string, Circumstances[K]][]): Choice<K> => ({
  key,
  label,
  options: options.map(([word, is]) => ({ value: String(is), word, is })),
});
const yesNo = <K extends 'belowGrade' | 'slopeToDrain' | 'texturedCoating'>(key: K, label: string): Choice<K> =>
  choice(key, label, [
    ['yes', true],
    ['no', false],
  ]);
const present = <K extends 'vaporRetarder' | 'movementGap'>(key: K, label: string): Choice<K> =>
  choice(key, label, [
    ['there is one', 'present'],
    ['there is none', 'absent'],
    ['cannot be seen', 'unknown'],
  ]);

/** What no instrument reads. Left open is “not looked at”, and counts as such. */
export function CircumstancesPart({ of, onChange }: CircumstancesPartProps) {
  const field = <K extends keyof Circumstances>({ key, label, options }: Choice<K>) => (
    <div id={`lift-circumstance-${key}`} key={key}>
      <SelectField
        label={label}
        value={of[key] === null ? null : String(of[key])}
        none="not looked at"
        options={options}
        onChange={(picked) => {
          const found = options.find((o) => o.value === picked);
          onChange((c) => ({ ...c, [key]: found === undefined ? null : found.is }));
        }}
      />
    </div>
  );
  return (
    <section aria-label="Circumstances" className="assess-part circumstances">
      <Fields>
        {field(
          choice('paintedTrim', 'Painted skirting and trim', [
            ['none', 'none'],
            ['stays untouched', 'stays-untouched'],
            ['to be disturbed', 'to-be-disturbed'],
          ]),
        )}
        {field(yesNo('texturedCoating', 'Textured coating'))}
        {field(
          choice('radiantHeat', 'Heating in the floor', [
            ['none', 'none'],
            ['in the floor', 'in-floor'],
            ['not known', 'unknown'],
          ]),
        )}
        {field(yesNo('belowGrade', 'Below ground'))}
        {field(present('vaporRetarder', 'Vapor retarder'))}
        {field(present('movementGap', 'Gap at the walls'))}
        {field(yesNo('slopeToDrain', 'Falls to a drain'))}
        <div id="lift-circumstance-allowedExtraLoadPa">
          <QuantityField
            kind="load"
            label="More load allowed"
            placeholder="not asked"
            value={of.allowedExtraLoadPa}
            onChange={(allowedExtraLoadPa) => onChange((c) => ({ ...c, allowedExtraLoadPa }))}
          />
        </div>
        {of.paintedTrim === 'to-be-disturbed' && (
          <div id="lift-circumstance-paintDisturbedM2">
            <QuantityField
              kind="area"
              label="Paint disturbed"
              value={of.paintDisturbedM2}
              onChange={(paintDisturbedM2) => onChange((c) => ({ ...c, paintDisturbedM2 }))}
            />
          </div>
        )}
      </Fields>
    </section>
  );
}
