import { useEffect, useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import { middleJoint, pourRoomsOf, type PourReading } from '../../../shared-core/agenda/read-pour.ts';
import type { JobReading, RoomReading } from '../../../shared-core/agenda/read-job.ts';
import type { PourPlan } from '../../../shared-core/book/job.ts';
import type { Pour } from '../../../shared-core/book/pour-record.ts';
import type { Point } from '../../../shared-core/book/fields.ts';
import type { PlanDrawing } from '../../../shared-core/drawing/plan.ts';
import { toRoom } from '../../../shared-core/drawing/plan-walls.ts';
import { pourClock } from '../../../shared-core/drawing/pour-clock.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatInstant } from '../../../shared-core/measure/moment.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { lastMinutes, stillToTick } from '../../../shared-core/prep/last-minutes.ts';
import { pourModel, withoutChance } from '../../../shared-core/pour/crew-model.ts';
import { seamAges } from '../../../shared-core/pour/seams.ts';
import { timelineOf } from '../../../shared-core/pour/simulate.ts';
import { changeJobRoom } from '../../book/job-commands.ts';
import { newId, nowInstant } from '../../book/moment.ts';
import type { Outcome } from '../../book/outcome.ts';
import { changePourPlan, enterPaper, openPour } from '../../book/pour-commands.ts';
import { keepSetting, useSetting } from '../../book/settings.ts';
import { useNow } from '../../book/use-job-reading.ts';
import { ActionButton } from '../../parts/ActionButton.tsx';
import { Answer } from '../../parts/Answer.tsx';
import { DatumDrawing } from '../../parts/DatumDrawing.tsx';
import { DrawingRoom } from '../../parts/DrawingRoom.tsx';
import { DrawingView } from '../../parts/DrawingView.tsx';
import { JobSheet } from '../../parts/job/JobSheet.tsx';
import { stageHref } from '../../parts/job/stage-words.ts';
import { Notice } from '../../parts/Notice.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { BlockPart, SheetHeading } from '../../parts/TitleBlock.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { usePourRuns } from '../../workers/use-pour-runs.ts';
import { EdgeList } from './EdgeList.tsx';
import { HoldsPart, LastMinutesPart } from './HoldsPart.tsx';
import { JointsPart } from './JointsPart.tsx';
import { OpenDialog } from './OpenDialog.tsx';
import { PaperDialog } from './PaperDialog.tsx';
import { PlanFields } from './PlanFields.tsx';
import { pourPicture } from './pour-picture.ts';
import { RunsPart } from './RunsPart.tsx';
import { StagingPart } from './StagingPart.tsx';
import { TogetherPart } from './TogetherPart.tsx';

interface PlannedProps {
  readonly reading: JobReading;
  readonly at: RoomReading;
  readonly read: PourReading;
  readonly running: Pour | null;
  /** Why the rooms chosen cannot go together; null when they can. */
  readonly together: string | null;
  readonly lift: number;
  /** When the last pour of this room ended: ticks older than it do not count. */
  readonly lastEnd: string | null;
}

/** The pour planned: strips on the floor, the age of each edge, the crew, and what it still waits for. */
export function PourPlanned({ reading, at, read, running, together, lift, lastEnd }: PlannedProps) {
  const { whole } = reading;
  const { room, jobRoom } = at;
  const { units, locale } = useMeasure();
  const [, go] = useLocation();
  const zone = whole.property.timeZone;
  const kept = useSetting('initials');
  const [initials, setInitials] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const [isOpening, setOpening] = useState(false);
  const [isPaper, setPaper] = useState(false);
  const [pointing, setPointing] = useState<{ readonly id: string; readonly from: Point | null } | null>(null);
  const now = useNow(whole);
  const runs = usePourRuns();
  useEffect(() => {
    if (typeof kept === 'string') setInitials(kept);
  }, [kept]);
  const say = (outcome: Outcome<unknown>): void => setProblem(outcome.ok ? null : outcome.message);
  const editRoom = (label: string, how: Parameters<typeof changeJobRoom>[3]): void =>
    void changeJobRoom(whole.job.id, room.id, label, how).then(say);
  const place = { jobId: whole.job.id, roomId: room.id };
  const plan = read.plans[0] ?? read.first;
  // Another plan takes other minutes: the old ones no longer hold.
  const editPlan = (label: string, how: (was: PourPlan) => PourPlan): void =>
    void changePourPlan(place, label, plan, (was) => ({ ...how(was), likelyMinutes: null })).then(say);

  const point = (drawing: PlanDrawing, p: { readonly x: number; readonly y: number }): void => {
    if (pointing === null || drawing.fit === null) return;
    const to = toRoom(drawing.fit, p.x, p.y);
    const { id, from } = pointing;
    if (from === null) return setPointing({ id, from: to });
    setPointing(null);
    return editPlan('ends of a joint', (was) => ({ ...was, joints: was.joints.map((j) => (j.id === id ? { ...j, from, to } : j)) }));
  };

  const layout = read.layout.ok ? read.layout.value : null;
  const { crew } = plan;
  const model = useMemo(() => (layout === null ? null : pourModel(layout, crew, read.clocks)), [layout, crew, read.clocks]);
  const steady = useMemo(() => {
    if (model === null || !model.ok || layout === null) return null;
    const line = timelineOf(withoutChance(model.value), 1, 0);
    const edges = seamAges(layout.seams, line.laid).sort((a, b) => b.mostMin - a.mostMin);
    return { edges, finishMin: line.finishMin, oldestBatchMin: Math.max(0, ...line.ageMin) };
  }, [model, layout]);
  // What the runs hang on, without the minutes that they themselves set down.
  const key = JSON.stringify([
    plan.stripWidthM,
    plan.angleDeg,
    plan.pattern,
    plan.wayOutId,
    plan.joints,
    plan.airTempC,
    Object.entries(crew).sort(([a], [b]) => a.localeCompare(b)),
    layout?.volumeM3.toPrecision(6),
  ]);
  const { healingMin } = read.clocks;
  const oldest = steady?.edges[0]?.mostMin ?? null;
  const minutes = (m: number) => formatDuration(m * 60, locale);

  const lines = lastMinutes({
    bagsPlanned: layout === null ? null : read.bagsNeeded,
    buckets: layout?.batches.length ?? null,
    mixers: crew.mixers,
    helpers: Math.max(0, crew.mixers + crew.carriers + crew.spreaders - 1),
    strips: layout?.strips.length ?? null,
    dams:
      read.rooms.reduce((sum, r) => sum + r.room.plan.openings.filter((o) => o.edge !== 'feather').length, 0) +
      read.plans.reduce((sum, p) => sum + p.joints.length, 0),
    carry: crew.carry,
    heatedFloor: read.rooms.some((r) => r.room.layers.some((layer) => layer.material === 'radiant-heating')),
  });
  const ticks = jobRoom.lastMinutes.filter((tick) => lastEnd === null || tick.at > lastEnd);
  const left = stillToTick(
    lines,
    ticks.map((tick) => tick.itemKey),
  );
  const several = read.rooms.length > 1;
  const holds = read.rooms.flatMap((r) => r.preparation.holds.filter((hold) => hold.overridden === null));
  const held =
    layout === null
      ? read.layout.ok
        ? null
        : read.layout.message
      : model !== null && !model.ok
        ? model.message
        : holds[0] !== undefined
          ? `The pour waits: ${holds[0].says}`
          : left[0] !== undefined
            ? `The last five minutes first: ${left[0].says} is not ticked.`
            : null;
  const isCold = oldest !== null && oldest > healingMin;
  const meaning =
    layout === null || steady === null
      ? (held ?? '')
      : `${read.bagsNeeded === 1 ? 'bag' : 'bags'} in ${formatNumber(layout.batches.length, { most: 0 }, locale)} batches, in about ${minutes(steady.finishMin)}; the oldest edge is ${minutes(oldest ?? 0)} old of ${minutes(healingMin)}${isCold ? ': a cold joint by plan' : ''}.`;
  return (
    <JobSheet
      whole={whole}
      roomId={room.id}
      stage="pour"
      heldAt={holds.length > 0 ? 'pour' : null}
      block={
        <>
          <PlanFields at={at} read={read} plan={plan} zone={zone} onPlan={editPlan} onRoom={editRoom} />
          <JointsPart
            joints={plan.joints}
            pointing={pointing === null ? null : { id: pointing.id, had: pointing.from === null ? 0 : 1 }}
            onAdd={() => {
              const joint = middleJoint(at, plan, newId());
              if (joint !== null) editPlan('a dammed joint', (was) => ({ ...was, joints: [...was.joints, joint] }));
            }}
            onChange={(joint) =>
              editPlan('ends of a joint', (was) => ({ ...was, joints: was.joints.map((j) => (j.id === joint.id ? joint : j)) }))
            }
            onRemove={(id) => editPlan('took away a joint', (was) => ({ ...was, joints: was.joints.filter((j) => j.id !== id) }))}
            onPointing={(id) => setPointing(id === null ? null : { id, from: null })}
          />
          <TogetherPart reading={reading} at={at} onPlan={editPlan} problem={together} />
          {read.rooms.map((one) => (
            <HoldsPart
              key={one.room.id}
              room={several ? one.room.name : null}
              holds={one.preparation.holds}
              prepHref={stageHref(whole.job.id, 'prep', one.room.id)}
              onPast={(hold, why) =>
                void changeJobRoom(whole.job.id, one.room.id, 'went past a hold', (r) => ({
                  ...r,
                  overrides: [
                    ...r.overrides,
                    { key: hold.key, why, at: nowInstant(), initials: initials.trim() === '' ? 'own' : initials.trim() },
                  ],
                })).then(say)
              }
            />
          ))}
          {running === null && layout !== null && (
            <BlockPart heading="Poured already?">
              <TextButton onPress={() => setPaper(true)}>Enter the pour from paper</TextButton>
            </BlockPart>
          )}
        </>
      }
      datumSticks
      datum={
        <DatumDrawing
          linePx={44}
          label={
            oldest === null
              ? `An edge heals for ${minutes(healingMin)}.`
              : `By plan the oldest edge is ${minutes(oldest)} old when it is met; it heals for ${minutes(healingMin)}.`
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
          figure={layout === null ? undefined : formatNumber(read.bagsNeeded, { most: 0 }, locale)}
          under={running !== null ? 'The pour is running: its clocks count on.' : (held ?? 'Nothing holds it.')}
        >
          {meaning}
        </Answer>
      }
      action={
        running !== null ? (
          <ActionButton onPress={() => go(`/pour/${running.id}`)}>Back to the pour</ActionButton>
        ) : (
          <ActionButton held={held} onPress={() => setOpening(true)}>
            Open the pour
          </ActionButton>
        )
      }
    >
      <SheetHeading right={jobRoom.pourAt === null ? 'no day set' : formatInstant(jobRoom.pourAt, zone, 'weekday', locale)}>
        {room.name}: how it is poured
      </SheetHeading>
      {problem !== null && (
        <Notice kind="failure" onClose={() => setProblem(null)}>
          {problem}
        </Notice>
      )}
      {read.clocks.outside !== null && <Notice kind="failure">{read.clocks.outside}</Notice>}
      {layout === null ? (
        <p className="pour-trouble">{read.layout.ok ? '' : read.layout.message}</p>
      ) : (
        read.rooms.map((one) => (
          <div className="pour-picture" key={one.room.id}>
            <DrawingRoom leastPx={300} mostPx={460} smallRatio={0.9}>
              {({ widthPx, heightPx }) => {
                const drawing = pourPicture({
                  read,
                  roomId: one.room.id,
                  progress: null,
                  isPourMode: false,
                  units,
                  locale,
                  widthPx,
                  heightPx,
                });
                const mine = layout.strips.filter((strip) => strip.roomId === one.room.id).length;
                return drawing === null ? null : (
                  <DrawingView
                    drawing={drawing}
                    label={`${one.room.name} in ${mine} strips; the pour has ${layout.batches.length} batches, numbered where they land`}
                    {...(pointing !== null && one === at
                      ? { onPoint: (p: { readonly x: number; readonly y: number }) => point(drawing, p) }
                      : {})}
                  />
                );
              }}
            </DrawingRoom>
          </div>
        ))
      )}
      {layout !== null && <StagingPart whole={whole} read={read} layout={layout} />}
      {model !== null && !model.ok && <p className="pour-trouble">{model.message}</p>}
      {steady !== null && model !== null && model.ok && (
        <div className="pour-lists">
          <EdgeList edges={steady.edges} oldestBatchMin={steady.oldestBatchMin} clocks={read.clocks} />
          <RunsPart
            runs={runs}
            isCurrent={runs.had?.key === key}
            clocks={read.clocks}
            model={model.value}
            onStart={() => {
              runs.start({
                key,
                model: model.value,
                advised: {
                  rooms: pourRoomsOf(read),
                  plans: read.plans,
                  doorways: [],
                  bagYieldM3: read.bagYieldM3,
                  clocks: read.clocks,
                },
                units,
                locale,
                onOutlook: (outlook) =>
                  void changePourPlan(place, 'likely minutes of the pour', plan, (was) => ({
                    ...was,
                    likelyMinutes: Math.round(outlook.finishMin.p50),
                  })).then(say),
              });
            }}
          />
        </div>
      )}
      <LastMinutesPart
        lines={lines}
        ticks={ticks}
        initials={initials}
        zone={zone}
        onInitials={(text) => {
          setInitials(text);
          void keepSetting('initials', text);
        }}
        onTick={(line, on) => {
          if (on && initials.trim() === '') return setProblem('Type your initials first: they stand beside every line you tick.');
          return editRoom(on ? `ticked “${line.says}”` : `took back the tick at “${line.says}”`, (r) => ({
            ...r,
            lastMinutes: [
              ...r.lastMinutes.filter((tick) => tick.itemKey !== line.key),
              ...(on ? [{ itemKey: line.key, at: nowInstant(), initials: initials.trim() }] : []),
            ],
          }));
        }}
      />
      {isOpening && (
        <OpenDialog
          bagsNeeded={read.bagsNeeded}
          room={read.rooms.map((r) => r.room.name).join(' and ')}
          onClose={() => setOpening(false)}
          onOpen={(bagsOnSite) => {
            setOpening(false);
            void openPour({
              job: whole.job,
              roomIds: read.rooms.map((r) => r.room.id),
              lift,
              materialId: read.material.id,
              bagsOnSite,
              bagsPlanned: read.bagsNeeded,
              fromPaper: false,
            }).then((outcome) => (outcome.ok ? go(`/pour/${outcome.value}`) : say(outcome)));
          }}
        />
      )}
      {isPaper && (
        <PaperDialog
          plan={read.recordPlan}
          zone={zone}
          now={now}
          onClose={() => setPaper(false)}
          onEnter={({ id, events, bagsOnSite, bagsLeft }) =>
            void enterPaper(
              {
                job: whole.job,
                roomIds: read.rooms.map((r) => r.room.id),
                lift,
                materialId: read.material.id,
                bagsOnSite,
                bagsPlanned: read.bagsNeeded,
              },
              { id, events, bagsLeft },
            ).then((outcome) => {
              setPaper(false);
              say(outcome);
            })
          }
        />
      )}
    </JobSheet>
  );
}
