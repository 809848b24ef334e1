import { formatNumber } from '../../shared-core/measure/number.ts';
import { ACI_117_CLASSES, type FNumbers, flatnessNumber, levelnessNumber } from '../../shared-core/survey/f-numbers.ts';
import { BlockPart } from '../parts/Sheet.tsx';
import { useMeasure } from '../parts/use-measure.ts';

/** F-numbers of lines read every 12 in.: per line, combined, and the class they meet. */
export function FNumbersPart({ numbers }: { readonly numbers: FNumbers }) {
  const { locale } = useMeasure();
  const f = (value: number | null) => (value === null ? 'none' : formatNumber(value, { most: 1 }, locale));
  const { flat, level, lines } = numbers;
  const reached = flat === null || level === null ? undefined : ACI_117_CLASSES.filter((c) => flat >= c.flat && level >= c.level).at(-1);
  return (
    <BlockPart heading="F-numbers, along lines at 12 in">
      <dl className="plan-facts">
        {lines.map((line, i) => {
          const heights = line.heightsM.map((m) => m * 1000);
          return (
            <div key={line.readingIds.join()} className="plan-fact">
              <dt>
                Line {i + 1}, {line.readingIds.length} readings
              </dt>
              <dd>
                F<sub>F</sub> {f(flatnessNumber(heights, 'metric').f)}, F<sub>L</sub> {f(levelnessNumber(heights, 'metric').f)}
              </dd>
            </div>
          );
        })}
        <div className="plan-fact">
          <dt>
            <b>Combined</b>
          </dt>
          <dd>
            <b>
              F<sub>F</sub> {f(flat)}, F<sub>L</sub> {f(level)}
            </b>
          </dd>
        </div>
      </dl>
      <p className="small plan-part">
        {reached === undefined
          ? ''
          : `Reaches “${reached.name.toLowerCase()}” of ACI 117-10, overall ${reached.flat} and ${reached.level}. `}
        <cite>Based on ASTM E1155. If a contract depends on F-numbers, have them measured to the standard.</cite>
      </p>
    </BlockPart>
  );
}
