import { useEffect, useRef, useState } from 'react';
import { useLocation } from 'wouter';
import type { PourReading } from '../../../shared-core/standing/read-pour.ts';
import type { Pour, PourEvent } from '../../../shared-core/book/pour-record.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { formatInstantTime } from '../../../shared-core/measure/moment.ts';
import { placedEntry, mixedEntry, laneFinishedEntry, undoEntry } from '../../../shared-core/pour/pour-commands.ts';
import { pourState, type PourRecordPlan } from '../../../shared-core/pour/pour-state.ts';
import { nowInstant } from '../../book/moment.ts';
import { closePour } from '../../book/pour-commands.ts';
import { keepSetting, useSetting } from '../../book/settings.ts';
import { stageHref } from '../../parts/job/stage-words.ts';
import { PourButton } from '../../parts/PourButton.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';
import { EdgeClock, EdgeDatum } from './EdgeClock.tsx';
import { PourAsk } from './PourAsk.tsx';
import { PourElse } from './PourElse.tsx';
import { PourFacts } from './PourFacts.tsx';
import { PourModePlan } from './PourModePlan.tsx';
import { entryWords } from '../../../shared-core/pour/log-words.ts';
import { useAwake } from './use-awake.ts';
import { useGap } from './use-gap.ts';
import { usePourKeys } from './use-pour-keys.ts';
import { usePourLog } from './use-pour-log.ts';
import { useTick } from './use-tick.ts';
import { useTone } from './use-tone.ts';

const TICK_MS = 500;

interface RunningProps {
  readonly pour: Pour;
  readonly events: readonly PourEvent[];
  readonly whole: WholeJob;
  /** Null while the plan cannot be read; the log is kept all the same. */
  readonly read: PourReading | null;
  readonly plan: PourRecordPlan;
  /** Why there is no plan to go by. */
  readonly trouble: string | null;
  /** What the pour's journal gave back, or that it cannot be written. */
  readonly journalSays: string | null;
}

/** The running pour. */
export function PourRunning({ pour, events, whole, read, plan, trouble, journalSays }: RunningProps) {
  const { locale } = useMeasure();
  const [, go] = useLocation();
  const small = useSmall();
  const tick = useTick(TICK_MS);
  const gap = useGap(tick, TICK_MS);
  const [isElse, setElse] = useState(false);
  const main = useRef<HTMLDivElement>(null);
  const log = usePourLog(pour, plan, events);
  // An entry may be younger than the last tick of the screen's clock.
  const latest = events.reduce((most, event) => (event.at > most ? event.at : most), '');
  const state = pourState(plan, pour, events, latest > tick && Date.parse(latest) - Date.parse(tick) < 2000 ? latest : tick);
  useAwake(true);
  const sound = useSetting('pour-sound');
  useTone(log.last, sound !== 'off');

  const back = () => go(stageHref(pour.jobId, 'pour', pour.roomIds[0] ?? ''));
  const toMain = () => main.current?.querySelector<HTMLButtonElement>('.pour-button-next')?.focus();
  const placed = () => log.log((s, stamp) => placedEntry(s, plan, stamp));
  const mixed = () => log.log((s, stamp) => mixedEntry(s, plan, stamp, null));
  const lane = () => log.log((s, stamp) => laneFinishedEntry(s, plan, stamp));
  const undo = () => {
    log.log(undoEntry);
    toMain();
  };
  usePourKeys({ ' ': placed, m: mixed, s: lane, u: undo, e: () => setElse(true) }, !isElse && log.asked === null);
  useEffect(toMain, []);
  // The end is in the log first; the record follows it, also after the program was killed in between.
  const ended = state.phase === 'finished';
  useEffect(() => {
    if (!ended) return;
    void closePour(pour.id, nowInstant()).then((outcome) => {
      if (outcome.ok) go(stageHref(pour.jobId, 'pour', pour.roomIds[0] ?? ''));
    });
  }, [ended, pour.id, pour.jobId, pour.roomIds, go]);

  const nextLane = plan.layout?.lanes.find((s) => !state.lanesDone.some((d) => d.roomId === s.roomId && d.lane === s.inRoom));
  const planned = plan.layout?.batches.length ?? null;
  const names = whole.rooms.filter((r) => pour.roomIds.includes(r.id)).map((r) => r.name);
  return (
    <main className="pour-mode">
      <h1 className="hidden-words">Pouring: {names.join(', ')}</h1>
      <header className="pour-mode-head">
        <EdgeClock state={state} healingMin={plan.healingMin} />
        <div className="pour-mode-out">
          <span className="pour-mode-time">{formatInstantTime(tick, whole.property.timeZone, locale)}</span>
          <button type="button" className="pour-mode-leave" onClick={back}>
            Leave
          </button>
        </div>
      </header>
      <EdgeDatum state={state} healingMin={plan.healingMin} />
      <section className="pour-mode-plan" aria-label="Where the pour stands">
        {read === null ? <p className="pour-mode-trouble">{trouble}</p> : <PourModePlan read={read} state={state} />}
      </section>
      <section className="pour-mode-facts" aria-label="Batch and bags">
        <PourFacts
          state={state}
          plan={plan}
          read={read}
          told={[
            ...(log.problem === null ? [] : [log.problem]),
            ...(journalSays === null ? [] : [journalSays]),
            ...(gap === null ? [] : [gap]),
            ...state.notices,
          ]}
        />
        <div className="pour-mode-second">
          <PourButton keys="m" onPress={mixed} detail="water is in">
            Batch {state.nextToMix} mixed
          </PourButton>
          <PourButton
            keys="s"
            onPress={lane}
            disabled={nextLane === undefined}
            detail={nextLane === undefined ? 'none left' : 'up to its edge'}
          >
            {nextLane === undefined ? 'Strips finished' : `Strip ${nextLane.number} finished`}
          </PourButton>
        </div>
      </section>
      <footer className="pour-mode-foot" ref={main}>
        <PourButton
          keys="u"
          onPress={undo}
          disabled={state.undoable === null}
          detail={state.undoable === null ? 'nothing yet' : entryWords(state.undoable, { layout: plan.layout, locale })}
        >
          Undo
        </PourButton>
        <PourButton kind="next" keys="space" onPress={placed}>
          {planned !== null && state.nextToLand > planned ? `Extra batch ${state.nextToLand} landed` : `Batch ${state.nextToLand} landed`}
        </PourButton>
        <PourButton keys="e" onPress={() => setElse(true)} detail={small ? 'trouble, finish, leave' : 'trouble, readings, finish'}>
          Something else
        </PourButton>
      </footer>
      <p className="hidden-words" role="status">
        {log.last === null ? '' : `Logged: ${entryWords(log.last, { layout: plan.layout, locale })}.`}
      </p>
      {log.asked !== null && <PourAsk question={log.asked.question} onAnswer={log.answer} />}
      {isElse && log.asked === null && (
        <PourElse
          jobId={pour.jobId}
          state={state}
          plan={plan}
          events={events}
          zone={whole.property.timeZone}
          hasSound={sound !== 'off'}
          onSound={(on) => void keepSetting('pour-sound', on ? 'on' : 'off')}
          onLeave={back}
          onClose={() => {
            setElse(false);
            requestAnimationFrame(toMain);
          }}
          onLog={(makes) => {
            log.log(makes);
            setElse(false);
            requestAnimationFrame(toMain);
          }}
        />
      )}
    </main>
  );
}
