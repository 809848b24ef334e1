import type { ReactNode } from 'react';
import { Pointer } from './Pointer.tsx';
import { useSize } from './DrawingView.tsx';
import './Datum.css';

export interface DatumTick {
  /** Distance from the left edge of the window. */
  readonly xPx: number;
  /** Without it, a short tick without a label. */
  readonly label?: string;
}
export interface DatumStretch {
  readonly fromPx: number;
  readonly toPx: number;
  /** `wall` hatches days off; `grind` hatches what is too old to count. */
  readonly hatch: 'wall' | 'grind';
}
/** The graduation for a given width. */
export interface DatumScale {
  readonly ticks: readonly DatumTick[];
  readonly stretches?: readonly DatumStretch[];
  /** Position of the pointer: today, or now. */
  readonly pointerPx?: number;
}

interface DatumProps {
  /** The line as a sentence for screen readers: its unit, its range, and where the pointer is. */
  readonly label: string;
  readonly scale: (widthPx: number) => DatumScale;
  /** What is drawn under the line, for its width. */
  readonly children?: (widthPx: number) => ReactNode;
}

/** A label near the window's edge moves beside its tick, so that it is not cut off. */
function wordSide(xPx: number, widthPx: number): string {
  if (xPx < 40) return ' datum-word-start';
  return xPx > widthPx - 40 ? ' datum-word-end' : '';
}

/** The datum: one ruled line from edge to edge, graduated in the screen's unit. */
export function Datum({ label, scale, children }: DatumProps) {
  const { ref, size } = useSize<HTMLDivElement>('datum');
  const fitted = size === null ? null : scale(size.widthPx);
  return (
    <div className="datum" ref={ref}>
      <div className="datum-caption" role="img" aria-label={label}>
        {fitted?.ticks.map((tick) => (
          <span key={tick.xPx} className={`datum-tick${tick.label === undefined ? '' : ' datum-tick-long'}`} style={{ left: tick.xPx }}>
            {tick.label !== undefined && <span className={`datum-word${wordSide(tick.xPx, size?.widthPx ?? 0)}`}>{tick.label}</span>}
          </span>
        ))}
        {fitted?.pointerPx !== undefined && (
          <span className="datum-pointer" style={{ left: fitted.pointerPx }}>
            <Pointer widthPx={17} />
          </span>
        )}
        {fitted?.stretches?.map((s) => (
          <span key={s.fromPx} className={`datum-stretch datum-stretch-${s.hatch}`} style={{ left: s.fromPx, width: s.toPx - s.fromPx }} />
        ))}
      </div>
      <div className="datum-line" />
      {fitted !== null && children !== undefined && <div>{children(size?.widthPx ?? 0)}</div>}
    </div>
  );
}
