import type { Update } from '../../book/write.ts';
import {
  type Circumstances,
  type Fixture,
  type StructureSign,
  fixtureSchema,
  structureSignSchema,
} from '../../../shared-core/book/layer.ts';
import { formatListAnd } from '../../../shared-core/measure/list.ts';
import { FIXTURE_WORDS } from '../../../shared-core/prep/height-schedule.ts';
import { SIGN_WORDS } from '../../../shared-core/substrate/rules-structure.ts';
import { capital } from '../../../shared-core/measure/first-letter.ts';
import { CheckRow, SelectField } from '../../parts/Choices.tsx';
import { Fields, QuantityField, TextField } from '../../parts/Fields.tsx';
import { Folded } from '../../parts/Folded.tsx';

interface CircumstancesPartProps {
  readonly of: Circumstances;
  /** Whether the floor is suspended, so that a load allowance is asked for. */
  readonly isSuspended: boolean;
  readonly onChange: (update: Update<Circumstances>) => void;
}

type YesNo = 'belowGrade' | 'slopeToDrain' | 'outdoorsOrWet' | 'texturedCoating' | 'gasAppliance';
type Chosen = 'paintedTrim' | 'radiantHeat' | 'vaporRetarder' | YesNo;
type Choice<K extends Chosen> = {
  readonly key: K;
  readonly label: string;
  readonly options: readonly { readonly value: string; readonly word: string; readonly is: Circumstances[K] }[];
};
const choice = <K extends Chosen>(key: K, label: string, options: readonly [string, Circumstances[K]][]): Choice<K> => ({
  key,
  label,
  options: options.map(([word, is]) => ({ value: String(is), word, is })),
});
const yesNo = <K extends YesNo>(key: K, label: string): Choice<K> =>
  choice(key, label, [
    ['yes', true],
    ['no', false],
  ]);

/** Site conditions. An empty field counts as not checked. */
export function CircumstancesPart({ of, isSuspended, onChange }: CircumstancesPartProps) {
  const field = <K extends Chosen>({ key, label, options }: Choice<K>) => (
    <div id={`lift-circumstance-${key}`} key={key}>
      <SelectField
        label={label}
        value={of[key] === null ? null : String(of[key])}
        none="not checked"
        options={options}
        onChange={(picked) => {
          const found = options.find((o) => o.value === picked);
          onChange({ [key]: found === undefined ? null : found.is });
        }}
      />
    </div>
  );
  const sign = (of: StructureSign, on: boolean): void =>
    onChange((c) => {
      const others = (c.structureSigns ?? []).filter((s) => s !== of);
      return { ...c, structureSigns: on ? [...others, of] : others };
    });
  const fixture = (of: Fixture, on: boolean): void =>
    onChange((c) => {
      const others = c.fixtures.filter((f) => f !== of);
      return { ...c, fixtures: on ? [...others, of] : others };
    });
  return (
    <section aria-label="Site conditions" className="assess-part circumstances">
      <Fields>
        {field(
          choice('paintedTrim', 'Painted baseboard and trim', [
            ['none', 'none'],
            ['stays in place', 'stays-untouched'],
            ['to be removed or cut', 'to-be-disturbed'],
          ]),
        )}
        {of.paintedTrim === 'to-be-disturbed' && (
          <div id="lift-circumstance-baseboardHeightM">
            <QuantityField
              kind="depth"
              label="Baseboard height"
              placeholder="unknown"
              value={of.baseboardHeightM}
              onChange={(baseboardHeightM) => onChange({ baseboardHeightM })}
            />
          </div>
        )}
        {field(yesNo('texturedCoating', 'Textured coating'))}
        {field(
          choice('radiantHeat', 'Radiant floor heat', [
            ['none', 'none'],
            ['in the floor now', 'in-floor'],
            ['electric, in the pour', 'electric-in-pour'],
            ['tubing, in the pour', 'hydronic-in-pour'],
            ['unknown', 'unknown'],
          ]),
        )}
        {field(yesNo('belowGrade', 'Below grade'))}
        {field(
          choice('vaporRetarder', 'Vapor retarder', [
            ['present', 'present'],
            ['none', 'absent'],
            ['cannot be seen', 'unknown'],
          ]),
        )}
        {field(yesNo('slopeToDrain', 'Slopes to a drain or garage door'))}
        {field(yesNo('gasAppliance', 'Gas pilot, heater or appliance'))}
      </Fields>
      <Folded
        label="Wet use"
        holds={of.outdoorsOrWet === null ? 'not checked' : of.outdoorsOrWet ? 'outdoors or often wet' : 'dry, indoors'}
      >
        {field(yesNo('outdoorsOrWet', 'Outdoors or often wet'))}
      </Folded>
      {isSuspended && (
        <Folded
          label="Added load"
          holds={
            of.allowedExtraLoadPa === null
              ? 'allowance unknown'
              : `allowance entered${of.loadStatedBy === '' ? '' : `, ${of.loadStatedBy}`}`
          }
        >
          <Fields>
            <div id="lift-circumstance-allowedExtraLoadPa">
              <QuantityField
                kind="load"
                label="Added load allowed"
                placeholder="unknown"
                value={of.allowedExtraLoadPa}
                onChange={(allowedExtraLoadPa) => onChange({ allowedExtraLoadPa })}
              />
            </div>
            <div id="lift-circumstance-loadStatedBy">
              <TextField
                label="Allowance stated by"
                placeholder="engineer or plans, date"
                value={of.loadStatedBy}
                onChange={(loadStatedBy) => onChange({ loadStatedBy })}
              />
            </div>
          </Fields>
        </Folded>
      )}
      <Folded
        id="lift-circumstance-structureSigns"
        label="Structure"
        holds={of.structureSigns === null ? 'not checked' : markedWords(of.structureSigns.map((s) => SIGN_WORDS[s]))}
      >
        <div role="group" aria-label="Structure">
          <CheckRow
            dense
            label="Checked, none of these"
            checked={of.structureSigns?.length === 0}
            onChange={(on) => onChange({ structureSigns: on ? [] : null })}
          />
          {structureSignSchema.options.map((value) => (
            <CheckRow
              key={value}
              dense
              label={capital(SIGN_WORDS[value])}
              checked={of.structureSigns?.includes(value) === true}
              onChange={(on) => sign(value, on)}
            />
          ))}
        </div>
      </Folded>
      <Folded
        id="lift-circumstance-fixtures"
        label="Fixtures on this floor"
        holds={markedWords(of.fixtures.map((f) => FIXTURE_WORDS[f].name.toLowerCase()))}
      >
        <div role="group" aria-label="Fixtures on this floor">
          {fixtureSchema.options.map((value) => (
            <CheckRow
              key={value}
              dense
              label={FIXTURE_WORDS[value].name}
              checked={of.fixtures.includes(value)}
              onChange={(on) => fixture(value, on)}
            />
          ))}
        </div>
      </Folded>
    </section>
  );
}

const markedWords = (marked: readonly string[]): string => (marked.length === 0 ? 'none marked' : formatListAnd(marked));
