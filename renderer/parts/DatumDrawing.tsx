import type { Drawing } from '../../shared-core/drawing/marks.ts';
import { DrawingView } from './DrawingView.tsx';
import { useSize } from './use-size.ts';
import './Datum.css';

interface DatumDrawingProps {
  readonly label: string;
  /** Draws for the width of the window; the line is one of the marks. */
  readonly draw: (widthPx: number) => Drawing;
  /** Distance of the line from the drawing's top, where the screen's vertical rule ends. */
  readonly linePx: number;
  readonly onPick?: (name: string) => void;
  readonly picked?: string | null;
}

/** A datum that is part of a drawing, such as a section or a ribbon. */
export function DatumDrawing({ label, draw, linePx, onPick, picked = null }: DatumDrawingProps) {
  const { ref, size } = useSize<HTMLDivElement>();
  return (
    <div className="datum-drawing" ref={ref} style={{ ['--over' as string]: `${linePx}px` }}>
      {size !== null && size.widthPx > 0 && (
        <DrawingView drawing={draw(size.widthPx)} label={label} picked={picked} {...(onPick ? { onPick } : {})} />
      )}
    </div>
  );
}
