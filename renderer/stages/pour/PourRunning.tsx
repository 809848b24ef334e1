import { useEffect, useLayoutEffect, useRef, useState } from 'react';
import { useLocation } from 'wouter';
import { deepFills } from '../../../shared-core/standing/lift-cover.ts';
import type { PourReading } from '../../../shared-core/standing/read-pour.ts';
import type { Pour, PourEvent } from '../../../shared-core/book/pour-record.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { formatLength } from '../../../shared-core/measure/length-format.ts';
import { formatInstantTime } from '../../../shared-core/measure/moment.ts';
import { entryWords, noticeWords } from '../../../shared-core/documents/log-words.ts';
import {
  cartEntry,
  placedEntry,
  mixedEntry,
  laneAhead,
  laneFinishedEntry,
  redoEntry,
  undoEntry,
} from '../../../shared-core/pour/pour-commands.ts';
import { outsideWords, questionWords } from '../../../shared-core/documents/pour-words.ts';
import { forecastPour, TYPICAL_SPREAD } from '../../../shared-core/pour/forecast.ts';
import { leakAlarm } from '../../../shared-core/pour/leak.ts';
import type { PourRecordPlan } from '../../../shared-core/pour/pour-state.ts';
import { runOutOf } from '../../../shared-core/pour/run-out.ts';
import { placeableBags, stopPlan, type StopPlan } from '../../../shared-core/pour/stop-plan.ts';
import { nowInstant } from '../../book/command.ts';
import { closePour } from '../../book/pour-log.ts';
import { storeSetting, useSetting } from '../../book/settings.ts';
import { stageHref } from '../../parts/job/stage-words.ts';
import { PourButton } from '../../parts/Buttons.tsx';
import type { HeldValue } from '../../desk/held-value.ts';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';
import { EdgeClock, EdgeDatum } from './EdgeClock.tsx';
import { PourMore } from './PourMore.tsx';
import { PourFacts } from './PourFacts.tsx';
import { PourModePlan } from './PourModePlan.tsx';
import { alarmWords, leakWords, runOutWords, stopWords } from './pour-mode-words.ts';
import { useAwake } from './use-awake.ts';
import { isLetterOff } from '../../parts/use-keys.ts';
import { usePourKeys } from './use-pour-keys.ts';
import { usePourLog } from './use-pour-log.ts';
import { tonesOf, useTone } from './use-tone.ts';
import { useVoice } from './use-voice.ts';
import { tickGap } from '../../../shared-core/pour/log-time.ts';
import { Dialog } from '../../parts/Dialog.tsx';
import './pour-more.css';
import { lowerFirst } from '../../../shared-core/measure/first-letter.ts';
import { countWords } from '../../../shared-core/measure/count-words.ts';

const TICK_MS = 500;
/** Delay before the record of a finished pour is closed again after a failure, ms. */
const CLOSE_AGAIN_MS = 2000;
/** Round trip for more bags: typical, common practice, no source. */
const TYPICAL_FETCH_MIN = 60;

interface RunningProps {
  readonly pour: Pour;
  readonly events: readonly PourEvent[];
  readonly whole: WholeJob;
  /** Null when the plan cannot be read; entries are logged anyway. */
  readonly read: PourReading | null;
  readonly plan: PourRecordPlan;
  /** Why there is no plan. */
  readonly trouble: string | null;
  /** Recovered entries, or that the recovery log cannot be written. */
  readonly journalSays: string | null;
}

export function PourRunning({ pour, events, whole, read, plan, trouble, journalSays }: RunningProps) {
  const { units, locale } = useMeasure();
  const [, go] = useLocation();
  const small = useSmall();
  const tick = useTick(TICK_MS);
  const gap = useGap(tick, TICK_MS);
  const [isMore, setMore] = useState(false);
  const [stop, setStop] = useState<StopPlan | null>(null);
  const main = useRef<HTMLDivElement>(null);
  const log = usePourLog(pour, plan, events, tick);
  const { state } = log;
  useAwake();
  const sound = useSetting('pour-sound');
  const voice = useSetting('pour-voice');
  const fetchMin = Number(useSetting('pour-fetch-minutes') ?? TYPICAL_FETCH_MIN);
  const play = useTone(sound !== 'off');

  const back = () => go(stageHref(pour.jobId, 'pour', pour.roomIds[0] ?? ''));
  const toMain = () => main.current?.querySelector<HTMLButtonElement>('.pour-button-next')?.focus();
  const placed = () => log.log((s, stamp) => placedEntry(s, plan, stamp));
  const mixed = () => log.log((s, stamp) => mixedEntry(s, plan, stamp, null));
  const isCart = read?.first.crew.carry === 'cart' && state.inHand.length > 1;
  const cart = () => {
    for (let left = log.stateNow().inHand.length, i = 0; i < left; i++) log.log((s, stamp) => cartEntry(s, plan, stamp, i === 0));
  };
  const lane = () => log.log((s, stamp) => laneFinishedEntry(s, plan, stamp));
  const undo = () => {
    log.log(undoEntry);
    toMain();
  };
  const redo = () => {
    log.log(redoEntry);
    toMain();
  };
  usePourKeys({ ' ': placed, m: mixed, c: cart, s: lane, u: undo, r: redo, e: () => setMore(true) }, !isMore && log.asked === null);
  useEffect(toMain, []);
  // The log gets the end first; the record follows, even after a crash in between.
  const ended = state.phase === 'finished';
  const [notClosed, setNotClosed] = useState<{ readonly message: string } | null>(null);
  useEffect(() => {
    if (!ended) return undefined;
    const close = async (): Promise<void> => {
      const outcome = await closePour(pour.id);
      if (outcome.ok) go(stageHref(pour.jobId, 'pour', pour.roomIds[0] ?? ''));
      else setNotClosed({ message: outcome.message });
    };
    const timer = setTimeout(() => void close(), notClosed === null ? 0 : CLOSE_AGAIN_MS);
    return () => clearTimeout(timer);
  }, [ended, notClosed, pour.id, pour.jobId, pour.roomIds, go]);

  const forecast = forecastPour(plan, state, TYPICAL_SPREAD, read?.bagsToBring ?? null);
  const runOut = forecast === null ? null : runOutOf(plan, state, forecast, { leastM: read?.leastM ?? Infinity, fetchMin });
  const runOutSays = runOut === null || forecast === null ? null : runOutWords(runOut, forecast, units, locale);
  // Below a slab on the ground there is nothing to look at.
  const isOverOpen = read?.rooms.some(({ assessment }) => assessment.facts.isSuspended) ?? true;
  const leak = leakAlarm(plan, state, TYPICAL_SPREAD);
  const cold = (state.oldestEdge?.leftMin ?? 0) < 0 ? stopPlan(plan, state, { bags: placeableBags(state), outageMin: null }) : null;
  const alarms = alarmWords(state, {
    leak: leak === null ? null : leakWords(leak, locale, { isBrief: cold !== null, isOverOpen }),
    stop: cold === null ? null : stopWords(cold, (m) => formatLength(m, units, locale)),
    outside: read === null ? null : outsideWords(read.clocks, 'running'),
  });
  const unsaved = log.waiting.map((event) => entryWords(event, { layout: plan.layout, locale }));
  const notices = [
    ...(log.problem === null ? [] : [unsaved.length === 0 ? log.problem : `${log.problem} Waiting: ${unsaved.join(', ')}.`]),
    ...(notClosed === null ? [] : [`Not saved yet: ${notClosed.message} Trying again.`]),
    ...alarms,
    ...(journalSays === null ? [] : [journalSays]),
    ...(gap === null ? [] : [gap]),
    ...state.notices.map(noticeWords),
  ];
  const spoken = alarms.map((words) => ({ of: words, words }));
  if (runOut !== null && runOut.verdict !== 'enough')
    spoken.push({ of: runOut.verdict, words: [runOutSays?.head, runOutSays?.bags, ...(runOutSays?.choices ?? [])].join(' ') });
  useVoice(spoken, voice === 'on', play);
  const nextLane = plan.layout?.lanes.find((s) => !state.lanesDone.some((d) => d.roomId === s.roomId && d.lane === s.inRoom));
  const planned = plan.layout?.batches.length ?? null;
  const names = whole.rooms.filter((r) => pour.roomIds.includes(r.id)).map((r) => r.name);
  const laneNumber = laneAhead(plan.layout, state)?.number ?? null;
  const isExtra = planned !== null && state.covered.size >= planned;
  return (
    <main className="pour-mode">
      <h1 className="hidden-words">Pour: {names.join(', ')}</h1>
      <header className="pour-mode-head">
        <EdgeClock state={state} next={laneNumber === null ? '' : `Lane ${laneNumber}, batch ${state.nextToLand}`} />
        <div className="pour-mode-exit">
          <span className="pour-mode-time">{formatInstantTime(tick, whole.property.timeZone, locale)}</span>
          <button type="button" className="pour-mode-leave" onClick={back}>
            Leave
          </button>
          {state.redoable !== null && (
            <button type="button" className="pour-mode-leave pour-mode-redo" onClick={redo}>
              Redo
            </button>
          )}
        </div>
      </header>
      <EdgeDatum state={state} healingMin={plan.healingMin} />
      <section className="pour-mode-plan" aria-label="Floor plan of the pour">
        {read === null ? (
          <p className="pour-mode-trouble">{trouble}</p>
        ) : (
          <PourModePlan read={read} state={state} dams={stop?.dams ?? null} />
        )}
      </section>
      <section className="pour-mode-facts" aria-label="Batches and bags">
        <PourFacts
          state={state}
          plan={plan}
          forecast={forecast}
          runOut={runOutSays}
          notices={notices}
          deepRoomIds={read === null ? [] : deepFills(read).map((deep) => deep.roomId)}
          isExtra={isExtra}
        />
        <div className="pour-mode-second">
          {isCart && (
            <PourButton keys="c" onPress={cart} detail={lowerFirst(`${countWords(state.inHand.length, 'batch', locale)} placed`)}>
              Cart emptied
            </PourButton>
          )}
          <PourButton keys="m" onPress={mixed} detail="water added">
            {`Batch ${state.nextToMix} mixed`}
          </PourButton>
          <PourButton
            keys="s"
            onPress={lane}
            disabled={nextLane === undefined}
            detail={nextLane === undefined ? 'none left' : 'full to its edge'}
          >
            {nextLane === undefined ? 'All lanes finished' : `Lane ${nextLane.number} finished`}
          </PourButton>
        </div>
      </section>
      <footer className="pour-mode-foot" ref={main}>
        <PourButton
          keys="u"
          onPress={undo}
          disabled={state.undoable === null}
          detail={state.undoable === null ? 'nothing logged' : entryWords(state.undoable, { layout: plan.layout, locale })}
        >
          Undo
        </PourButton>
        <PourButton kind="next" keys="space" onPress={placed}>
          {isExtra ? `Extra batch ${state.nextToLand} placed` : `Batch ${state.nextToLand} placed`}
        </PourButton>
        <PourButton keys="e" onPress={() => setMore(true)} detail={small ? 'trouble, finish' : 'trouble, readings, finish'}>
          More…
        </PourButton>
      </footer>
      <Logged logged={log.logged} layout={plan.layout} laneNumber={laneNumber} play={play} />
      {log.asked !== null && (
        <PourAsk
          question={questionWords(log.asked.question)}
          noWord={log.asked.entry.otherwise === undefined ? 'No, do not log it' : 'No, log it now'}
          onAnswer={log.answer}
        />
      )}
      {isMore && log.asked === null && (
        <PourMore
          jobId={pour.jobId}
          state={state}
          stateNow={log.stateNow}
          plan={plan}
          events={events}
          zone={whole.property.timeZone}
          roomName={(id) => (names.length < 2 ? '' : (whole.rooms.find((r) => r.id === id)?.name ?? ''))}
          bagChoices={runOutSays?.choices.filter((_, i) => runOut?.choices[i]?.kind !== 'stop') ?? []}
          fetchMin={fetchMin}
          onFetchMin={(min) => void storeSetting('pour-fetch-minutes', String(min))}
          hasSound={sound !== 'off'}
          onSound={(on) => void storeSetting('pour-sound', on ? 'on' : 'off')}
          hasVoice={voice === 'on'}
          onVoice={(on) => void storeSetting('pour-voice', on ? 'on' : 'off')}
          onStop={setStop}
          onLeave={back}
          onClose={() => {
            setMore(false);
            requestAnimationFrame(toMain);
          }}
          onLog={(...makes) => {
            for (const each of makes) log.log(each);
            setMore(false);
            requestAnimationFrame(toMain);
          }}
        />
      )}
    </main>
  );
}

interface LoggedProps {
  readonly logged: HeldValue<PourEvent | null>;
  readonly layout: PourRecordPlan['layout'];
  readonly laneNumber: number | null;
  readonly play: (tones: readonly number[]) => void;
}

/** The entry stored last, in words and tones. It follows the queue by itself, so that it does not wait for the whole screen. */
function Logged({ logged, layout, laneNumber, play }: LoggedProps) {
  const { locale } = useMeasure();
  const last = logged.use();
  useEffect(() => {
    if (last !== null) play(tonesOf(last));
  }, [last, play]);
  return (
    <p className="hidden-words" role="status">
      {last === null ? '' : `Logged: ${entryWords(last, { layout, locale })}.`}
      {laneNumber === null ? '' : ` Next in lane ${laneNumber}.`}
    </p>
  );
}

/** A message for some minutes after the computer slept or its clock was changed between two ticks; null otherwise. */
function useGap(tick: string, tickMs: number): string | null {
  const before = useRef(tick);
  const [shown, setMessage] = useState<{ readonly words: string; readonly instant: string } | null>(null);
  useEffect(() => {
    const gap = tickGap(before.current, tick, tickMs);
    before.current = tick;
    if (gap !== null) setMessage({ words: noticeWords(gap), instant: tick });
  }, [tick, tickMs]);
  return shown !== null && Math.abs(Date.parse(tick) - Date.parse(shown.instant)) < 300_000 ? shown.words : null;
}

/**
 * The current instant for a clock that shows seconds.
 * @param everyMs time between updates, ms
 */
function useTick(everyMs: number): string {
  const [now, setNow] = useState(nowInstant);
  useEffect(() => {
    const timer = setInterval(() => setNow(nowInstant()), everyMs);
    return () => clearInterval(timer);
  }, [everyMs]);
  return now;
}

interface AskProps {
  readonly question: string;
  /** The action of No. */
  readonly noWord: string;
  readonly onAnswer: (yes: boolean) => void;
}

/** A question about an entry that looks like a typo: Y logs it, N does what its button says. */
function PourAsk({ question, noWord, onAnswer }: AskProps) {
  // A layout effect, so that a key pressed as soon as the question shows counts.
  useLayoutEffect(() => {
    const press = (event: KeyboardEvent) => {
      const key = event.key.toLowerCase();
      if ((key !== 'y' && key !== 'n') || isLetterOff(event)) return;
      event.preventDefault();
      onAnswer(key === 'y');
    };
    document.addEventListener('keydown', press);
    return () => document.removeEventListener('keydown', press);
  }, [onAnswer]);
  return (
    <Dialog firm title="Check this entry" onClose={() => onAnswer(false)}>
      <p className="pour-more-words">{question}</p>
      <div className="pour-more-pair">
        <PourButton keys="n" onPress={() => onAnswer(false)}>
          {noWord}
        </PourButton>
        <PourButton keys="y" onPress={() => onAnswer(true)}>
          Yes
        </PourButton>
      </div>
    </Dialog>
  );
}
