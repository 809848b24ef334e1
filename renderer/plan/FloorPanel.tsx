import { formatListAnd } from '../../shared-core/measure/list.ts';
import type { Point } from '../../shared-core/book/fields.ts';
import { formatArea } from '../../shared-core/measure/area.ts';
import { formatDepth, formatLength } from '../../shared-core/measure/length-format.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';
import { formatPercent } from '../../shared-core/measure/percent.ts';
import { limitText, type ToleranceVerdict } from '../../shared-core/survey/tolerances.ts';
import { ChoiceRow, SelectField } from '../parts/Choices.tsx';
import { Reason } from '../parts/Reason.tsx';
import { StateShape } from '../parts/StateShape.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { UnitText } from '../parts/UnitText.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import type { Surveyed } from './readings-picture.ts';
import { DRAWN_HINT, SECTION_WORDS, type SectionChoice } from '../parts/section-lines.ts';
import { WorthPlaces } from './WorthPlaces.tsx';
import { ACI_117_CLASSES, type FNumbers, flatnessNumber, levelnessNumber } from '../../shared-core/survey/f-numbers.ts';

/** Lengths of common straightedges, m: 6 and 10 ft, 2 and 3 m. */
const STRAIGHTEDGES = { us: [1.8288, 3.048], metric: [2, 3] } as const;

interface FloorPanelProps {
  readonly surveyed: Surveyed;
  /** Places where another reading would reduce the uncertainty. */
  readonly worth: Surveyed['floor']['worthReading'];
  readonly count: number;
  readonly straightedgeM: number;
  readonly onStraightedge: (lengthM: number) => void;
  readonly sectionChoice: SectionChoice;
  readonly onSection: (choice: SectionChoice) => void;
  readonly onAim: (point: Point) => void;
}

/** The floor from its readings: high to low, flatness, and uncertainty. */
export function FloorPanel(props: FloorPanelProps) {
  const { surveyed, worth, count, straightedgeM, onStraightedge, sectionChoice, onSection, onAim } = props;
  const { units, locale } = useMeasure();
  const { floor, flatness } = surveyed;
  const depth = (m: number) => formatDepth(m, units, locale);
  const { worst } = flatness;
  return (
    <>
      <BlockPart>
        <dl className="plan-facts">
          <dt>High to low</dt>
          <dd>
            <Reason
              why={{
                figureName: 'High to low',
                inputs: [
                  { name: 'Readings', value: String(count) },
                  { name: 'Floor', value: formatArea(floor.areaM2, units, locale) },
                ],
                formula: 'The highest point of the floor minus the lowest, wall to wall.',
                source: 'Triangles between neighboring readings. Beyond them the elevation of the nearest reading is used.',
                range: null,
              }}
            >
              {depth(flatness.highToLowM)}
            </Reason>
          </dd>
          <dt>Area without readings</dt>
          <dd>
            <Reason
              why={{
                figureName: 'Share of the floor without readings',
                inputs: [{ name: 'Readings', value: String(count) }],
                formula:
                  'The part of the floor outside the outermost readings. Its elevation is taken from the nearest point between them.',
                source: 'Common practice: take readings as close to the walls as the rod reaches',
                range: null,
              }}
            >
              {formatPercent(floor.extrapolatedShare, 0, locale)}
            </Reason>
          </dd>
        </dl>
      </BlockPart>
      {floor.fNumbers !== null && <FNumbersPart numbers={floor.fNumbers} />}
      <BlockPart heading="Flatness">
        <ChoiceRow
          label="Straightedge"
          value={String(straightedgeM)}
          options={STRAIGHTEDGES[units].map((m) => ({
            value: String(m),
            word: units === 'us' ? `${Math.round(m / 0.3048)} ft straightedge` : `${m} m straightedge`,
          }))}
          onChange={(value) => onStraightedge(Number(value))}
        />
        <p className="plan-part" role="status">
          {worst.point === null ? (
            'No gap under the straightedge.'
          ) : (
            <>
              Max gap{' '}
              <Reason
                why={{
                  figureName: 'Max gap under the straightedge',
                  inputs: [
                    { name: 'Straightedge', value: formatLength(worst.spanM, units, locale) },
                    { name: 'Lines checked', value: formatNumber(flatness.linesLaid, { most: 0 }, locale) },
                  ],
                  formula:
                    'The straightedge is placed along lines in 8 directions, 1 ft apart, resting on the high points. The widest gap under it counts.',
                  source: '8 directions and 1 ft spacing are common practice',
                  range: null,
                }}
              >
                {depth(worst.gapM)}
              </Reason>
              , shown on the plan
              {worst.shorterThanSpan ? '; no line in this room is as long as the straightedge' : ''}.
            </>
          )}
        </p>
        <Verdicts
          verdicts={flatness.forFlooring.length > 0 ? flatness.forFlooring : flatness.all}
          forFlooring={flatness.forFlooring.length > 0}
        />
      </BlockPart>
      <BlockPart>
        <SelectField<SectionChoice>
          label="Section"
          value={sectionChoice}
          onChange={onSection}
          options={SECTION_WORDS}
          hint={sectionChoice === 'drawn' ? DRAWN_HINT : undefined}
        />
      </BlockPart>
      {worth.length > 0 && (
        <BlockPart heading="Most useful next readings">
          <WorthPlaces worth={worth} onAim={onAim} />
        </BlockPart>
      )}
    </>
  );
}

function Verdicts({ verdicts, forFlooring }: { readonly verdicts: readonly ToleranceVerdict[]; readonly forFlooring: boolean }) {
  const { units, locale } = useMeasure();
  return (
    <>
      <p className="caption plan-part">{forFlooring ? 'For the selected flooring' : 'No flooring is chosen: all published limits'}</p>
      <ul className="plan-list small">
        {verdicts.map(({ rule, meets, checks }) => (
          <li key={rule.key}>
            <StateShape state={meets ? 'done' : 'waiting'} sizePx={15} />
            <div>
              <b>{meets ? 'Meets' : 'Not met'}</b>: {rule.name}.{' '}
              <UnitText>
                {`${formatListAnd(checks.map((check) => `${limitText(check.limit, units)} (found ${formatDepth(check.gapM, units, locale)})`))}.`}
              </UnitText>{' '}
              <cite>{rule.source}</cite>
            </div>
          </li>
        ))}
      </ul>
    </>
  );
}

/** F-numbers of lines read every 12 in.: per line, combined, and the class they meet. */
function FNumbersPart({ numbers }: { readonly numbers: FNumbers }) {
  const { locale } = useMeasure();
  const f = (value: number | null) => (value === null ? 'none' : formatNumber(value, { most: 1 }, locale));
  const { flat, level, lines } = numbers;
  const reached = flat === null || level === null ? undefined : ACI_117_CLASSES.filter((c) => flat >= c.flat && level >= c.level).at(-1);
  return (
    <BlockPart heading="F-numbers, read every 12 in. along lines">
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
