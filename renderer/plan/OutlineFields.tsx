import type { Update } from '../book/write.ts';
import { useState } from 'react';
import type { Plan } from '../../shared-core/book/plan-fields.ts';
import { formatLength } from '../../shared-core/measure/length-format.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';
import { type BayKind, withBay, withCornerIn } from '../../shared-core/plan/edit-plan.ts';
import { wallOf } from '../../shared-core/plan/openings.ts';
import { QuantityField } from '../parts/Fields.tsx';
import { SelectField, ChoiceRow } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { checkDiagonals } from '../../shared-core/plan/diagonals.ts';

interface OutlineFieldsProps {
  readonly plan: Plan;
  readonly change: (label: string, update: Update<Plan>) => void;
}

const KIND_HINTS: Readonly<Record<BayKind, string>> = {
  'bump-out': 'Adds floor beyond the wall: a bay, an alcove, a closet.',
  notch: 'Takes floor out of the room: a chimney, a chase.',
};

/** The walls by number, with their lengths. */
export const wallOptions = (plan: Plan, units: UnitSystem, locale: string): { readonly value: string; readonly word: string }[] =>
  plan.outline.map((_, i) => ({ value: String(i), word: `${i + 1}, ${formatLength(wallOf(plan, i)?.lengthM ?? 0, units, locale)}` }));

/** Adds a bump-out, a notch or a corner to one wall. */
export function BayFields({ plan, change }: OutlineFieldsProps) {
  const { units, locale } = useMeasure();
  const [wall, setWall] = useState('0');
  const [kind, setKind] = useState<BayKind | 'corner'>('bump-out');
  const [fromM, setFrom] = useState<number | null>(null);
  const [widthM, setWidth] = useState<number | null>(null);
  const [deepM, setDeep] = useState<number | null>(null);
  const index = Number(wall);
  const lengthM = wallOf(plan, index)?.lengthM ?? 0;
  const isTooWide = fromM !== null && widthM !== null && fromM + widthM > lengthM + 1e-6;
  const canPut =
    kind === 'corner' ? fromM !== null && fromM > 0 && fromM < lengthM : fromM !== null && widthM !== null && deepM !== null && !isTooWide;
  const addShape = () => {
    if (fromM === null) return;
    if (kind === 'corner') change('corner', (now) => withCornerIn(now, index, fromM));
    else if (widthM !== null && deepM !== null) {
      change(kind, (now) => withBay(now, index, kind, { fromM, widthM, deepM }));
    }
    // The walls are renumbered, and the figures were of the old wall.
    for (const set of [setFrom, setWidth, setDeep]) set(null);
  };
  return (
    <section className="plan-part">
      <h3 className="caption">Edit one wall</h3>
      <ChoiceRow
        label="Add to the wall"
        options={{ 'bump-out': 'Bump-out', notch: 'Notch', corner: 'Corner' }}
        value={kind}
        onChange={setKind}
      />
      {kind !== 'corner' && <p className="small">{KIND_HINTS[kind]}</p>}
      <div className="fields plan-part">
        <SelectField label="Wall" value={wall} onChange={setWall} options={wallOptions(plan, units, locale)} />
        <QuantityField kind="wall" label={`From corner ${index + 1}`} value={fromM} onChange={setFrom} />
        {kind !== 'corner' && (
          <>
            <QuantityField
              kind="wall"
              label="Width"
              value={widthM}
              onChange={setWidth}
              problem={isTooWide ? `The wall is ${formatLength(lengthM, units, locale)} long.` : null}
            />
            <QuantityField kind="wall" label="Depth" value={deepM} onChange={setDeep} />
          </>
        )}
      </div>
      <div className="words">
        <TextButton disabled={!canPut} onPress={addShape}>
          Add
        </TextButton>
      </div>
    </section>
  );
}

/** Diagonals measured to check the corners, each compared with the drawing. */
export function DiagonalFields({ plan, change }: OutlineFieldsProps) {
  const { units, locale } = useMeasure();
  const [from, setFrom] = useState<string>('0');
  const [to, setTo] = useState<string>('2');
  const [lengthM, setLength] = useState<number | null>(null);
  const corners = plan.outline.map((_, i) => ({ value: String(i), word: `corner ${i + 1}` }));
  const checks = checkDiagonals(plan, units, locale);
  const isPair = from !== to && plan.outline[Number(from)] !== undefined && plan.outline[Number(to)] !== undefined;
  return (
    <section className="plan-part">
      <h3 className="caption">Check with a diagonal</h3>
      <ul className="stack">
        {plan.diagonals.map((diagonal, i) => {
          const check = checks.find((c) => c.from === diagonal.from && c.to === diagonal.to);
          return (
            <li key={`${i}/${plan.diagonals.length}`} className="small">
              Corner {diagonal.from + 1} to corner {diagonal.to + 1}: {formatLength(diagonal.lengthM, units, locale)}.{' '}
              {check === undefined ? null : check.message === null ? (
                <i>Matches the plan.</i>
              ) : (
                <span className="plan-message" role="status">
                  {check.message}
                </span>
              )}{' '}
              <TextButton
                kind="plain"
                label={`Delete the diagonal from corner ${diagonal.from + 1} to corner ${diagonal.to + 1}`}
                onPress={() => change('diagonal', (now) => ({ ...now, diagonals: now.diagonals.filter((_, k) => k !== i) }))}
              >
                Delete
              </TextButton>
            </li>
          );
        })}
      </ul>
      <div className="fields">
        <SelectField label="From" value={from} options={corners} onChange={setFrom} />
        <SelectField label="To" value={to} options={corners} onChange={setTo} />
        <QuantityField
          kind="wall"
          label="Measured"
          value={lengthM}
          disabled={!isPair}
          check={(m) => (m > 0 ? null : 'Enter a diagonal greater than 0.')}
          onChange={setLength}
        />
      </div>
      <div className="words">
        <TextButton
          disabled={!isPair || lengthM === null}
          onPress={() => {
            if (lengthM === null) return;
            change('diagonal', (now) => ({ ...now, diagonals: [...now.diagonals, { from: Number(from), to: Number(to), lengthM }] }));
            setLength(null);
          }}
        >
          Save
        </TextButton>
      </div>
    </section>
  );
}
