import type { Update } from '../book/write.ts';
import { useState } from 'react';
import type { Plan } from '../../shared-core/book/plan-fields.ts';
import { formatLength } from '../../shared-core/measure/length-format.ts';
import { withBay, withCornerIn } from '../../shared-core/plan/edit-plan.ts';
import { wallOf } from '../../shared-core/plan/openings.ts';
import { QuantityField } from '../parts/Fields.tsx';
import { SelectField, ChoiceRow } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { useMeasure } from '../parts/use-measure.ts';

interface BayFieldsProps {
  readonly plan: Plan;
  readonly change: (label: string, update: Update<Plan>) => void;
}

export function BayFields({ plan, change }: BayFieldsProps) {
  const { units, locale } = useMeasure();
  const [wall, setWall] = useState('0');
  const [kind, setKind] = useState<'alcove' | 'bump-out' | 'corner'>('alcove');
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
      change(kind, (now) => withBay(now, index, fromM, widthM, kind === 'alcove' ? deepM : -deepM));
    }
  };
  return (
    <section className="plan-part">
      <h3 className="caption">Edit one wall</h3>
      <ChoiceRow
        label="Add to the wall"
        options={{ alcove: 'Alcove', 'bump-out': 'Bump-out', corner: 'Corner' }}
        value={kind}
        onChange={setKind}
      />
      <div className="fields plan-part">
        <SelectField
          label="Wall"
          value={wall}
          onChange={setWall}
          options={plan.outline.map((_, i) => ({
            value: String(i),
            word: `${i + 1}, ${formatLength(wallOf(plan, i)?.lengthM ?? 0, units, locale)}`,
          }))}
        />
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
