import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import { FLOORING_NAME } from '../../../shared-core/cure/clearance-tests.ts';
import { formatDepth, formatLength } from '../../../shared-core/measure/length-format.ts';
import type { ExpectedFlatness } from '../../../shared-core/survey/expected-flatness.ts';
import type { ToleranceVerdict } from '../../../shared-core/survey/tolerances.ts';
import { stageHref } from '../../parts/job/stage-words.ts';
import { LinkWord } from '../../parts/LinkWord.tsx';
import { Reason, type ReasonWhy } from '../../parts/Reason.tsx';
import { StateShape } from '../../parts/StateShape.tsx';
import { BlockPart } from '../../parts/TitleBlock.tsx';
import { UnitText } from '../../parts/UnitText.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

const BECAUSE = {
  plane: 'The new floor is one plane.',
  follows: 'The new floor follows the old one and keeps its gaps.',
  proud: 'High spots stay above the finish elevation.',
} as const;

/** How flat the new floor is to be expected, and whether that is flat enough for what goes on it. */
export function FlatnessPart({ roomReading, jobId }: { readonly roomReading: RoomReading; readonly jobId: string }) {
  const { units, locale } = useMeasure();
  const flatness = roomReading.estimate?.flatness ?? null;
  if (flatness === null) return null;
  const depth = (m: number): string => formatDepth(m, units, locale);
  const { flooring } = roomReading.jobRoom;
  return (
    <BlockPart heading="Flatness to be expected">
      <p className="small">
        {BECAUSE[flatness.because]} Gaps up to{' '}
        <Reason why={why(flatness, depth, formatLength(flatness.spanM, units, locale))}>{depth(flatness.expectedM)}</Reason> under{' '}
        {formatLength(flatness.spanM, units, locale)}.
      </p>
      {flooring === null ? (
        <p className="small">
          What goes on it decides whether that will do.{' '}
          <LinkWord href={stageHref(jobId, 'assess', roomReading.room.id)}>Choose the covering</LinkWord>
        </p>
      ) : (
        <ul className="estimate-flat small">
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
  return (
    <li>
      <StateShape state={meets ? 'done' : 'waiting'} sizePx={15} />
      <div>
        <b>{meets ? 'Flat enough' : 'Not flat enough'}</b> for {flooring}:{' '}
        {checks.map(({ limit, gapM }, i) => (
          <span key={limit.text}>
            {i === 0 ? '' : rule.join === 'any' ? ' or ' : ', '}
            <UnitText>{limit.text}</UnitText> is asked, {depth(gapM)} expected
          </span>
        ))}
        . <cite>{rule.source}</cite>
      </div>
    </li>
  );
}

function why({ because, byPlanM, leftM, expectedM }: ExpectedFlatness, depth: (m: number) => string, span: string): ReasonWhy {
  return {
    what: `Widest gap under ${span} once poured`,
    inputs: [
      {
        name: because === 'follows' ? 'Gaps before the pour' : 'Gaps left by the level itself',
        value: byPlanM === 0 ? 'none' : depth(byPlanM),
        source: 'from the readings',
      },
      ...(leftM === 0 ? [] : [{ name: 'Left by pouring', value: depth(leftM), source: 'typical, common practice' }]),
    ],
    formula:
      because === 'follows'
        ? 'A thickness that follows the floor changes none of its gaps.'
        : `The gaps the level leaves and those of a pour whose edge stays wet, under another straightedge in proportion: ${depth(expectedM)}.`,
    source: 'common practice; the flooring manufacturer’s limit overrides it',
    range: null,
    more: 'Expected is not measured: read the floor again after the pour before it is covered.',
  };
}
