import type { PourReading } from '../../../shared-core/standing/read-pour.ts';
import { formatRunningClock } from '../../../shared-core/measure/duration.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { forecastPour, TYPICAL_SPREAD } from '../../../shared-core/pour/forecast.ts';
import type { PourRecordPlan, PourState } from '../../../shared-core/pour/pour-state.ts';
import { runOutOf } from '../../../shared-core/pour/run-out.ts';
import { RangeMark } from '../../parts/RangeMark.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { bagsWords } from '../../../shared-core/pour/log-words.ts';

interface FactsProps {
  readonly state: PourState;
  readonly plan: PourRecordPlan;
  readonly read: PourReading | null;
  /** Things to say that stop nothing. */
  readonly told: readonly string[];
}

/** Minutes to fetch bags, door to door: typical, common practice, no source. */
const TYPICAL_FETCH_MIN = 60;

/** The batch in hand with its age, and whether the bags will last. */
export function PourFacts({ state, plan, read, told }: FactsProps) {
  const { units, locale } = useMeasure();
  const hand = state.inHand[0];
  const more = state.inHand.length - 1;
  const forecast = forecastPour(plan, state, TYPICAL_SPREAD);
  const runOut =
    forecast === null || plan.layout === null
      ? null
      : runOutOf(plan.layout, state, forecast, {
          thinnestM: read?.thinnestM ?? 0,
          leastM: read?.leastM ?? 0,
          fetchMin: TYPICAL_FETCH_MIN,
          units,
          locale,
        });
  const words =
    forecast === null || forecast.unmarked === null
      ? told
      : [
          ...told,
          `More has landed than strip ${forecast.unmarked} holds: log a strip as finished when it is full, and the bags needed are right.`,
        ];
  const low = Math.floor(forecast?.needed.low ?? 0);
  const high = Math.ceil(forecast?.needed.high ?? 0);
  const lanes = plan.layout?.lanes.length ?? 0;
  return (
    <>
      {hand === undefined ? (
        <p className="pour-mode-hand">No batch is in hand. Batch {state.nextToMix} is next to be mixed.</p>
      ) : (
        <>
          <p className="pour-mode-hand pour-mode-wide">
            Batch {hand.number} is mixed: {bagsWords(hand.bags, locale)}.{more > 0 && ` ${more} more in hand.`}
          </p>
          <p className={`pour-mode-water${hand.tooOld ? ' pour-mode-late' : ''}`}>
            <strong>{formatRunningClock((hand.ageMin ?? 0) * 60)}</strong>{' '}
            {hand.tooOld ? 'since the water: too old, throw it out' : `since the water, of ${formatRunningClock(plan.flowLifeMin * 60)}`}
          </p>
        </>
      )}
      <div className="pour-mode-bags">
        {forecast === null ? (
          <p>
            <strong>{bagsWords(Math.max(0, state.bagsLeft), locale)}</strong> left. {bagsWords(state.bagsUsed, locale)} used.
          </p>
        ) : (
          <>
            <p>
              <strong>{bagsWords(Math.max(0, state.bagsLeft), locale)}</strong> left
              <span className="pour-mode-wide">{hand !== undefined && `, batch ${hand.number} counted`}</span>.{' '}
              {low === high ? high : `${low} to ${high}`} needed<span className="pour-mode-wide">:</span>
              <span className="pour-mode-small">.</span>
            </p>
            <div className="pour-mode-wide">
              <RangeMark
                leastText={formatNumber(low, { most: 0 }, locale)}
                mostText={formatNumber(high, { most: 0 }, locale)}
                at={high > low ? Math.min(1, Math.max(0, (state.bagsLeft - low) / (high - low))) : 1}
                atText={`${bagsWords(state.bagsLeft, locale)} left`}
              />
            </div>
            {runOut !== null && (
              <p className="pour-mode-runout">
                <strong>{runOut.head}</strong> {runOut.choices[0]?.words}
                <span className="pour-mode-wide">{runOut.choices.slice(1).map((choice) => ` Or: ${choice.words}`)}</span>
                {runOut.choices.length === 0 && (runOut.verdict === 'enough' ? 'The bags on site will do.' : runOut.words)}
              </p>
            )}
          </>
        )}
        <p className="pour-mode-wide pour-mode-lanes">
          {state.placed} {state.placed === 1 ? 'batch' : 'batches'} landed, {state.lanesDone.length} of {lanes} strips finished.
        </p>
      </div>
      {words.length > 0 && (
        <ul className="pour-mode-told" role="alert">
          {[...new Set(words)].slice(0, 2).map((one) => (
            <li key={one}>{one}</li>
          ))}
        </ul>
      )}
    </>
  );
}
