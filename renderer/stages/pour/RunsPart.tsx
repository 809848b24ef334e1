import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { formatPercent } from '../../../shared-core/measure/percent.ts';
import type { Change } from '../../../shared-core/pour/advice.ts';
import type { PourClocks } from '../../../shared-core/pour/clocks.ts';
import type { PourModel } from '../../../shared-core/pour/crew-model.ts';
import type { PourOutlook } from '../../../shared-core/pour/outlook.ts';
import { joinWords } from '../../../shared-core/drawing/pour-edges.ts';
import { RangeMark } from '../../parts/RangeMark.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { type PourRunsWork, RUNS_SEED } from '../../workers/use-pour-runs.ts';
import { judgedWords, summaryWords } from './advice-words.ts';
import { waitWords } from './pour-mode-words.ts';
import { crewTimeline, placementBands } from '../../../shared-core/drawing/crew-timeline.ts';
import { timelineOf } from '../../../shared-core/pour/simulate.ts';
import { DrawingView, useSize } from '../../parts/DrawingView.tsx';

interface RunsProps {
  readonly runs: PourRunsWork;
  /** Result of the present plan; null during the simulation. */
  readonly outlook: PourOutlook | null;
  readonly clocks: PourClocks;
  readonly model: PourModel;
  /** Acceptable chance of a cold joint and of an old batch. */
  readonly chance: number;
  /** Whether the estimate uses the simulated duration, which is stored with the improvements. */
  readonly isEstimated: boolean;
  readonly onStart: () => void;
  readonly onTake: (change: Change) => void;
}

/** The pour simulated thousands of times with the crew's range of times, and what a change would improve. */
export function RunsPart({ runs, outlook, clocks, model, chance, isEstimated, onStart, onTake }: RunsProps) {
  const { units, locale } = useMeasure();
  const { result, progress, problem } = runs;
  const minutes = (m: number) => formatDuration(m * 60, locale);
  const percent = (share: number) => formatPercent(share, share > 0 && share < 0.01 ? 1 : 0, locale);
  const advice = outlook === null ? null : (result?.advice ?? null);
  const spread = outlook?.finishMin;
  return (
    <section className="stack">
      <h2 className="speech">Simulation</h2>
      {outlook === null || spread === undefined ? (
        <p>Simulating this pour 4,000 times to find how likely a cold joint is, and where.</p>
      ) : (
        <>
          <dl className="stack pour-outlook">
            <div>
              <dt>Cold joint</dt>
              <dd>
                {outlook.worstJoin !== null && outlook.coldJoint.share > 0
                  ? `${percent(outlook.coldJoint.share)} of pours, most often at ${joinWords(outlook.worstJoin.join)}`
                  : `${percent(outlook.coldJoint.share)} of pours`}
              </dd>
            </div>
            <div>
              <dt>Old batch</dt>
              <dd>{`${percent(outlook.tooOld.share)} of pours, past ${minutes(clocks.workingTimeMin)} working time`}</dd>
            </div>
            <div>
              <dt>Duration</dt>
              <dd>
                <RangeMark
                  leastText={minutes(spread.p10)}
                  mostText={minutes(spread.p90)}
                  value={spread.p90 > spread.p10 ? (spread.p50 - spread.p10) / (spread.p90 - spread.p10) : 0.5}
                  atText={`likely ${minutes(spread.p50)}`}
                />{' '}
                80% likely
              </dd>
            </div>
          </dl>
          <ul className="pour-advice">
            {outlook.waits.slice(0, 3).map((wait) => (
              <li key={waitWords(wait)}>{`${waitWords(wait)} ${minutes(wait.meanMin)} per pour on average.`}</li>
            ))}
          </ul>
          <RunsPicture model={model} outlook={outlook} />
          {advice !== null && (
            <>
              <p>
                <strong>{summaryWords(advice, chance, { units, locale })}</strong>
              </p>
              <ul className="pour-advice">
                {advice.better.slice(0, 3).map((judged) => {
                  const says = judgedWords(advice, judged, { units, locale });
                  return (
                    <li key={says} className="pour-advised">
                      <span>{says}</span>
                      <TextButton
                        kind="plain"
                        label={`Use this plan: ${says.slice(0, says.indexOf(':'))}`}
                        onPress={() => onTake(judged.change)}
                      >
                        Use this plan
                      </TextButton>
                    </li>
                  );
                })}
              </ul>
            </>
          )}
          <p className="caption">
            {`${formatNumber(outlook.runs, { most: 0 }, locale)} simulated pours. Task times are typical until you set your own. ${isEstimated ? 'The estimate uses the likely duration.' : 'Find improvements to use the likely duration in the estimate.'}`}
          </p>
        </>
      )}
      {problem !== null && <p role="alert">{problem}</p>}
      {progress === null ? (
        outlook !== null && (
          <TextButton kind="outlined" onPress={onStart}>
            {advice === null ? 'Find improvements' : 'Find improvements again'}
          </TextButton>
        )
      ) : (
        <p className="words pour-progress">
          <progress value={progress} max={1} aria-label="Simulation progress" />
          <TextButton onPress={runs.stop}>Cancel</TextButton>
        </p>
      )}
    </section>
  );
}

const BANDS_PX = 190;

/** Waiting times of the crew in one simulated pour, and the placing time of each batch over all of them. */
function RunsPicture({ model, outlook }: { readonly model: PourModel; readonly outlook: PourOutlook }) {
  const { ref, size } = useSize<HTMLDivElement>('runs');
  const line = timelineOf(model, RUNS_SEED, 0);
  return (
    <div ref={ref} className="stack">
      {size !== null && size.widthPx > 0 && (
        <>
          <h3 className="caption">One simulated pour: hatched is work, empty is waiting</h3>
          <DrawingView
            sizing="natural"
            label={`One simulated pour, one row per station: ${outlook.waits.map(waitWords).join(' ')}`}
            drawing={crewTimeline({
              widthPx: Math.max(340, size.widthPx),
              bars: line.bars,
              finishMin: Math.max(0, ...line.bars.map((b) => b.toMin)),
            })}
          />
          <h3 className="caption">All simulated pours: when each batch is placed, 80% likely</h3>
          <DrawingView
            sizing="natural"
            label="When each batch is placed: the band is 80% likely, the line is the median"
            drawing={placementBands({
              widthPx: Math.max(340, size.widthPx),
              heightPx: BANDS_PX,
              placedMin: outlook.batches.map((b) => b.placedMin),
            })}
          />
        </>
      )}
    </div>
  );
}
