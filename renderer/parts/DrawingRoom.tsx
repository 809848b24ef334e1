import type { ReactNode } from 'react';
import { useSmall } from './use-small.ts';
import { useSize } from './use-size.ts';
import './DrawingRoom.css';

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
  const { ref, size } = useSize<HTMLDivElement>();
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
      <div className="drawing-room-inner">{size !== null && size.widthPx > 0 && children({ widthPx: size.widthPx, heightPx, small })}</div>
    </div>
  );
}
