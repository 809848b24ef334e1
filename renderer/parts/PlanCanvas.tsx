import { type MouseEvent, type PointerEvent, type KeyboardEvent, type ReactNode, useRef } from 'react';
import type { Point } from '../../shared-core/book/fields.ts';
import type { Mark } from '../../shared-core/drawing/marks.ts';
import { type PlanFit, toSheet } from '../../shared-core/drawing/plan-walls.ts';
import { ARROWS } from './drawing-paths.ts';
import { DrawingMarks } from './DrawingMarks.tsx';
import './PlanCanvas.css';

/** A point on the canvas, px. */
export interface CanvasPlace {
  readonly x: number;
  readonly y: number;
}

/** A point of the room on the canvas. */
export function placeOn(fit: PlanFit, point: Point): CanvasPlace {
  const [x, y] = toSheet(fit, point);
  return { x, y };
}

interface PlanCanvasProps {
  readonly label: string;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly marks: readonly Mark[];
  /** Handles and the shape being drawn, over the marks. */
  readonly children?: ReactNode;
  /** Labels, over everything. */
  readonly notes?: ReactNode;
  /** Called when free space is pressed. */
  readonly onTap?: ((place: CanvasPlace) => void) | undefined;
}

/** The canvas of a plan: the marks of a drawing with handles over them. */
export function PlanCanvas({ label, widthPx, heightPx, marks, children, notes, onTap }: PlanCanvasProps) {
  const tap = (event: MouseEvent<SVGSVGElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    onTap?.({ x: event.clientX - box.left, y: event.clientY - box.top });
  };
  return (
    <div className="plan-canvas" style={{ width: widthPx, height: heightPx }}>
      <svg
        role="group"
        aria-label={label}
        width={widthPx}
        height={heightPx}
        viewBox={`0 0 ${widthPx} ${heightPx}`}
        className={onTap === undefined ? undefined : 'plan-canvas-tapped'}
        onClick={onTap === undefined ? undefined : tap}
      >
        <g aria-hidden="true">
          <DrawingMarks marks={marks} manner={null} />
        </g>
        {children}
      </svg>
      {notes}
    </div>
  );
}

interface HandleProps {
  readonly place: CanvasPlace;
  /** Name and position: `Corner 3, 12′ 0″ across, 8′ 0″ down`. */
  readonly label: string;
  readonly shape: 'corner' | 'wall' | 'spot' | 'hidden';
  readonly isPicked?: boolean;
  readonly onPick?: () => void;
  /** Called while it is dragged, and once more when it is released. */
  readonly onDrag?: (to: CanvasPlace, isLetGo: boolean) => void;
  /** Called for an arrow key with the direction, and whether the fine step is meant. */
  readonly onStep?: (dx: number, dy: number, isFine: boolean) => void;
  readonly onDelete?: () => void;
}

/** Stops the page from scrolling under a drag. SVG shapes ignore `touch-action`, so the touch event itself is canceled. */
function holdTouch(element: SVGGElement | null): (() => void) | undefined {
  if (element === null) return undefined;
  const hold = (event: TouchEvent) => event.preventDefault();
  element.addEventListener('touchstart', hold, { passive: false });
  return () => element.removeEventListener('touchstart', hold);
}

/** Below this movement it is a press, not a drag, px. */
const STILL_PX = 4;

/** Something on the canvas that is pressed, dragged, or moved by the arrow keys. */
export function Handle({ place: position, label, shape, isPicked = false, onPick, onDrag, onStep, onDelete }: HandleProps) {
  const from = useRef<{ readonly x: number; readonly y: number; isMoving: boolean } | null>(null);
  const place = (event: PointerEvent<SVGGElement>): CanvasPlace => {
    const box = event.currentTarget.ownerSVGElement?.getBoundingClientRect();
    return { x: event.clientX - (box?.left ?? 0), y: event.clientY - (box?.top ?? 0) };
  };
  const move = (event: PointerEvent<SVGGElement>) => {
    const start = from.current;
    if (start === null || onDrag === undefined) return;
    if (!start.isMoving && Math.hypot(event.clientX - start.x, event.clientY - start.y) < STILL_PX) return;
    start.isMoving = true;
    onDrag(place(event), false);
  };
  const drop = (event: PointerEvent<SVGGElement>) => {
    const start = from.current;
    from.current = null;
    if (start?.isMoving === true) onDrag?.(place(event), true);
    else if (start !== null) onPick?.();
  };
  const press = (event: KeyboardEvent) => {
    const way = ARROWS[event.key];
    if (way !== undefined && onStep !== undefined) onStep(way[0], way[1], event.shiftKey);
    else if ((event.key === 'Delete' || event.key === 'Backspace') && onDelete !== undefined) onDelete();
    else if (event.key === 'Enter' || event.key === ' ') onPick?.();
    else return;
    event.preventDefault();
  };
  return (
    <g
      ref={onDrag === undefined ? undefined : holdTouch}
      role="button"
      tabIndex={0}
      aria-label={label}
      aria-pressed={isPicked || undefined}
      className={`plan-handle plan-handle-${shape}${onDrag === undefined ? '' : ' plan-handle-drags'}${isPicked ? ' plan-handle-picked' : ''}`}
      onClick={(event) => event.stopPropagation()}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        from.current = { x: event.clientX, y: event.clientY, isMoving: false };
      }}
      onPointerMove={move}
      onPointerUp={drop}
      onPointerCancel={() => {
        from.current = null;
      }}
      onKeyDown={press}
    >
      <rect x={position.x - 22} y={position.y - 22} width="44" height="44" className="plan-handle-reach" />
      {shape === 'corner' && <rect x={position.x - 6} y={position.y - 6} width="12" height="12" className="plan-handle-mark" />}
      {shape === 'wall' && <circle cx={position.x} cy={position.y} r="5" className="plan-handle-mark" />}
      {shape === 'spot' && <circle cx={position.x} cy={position.y} r="9" className="plan-handle-mark" />}
      {shape === 'hidden' && isPicked && <circle cx={position.x} cy={position.y} r="12" className="plan-handle-mark" />}
    </g>
  );
}

interface PlaceNoteProps {
  readonly place: CanvasPlace;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly children: ReactNode;
}

/** A sentence at its place, moved to stay within the canvas. */
export function PlaceNote({ place, widthPx, heightPx, children }: PlaceNoteProps) {
  const most = Math.min(250, widthPx - 16);
  const leftPx = Math.max(8, Math.min(widthPx - most - 8, place.x + 14));
  const isLow = place.y > heightPx * 0.66;
  return (
    <div
      className="plan-note"
      style={{ left: leftPx, width: most, ...(isLow ? { bottom: heightPx - place.y + 12 } : { top: place.y + 12 }) }}
    >
      {children}
    </div>
  );
}

/** The bar that marks a hold, at the place its sentence is about. */
export function PlaceBar({ place }: { readonly place: CanvasPlace }) {
  return <rect x={place.x - 9} y={place.y - 3.5} width="18" height="7" className="plan-bar" aria-hidden="true" />;
}
