import type { Update } from '../book/write.ts';
import { type ReactNode, useMemo, useState } from 'react';
import type { Point } from '../../shared-core/book/fields.ts';
import type { Plan } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { reserveRings, startSheet } from '../../shared-core/drawing/labels.ts';
import { placeText } from '../../shared-core/drawing/lettering.ts';
import { boundsOf, isInside } from '../../shared-core/drawing/ring-clip.ts';
import { type PlanFit, ringOnSheet, toRoom, toSheet } from '../../shared-core/drawing/plan-walls.ts';
import { SANS_BOLD } from '../../shared-core/drawing/type-metrics.ts';
import { formatLength } from '../../shared-core/measure/length-format.ts';
import {
  movedBy,
  outOfWallM,
  snapped,
  stepped,
  withCornerAt,
  withCornerIn,
  withoutCorner,
  withWallMoved,
} from '../../shared-core/plan/edit-plan.ts';
import { nearestWall, placedOpenings, wallOf } from '../../shared-core/plan/openings.ts';
import { between, sidesOf } from '../../shared-core/plan/point.ts';
import { centroidOf } from '../../shared-core/plan/polygon.ts';
import { planProblems } from '../../shared-core/plan/problems.ts';
import { useMeasure } from '../parts/use-measure.ts';
import { type CanvasPlace, Handle, PlaceBar, PlaceNote, placeOn, PlanCanvas } from '../parts/PlanCanvas.tsx';
import { holeName, newHole } from './HolesPanel.tsx';
import { LEAST_POINTS, type MarkKind, shapeOfMark } from './MarksPanel.tsx';
import type { PlanTool } from '../parts/plan-tools.ts';
import { openingName } from '../../shared-core/plan/openings.ts';
import { newOpening } from './OpeningsPanel.tsx';
import { placeWords, stepsM } from '../parts/plan-places.ts';
import { roomPicture } from './plan-picture.ts';
import { changePlan } from './reported-changes.ts';
import { theRoom } from '../../shared-core/standing/names.ts';

interface RoomPictureProps {
  readonly room: Room;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly small: boolean;
  /** The side whose length is being entered. */
  readonly litSide: number | null;
  readonly tool: PlanTool;
  readonly picked: string | null;
  readonly onPick: (id: string | null) => void;
  readonly drawn: { readonly kind: MarkKind; readonly points: readonly Point[] };
  readonly onDraw: (kind: MarkKind, points: readonly Point[]) => void;
}

/** Snaps to another corner's row or column within this distance, px. */
const ALIGN_PX = 9;
/** Maximum number of sentences on the plan. */
const MOST_NOTES = 3;

/** The room as drawn, with handles for what is being edited. */
export function RoomPicture(props: RoomPictureProps) {
  const { room, widthPx, heightPx, small, tool, drawn, onDraw, onPick } = props;
  const { units, locale } = useMeasure();
  const { plan, marks } = room;
  const [preview, setPreview] = useState<Plan | null>(null);
  const drawing = useMemo(
    () => roomPicture({ plan, marks }, { widthPx, heightPx, small }, units, locale),
    [plan, marks, widthPx, heightPx, small, units, locale],
  );
  const problems = useMemo(() => planProblems(plan, units, locale).slice(0, MOST_NOTES), [plan, units, locale]);
  const { fit } = drawing;
  if (fit === null)
    return <p className="field-problem">The corners of this room lie in one line. Choose its shape again and enter its sides.</p>;
  const save = (label: string, update: Update<Plan>) => {
    setPreview(null);
    void changePlan(room.id, `${label} of ${theRoom(room.name)}`, update);
  };
  const tap = ({ x, y }: CanvasPlace) => {
    const point = toRoom(fit, x, y);
    if (tool === 'openings') {
      const near = nearestWall(plan, point);
      if (near === null) return;
      const opening = newOpening(near.wall, near.alongM, wallOf(plan, near.wall)?.lengthM ?? 0);
      save('new opening', (now) => ({ ...now, openings: [...now.openings, opening] }));
      onPick(opening.id);
    } else if (tool === 'holes') {
      const hole = newHole(point);
      save('new cutout', (now) => ({ ...now, holes: [...now.holes, hole] }));
      onPick(hole.id);
    } else if (tool === 'marks') {
      onDraw(drawn.kind, shapeOfMark(drawn.kind) === 'spot' ? [point] : [...drawn.points, point]);
    }
  };
  return (
    <PlanCanvas
      label={`Plan of ${theRoom(room.name)}`}
      widthPx={widthPx}
      heightPx={heightPx}
      marks={drawing.marks}
      onTap={tool === 'walls' ? undefined : tap}
      notes={problems.map((problem) => (
        <PlaceNote
          key={`${problem.kind}${problem.subjectId ?? ''}${problem.point.xM}`}
          place={placeOn(fit, problem.point)}
          widthPx={widthPx}
          heightPx={heightPx}
        >
          {problem.message}
        </PlaceNote>
      ))}
    >
      {preview !== null && <PlanOutline plan={preview} fit={fit} />}
      {tool === 'walls' && <SideNumbers room={room} plan={plan} fit={fit} litSide={props.litSide} />}
      {tool === 'walls' && <WallHandles plan={plan} preview={setPreview} save={save} fit={fit} />}
      {tool === 'openings' && <OpeningHandles {...props} preview={setPreview} save={save} fit={fit} />}
      {tool === 'holes' && <HoleHandles {...props} preview={setPreview} save={save} fit={fit} />}
      {tool === 'marks' && <DrawnMark drawn={drawn} fit={fit} />}
      {problems.map((problem) => (
        <PlaceBar key={`${problem.kind}${problem.subjectId ?? ''}${problem.point.xM}`} place={placeOn(fit, problem.point)} />
      ))}
    </PlanCanvas>
  );
}

function ring(points: readonly Point[], fit: PlanFit, isClosed: boolean): string {
  const d = points.map((p, i) => `${i === 0 ? 'M' : 'L'}${toSheet(fit, p).join(' ')}`).join('');
  return isClosed ? `${d}Z` : d;
}

/** From a wall to the middle of its number, within the room, and along the wall from its start. */
const NUMBER_PX = 24;
const NUMBER_ALONG = [0.5, 0.35, 0.65, 0.22, 0.78];

/** The number of each side beside it, as its field has it, off the marks; the side being entered is drawn heavy. */
function SideNumbers({ room, plan, fit, litSide }: { room: Pick<Room, 'marks'>; plan: Plan; fit: PlanFit; litSide: number | null }) {
  const outline = ringOnSheet(fit, plan.outline);
  const sheet = startSheet(boundsOf([outline]));
  reserveRings(sheet, [
    outline,
    ...[...plan.holes.map((h) => h.corners), ...room.marks.map((m) => m.points)].map((c) => ringOnSheet(fit, c)),
  ]);
  return (
    <g aria-hidden="true">
      {sidesOf(plan.outline).map(({ from, to }, i) => {
        const [ax, ay] = toSheet(fit, from);
        const [bx, by] = toSheet(fit, to);
        const d = Math.hypot(bx - ax, by - ay) || 1;
        // Inward: to the right of a walk round the room.
        const [nx, ny] = [-(by - ay) / d, (bx - ax) / d];
        const isRight = isInside((ax + bx) / 2 + nx * 4, (ay + by) / 2 + ny * 4, [outline]);
        const out = isRight ? NUMBER_PX : -NUMBER_PX;
        const number = placeText(
          sheet,
          [out, out * 0.7].flatMap((away) =>
            NUMBER_ALONG.map((t) => ({
              x: ax + (bx - ax) * t + nx * away,
              y: ay + (by - ay) * t + ny * away + 5,
              text: String(i + 1),
              anchor: 'middle',
              face: SANS_BOLD,
              sizePx: 16,
            })),
          ),
        );
        return (
          <g key={i}>
            {litSide === i && <path d={`M${ax} ${ay}L${bx} ${by}`} className="plan-side-current" />}
            {number !== null && (
              <text x={number.x} y={number.y} className="plan-word plan-word-figure">
                {number.text}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

/** The changed plan, drawn over the stored one. */
function PlanOutline({ plan, fit }: { readonly plan: Plan; readonly fit: PlanFit }) {
  const { units, locale } = useMeasure();
  return (
    <g>
      <path d={ring(plan.outline, fit, true)} className="plan-drawn" />
      {plan.holes.map((hole) => (
        <path key={hole.id} d={ring(hole.corners, fit, true)} className="plan-drawn" />
      ))}
      {placedOpenings(plan).map(({ opening, from, to }) => (
        <path key={opening.id} d={ring([from, to], fit, false)} className="plan-drawn-gap" />
      ))}
      {sidesOf(plan.outline).map(({ from, to }, i) => {
        const [x, y] = toSheet(fit, between(from, to, 0.5));
        const lengthM = wallOf(plan, i)?.lengthM ?? 0;
        return (
          <text key={i} x={x} y={y + 5} className="plan-word">
            {formatLength(lengthM, units, locale)}
          </text>
        );
      })}
    </g>
  );
}

interface HandlesProps {
  readonly plan: Plan;
  readonly fit: PlanFit;
  readonly preview: (plan: Plan | null) => void;
  readonly save: (label: string, update: Update<Plan>) => void;
}

function WallHandles({ plan, fit, preview, save }: HandlesProps): ReactNode {
  const { units, locale } = useMeasure();
  const steps = stepsM(units);
  return (
    <>
      {sidesOf(plan.outline).map(({ from, to }, wall) => {
        const middle = between(from, to, 0.5);
        const lengthM = wallOf(plan, wall)?.lengthM ?? 0;
        const out = (place: CanvasPlace) => stepped(outOfWallM(plan, wall, toRoom(fit, place.x, place.y)), steps.plain);
        return (
          <Handle
            key={`wall-${wall}`}
            shape="wall"
            place={placeOn(fit, middle)}
            label={`Wall ${wall + 1}, ${formatLength(lengthM, units, locale)}. Arrow keys move it, Enter adds a corner at its middle.`}
            onPick={() => save('corner', (now) => withCornerIn(now, wall, lengthM / 2))}
            onDrag={(place, isLetGo) => {
              const outM = out(place);
              if (isLetGo) save(`wall ${wall + 1}`, (now) => withWallMoved(now, wall, outM));
              else preview(withWallMoved(plan, wall, outM));
            }}
            onStep={(dx, dy, isFine) => {
              const step = isFine ? steps.fine : steps.plain;
              const outM = outOfWallM(plan, wall, { xM: middle.xM + dx * step, yM: middle.yM + dy * step });
              if (outM !== 0) save(`wall ${wall + 1}`, (now) => withWallMoved(now, wall, outM));
            }}
          />
        );
      })}
      {plan.outline.map((corner, i) => {
        const others = plan.outline.filter((_, k) => k !== i);
        const moved = (place: CanvasPlace) => snapped(toRoom(fit, place.x, place.y), others, ALIGN_PX / fit.pxPerM, steps.plain);
        return (
          <Handle
            key={`corner-${i}`}
            shape="corner"
            place={placeOn(fit, corner)}
            label={`Corner ${i + 1}, ${placeWords(plan.outline, corner, units, locale)}. Arrow keys move it, Delete removes it.`}
            onDrag={(place, isLetGo) => {
              const to = moved(place);
              if (isLetGo) save(`corner ${i + 1}`, (now) => withCornerAt(now, i, to));
              else preview(withCornerAt(plan, i, to));
            }}
            onStep={(dx, dy, isFine) => {
              const step = isFine ? steps.fine : steps.plain;
              save(`corner ${i + 1}`, (now) => withCornerAt(now, i, { xM: corner.xM + dx * step, yM: corner.yM + dy * step }));
            }}
            onDelete={() => {
              if (plan.outline.length > 3) save(`corner ${i + 1}`, (now) => withoutCorner(now, i));
            }}
          />
        );
      })}
    </>
  );
}

type ToolHandlesProps = Omit<HandlesProps, 'plan'> & Pick<RoomPictureProps, 'room' | 'picked' | 'onPick'>;

function OpeningHandles({ room, picked, onPick, fit, preview, save }: ToolHandlesProps): ReactNode {
  const { units, locale } = useMeasure();
  const { plan } = room;
  const steps = stepsM(units);
  return placedOpenings(plan).map(({ opening, middle }) => {
    const to = (wall: number, fromM: number) => (now: Plan) => ({
      ...now,
      openings: now.openings.map((o) => (o.id === opening.id ? { ...o, wall, fromM } : o)),
    });
    const wallM = wallOf(plan, opening.wall)?.lengthM ?? 0;
    // Wider than its wall, so it has no center to drag; its fields and the message fix it.
    if (opening.fromM + opening.widthM > wallM + 1e-6) return null;
    const within = (fromM: number, lengthM: number) => Math.max(0, Math.min(fromM, lengthM - opening.widthM));
    return (
      <Handle
        key={opening.id}
        shape="wall"
        place={placeOn(fit, middle)}
        isPicked={picked === opening.id}
        label={`${openingName(opening)}, wall ${opening.wall + 1}, ${formatLength(opening.fromM, units, locale)} from its corner. Arrow keys move it.`}
        onPick={() => onPick(opening.id)}
        onDrag={(place, isLetGo) => {
          const near = nearestWall(plan, toRoom(fit, place.x, place.y));
          if (near === null) return;
          const change = to(
            near.wall,
            within(stepped(near.alongM - opening.widthM / 2, steps.plain), wallOf(plan, near.wall)?.lengthM ?? 0),
          );
          if (isLetGo) save(`place of the ${openingName(opening)}`, change);
          else preview(change(plan));
        }}
        onStep={(dx, dy, isFine) => {
          const fromM = within(opening.fromM + (dx + dy) * (isFine ? steps.fine : steps.plain), wallM);
          save(`place of the ${openingName(opening)}`, to(opening.wall, fromM));
        }}
      />
    );
  });
}

function HoleHandles({ room, picked, onPick, fit, preview, save }: ToolHandlesProps): ReactNode {
  const { units } = useMeasure();
  const { plan } = room;
  const steps = stepsM(units);
  return plan.holes.map((hole) => {
    const middle = centroidOf(hole.corners) ?? hole.corners[0];
    if (middle === undefined) return null;
    const by = (xM: number, yM: number) => (now: Plan) => ({
      ...now,
      holes: now.holes.map((h) => (h.id === hole.id ? { ...h, corners: movedBy(h.corners, xM, yM) } : h)),
    });
    return (
      <Handle
        key={hole.id}
        shape="wall"
        place={placeOn(fit, middle)}
        isPicked={picked === hole.id}
        label={`${holeName(hole)}. Arrow keys move it.`}
        onPick={() => onPick(hole.id)}
        onDrag={(place, isLetGo) => {
          const point = toRoom(fit, place.x, place.y);
          const change = by(stepped(point.xM - middle.xM, steps.plain), stepped(point.yM - middle.yM, steps.plain));
          if (isLetGo) save(`place of the ${holeName(hole)}`, change);
          else preview(change(plan));
        }}
        onStep={(dx, dy, isFine) => {
          const step = isFine ? steps.fine : steps.plain;
          save(`place of the ${holeName(hole)}`, by(dx * step, dy * step));
        }}
      />
    );
  });
}

function DrawnMark({ drawn, fit }: { readonly drawn: RoomPictureProps['drawn']; readonly fit: PlanFit }) {
  if (drawn.points.length === 0) return null;
  const xy = drawn.points.map((p) => placeOn(fit, p));
  const shape = shapeOfMark(drawn.kind);
  const isClosed = shape === 'area' && xy.length >= LEAST_POINTS.area;
  return (
    <g>
      <path
        d={`${xy.map((p, i) => `${i === 0 ? 'M' : 'L'}${p.x} ${p.y}`).join('')}${isClosed ? 'Z' : ''}`}
        className="plan-drawn-unmeasured"
      />
      {xy.map((p, i) => (
        <circle key={i} cx={p.x} cy={p.y} r="4" className="plan-drawn" />
      ))}
    </g>
  );
}
