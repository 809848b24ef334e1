import type { ReactNode } from 'react';
import { Pointer } from './Pointer.tsx';
import { useSize } from './use-size.ts';
import './Datum.css';

export interface DatumTick {
  /** From the left edge of the window. */
  readonly xPx: number;
  /** Left out: a short tick with no word. */
  readonly label?: string;
}
export interface DatumStretch {
  readonly fromPx: number;
  readonly toPx: number;
  /** `wall` days off; `grind` does not count, too old. */
  readonly hatch: 'wall' | 'grind';
}
/** How a datum is graduated at a width. */
export interface DatumScale {
  readonly ticks: readonly DatumTick[];
  readonly stretches?: readonly DatumStretch[];
  /** Where the pointer stands: today, now. */
  readonly pointerPx?: number;
}

interface DatumProps {
  /** The line in a sentence, read aloud: what it is graduated in, from where to where, and where the pointer stands. */
  readonly label: string;
  readonly scale: (widthPx: number) => DatumScale;
  /** What the line is, in italics at its left end: `new floor`. */
  readonly level?: string;
  /** Captions that stand on the line at the left, over the words below it. */
  readonly captions?: ReactNode;
  /** What hangs from the line, with the width it has. */
  readonly children?: (widthPx: number) => ReactNode;
}

/** A word near the window's edge stands beside its tick, so that none of it is cut. */
function wordSide(xPx: number, widthPx: number): string {
  if (xPx < 40) return ' datum-word-start';
  return xPx > widthPx - 40 ? ' datum-word-end' : '';
}

/** The datum: one ruled line from edge to edge, graduated in the sheet's unit. */
export function Datum({ label, scale, level, captions, children }: DatumProps) {
  const { ref, size } = useSize<HTMLDivElement>();
  const fitted = size === null ? null : scale(size.widthPx);
  return (
    <div className="datum" ref={ref}>
      <div className="datum-over" role="img" aria-label={label}>
        {level !== undefined && (
          <span className="datum-level">
            <Pointer widthPx={16} /> <i>{level}</i>
          </span>
        )}
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
      {captions !== undefined && <div className="datum-captions">{captions}</div>}
      <div className="datum-line" />
      {fitted !== null && children !== undefined && <div className="datum-under">{children(size?.widthPx ?? 0)}</div>}
    </div>
  );
}
