import type { ReactNode } from 'react';
import { useSmall } from './use-small.ts';
import { useSize } from './use-size.ts';
import './DrawingRoom.css';

interface DrawingRoomProps {
  /** The drawing for the room there is. */
  readonly children: (room: { readonly widthPx: number; readonly heightPx: number; readonly small: boolean }) => ReactNode;
  /** It never gets less height than this; the sheet then scrolls. */
  readonly leastPx?: number;
  /** And never more, so that what stands under it stays in sight. */
  readonly mostPx?: number;
  /** Height as a multiple of the width on a small screen, where the sheet is one column. */
  readonly smallRatio?: number;
}

/** The room that is left for a drawing between a sheet's heading and its datum. */
export function DrawingRoom({ children, leastPx = 320, mostPx = Number.POSITIVE_INFINITY, smallRatio = 1.3 }: DrawingRoomProps) {
  const { ref, size } = useSize<HTMLDivElement>();
  const small = useSmall();
  const heightPx = size === null ? 0 : small ? Math.round(size.widthPx * smallRatio) : Math.max(leastPx, Math.min(size.heightPx, mostPx));
  return (
    <div className="drawing-room" ref={ref} style={{ minHeight: small ? heightPx : leastPx }}>
      {/* Out of the flow, so that what is drawn does not decide the room it is drawn in. */}
      <div className="drawing-room-inner">{size !== null && size.widthPx > 0 && children({ widthPx: size.widthPx, heightPx, small })}</div>
    </div>
  );
}
