import { useState } from 'react';
import { formatRunningClock } from '../../../shared-core/measure/duration.ts';
import { formatDepth } from '../../../shared-core/measure/length-format.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import type { PourForecast } from '../../../shared-core/pour/forecast.ts';
import { bagsWords } from '../../../shared-core/documents/log-words.ts';
import { gaugeAhead, isFlowTestDue } from '../../../shared-core/pour/pour-commands.ts';
import type { PourRecordPlan, PourState } from '../../../shared-core/pour/pour-state.ts';
import { type WorkClock, workClocks } from '../../../shared-core/pour/work-clock.ts';
import { RangeMark } from '../../parts/RangeMark.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import type { RunOutWords } from './pour-mode-words.ts';

interface FactsProps {
  readonly state: PourState;
  readonly plan: PourRecordPlan;
  readonly forecast: PourForecast | null;
  readonly runOut: RunOutWords | null;
  /** Sentences to act on, most urgent first. */
  readonly notices: readonly string[];
  /** Rooms whose lift only fills the deep places. */
  readonly deepRoomIds: readonly string[];
  /** Every planned batch is placed. */
  readonly isExtra: boolean;
}

/** The current batch with its age, and whether the bags will last. */
export function PourFacts({ state, plan, forecast, runOut, notices, deepRoomIds, isExtra }: FactsProps) {
  const { units, locale } = useMeasure();
  const hand = state.inHand[0];
  const more = state.inHand.length - 1;
  const low = Math.floor(forecast?.needed.low ?? 0);
  const high = Math.ceil(forecast?.needed.high ?? 0);
  const lanes = plan.layout?.lanes.length ?? 0;
  const words = [...new Set(notices)];
  // The oldest batch is spiked next; the newest is being spread.
  const clocks = workClocks(plan, state)
    .filter((clock, i) => i === 0 || clock.spreadLeftMin > 0)
    .slice(0, 2);
  const flow = isFlowTestDue(state) ? ' Run the flow test.' : '';
  const gaugeM = gaugeAhead(plan.layout, state, deepRoomIds);
  return (
    <>
      {hand === undefined ? (
        <p className="pour-mode-batch">
          {isExtra
            ? 'Every planned batch is placed. Finish under More, or mix an extra batch.'
            : `No mixed batch is waiting. Mix batch ${state.nextToMix} next.${flow}`}
        </p>
      ) : (
        <>
          <p className="pour-mode-batch pour-mode-wide">
            {`Batch ${hand.number} is mixed: ${bagsWords(hand.bags, locale)}.${more > 0 ? ` ${more} more mixed.` : ''}${flow}`}
          </p>
          <p className={`pour-mode-water${hand.tooOld ? ' pour-mode-late' : ''}`}>
            <strong>{formatRunningClock((hand.ageMin ?? 0) * 60)}</strong>{' '}
            {hand.tooOld ? 'since water: throw it out' : `since water, of ${formatRunningClock(plan.workingTimeMin * 60)}`}
          </p>
        </>
      )}
      {clocks.length > 0 && (
        <p className="pour-mode-work">
          {clocks.map((clock) => workWords(clock)).join(' ')}
          {gaugeM !== null && ` Gauge ${formatDepth(gaugeM, units, locale)}.`}
        </p>
      )}
      <div className="pour-mode-bags">
        {forecast === null ? (
          <p>
            <strong>{bagsWords(Math.max(0, state.bagsLeft), locale)}</strong> left. {bagsWords(state.bagsUsed, locale)} used.
          </p>
        ) : (
          <>
            <p>
              <strong>{bagsWords(Math.max(0, state.bagsLeft), locale)}</strong>{' '}
              {`left. ${low === high ? high : `${low} to ${high}`} needed.`}
            </p>
            <div className="pour-mode-wide">
              <RangeMark
                leastText={formatNumber(low, { most: 0 }, locale)}
                mostText={formatNumber(high, { most: 0 }, locale)}
                value={high > low ? Math.min(1, Math.max(0, (state.bagsLeft - low) / (high - low))) : 1}
                atText={`${bagsWords(state.bagsLeft, locale)} left`}
              />
            </div>
            {runOut !== null && (
              <p className="pour-mode-runout">
                <strong>{runOut.head}</strong>
                <span className="pour-mode-choices">
                  {` ${runOut.choices[0] ?? 'The bags will last.'}`}
                  <span className="pour-mode-wide">{runOut.choices.slice(1).map((words) => ` Or: ${words}`)}</span>
                </span>
              </p>
            )}
          </>
        )}
        <p className="pour-mode-wide pour-mode-lanes">
          {`${state.placed} ${state.placed === 1 ? 'batch' : 'batches'} placed, ${state.lanesDone.length} of ${lanes} lanes finished.`}
          {state.stack !== null &&
            state.stack.counted !== state.stack.byLog &&
            ` Stack counted: ${bagsWords(state.stack.counted, locale)}, log had ${bagsWords(state.stack.byLog, locale)}.`}
        </p>
      </div>
      {words.length > 0 && <Notices words={words} />}
    </>
  );
}

/** The notices. A low screen shows one whole, and the button goes to the next; a new most urgent one is shown at once. */
function Notices({ words }: { readonly words: readonly string[] }) {
  const [turn, setTurn] = useState({ first: words[0], at: 0 });
  const at = turn.first === words[0] ? turn.at % words.length : 0;
  return (
    <div className="pour-mode-messages">
      {/* Many notices scroll in their own box, so that buttons stay clear. */}
      <div className="pour-mode-message-box" role="alert" tabIndex={0}>
        <ul>
          {words.map((one, i) => (
            <li key={one} className={i === at ? 'pour-mode-message-shown' : undefined}>
              {one}
            </li>
          ))}
        </ul>
      </div>
      {words.length > 1 && (
        <button type="button" className="pour-mode-message-next" onClick={() => setTurn({ first: words[0], at: at + 1 })}>
          {`and ${words.length - 1} more`}
        </button>
      )}
    </div>
  );
}

/** Example: `Batch 7: spread 1:20, smooth 6:40.` Over mats or tubing nothing is spiked. */
function workWords({ batch, spreadLeftMin, spikeLeftMin }: WorkClock): string {
  const clock = (min: number): string => formatRunningClock(min * 60);
  return `Batch ${batch}: ${spreadLeftMin > 0 ? `spread ${clock(spreadLeftMin)}, ` : ''}smooth ${clock(spikeLeftMin)}.`;
}
