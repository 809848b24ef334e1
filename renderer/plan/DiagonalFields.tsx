import type { Update } from '../book/write.ts';
import { useState } from 'react';
import type { Plan } from '../../shared-core/book/plan-fields.ts';
import { formatLength } from '../../shared-core/measure/length-format.ts';
import { checkDiagonals } from '../../shared-core/plan/diagonals.ts';
import { QuantityField } from '../parts/Fields.tsx';
import { SelectField } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { useMeasure } from '../parts/use-measure.ts';

interface PlanPartProps {
  readonly plan: Plan;
  readonly change: (label: string, update: Update<Plan>) => void;
}

/** Diagonals measured to check the corners, each compared with the drawing. */
export function DiagonalFields({ plan, change }: PlanPartProps) {
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
            <li key={i} className="small">
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
