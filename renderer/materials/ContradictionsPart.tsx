import type { PowderSheet } from '../../shared-core/book/material.ts';
import { contradictionWords } from '../../shared-core/documents/material-words.ts';
import type { Contradiction } from '../../shared-core/material/contradictions.ts';
import { formatYieldNumber } from '../../shared-core/measure/volume.ts';
import { ChoiceRow } from '../parts/Choices.tsx';
import { StateShape } from '../parts/StateShape.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { UnitText } from '../parts/UnitText.tsx';
import { useMeasure } from '../parts/use-measure.ts';

interface ContradictionsPartProps {
  readonly found: readonly Contradiction[];
  readonly powder: PowderSheet;
  readonly onYieldBasis: (which: PowderSheet['yieldBasis']) => void;
  readonly onWeigh: () => void;
}

/** A weighed bag decides the yield, whichever figure of the data sheet was wrong. */
export function isSettled(found: Contradiction, powder: PowderSheet): boolean {
  return found.choices.length > 0 && powder.yieldBasis === 'measured' && powder.measuredYieldM3 !== null;
}

/** Figures of a data sheet that disagree: the calculation in words, and which figure to use. */
export function ContradictionsPart({ found, powder, onYieldBasis, onWeigh }: ContradictionsPartProps) {
  return found.map((one) => (
    <BlockPart key={`${one.kind} ${one.figures.join(' ')}`}>
      <Disagreement one={one} powder={powder} onYieldBasis={onYieldBasis} onWeigh={onWeigh} />
    </BlockPart>
  ));
}

type DisagreementProps = Omit<ContradictionsPartProps, 'found'> & { readonly one: Contradiction };

function Disagreement({ one, powder, onYieldBasis, onWeigh }: DisagreementProps) {
  const { units, locale } = useMeasure();
  const settled = isSettled(one, powder);
  const short = (m3: number): string => formatYieldNumber(m3, units, locale);
  const given = one.choices.flatMap((c) => (c.yieldBasis === 'measured' ? [] : [{ value: c.yieldBasis, word: short(c.yieldM3) }]));
  const weighed = powder.measuredYieldM3 === null ? 'weighed yield' : `${short(powder.measuredYieldM3)}, weighed`;
  return (
    <div className="contradiction">
      <StateShape state={settled ? 'done' : one.stops ? 'held' : 'under-way'} />
      <div className="contradiction-words">
        <h2 className="contradiction-head">
          {settled ? 'Settled by weighing' : one.figures.length === 1 ? 'Check this figure' : 'Two figures disagree'}
        </h2>
        <p className="small">
          <UnitText>{contradictionWords(one, units, locale)}</UnitText>
        </p>
        {given.length > 0 && (
          <ChoiceRow
            label="Yield used"
            value={powder.yieldBasis}
            options={[...given, { value: 'measured' as const, word: weighed }]}
            onChange={(which) => {
              if (which === 'measured' && powder.measuredYieldM3 === null) onWeigh();
              else onYieldBasis(which);
            }}
          />
        )}
      </div>
    </div>
  );
}
