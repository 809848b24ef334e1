import { useState } from 'react';
import { type Flooring, flooringSchema } from '../../shared-core/book/flooring.ts';
import { type Milestone, type MilestoneKind, milestoneKindSchema } from '../../shared-core/book/material.ts';
import { FLOORING_NAME } from '../../shared-core/standing/cure-words.ts';
import type { EffectiveSheet, Span } from '../../shared-core/material/sheet.ts';
import { formatDepth } from '../../shared-core/measure/length-format.ts';
import { formatTemperature } from '../../shared-core/measure/temperature.ts';
import { capital } from '../../shared-core/measure/first-letter.ts';
import { Field } from '../parts/Field.tsx';
import { Fields, QuantityField } from '../parts/Fields.tsx';
import { SelectField } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { Form } from '../parts/Dialog.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { milestoneHours } from './powder-figures.ts';
import { MILESTONE_WORDS, SOURCE_WORDS } from './sheet-words.ts';

interface MilestonesPartProps {
  readonly sheet: EffectiveSheet;
  readonly onPut: (milestone: Milestone) => void;
  readonly onRemove: (milestone: Milestone) => void;
}

const sameSpan = (a: Span, b: Span): boolean => a.least === b.least && a.most === b.most;
const nameOf = (m: Milestone, depth: (m: number) => string): string =>
  m.kind === 'cover'
    ? `${m.flooring === null ? 'any flooring' : FLOORING_NAME[m.flooring]}${m.thicknessM === null ? '' : `, ${depth(m.thicknessM)}`}`
    : MILESTONE_WORDS[m.kind];

/** Hours after mixing until foot traffic, loads and flooring, by the data sheet. */
export function MilestonesPart({ sheet, onPut, onRemove }: MilestonesPartProps) {
  const { units, locale } = useMeasure();
  const depth = (m: number): string => formatDepth(m, units, locale);
  const strength = sheet.milestones.filter((m) => m.kind !== 'cover').sort((a, b) => a.hoursLeast - b.hoursLeast);
  const drying = sheet.milestones
    .filter((m) => m.kind === 'cover')
    .sort((a, b) => (a.flooring ?? '').localeCompare(b.flooring ?? '') || (a.thicknessM ?? 0) - (b.thicknessM ?? 0));
  const row = (m: Milestone) => (
    <MilestoneRow key={nameOf(m, depth)} milestone={m} name={capital(nameOf(m, depth))} onPut={onPut} onRemove={onRemove} />
  );
  return (
    <>
      <p className="caption">
        At {formatTemperature(sheet.referenceTempC.value, units, locale)}. Cure adjusts these hours for the room’s temperature and humidity.
      </p>
      <div className="milestone-columns">
        <div>
          <h3 className="caption">Cure times</h3>
          <ul className="figure-rows">{strength.map(row)}</ul>
        </div>
        <div>
          <h3 className="caption">Ready for flooring, by thickness</h3>
          <ul className="figure-rows">{drying.map(row)}</ul>
        </div>
      </div>
      <AddMilestone onPut={onPut} />
    </>
  );
}

interface MilestoneRowProps extends Omit<MilestonesPartProps, 'sheet'> {
  readonly milestone: Milestone;
  readonly name: string;
}

function MilestoneRow({ milestone, name, onPut, onRemove }: MilestoneRowProps) {
  const { locale } = useMeasure();
  const hours = milestoneHours(locale);
  const isTypical = milestone.source === 'typical';
  return (
    <li className="figure-row figure-row-delete">
      <Field<Span>
        label={name}
        typical={isTypical}
        value={{ least: milestone.hoursLeast, most: milestone.hoursMost }}
        emptyMessage="Enter hours or days. Delete the row if the data sheet gives none."
        parse={hours.read}
        format={(span) => hours.show(span)}
        same={(a, b) => !isTypical && sameSpan(a, b)}
        onChange={(span) => onPut({ ...milestone, hoursLeast: span.least, hoursMost: span.most, source: 'bag' })}
      />
      <span className={`figure-source${isTypical ? ' figure-typical' : ''}`}>{SOURCE_WORDS[milestone.source]}</span>
      {milestone.kind === 'cover' && (
        <TextButton kind="plain" label={`Delete ${name}`} onPress={() => onRemove(milestone)}>
          Delete
        </TextButton>
      )}
    </li>
  );
}

function AddMilestone({ onPut }: { readonly onPut: (milestone: Milestone) => void }) {
  const { locale } = useMeasure();
  const hours = milestoneHours(locale);
  const [kind, setKind] = useState<MilestoneKind>('cover');
  const [flooring, setFlooring] = useState<Flooring | null>(null);
  const [thicknessM, setThickness] = useState<number | null>(null);
  const [span, setSpan] = useState<Span | null>(null);
  const [asked, setAsked] = useState(false);
  const isCover = kind === 'cover';
  const add = (): void => {
    setAsked(true);
    if (span === null || (isCover && (flooring === null || thicknessM === null))) return;
    onPut({
      kind,
      flooring: isCover ? flooring : null,
      thicknessM: isCover ? thicknessM : null,
      hoursLeast: span.least,
      hoursMost: span.most,
      by: isCover ? 'drying' : 'strength',
      source: 'bag',
    });
    setSpan(null);
    setThickness(null);
    setAsked(false);
  };
  return (
    <details className="materials-more">
      <summary>Add hours from the data sheet</summary>
      <Form>
        <Fields>
          <SelectField
            label="Milestone"
            value={kind}
            options={milestoneKindSchema.options.map((value) => ({ value, word: capital(MILESTONE_WORDS[value]) }))}
            onChange={setKind}
          />
          {isCover && (
            <SelectField
              label="Flooring"
              value={flooring}
              options={flooringSchema.options.map((value) => ({ value, word: capital(FLOORING_NAME[value]) }))}
              onChange={setFlooring}
              problem={asked && flooring === null ? 'Choose the flooring.' : null}
            />
          )}
          {isCover && (
            <QuantityField
              kind="depth"
              label="Thickness"
              value={thicknessM}
              onChange={setThickness}
              check={(m) => (m > 0 ? null : 'Enter a thickness greater than 0.')}
              problem={asked && thicknessM === null ? 'Drying depends on thickness. Enter it as on the data sheet.' : null}
            />
          )}
          <Field<Span>
            label="Minimum and maximum hours"
            value={span}
            placeholder="12 to 16 h"
            parse={hours.read}
            format={(s) => hours.show(s)}
            same={sameSpan}
            onChange={setSpan}
            problem={asked && span === null ? 'Enter hours or days, such as 12 to 16 h.' : null}
          />
        </Fields>
        <TextButton kind="outlined" saves onPress={add}>
          Add hours
        </TextButton>
      </Form>
    </details>
  );
}
