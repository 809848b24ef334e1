import { useMemo, useState } from 'react';
import type { Point } from '../../shared-core/book/fields.ts';
import { formatArea } from '../../shared-core/measure/area.ts';
import { formatLength } from '../../shared-core/measure/length-format.ts';
import { planProblems } from '../../shared-core/plan/problems.ts';
import { roomAreaM2, roomPerimeterM } from '../../shared-core/plan/region.ts';
import { ActionButton } from '../parts/Buttons.tsx';
import { Answer } from '../parts/Answer.tsx';
import { ChoiceRow } from '../parts/Choices.tsx';
import { Datum } from '../parts/Datum.tsx';
import { DrawingRoom } from '../parts/DrawingView.tsx';
import { Reason } from '../parts/Reason.tsx';
import { BlockPart, SheetHeading } from '../parts/Sheet.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { useSmall } from '../parts/use-small.ts';
import { HolesPanel } from './HolesPanel.tsx';
import { type MarkKind, MarksPanel } from './MarksPanel.tsx';
import { OpeningsPanel } from './OpeningsPanel.tsx';
import { figureOf, heightRatio, roomPicture, unitOf } from './plan-picture.ts';
import { roomDatum } from './room-datum.ts';
import { PLAN_TOOLS, type PlanTool, planTool } from '../parts/plan-tools.ts';
import { RoomPicture } from './RoomPicture.tsx';
import { RoomSheet, WithRoom } from './RoomSheet.tsx';
import type { RoomAtHand } from './use-room.ts';
import { useTape, type TapeAtHand } from './use-tape.ts';
import { WallsPanel } from './WallsPanel.tsx';
import { fitPlan, type PlanFit, toRoom, toSheet } from '../../shared-core/drawing/plan-walls.ts';
import { boxCorners, stepped } from '../../shared-core/plan/edit-plan.ts';
import { between, distanceM } from '../../shared-core/plan/point.ts';
import { boundsOf } from '../../shared-core/plan/polygon.ts';
import { closingSentence, walkSides } from '../../shared-core/plan/tape.ts';
import { inWalkAxes, placedPoints, sideToward } from '../../shared-core/plan/tape-room.ts';
import { type CanvasPlace, PlaceNote, PlanCanvas } from '../parts/PlanCanvas.tsx';
import { stepsM } from '../parts/plan-places.ts';
import { knownSides, sketchedSides, type Tape } from './tape-draft.ts';
import { theRoom } from '../../shared-core/standing/names.ts';

/** Draws the plan of a room from tape measurements, by corners, or by dragging. */
export function PlanScreen({ roomId, part }: { readonly roomId: string; readonly part?: string | undefined }) {
  return <WithRoom roomId={roomId}>{(roomAtHand) => <PlanSheet roomAtHand={roomAtHand} opens={planTool(part)} />}</WithRoom>;
}

function PlanSheet({ roomAtHand, opens }: { readonly roomAtHand: RoomAtHand; readonly opens: PlanTool }) {
  const { room } = roomAtHand;
  const { plan } = room;
  const { units, locale } = useMeasure();
  const small = useSmall();
  const tapeAtHand = useTape(room);
  const [tool, setTool] = useState<PlanTool>(opens);
  const [picked, setPicked] = useState<string | null>(null);
  const [drawn, setDrawn] = useState<{ kind: MarkKind; points: readonly Point[] }>({ kind: 'crack', points: [] });
  // The side whose field has the focus: it lights up on the plan.
  const [litSide, setLitSide] = useState<number | null>(null);
  const [size, setSize] = useState({ widthPx: 0, heightPx: 0 });
  const isDrawn = plan.outline.length > 0;
  const isTaping = tapeAtHand !== undefined && (tapeAtHand.isOpen || !isDrawn) && tool === 'walls';
  const fit = useMemo(() => {
    if (size.widthPx === 0 || tapeAtHand === undefined) return null;
    return isTaping ? tapeFit(tapeAtHand.tape, size.widthPx, size.heightPx) : roomPicture(room, { ...size, small }, units, locale).fit;
  }, [size, tapeAtHand, isTaping, room, small, units, locale]);
  if (tapeAtHand === undefined) return <p className="app-opening caption">Loading…</p>;
  const onDraw = (kind: MarkKind, points: readonly Point[]) => setDrawn({ kind, points });
  const pick = (next: PlanTool) => {
    setTool(next);
    setPicked(null);
  };
  return (
    <RoomSheet
      roomAtHand={roomAtHand}
      shows="plan"
      block={
        <>
          <BlockPart>
            <ChoiceRow label="Plan tool" options={PLAN_TOOLS} value={tool} onChange={pick} />
          </BlockPart>
          {tool === 'walls' && <WallsPanel room={room} tapeAtHand={tapeAtHand} onSide={setLitSide} />}
          {tool === 'openings' && <OpeningsPanel room={room} picked={picked} onPick={setPicked} />}
          {tool === 'holes' && <HolesPanel room={room} picked={picked} onPick={setPicked} />}
          {tool === 'marks' && <MarksPanel room={room} picked={picked} onPick={setPicked} drawn={drawn} onDraw={onDraw} />}
        </>
      }
      datum={
        <Datum
          label={`The room’s width in ${units === 'us' ? 'feet' : 'meters'}, from its left wall`}
          scale={(widthPx) => roomDatum(fit, isTaping ? [tapeAtHand.tape.start] : plan.outline, units, small, widthPx)}
        />
      }
      foot={<PlanFoot roomAtHand={roomAtHand} isTaping={isTaping} />}
      action={
        <ActionButton href={`/readings/${room.id}`} held={isDrawn ? null : 'Draw the walls first.'}>
          Take readings
        </ActionButton>
      }
    >
      <SheetHeading under={underWords(isTaping, isDrawn, tool)}>{room.name}: plan</SheetHeading>
      <DrawingRoom smallRatio={heightRatio(isTaping ? [] : plan.outline)}>
        {(place) => {
          if (place.widthPx !== size.widthPx || place.heightPx !== size.heightPx) {
            queueMicrotask(() => setSize({ widthPx: place.widthPx, heightPx: place.heightPx }));
          }
          return isTaping ? (
            <TapePicture
              tape={tapeAtHand.tape}
              changeTape={tapeAtHand.changeTape}
              litSide={litSide}
              widthPx={place.widthPx}
              heightPx={place.heightPx}
            />
          ) : isDrawn ? (
            <RoomPicture
              room={room}
              {...place}
              litSide={litSide}
              tool={tool}
              picked={picked}
              onPick={setPicked}
              drawn={drawn}
              onDraw={onDraw}
            />
          ) : (
            <p>Nothing is drawn yet. Choose Walls and enter the sides first.</p>
          );
        }}
      </DrawingRoom>
    </RoomSheet>
  );
}

function underWords(isTaping: boolean, isDrawn: boolean, tool: PlanTool): string {
  if (isTaping && !isDrawn) return 'Choose the shape, then enter each side.';
  if (isTaping) return 'These sides replace the walls as soon as they close.';
  if (tool === 'walls') return 'Drag a corner or a wall, or enter exact sides beside the plan.';
  if (tool === 'openings') return 'Click or tap a wall to add an opening.';
  return tool === 'holes' ? 'Click or tap where the cutout is.' : 'Click or tap along a crack or around an area.';
}

function PlanFoot({ roomAtHand, isTaping }: { readonly roomAtHand: RoomAtHand; readonly isTaping: boolean }) {
  const { plan } = roomAtHand.room;
  const { units, locale } = useMeasure();
  const problems = useMemo(() => planProblems(plan, units, locale), [plan, units, locale]);
  const first = problems[0];
  if (plan.outline.length === 0) return <Answer>Draw the walls. The rest of the job is measured from them.</Answer>;
  if (first !== undefined) {
    return (
      <Answer
        under={
          problems.length > 1
            ? problems.length === 2
              ? '1 more problem is marked on the plan.'
              : `${problems.length - 1} more problems are marked on the plan.`
            : undefined
        }
      >
        {first.message}
      </Answer>
    );
  }
  const area = formatArea(roomAreaM2(plan), units, locale);
  const { wallsM, holesM } = roomPerimeterM(plan);
  return (
    <>
      <Answer
        figure={
          <Reason
            why={{
              figureName: `Floor of ${theRoom(roomAtHand.room.name)}`,
              inputs: [
                { name: 'Corners', value: String(plan.outline.length) },
                { name: 'Cutouts', value: String(plan.holes.length) },
              ],
              formula: 'The area within the walls, less the cutouts. Exact for the plan as drawn.',
              source: 'Shoelace formula over the corners',
              range: null,
            }}
          >
            {figureOf(area)}
          </Reason>
        }
        under={isTaping ? 'Current walls. The new sides do not close yet.' : undefined}
      >
        {unitOf(area)} floor area
      </Answer>
      <Answer wideOnly under={holesM > 0 ? `Plus ${formatLength(holesM, units, locale)} around cutouts` : undefined}>
        {formatLength(wallsM, units, locale)} wall length
      </Answer>
    </>
  );
}

/** Size of the area shown while only one or two corners exist, m. */
const FIRST_SHEET = { wideM: 6.5, deepM: 5 };
/** A press this near the first corner closes the outline, px; an angle this near to 90° becomes square, degrees. */
const CLOSE_PX = 20;
const MEETS_PX = 12;
const SQUARE_WITHIN_DEG = 14;

/** Corners of the walk on the canvas, and the end of its last side. */
function cornersOf(tape: Tape) {
  const sides = sketchedSides(tape);
  const walk = walkSides(sides);
  const end = { xM: 0 - walk.gapXM, yM: 0 - walk.gapYM };
  return placedPoints([...walk.corners, end], tape);
}

/** Scale and offset of the sides being entered. */
function tapeFit(tape: Tape, widthPx: number, heightPx: number): PlanFit | null {
  const corners = cornersOf(tape);
  const room = tape.shape === 'free' ? boxCorners(tape.start.xM, tape.start.yM, FIRST_SHEET.wideM, FIRST_SHEET.deepM) : [];
  const box = boundsOf([...corners, ...room]);
  if (box === null) return null;
  const outline = boxCorners(box.leftM, box.topM, box.rightM - box.leftM, box.bottomM - box.topM);
  return fitPlan(outline, { x: 56, y: 44, width: widthPx - 112, height: heightPx - 92 });
}

interface TapePictureProps {
  readonly tape: Tape;
  readonly changeTape: TapeAtHand['changeTape'];
  readonly litSide: number | null;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** The sides entered so far: measured ones solid, the rest dashed, and the gap where they do not close. */
function TapePicture({ tape, changeTape, litSide, widthPx, heightPx }: TapePictureProps) {
  const { units, locale } = useMeasure();
  const fit = tapeFit(tape, widthPx, heightPx);
  if (fit === null) return null;
  const corners = cornersOf(tape);
  const xy = corners.map((p) => toSheet(fit, p));
  const [first, last] = [xy[0], xy.at(-1)];
  const sides = knownSides(tape);
  const walk = sides === null ? null : walkSides(sides);
  const closing = walk === null || walk.corners.length < 3 ? null : closingSentence(walk, units, locale);
  const isGap = closing !== null && tape.shape !== 'free';
  const tap = ({ x, y }: CanvasPlace) => {
    if (tape.shape !== 'free') return;
    const known = knownSides(tape) ?? [];
    const isClosing = known.length >= 2 && first !== undefined && Math.hypot(x - first[0], y - first[1]) < CLOSE_PX;
    // Aligned with the first corner, so that the room can close square.
    const met = (m: number) => (isClosing || (known.length >= 2 && Math.abs(m) * fit.pxPerM < MEETS_PX) ? 0 : m);
    const pressed = inWalkAxes(toRoom(fit, x, y), tape);
    const toward = { xM: met(pressed.xM), yM: met(pressed.yM) };
    const isExact = isClosing || toward.xM === 0 || toward.yM === 0;
    const next = sideToward(known, toward, isClosing ? 0 : SQUARE_WITHIN_DEG);
    const step = stepsM(units).plain;
    const lengthM = isExact ? next.lengthM : stepped(next.lengthM, step);
    if (!(lengthM > 0)) return;
    const turned = known.map((side, i) => (i === known.length - 1 ? { ...side, turnDeg: next.turnBeforeDeg } : side));
    changeTape((now) => ({
      ...now,
      headingDeg: known.length === 0 ? now.headingDeg + next.turnBeforeDeg : now.headingDeg,
      sides: [...turned, { lengthM, turnDeg: 90 }],
    }));
  };
  return (
    <PlanCanvas
      label="The sides entered so far"
      widthPx={widthPx}
      heightPx={heightPx}
      marks={[]}
      onTap={tape.shape === 'free' ? tap : undefined}
      notes={
        isGap && last !== undefined ? (
          <PlaceNote place={{ x: last[0], y: last[1] }} widthPx={widthPx} heightPx={heightPx}>
            {closing}
          </PlaceNote>
        ) : undefined
      }
    >
      {tape.sides.map((side, i) => {
        const [a, b] = [xy[i], xy[i + 1]];
        const [from, to] = [corners[i], corners[i + 1]];
        if (a === undefined || b === undefined || from === undefined || to === undefined) return null;
        const middle = toSheet(fit, between(from, to, 0.5));
        const d = Math.hypot(b[0] - a[0], b[1] - a[1]) || 1;
        // Labels are outside a clockwise outline, which is on its left.
        const [wx, wy] = [middle[0] + ((b[1] - a[1]) / d) * 30, middle[1] - ((b[0] - a[0]) / d) * 22 + 5];
        return (
          <g key={i}>
            <path d={`M${a[0]} ${a[1]}L${b[0]} ${b[1]}`} className={side.lengthM === null ? 'plan-drawn-unmeasured' : 'plan-drawn'} />
            {litSide === i && <path d={`M${a[0]} ${a[1]}L${b[0]} ${b[1]}`} className="plan-side-current" />}
            <text x={wx} y={wy} className={`plan-word${side.lengthM === null ? ' plan-word-figure' : ''}`}>
              {side.lengthM === null ? i + 1 : formatLength(side.lengthM, units, locale)}
            </text>
          </g>
        );
      })}
      {tape.shape === 'free' && first !== undefined && <circle cx={first[0]} cy={first[1]} r="7" className="plan-drawn plan-drawn-thin" />}
      {isGap &&
        first !== undefined &&
        last !== undefined &&
        corners[0] !== undefined &&
        distanceM(corners[0], corners.at(-1) ?? corners[0]) > 0 && (
          <path d={`M${first[0]} ${first[1]}L${last[0]} ${last[1]}`} className="plan-drawn-gap" />
        )}
    </PlanCanvas>
  );
}
