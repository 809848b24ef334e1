import { formatListAnd, formatListOr } from '../../../shared-core/measure/list.ts';
import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import { FLOORING_NAME } from '../../../shared-core/standing/cure-words.ts';
import { formatDepth, formatLength } from '../../../shared-core/measure/length-format.ts';
import type { ExpectedFlatness } from '../../../shared-core/survey/expected-flatness.ts';
import { limitText, type ToleranceVerdict } from '../../../shared-core/survey/tolerances.ts';
import { stageHref } from '../../parts/job/stage-words.ts';
import { LinkWord } from '../../parts/Buttons.tsx';
import { Reason, type ReasonWhy } from '../../parts/Reason.tsx';
import { StateShape } from '../../parts/StateShape.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { UnitText } from '../../parts/UnitText.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

const BECAUSE = {
  plane: 'The new floor is one plane.',
  follows: 'The new floor follows the old one and keeps its gaps.',
  proud: 'High spots stay above the finish elevation.',
} as const;

/** The expected flatness, and whether it is enough for the flooring. */
export function FlatnessPart({ roomReading, jobId }: { readonly roomReading: RoomReading; readonly jobId: string }) {
  const { units, locale } = useMeasure();
  const flatness = roomReading.estimate?.flatness ?? null;
  if (flatness === null) return null;
  const depth = (m: number): string => formatDepth(m, units, locale);
  const { flooring } = roomReading.jobRoom;
  return (
    <BlockPart heading="Expected flatness">
      <p className="small">
        {BECAUSE[flatness.because]} Max gap under {formatLength(flatness.spanM, units, locale)}:{' '}
        <Reason why={why(flatness, depth, formatLength(flatness.spanM, units, locale))}>{depth(flatness.expectedM)}</Reason>.
      </p>
      {flooring === null ? (
        <p className="small">
          The flooring sets the limit. <LinkWord href={stageHref(jobId, 'assess', roomReading.room.id)}>Choose the flooring</LinkWord>
        </p>
      ) : (
        <ul className="below estimate-flat small">
          {flatness.forFlooring.map((verdict) => (
            <Verdict key={verdict.rule.key} verdict={verdict} flooring={FLOORING_NAME[flooring]} depth={depth} />
          ))}
        </ul>
      )}
    </BlockPart>
  );
}

interface VerdictProps {
  readonly verdict: ToleranceVerdict;
  readonly flooring: string;
  readonly depth: (m: number) => string;
}

function Verdict({ verdict: { rule, meets, checks }, flooring, depth }: VerdictProps) {
  const { units } = useMeasure();
  const limitTexts = checks.map(({ limit, gapM }) => `${limitText(limit, units)} (expected ${depth(gapM)})`);
  return (
    <li>
      <StateShape state={meets ? 'done' : 'waiting'} sizePx={15} />
      <div>
        <b>{meets ? 'Flat enough' : 'Not flat enough'}</b> for {flooring}.{' '}
        <UnitText>{`${rule.join === 'any' ? 'Any' : 'All'} of these limits: ${rule.join === 'any' ? formatListOr(limitTexts) : formatListAnd(limitTexts)}.`}</UnitText>{' '}
        <cite>{rule.source}</cite>
      </div>
    </li>
  );
}

function why({ because, byPlanM, leftM, expectedM }: ExpectedFlatness, depth: (m: number) => string, span: string): ReasonWhy {
  return {
    figureName: `Max gap under ${span} after the pour`,
    inputs: [
      {
        name: because === 'follows' ? 'Gaps before the pour' : 'Gaps left by the finish elevation',
        value: byPlanM === 0 ? 'none' : depth(byPlanM),
        source: 'from the readings',
      },
      ...(leftM === 0 ? [] : [{ name: 'Gaps left by pouring', value: depth(leftM), source: 'typical, common practice' }]),
    ],
    formula:
      because === 'follows'
        ? 'A uniform layer keeps the gaps of the floor.'
        : `Gaps left by the finish elevation plus those of a pour with a wet edge, in proportion for other straightedges: ${depth(expectedM)}.`,
    source: 'common practice; the flooring manufacturer’s limit overrides it',
    range: null,
    more: 'This is expected, not measured. Take readings after the pour, before the flooring.',
  };
}
