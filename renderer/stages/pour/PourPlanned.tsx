import { updated, type Update } from '../../book/write.ts';
import { useEffect, useState } from 'react';
import { useLocation } from 'wouter';
import { withExpectedAir } from '../../../shared-core/climate/room-air.ts';
import { type PourReading, roomFloorOf } from '../../../shared-core/standing/read-pour.ts';
import type { JobReading, RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { Job, JobRoom, PourPlan } from '../../../shared-core/book/job.ts';
import type { Pour } from '../../../shared-core/book/pour-record.ts';
import type { Point } from '../../../shared-core/book/fields.ts';
import { liftWords, outsideWords, pourProblemWords } from '../../../shared-core/documents/pour-words.ts';
import type { PlanDrawing } from '../../../shared-core/drawing/plan.ts';
import { toRoom } from '../../../shared-core/drawing/plan-walls.ts';
import { CLOCK_LINE_PX, pourClock } from '../../../shared-core/drawing/pour-clock.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatInstant } from '../../../shared-core/measure/moment.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import type { Change } from '../../../shared-core/pour/advice.ts';
import { stillToTick, ticksInForce, type LastMinute } from '../../../shared-core/prep/last-minutes.ts';
import { batchesOf } from '../../../shared-core/pour/layout.ts';
import { batchWords } from '../../../shared-core/price/batch-words.ts';
import { changeJob, changeJobRoom } from '../../book/job-commands.ts';
import { nowInstant, done, type Outcome } from '../../book/command.ts';
import { saveMove } from '../../book/date-commands.ts';
import { changePourPlan } from '../../book/pour-record-commands.ts';
import { useTypedSetting } from '../../book/settings.ts';
import { useNow } from '../../book/use-job-reading.ts';
import { ActionButton } from '../../parts/Buttons.tsx';
import { Answer } from '../../parts/Answer.tsx';
import { DatumDrawing } from '../../parts/DrawingView.tsx';
import { JobSheet } from '../../parts/job/JobSheet.tsx';
import { Notice, ResultNotice, type Said } from '../../parts/Dialog.tsx';
import { LaterParts, SheetHeading } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { useSmall } from '../../parts/use-small.ts';
import { usePourRuns } from '../../workers/use-pour-runs.ts';
import { changeWords } from './advice-words.ts';
import { EdgeList } from './EdgeList.tsx';
import { LastMinutesPart } from './HoldsPart.tsx';
import { lastLines } from './last-lines.ts';
import { PlannedBlock } from './PlannedBlock.tsx';
import { PlannedPictures } from './PlannedPictures.tsx';
import { PourDialogs, type PourDialog } from './PourDialogs.tsx';
import { chanceWords } from './pour-mode-words.ts';
import { RunsPart } from './RunsPart.tsx';
import { StagingPart } from './StagingPart.tsx';
import { useSteady } from './use-steady.ts';
import { joined } from '../../../shared-core/measure/list.ts';

interface PlannedProps {
  readonly reading: JobReading;
  readonly roomReading: RoomReading;
  readonly read: PourReading;
  readonly running: Pour | null;
  /** Why the rooms cannot be poured together; null when they can. */
  readonly together: string | null;
  /** The end of this room's last pour; older checks do not count. */
  readonly lastEnd: string | null;
}

/** Starts the simulation this long after the last change, ms. */
const REST_MS = 350;

/** The pour plan: lanes on the floor, edge ages, the crew, and what blocks the pour. */
export function PourPlanned({ reading, roomReading, read, running, together, lastEnd }: PlannedProps) {
  const { whole } = reading;
  const { room, jobRoom, nextPourAt } = roomReading;
  const { units, locale } = useMeasure();
  const small = useSmall();
  const [, go] = useLocation();
  const zone = whole.property.timeZone;
  const [initials, setInitials] = useTypedSetting('initials');
  const [problem, say] = useState<Said>(null);
  const [dialog, setDialog] = useState<PourDialog>(null);
  const [pointing, setPointing] = useState<{ readonly id: string; readonly from: Point | null } | null>(null);
  const now = useNow(whole);
  const runs = usePourRuns();
  const isRunning = running !== null;
  useEffect(() => {
    // Started in another window.
    if (isRunning) setDialog((current) => (current === 'start' ? null : current));
  }, [isRunning]);
  const editRoom = (roomId: string, label: string, update: Update<JobRoom>): void =>
    void changeJobRoom(whole.job.id, roomId, label, update).then(say);
  const place = { jobId: whole.job.id, roomId: room.id };
  const plan = read.plans[read.rooms.findIndex((r) => r.room.id === room.id)] ?? read.first;
  // Another plan takes other times, so the results are outdated.
  const editPlan = (label: string, update: Update<PourPlan>): void =>
    void changePourPlan(place, label, plan, (stored) => ({ ...updated(stored, update), likelyMinutes: null, likelyVolumeM3: null })).then(
      say,
    );
  const point = (drawing: PlanDrawing, p: { readonly x: number; readonly y: number }): void => {
    if (pointing === null || drawing.fit === null) return;
    const to = toRoom(drawing.fit, p.x, p.y);
    const { id, from } = pointing;
    if (from === null) return setPointing({ id, from: to });
    setPointing(null);
    return editPlan('Move a joint', (stored) => ({ ...stored, joints: stored.joints.map((j) => (j.id === id ? { ...j, from, to } : j)) }));
  };

  const layout = read.layout.ok ? read.layout.value : null;
  const { model, steady } = useSteady(read);
  const sound = model !== null && model.ok ? model.value : null;
  const { look } = runs;
  useEffect(() => {
    if (sound === null) return undefined;
    const timer = setTimeout(() => look(sound), REST_MS);
    return () => clearTimeout(timer);
  }, [sound, look]);
  const outlook = sound !== null && runs.result?.model === sound ? runs.result.outlook : null;
  const { healingMin } = read.clocks;
  const oldest = steady?.edges[0]?.mostMin ?? null;
  const minutes = (m: number) => formatDuration(m * 60, locale);

  const lines = lastLines(read, units, locale);
  const ticks = ticksInForce(jobRoom.lastMinutes, lines, lastEnd, now);
  const openChecks = stillToTick(lines, ticks);
  const holds = read.rooms.flatMap((r) => r.preparation.holds.filter((hold) => hold.overridden === null));
  const noCrew = model !== null && !model.ok ? pourProblemWords(model.problem) : null;
  const held = heldWords(read, noCrew, holds[0]?.text ?? null, openChecks[0] ?? null);
  const meaning =
    layout === null || steady === null
      ? (held ?? '')
      : small
        ? `${read.bagsToBring === 1 ? 'bag' : 'bags'}, about ${minutes(steady.finishMin)}. ${outlook === null ? '' : chanceWords(outlook, locale, false)}`
        : `${read.bagsToBring === 1 ? 'bag' : 'bags'} to bring, ${formatNumber(read.bagsNeeded, { most: 0 }, locale)} planned: ${batchWords(batchesOf(read, layout), locale)}. About ${minutes(steady.finishMin)}. The oldest edge is ${minutes(oldest ?? 0)} old, healing time ${minutes(healingMin)}${oldest !== null && oldest > healingMin ? ': cold joint' : ''}.${outlook === null ? '' : ` ${chanceWords(outlook, locale)}`}`;
  const outside = outsideWords(read.clocks);
  return (
    <JobSheet
      reading={reading}
      roomId={room.id}
      stage="pour"
      block={
        <PlannedBlock
          reading={reading}
          roomReading={roomReading}
          read={read}
          plan={plan}
          together={together}
          pointing={pointing === null ? null : { id: pointing.id, ends: pointing.from === null ? 0 : 1 }}
          onPointing={(id) => setPointing(id === null ? null : { id, from: null })}
          onPlan={editPlan}
          onAir={(tempC) => void changeJob(whole.job.id, 'expected temperature', (job) => withAir(job, read, tempC)).then(say)}
          onRoom={editRoom}
          onMove={(move) => void saveMove(move, 'Move pour').then(say)}
          onNames={(label, update) =>
            void changeJob(whole.job.id, label, (job) => ({ ...job, crewNames: update(job.crewNames) })).then(say)
          }
          onPaper={running === null && layout !== null ? () => setDialog('paper') : null}
        />
      }
      datumSticks="on a desk"
      datum={
        <DatumDrawing
          linePx={CLOCK_LINE_PX}
          label={
            oldest === null
              ? `Healing time ${minutes(healingMin)}.`
              : `The oldest edge is ${minutes(oldest)} old when it is met. Healing time ${minutes(healingMin)}.`
          }
          draw={(widthPx) =>
            pourClock({
              widthPx,
              x0: 24,
              x1: widthPx - 24,
              ageMinutes: oldest,
              healingMinutes: healingMin,
              coldWords: `${formatNumber(healingMin, { most: 0 }, locale)} minutes: cold joint`,
              letteringPx: 15,
            })
          }
        />
      }
      foot={
        <Answer
          figure={layout === null ? undefined : formatNumber(read.bagsToBring, { most: 0 }, locale)}
          under={running !== null ? 'The pour is running.' : (held ?? 'Ready to pour.')}
        >
          {meaning}
        </Answer>
      }
      action={
        running !== null ? (
          <ActionButton onPress={() => go(`/pour/${running.id}`)}>Back to pour</ActionButton>
        ) : (
          <ActionButton held={held} onPress={() => setDialog('start')}>
            Start pour
          </ActionButton>
        )
      }
    >
      <SheetHeading right={nextPourAt === null ? 'No pour date' : formatInstant(nextPourAt, zone, 'weekday', locale)}>
        {joined([`${room.name}: pour plan`, liftWords(read)])}
      </SheetHeading>
      <ResultNotice message={problem} onClose={say} />
      {outside !== null && <Notice kind="failure">{outside}</Notice>}
      <PlannedPictures
        read={read}
        steady={steady}
        floorOf={(id) => roomFloorOf(reading, id)}
        pointAt={pointing === null ? null : room.id}
        onPoint={point}
      />
      {noCrew !== null && <p className="pour-trouble">{noCrew}</p>}
      <LaterParts>
        {steady !== null && sound !== null && (
          <div className="pour-lists">
            <EdgeList steady={steady} clocks={read.clocks} outlook={outlook} />
            <RunsPart
              runs={runs}
              outlook={outlook}
              clocks={read.clocks}
              model={sound}
              chance={whole.business.coldJointChance}
              isEstimated={plan.likelyMinutes != null}
              onStart={() =>
                runs.start({
                  model: sound,
                  advised: {
                    rooms: read.pourRooms,
                    plans: advisedPlans(read),
                    doorways: read.doorways,
                    bagYieldM3: read.bagYieldM3,
                    clocks: read.clocks,
                  },
                  chance: whole.business.coldJointChance,
                  onOutlook: (found) =>
                    void changePourPlan(place, 'Likely duration of the pour', plan, {
                      likelyMinutes: Math.round(found.finishMin.p50),
                      likelyVolumeM3: layout?.volumeM3 ?? null,
                    }).then(say),
                })
              }
              onTake={(change) => void takeChange(whole.job.id, read, change, changeWords(change, read.first, units)).then(say)}
            />
          </div>
        )}
        {layout !== null && <StagingPart reading={reading} read={read} layout={layout} />}
        <LastMinutesPart
          lines={lines}
          ticks={ticks}
          initials={initials}
          zone={zone}
          now={now}
          onInitials={setInitials}
          onTick={(line, on) => {
            if (on && initials.trim() === '') return say('Enter your initials before you check a line.');
            return editRoom(room.id, on ? `Check “${line.text}”` : `Uncheck “${line.text}”`, (r) => ({
              ...r,
              lastMinutes: [
                ...r.lastMinutes.filter((tick) => tick.itemKey !== line.key),
                ...(on ? [{ itemKey: line.key, text: line.text, instant: nowInstant(), initials: initials.trim() }] : []),
              ],
            }));
          }}
        />
      </LaterParts>
      <PourDialogs whole={whole} read={read} now={now} shown={dialog} onClose={() => setDialog(null)} onSay={say} />
    </JobSheet>
  );
}

/** The job with the expected temperature in every room of a pour. */
function withAir(job: Job, { rooms }: PourReading, tempC: number): Job {
  const of = (roomId: string) => rooms.find((r) => r.room.id === roomId)?.room;
  return {
    ...job,
    rooms: job.rooms.map((r) => {
      const room = of(r.roomId);
      return room === undefined ? r : withExpectedAir(room, r, { tempC }, nowInstant());
    }),
  };
}

/** The plans for the suggestions, with crew and pattern of the first. */
function advisedPlans({ plans, first }: PourReading): PourPlan[] {
  return plans.map((p, i) => (i === 0 ? { ...p, crew: first.crew, pattern: first.pattern } : p));
}

/** Applies a suggestion to the plans of its rooms. */
async function takeChange(jobId: string, read: PourReading, change: Change, words: string): Promise<Outcome<unknown>> {
  let last: Outcome<unknown> = done(undefined);
  const [lead] = change.plans;
  for (const [i, { room }] of read.rooms.entries()) {
    const oldPlan = read.plans[i] ?? read.first;
    const to = change.plans[i] ?? oldPlan;
    const isLead = oldPlan === read.first;
    const next = {
      ...to,
      likelyMinutes: null,
      likelyVolumeM3: null,
      ...(isLead && lead !== undefined ? { crew: lead.crew, pattern: lead.pattern } : { crew: oldPlan.crew }),
    };
    last = await changePourPlan({ jobId, roomId: room.id }, words.toLowerCase(), oldPlan, () => next);
    if (!last.ok) return last;
  }
  return last;
}

/** The first blocker of the pour, in words; null for none. */
function heldWords(read: PourReading, crewMessage: string | null, hold: string | null, tick: LastMinute | null): string | null {
  if (!read.layout.ok) return pourProblemWords(read.layout.problem);
  if (crewMessage !== null) return crewMessage;
  if (hold !== null) return `On hold: ${hold}`;
  return tick === null ? null : `Pre-pour checklist: ${tick.text} is not checked.`;
}
