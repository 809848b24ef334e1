import type { Point } from '../../shared-core/book/fields.ts';
import { type PlanFit, toRoom } from '../../shared-core/drawing/plan-walls.ts';
import { Handle, placeOn } from './PlanCanvas.tsx';
import { placeWords, stepsM } from './plan-places.ts';
import { useMeasure } from './use-measure.ts';

interface SectionEndsProps {
  readonly outline: readonly Point[];
  readonly fit: PlanFit;
  /** Ends of the section being drawn: only the first, or both to be dragged. */
  readonly drawn: readonly Point[];
  readonly onDrawn: (ends: readonly Point[]) => void;
}

/** The ends of a section on a plan, moved by dragging or arrow keys. */
export function SectionEnds({ outline, fit, drawn, onDrawn }: SectionEndsProps) {
  const { units, locale } = useMeasure();
  const places = drawn.map((end) => placeOn(fit, end));
  if (places.length < 2) return places.map(({ x, y }, i) => <circle key={i} cx={x} cy={y} r="5" className="plan-drawn" />);
  const step = 4 * stepsM(units).plain;
  const fine = stepsM(units).plain;
  return drawn.map((end, i) => {
    const moveEnd = (to: Point) => onDrawn(drawn.map((p, k) => (k === i ? to : p)));
    return (
      <Handle
        key={i}
        shape="wall"
        place={placeOn(fit, end)}
        label={`End ${i === 0 ? 'A' : 'A′'} of the section, ${placeWords(outline, end, units, locale)}. Arrow keys move it.`}
        onDrag={(place) => moveEnd(toRoom(fit, place.x, place.y))}
        onStep={(dx, dy, isFine) => {
          const by = isFine ? fine : step;
          moveEnd({ xM: end.xM + dx * by, yM: end.yM + dy * by });
        }}
      />
    );
  });
}
