import { useMemo, useState } from 'react';
import { newLevelChoice } from '../../shared-core/book/new-records.ts';
import type { Point } from '../../shared-core/book/fields.ts';
import type { PlanFit } from '../../shared-core/drawing/plan-walls.ts';
import { pointInRoom } from '../../shared-core/plan/region.ts';
import { restPoints } from '../../shared-core/pour/floor-rest.ts';
import type { RoomFloor } from '../../shared-core/pour/placed-floor.ts';
import { fLinePlaces, linePlacesLeft } from '../../shared-core/survey/f-lines.ts';
import type { ReadingProblem } from '../../shared-core/survey/reading-problems.ts';
import { readingGrid } from '../../shared-core/survey/reading-grid.ts';
import { type ColumnProblem, placesLeft, type TypedIn } from '../../shared-core/survey/reading-entry.ts';
import { surveyOnceOut } from '../../shared-core/survey/once-out.ts';
import { sectionThrough } from '../../shared-core/survey/survey-room.ts';
import { blankSurvey, type WhichSurvey, surveyOf } from '../book/plan-commands.ts';
import { storeSetting, useSetting } from '../book/settings.ts';
import { ActionButton, LinkWord } from '../parts/Buttons.tsx';
import { ChoiceRow } from '../parts/Choices.tsx';
import { Datum } from '../parts/Datum.tsx';
import { DatumDrawing, DrawingRoom } from '../parts/DrawingView.tsx';
import { EmptySheet, BlockPart, SheetHeading } from '../parts/Sheet.tsx';
import { calculatedFor } from '../parts/calculated-for.ts';
import { stageHref } from '../parts/job/stage-words.ts';
import { useMeasure } from '../parts/use-measure.ts';
import { useSmall } from '../parts/use-small.ts';
import { useSurvey } from '../workers/use-survey.ts';
import { FloorPanel } from './FloorPanel.tsx';
import { NoLaserPanel, RunsHere } from './NoLaserPanel.tsx';
import { Queries, SurveyNote } from './SurveyNote.tsx';
import { NOUNS, readWords } from './readings-words.ts';
import { ReadingsFoot } from './ReadingsFoot.tsx';
import { ReadingsList } from './ReadingsList.tsx';
import { type ReadingsShow, SECTION_LINE_PX, sectionPicture, shownFloor } from './readings-picture.ts';
import { heightRatio } from './plan-picture.ts';
import { type PlacedWord, ReadingsPlan } from './ReadingsPlan.tsx';
import { roomDatum } from './room-datum.ts';
import { RoomSheet, WithRoom } from './RoomSheet.tsx';
import { surveyDue, useRoomFloor } from './use-room-floor.ts';
import { type SectionChoice, sectionLine } from '../parts/section-lines.ts';
import type { RoomAtHand } from './use-room.ts';
import { usePastedColumn } from './use-pasted-column.ts';
import { type Aim, type WalkBy, WalkPanel } from './WalkPanel.tsx';
import { theRoom } from '../../shared-core/standing/names.ts';

/** The readings of a room, taken by walking or in a list, and the floor they show. */
export function ReadingsScreen({ roomId }: { readonly roomId: string }) {
  return (
    <WithRoom roomId={roomId}>
      {(roomAtHand) =>
        roomAtHand.room.plan.outline.length < 3 ? <NoPlan roomAtHand={roomAtHand} /> : <WithFloor roomAtHand={roomAtHand} />
      }
    </WithRoom>
  );
}

function WithFloor({ roomAtHand }: { readonly roomAtHand: RoomAtHand }) {
  const floor = useRoomFloor(roomAtHand.job?.id ?? null, roomAtHand.room.id);
  return floor === undefined ? <p className="app-opening caption">Loading…</p> : <ReadingsSheet roomAtHand={roomAtHand} floor={floor} />;
}

function NoPlan({ roomAtHand }: { readonly roomAtHand: RoomAtHand }) {
  return (
    <RoomSheet
      roomAtHand={roomAtHand}
      shows="readings"
      action={<ActionButton href={`/plan/${roomAtHand.room.id}`}>Draw room</ActionButton>}
      foot={<p className="speech">Draw the walls first.</p>}
    >
      <EmptySheet
        headingLevel="h1"
        heading={`No readings of ${theRoom(roomAtHand.room.name)} yet.`}
        hint="Draw the room first. Each reading has its point on the plan."
        first={<LinkWord href={`/plan/${roomAtHand.room.id}`}>Draw room</LinkWord>}
      />
    </RoomSheet>
  );
}

/** The same array each time, so that nothing is drawn again. */
const NONE: readonly Point[] = [];

type Doing = 'walk' | 'list' | 'no-laser' | 'floor';
type Target = { readonly kind: 'extra'; readonly point: Point } | { readonly kind: 'again'; readonly id: string } | null;

const TYPED_IN: readonly TypedIn[] = ['inch', 'sixteenth', 'mm'];
/** 10 ft or 3 m, as most flatness limits use. */
const USUAL_STRAIGHTEDGE_M = { us: 3.048, metric: 3 } as const;

const readingWords = (problems: readonly ReadingProblem[]): PlacedWord[] =>
  problems.flatMap(({ kind, readingIds, point, message }) =>
    point === null ? [] : [{ key: `${kind} ${readingIds.join()}`, point, message }],
  );

const pastedWords = (problems: readonly ColumnProblem[]): PlacedWord[] =>
  problems.flatMap(({ line, point, message }) => (point === null ? [] : [{ key: `${line} ${message}`, point, message }]));

function ReadingsSheet({ roomAtHand, floor }: { readonly roomAtHand: RoomAtHand; readonly floor: RoomFloor }) {
  const { room, job, jobRoom } = roomAtHand;
  const { plan } = room;
  const { units, locale, country } = useMeasure();
  const small = useSmall();
  const [chosen, setWhich] = useState<WhichSurvey | null>(null);
  const which = chosen ?? surveyDue(floor);
  const [doing, setDoing] = useState<Doing>(room.survey.runs === undefined ? 'walk' : 'no-laser');
  const [shows, setShows] = useState<ReadingsShow>('read');
  const [target, setTarget] = useState<Target>(null);
  const [skipped, setSkipped] = useState<readonly string[]>([]);
  const [walkBy, setWalkBy] = useState<WalkBy>('grid');
  const [spacing, setSpacing] = useState<number | null>(null);
  const [straightedgeM, setStraightedge] = useState<number>(USUAL_STRAIGHTEDGE_M[units]);
  const [sectionChoice, setSectionChoice] = useState<SectionChoice>('long');
  const [drawn, setDrawn] = useState<readonly Point[]>([]);
  const setting = useSetting('readings-typed-in');
  const typedIn = TYPED_IN.find((t) => t === setting) ?? (units === 'us' ? 'inch' : 'mm');

  const survey = useMemo(() => surveyOf(room, which) ?? blankSurvey(room), [room, which]);
  const asked = useMemo(
    () => ({
      plan,
      survey,
      choice: jobRoom?.level ?? newLevelChoice(),
      options: {
        units,
        grindPrices: null,
        flooringThicknessM: jobRoom?.flooringThicknessM ?? 0,
        flooring: jobRoom?.flooring ?? null,
        flooringLimits: jobRoom?.flooringLimits ?? null,
        country,
        straightedgeM,
      },
    }),
    [plan, survey, jobRoom, units, country, straightedgeM],
  );
  const { surveyed: answer, isBehind } = useSurvey(asked);
  // The pour goes on the floor below the flooring that is removed; questions and the drawing use the floor as read.
  const onceOut = useMemo(() => (which === 'before' ? surveyOnceOut(survey, room.layers) : survey), [which, survey, room.layers]);
  const poured = useSurvey(useMemo(() => (onceOut === survey ? null : { ...asked, survey: onceOut }), [onceOut, survey, asked]));
  const surveyed = answer?.state === 'surveyed' ? answer : null;
  const problems = answer === null ? [] : answer.problems;

  const worth = useMemo(
    () => (surveyed === null ? [] : surveyed.floor.worthReading.filter((p) => pointInRoom(p, plan) !== 'outside')),
    [surveyed, plan],
  );
  const lines = useMemo(() => fLinePlaces(plan, units), [plan, units]);
  const grid = useMemo(
    () => (walkBy === 'lines' && lines.points.length > 0 ? lines : readingGrid(plan, spacing ?? undefined)),
    [plan, spacing, walkBy, lines],
  );
  const points = useMemo(() => (which === 'rest' ? restPoints(grid.points, floor) : grid.points), [which, grid, floor]);
  const unread = useMemo(
    () => (grid === lines ? linePlacesLeft(points, survey.readings) : placesLeft(points, survey.readings, grid.spacingM)),
    [grid, lines, points, survey.readings],
  );
  const pasted = usePastedColumn(unread, typedIn, survey.method, locale);
  const place = (p: Point) => `${p.xM},${p.yM}`;
  const next = unread.find((p) => !skipped.includes(place(p))) ?? unread[0] ?? null;
  const again = target?.kind === 'again' ? survey.readings.find((r) => r.id === target.id) : undefined;
  const aim: Aim =
    again !== undefined
      ? { kind: 'again', reading: again }
      : target?.kind === 'extra'
        ? { kind: 'extra', point: target.point }
        : next === null
          ? { kind: 'done' }
          : { kind: 'next', point: next, count: points.indexOf(next) + 1, of: points.length };
  const aimAt = aim.kind === 'again' ? aim.reading : aim.kind === 'done' ? null : aim.point;

  const openPoints = shows !== 'read' || doing === 'floor' ? NONE : doing === 'walk' ? unread : pasted.places;
  const placedNotes = doing === 'list' && pasted.problems.length > 0 ? pastedWords(pasted.problems) : readingWords(problems);
  const lettered = doing === 'floor' || (doing === 'walk' && aim.kind === 'done') ? worth : NONE;
  const aimAhead = doing === 'walk' ? aimAt : null;

  const field = surveyed === null ? null : calculatedFor(surveyed.floor, 'shown floor', () => shownFloor(room, surveyed));
  const line = useMemo(
    () => (surveyed === null ? null : sectionLine(sectionChoice, plan.outline, surveyed, drawn)),
    [surveyed, sectionChoice, plan.outline, drawn],
  );
  const section = useMemo(
    () =>
      surveyed === null || line === null
        ? null
        : sectionThrough(surveyed.floor, surveyed.level, asked.choice, false, { from: line.from, to: line.to }),
    [surveyed, line, asked.choice],
  );
  const [fit, setFit] = useState<PlanFit | null>(null);

  const aimTo = (to: Point | null) => {
    setTarget(to === null ? null : { kind: 'extra', point: to });
    if (to !== null) setDoing('walk');
  };
  const press = (to: Point) => {
    if (doing === 'floor' && sectionChoice === 'drawn') {
      setDrawn(drawn.length >= 2 ? [to] : [...drawn, to]);
      return;
    }
    aimTo(to);
  };
  const pickReading = (id: string) => {
    setTarget({ kind: 'again', id });
    if (doing === 'floor') setDoing('walk');
  };
  const walk = doing === 'walk' && (
    <WalkPanel
      room={room}
      which={which}
      survey={survey}
      aim={aim}
      typedIn={typedIn}
      onTypedIn={(to) => void storeSetting('readings-typed-in', to)}
      spacingM={grid.spacingM}
      onSpacing={setSpacing}
      walkBy={walkBy}
      onWalkBy={(by) => {
        setWalkBy(by);
        setSkipped([]);
      }}
      hasLines={lines.points.length > 0}
      onSkip={() => next !== null && setSkipped([...skipped, place(next)])}
      worth={worth}
      onAim={aimTo}
      onTaken={() => setTarget(null)}
    />
  );
  const noun = NOUNS[which];
  return (
    <RoomSheet
      roomAtHand={roomAtHand}
      shows="readings"
      block={
        <>
          {survey.runs === undefined ? walk : doing === 'walk' && <RunsHere />}
          <BlockPart>
            <ChoiceRow
              label="Survey"
              value={which}
              options={[
                { value: 'before', word: 'As found' },
                ...(floor.extent === 'partly' || room.surveyRest !== null ? [{ value: 'rest' as const, word: 'Rest to pour' }] : []),
                { value: 'after', word: 'After the pour' },
              ]}
              onChange={(to) => {
                setWhich(to);
                setTarget(null);
                setSkipped([]);
              }}
            />
            <SurveyNote room={room} which={which} floor={floor} />
            <div className="plan-part">
              <ChoiceRow
                label="Mode"
                value={doing}
                options={[
                  { value: 'walk', word: 'Read' },
                  { value: 'list', word: 'List' },
                  { value: 'no-laser', word: 'No laser' },
                  { value: 'floor', word: 'Flatness', disabled: surveyed === null },
                ]}
                onChange={setDoing}
              />
            </div>
          </BlockPart>
          {doing === 'list' && (
            <ReadingsList
              room={room}
              which={which}
              survey={survey}
              picked={target?.kind === 'again' ? target.id : null}
              onPick={(id) => setTarget({ kind: 'again', id })}
              pasted={pasted}
              unread={unread}
            />
          )}
          {doing === 'no-laser' && <NoLaserPanel room={room} which={which} survey={survey} />}
          {doing === 'floor' && surveyed !== null && (
            <FloorPanel
              surveyed={surveyed}
              worth={worth}
              count={survey.readings.length}
              straightedgeM={straightedgeM}
              onStraightedge={setStraightedge}
              sectionChoice={sectionChoice}
              onSection={(choice) => {
                setSectionChoice(choice);
                // Starts from the last section.
                setDrawn(choice === 'drawn' && line !== null ? [line.from, line.to] : []);
              }}
              onAim={aimTo}
            />
          )}
          <Queries room={room} which={which} survey={survey} problems={problems} onAgain={pickReading} />
        </>
      }
      datum={
        doing === 'floor' && section !== null && section.stretches.length > 0 ? (
          <DatumDrawing
            label="Section of the floor along the line A to A′, below the finish elevation"
            linePx={SECTION_LINE_PX}
            draw={(widthPx) => sectionPicture({ section, widthPx, small, units, locale })}
          />
        ) : (
          <Datum
            label={`The room’s width in ${units === 'us' ? 'feet' : 'meters'}, from its left wall`}
            scale={(widthPx) => roomDatum(fit, plan.outline, units, small, widthPx)}
          />
        )
      }
      foot={
        <ReadingsFoot
          roomAtHand={roomAtHand}
          which={which}
          survey={survey}
          answer={poured.surveyed ?? answer}
          isBehind={isBehind || poured.isBehind}
          choice={asked.choice}
          isWalking={doing === 'walk'}
        />
      }
      action={
        job !== null && which === 'before' ? (
          <ActionButton href={stageHref(job.id, 'estimate', room.id)} held={surveyed === null ? 'Take at least three readings.' : null}>
            Next: Estimate
          </ActionButton>
        ) : job !== null && which === 'rest' ? (
          <ActionButton href={stageHref(job.id, 'pour', room.id)}>Go to Pour</ActionButton>
        ) : job !== null ? (
          <ActionButton
            href={stageHref(job.id, 'handover', room.id)}
            held={surveyed === null ? 'Take at least three readings after the pour.' : null}
          >
            Go to Handover
          </ActionButton>
        ) : (
          <ActionButton href={`/properties/${room.propertyId}`}>Go to property</ActionButton>
        )
      }
    >
      <SheetHeading
        under={readWords(surveyOf(roomAtHand.written, which), survey, `${unread.length} of ${points.length} suggested points left`)}
      >
        {room.name}: {noun}
      </SheetHeading>
      {surveyed !== null && (
        <div className="plan-tools">
          <ChoiceRow<ReadingsShow>
            label="Show on the plan"
            value={shows}
            options={{ read: 'Readings', height: 'Floor elevation', depth: 'Pour depth' }}
            onChange={setShows}
          />
        </div>
      )}
      <DrawingRoom smallRatio={heightRatio(plan.outline)}>
        {(paper) => (
          <ReadingsPlan
            picture={{
              room,
              survey,
              surveyed,
              field,
              shows,
              ...paper,
              units,
              locale,
              openPoints,
              aimAt: aimAhead,
              bar: doing === 'floor' ? (surveyed?.flatness.worst.contacts ?? null) : null,
              lettered,
              section: doing === 'floor' ? line : null,
            }}
            onFit={setFit}
            placedNotes={placedNotes}
            showsNotes={shows === 'read' && (doing === 'walk' || (doing === 'list' && pasted.problems.length > 0))}
            showsFlatness={doing === 'floor'}
            drawn={doing === 'floor' && sectionChoice === 'drawn' ? drawn : []}
            onDrawn={setDrawn}
            onPlace={press}
            onReading={pickReading}
          />
        )}
      </DrawingRoom>
    </RoomSheet>
  );
}
