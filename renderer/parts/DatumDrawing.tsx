import type { Drawing } from '../../shared-core/drawing/marks.ts';
import { DrawingView } from './DrawingView.tsx';
import { useSize } from './use-size.ts';
import './Datum.css';

interface DatumDrawingProps {
  readonly label: string;
  /** The drawing for a width from edge to edge of the window; the line itself is one of its marks. */
  readonly draw: (widthPx: number) => Drawing;
  /** How far under the drawing's top the line lies: the sheet's vertical rule ends on it. */
  readonly linePx: number;
  readonly onPick?: (name: string) => void;
  readonly picked?: string | null;
}

/** A datum that is itself a drawing: a section or a ribbon with the line among its marks. */
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
