import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { formatPercent } from '../../../shared-core/measure/percent.ts';
import type { Change } from '../../../shared-core/pour/advice.ts';
import type { PourClocks } from '../../../shared-core/pour/clocks.ts';
import type { PourModel } from '../../../shared-core/pour/crew-model.ts';
import type { PourOutlook } from '../../../shared-core/pour/outlook.ts';
import { seamWords } from '../../../shared-core/drawing/pour-edges.ts';
import { RangeMark } from '../../parts/RangeMark.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import type { PourRunsWork } from '../../workers/use-pour-runs.ts';
import { RunsPicture } from './RunsPicture.tsx';

interface RunsProps {
  readonly runs: PourRunsWork;
  /** Of the plan as it stands; null while it is being run. */
  readonly outlook: PourOutlook | null;
  readonly clocks: PourClocks;
  readonly model: PourModel;
  readonly onStart: () => void;
  /** Takes a change over into the plan. */
  readonly onTake: (change: Change) => void;
}

/** The pour run thousands of times with the crew's own spread of times, and what a change would buy. */
export function RunsPart({ runs, outlook, clocks, model, onStart, onTake }: RunsProps) {
  const { locale } = useMeasure();
  const { had, progress, problem } = runs;
  const minutes = (m: number) => formatDuration(m * 60, locale);
  const percent = (share: number) => formatPercent(share, share > 0 && share < 0.01 ? 1 : 0, locale);
  const advice = outlook === null ? null : (had?.advice ?? null);
  const spread = outlook?.finishMin;
  return (
    <section className="pour-list">
      <h2 className="speech">When things go as they go</h2>
      {outlook === null || spread === undefined ? (
        <p>
          The pour is being run four thousand times, every task as slow or as quick as it can be: how often an edge goes cold, and where.
        </p>
      ) : (
        <>
          <dl className="pour-outlook">
            <div>
              <dt>A cold joint</dt>
              <dd>
                {percent(outlook.coldJoint.share)} of pours
                {outlook.worstSeam !== null && outlook.coldJoint.share > 0 ? `, most often at ${seamWords(outlook.worstSeam.seam)}` : ''}
              </dd>
            </div>
            <div>
              <dt>A batch too old</dt>
              <dd>
                {percent(outlook.tooOld.share)} of pours, past {minutes(clocks.flowLifeMin)}
              </dd>
            </div>
            <div>
              <dt>Done in</dt>
              <dd>
                <RangeMark
                  leastText={minutes(spread.p10)}
                  mostText={minutes(spread.p90)}
                  at={spread.p90 > spread.p10 ? (spread.p50 - spread.p10) / (spread.p90 - spread.p10) : 0.5}
                  atText={`likely ${minutes(spread.p50)}`}
                />{' '}
                eight times in ten
              </dd>
            </div>
          </dl>
          <ul className="pour-advice">
            {outlook.waits.slice(0, 3).map((wait) => (
              <li key={wait.words}>
                {wait.words} {minutes(wait.meanMin)} in a pour, all together.
              </li>
            ))}
          </ul>
          <RunsPicture model={model} outlook={outlook} />
          {advice !== null && (
            <>
              <p>
                <strong>{advice.summary}</strong>
              </p>
              <ul className="pour-advice">
                {advice.better.slice(0, 3).map(({ judged, sentence }) => (
                  <li key={sentence} className="pour-advised">
                    <span>{sentence}</span>
                    <TextButton kind="plain" label={`Plan it so: ${judged.change.words}`} onPress={() => onTake(judged.change)}>
                      Plan it so
                    </TextButton>
                  </li>
                ))}
              </ul>
            </>
          )}
          <p className="caption">
            {formatNumber(outlook.runs, { most: 0 }, locale)} runs; task times are typical until you set your own. Once the changes are
            tried, the likely minutes go into the estimate.
          </p>
        </>
      )}
      {problem !== null && <p role="alert">{problem}</p>}
      {progress === null ? (
        outlook !== null && (
          <TextButton kind="outlined" onPress={onStart}>
            {advice === null ? 'Try what could be changed' : 'Try the changes again'}
          </TextButton>
        )
      ) : (
        <p className="pour-progress">
          <progress value={progress} max={1} aria-label="Changes tried" />
          <TextButton onPress={runs.stop}>Stop</TextButton>
        </p>
      )}
    </section>
  );
}
