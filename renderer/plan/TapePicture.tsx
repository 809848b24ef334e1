import { fitPlan, type PlanFit, toRoom, toSheet } from '../../shared-core/drawing/plan-walls.ts';
import { formatLength } from '../../shared-core/measure/length-format.ts';
import { boxCorners, stepped } from '../../shared-core/plan/edit-plan.ts';
import { between, distanceM } from '../../shared-core/plan/point.ts';
import { boundsOf } from '../../shared-core/plan/polygon.ts';
import { closingSentence, walkSides } from '../../shared-core/plan/tape.ts';
import { inWalkAxes, placedPoints, sideToward } from '../../shared-core/plan/tape-room.ts';
import { useMeasure } from '../parts/use-measure.ts';
import { type CanvasPlace, PlaceNote, PlanCanvas } from '../parts/PlanCanvas.tsx';
import { stepsM } from '../parts/plan-places.ts';
import { knownSides, sketchedSides, type Tape } from './tape-draft.ts';
import type { TapeAtHand } from './use-tape.ts';

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
export function tapeFit(tape: Tape, widthPx: number, heightPx: number): PlanFit | null {
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
export function TapePicture({ tape, changeTape, litSide, widthPx, heightPx }: TapePictureProps) {
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
      {...(tape.shape === 'free' ? { onTap: tap } : {})}
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
