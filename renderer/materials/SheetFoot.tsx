import { countWords, plural } from '../../shared-core/measure/count-words.ts';
import { formatListAnd } from '../../shared-core/measure/list.ts';
import { isTypicalUse } from '../../shared-core/material/primer.ts';
import type { Material } from '../../shared-core/book/material.ts';
import { containerOf } from '../../shared-core/material/containers.ts';
import { formatYield } from '../../shared-core/measure/volume.ts';
import type { EffectiveSheet } from '../../shared-core/material/sheet.ts';
import { UnitText } from '../parts/UnitText.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { primerSays } from './PrimerPart.tsx';

interface SheetFootProps {
  readonly material: Material;
  readonly sheet: EffectiveSheet | null;
  /** Why the data sheet cannot be used in an estimate. */
  readonly problem: string | null;
}

/** What estimates use from the data sheet, in one sentence. */
export function SheetFoot({ material, sheet, problem }: SheetFootProps) {
  const { units, locale } = useMeasure();
  if (problem !== null) return <p className="speech">{problem}</p>;
  if (sheet === null) {
    const text =
      material.kind === 'primer'
        ? primerSays(material, units, locale)
        : `Estimates round up to whole ${plural(containerOf(material).name)}.`;
    return (
      <div className="materials-foot">
        <p className="speech">
          <UnitText>{text}</UnitText>
        </p>
        <p className="foot-more">
          {material.primer.some((use) => isTypicalUse(material, use)) || (material.primer.length === 0 && material.typical)
            ? 'Italic: typical (not from the data sheet). Enter the data sheet’s figure.'
            : 'You can edit every figure.'}
        </p>
      </div>
    );
  }
  const { typicalCount, typicalTimes } = sheet;
  const countOf = (n: number, noun: string): string[] => (n === 0 ? [] : [countWords(n, noun, locale)]);
  const typical = formatListAnd([...countOf(typicalCount, 'typical figure'), ...countOf(typicalTimes, 'typical time')]);
  return (
    <div className="materials-foot">
      <p className="speech">
        Estimates use <b>{formatYield(sheet.yieldM3.value, units, locale).replace(' ', '\u00a0')}</b> per bag.
        {typical !== '' && ` ${typical}.`}
      </p>
      <p className="foot-more">
        {typical === ''
          ? 'Every figure is from the data sheet.'
          : 'Dashed and italic: typical, not from the data sheet. Enter the data sheet’s figure and every open estimate is updated.'}
      </p>
    </div>
  );
}
