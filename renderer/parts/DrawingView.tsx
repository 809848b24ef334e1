import {
  type KeyboardEvent,
  type MouseEvent,
  useDeferredValue,
  useMemo,
  useRef,
  useState,
  type ReactNode,
  type RefCallback,
  useCallback,
} from 'react';
import type { Drawing, Mark } from '../../shared-core/drawing/marks.ts';
import { DrawingMarks, type GroupManner } from './DrawingMarks.tsx';
import { type Place, middleOf, placeThatWay } from './drawing-paths.ts';
import './DrawingView.css';
import { useSmall } from './use-small.ts';
import './DrawingRoom.css';
import { keepLast } from '../workers/keep-last.ts';
import './Datum.css';

/** Minimum letter size, px; below it the drawing pans instead of shrinking. */
const LEAST_LETTERING_PX = 15;

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
  const { ref, size } = useSize<HTMLDivElement>(`drawing ${label}`);
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

interface DrawingRoomProps {
  /** Draws for the available size. */
  readonly children: (room: { readonly widthPx: number; readonly heightPx: number; readonly small: boolean }) => ReactNode;
  /** Minimum height; the screen then scrolls. */
  readonly leastPx?: number;
  /** Maximum height, so that what is below it stays visible. */
  readonly mostPx?: number;
  /** Height as a multiple of the width on a small screen, which has one column. */
  readonly smallRatio?: number;
}

/** Minimum height on a low window, px. */
const LEAST_SMALL_PX = 300;

/** Gives a drawing the space between a screen's heading and its datum. */
export function DrawingRoom({ children, leastPx = 320, mostPx = Number.POSITIVE_INFINITY, smallRatio = 1.3 }: DrawingRoomProps) {
  const { ref, size } = useSize<HTMLDivElement>('room');
  // The screen shows its words and figures first where the drawing's place has to be measured.
  const drawn = useDeferredValue(size);
  const small = useSmall();
  const heightPx =
    size === null
      ? 0
      : small
        ? Math.round(Math.min(size.widthPx * smallRatio, Math.max(LEAST_SMALL_PX, window.innerHeight * 0.8)))
        : Math.max(leastPx, Math.min(size.heightPx, mostPx));
  return (
    <div className="drawing-room" ref={ref} style={{ minHeight: small ? heightPx : leastPx }}>
      {/* Out of the flow, so that the drawing does not affect the size it is drawn for. */}
      <div className="drawing-room-inner">
        {drawn !== null && drawn.widthPx > 0 && children({ widthPx: drawn.widthPx, heightPx, small })}
      </div>
    </div>
  );
}

interface DatumDrawingProps {
  readonly label: string;
  /** Draws for the width of the window; the line is one of the marks. */
  readonly draw: (widthPx: number) => Drawing;
  /** Distance of the line from the drawing's top, where the screen's vertical rule ends. */
  readonly linePx: number;
  readonly onPick?: (name: string) => void;
}

/** A datum that is part of a drawing, such as a section or a ribbon. */
export function DatumDrawing({ label, draw, linePx, onPick }: DatumDrawingProps) {
  const { ref, size } = useSize<HTMLDivElement>(`datum ${label}`);
  return (
    <div className="datum-drawing" ref={ref} style={{ ['--over' as string]: `${linePx}px` }}>
      {size !== null && size.widthPx > 0 && <DrawingView drawing={draw(size.widthPx)} label={label} {...(onPick ? { onPick } : {})} />}
    </div>
  );
}

interface Size {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Sizes measured last, by place. */
const lastSizes = new Map<string, Size>();
const MOST_SIZES = 200;

/**
 * The size of the element that `ref` is set on, live. Null until the first layout.
 * @param place what it is on its screen: opened again, the screen is drawn for the last size, without a layout to measure it
 */
export function useSize<E extends Element>(place: string): { readonly ref: RefCallback<E>; readonly size: Size | null } {
  const [key] = useState(() => `${location.hash} ${window.innerWidth} ${window.innerHeight} ${place}`);
  const [size, setSize] = useState(() => lastSizes.get(key) ?? null);
  const ref = useCallback(
    (element: E | null) => {
      if (element === null) return undefined;
      const take = (widthPx: number, heightPx: number) => {
        keepLast(lastSizes, key, { widthPx, heightPx }, MOST_SIZES);
        setSize((current) => (current?.widthPx === widthPx && current.heightPx === heightPx ? current : { widthPx, heightPx }));
      };
      if (!lastSizes.has(key)) {
        const box = element.getBoundingClientRect();
        take(Math.floor(box.width), Math.floor(box.height));
      }
      const watch = new ResizeObserver((entries) => {
        const last = entries.at(-1);
        if (last !== undefined) take(Math.floor(last.contentRect.width), Math.floor(last.contentRect.height));
      });
      watch.observe(element);
      return () => watch.disconnect();
    },
    [key],
  );
  return { ref, size };
}
