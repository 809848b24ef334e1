import { type KeyboardEvent, type MouseEvent, useMemo, useRef, useState } from 'react';
import type { Drawing, Mark } from '../../shared-core/drawing/marks.ts';
import { DrawingMarks, type GroupManner } from './DrawingMarks.tsx';
import { type Place, middleOf, placeThatWay } from './drawing-paths.ts';
import { useSize } from './use-size.ts';
import './DrawingView.css';

/** Minimum letter size, px; below it the drawing pans instead of shrinking. */
export const LEAST_LETTERING_PX = 15;

interface DrawingViewProps {
  readonly drawing: Drawing;
  /** The drawing as a sentence for screen readers. */
  readonly label: string;
  /** `fit` takes the available width, and pans where letters would be below 15 px; `natural` has its own size and pans. */
  readonly sizing?: 'fit' | 'natural';
  /** Called when a labeled group is pressed or chosen by the keyboard. */
  readonly onPick?: (name: string) => void;
  /** Called when free space is clicked, in units of the drawing. */
  readonly onPoint?: (position: { readonly x: number; readonly y: number }) => void;
  readonly picked?: string | null;
}

/** A drawing of `shared-core/drawing` as SVG. */
export function DrawingView({ drawing, label, sizing = 'fit', onPick, onPoint, picked = null }: DrawingViewProps) {
  const { ref, size } = useSize<HTMLDivElement>();
  const leastPx = useMemo(() => leastLettering(drawing.marks), [drawing]);
  const places = useMemo(() => (onPick === undefined ? [] : placesOf(drawing.marks)), [drawing, onPick]);
  const [activeId, setActiveId] = useState<string | null>(null);
  const svg = useRef<SVGSVGElement>(null);

  const fitScale = sizing === 'natural' || size === null ? 1 : Math.min(1, size.widthPx / drawing.width);
  const scale = leastPx === null ? fitScale : Math.max(fitScale, Math.min(1, LEAST_LETTERING_PX / leastPx));
  const widthPx = drawing.width * scale;
  const pans = size !== null && widthPx > size.widthPx + 1;
  const tabStop = places.some((p) => p.name === activeId) ? activeId : (places[0]?.name ?? null);
  const manner: GroupManner | null = onPick === undefined ? null : { tabStop, picked, onPick, onFocus: setActiveId };

  const move = (event: KeyboardEvent) => {
    const from = places.find((p) => p.name === activeId);
    const next = from === undefined ? null : placeThatWay(places, from, event.key);
    if (next === null) return;
    event.preventDefault();
    svg.current?.querySelector<SVGGElement>(`[data-name="${CSS.escape(next.name)}"]`)?.focus();
  };
  const point = (event: MouseEvent<SVGSVGElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    onPoint?.({
      x: ((event.clientX - box.left) / box.width) * drawing.width,
      y: ((event.clientY - box.top) / box.height) * drawing.height,
    });
  };
  return (
    // Wider than its space, so it takes the focus and scrolls by keyboard.
    <div
      ref={ref}
      className={`drawing-view${pans ? ' drawing-view-pans' : ''}`}
      {...(pans ? { tabIndex: 0, role: 'group', 'aria-label': `${label}. Scroll sideways to see all of it.` } : {})}
    >
      <svg
        ref={svg}
        // Without a label the text beside it describes it, so screen readers skip it.
        {...(label === '' ? { 'aria-hidden': true } : { role: manner === null ? 'img' : 'group', 'aria-label': label })}
        viewBox={`0 0 ${drawing.width} ${drawing.height}`}
        width={widthPx}
        height={drawing.height * scale}
        className={onPoint === undefined ? undefined : 'drawing-view-pointed'}
        onKeyDown={manner === null ? undefined : move}
        onClick={onPoint === undefined ? undefined : point}
      >
        <DrawingMarks marks={drawing.marks} manner={manner} />
      </svg>
    </div>
  );
}

function leastLettering(marks: readonly Mark[]): number | null {
  let least: number | null = null;
  for (const mark of marks) {
    const px = mark.kind === 'text' ? mark.sizePx : mark.kind === 'group' ? leastLettering(mark.marks) : null;
    if (px !== null && (least === null || px < least)) least = px;
  }
  return least;
}

function placesOf(marks: readonly Mark[]): Place[] {
  return marks.flatMap((mark) => {
    if (mark.kind !== 'group') return [];
    const middle = mark.label === '' ? null : middleOf(mark.marks);
    return middle === null ? placesOf(mark.marks) : [{ name: mark.name, ...middle }];
  });
}
