/** A QR code as a drawing: one black path, with the quiet zone of four modules that ISO/IEC 18004 requires. */
import encodeQR from 'qr';
import type { Drawing, Ring } from './marks.ts';

const QUIET_MODULES = 4;

/**
 * Draws the QR code of a text.
 * @param sizePx side of the drawing with its quiet zone, in drawing units
 */
export function qrCode(text: string, sizePx: number): Drawing {
  const rows = encodeQR(text, 'raw', { ecc: 'medium', border: QUIET_MODULES });
  const step = sizePx / rows.length;
  const rings = rows.flatMap((row, y): Ring[] => runsOf(row).map(([from, to]) => box(from, to, y, step)));
  return {
    width: sizePx,
    height: sizePx,
    marks: [{ kind: 'path', rings, pen: null, ink: 'ink', fill: 'ink', dash: null }],
  };
}

/** Runs of dark modules in a row: first index, and one past the last. */
function runsOf(row: readonly boolean[]): [number, number][] {
  const runs: [number, number][] = [];
  row.forEach((dark, x) => {
    const last = runs.at(-1);
    if (!dark) return;
    if (last !== undefined && last[1] === x) last[1] = x + 1;
    else runs.push([x, x + 1]);
  });
  return runs;
}

function box(from: number, to: number, y: number, step: number): Ring {
  const [left, right] = [from * step, to * step];
  const [top, bottom] = [y * step, (y + 1) * step];
  return { closed: true, xy: [left, top, right, top, right, bottom, left, bottom] };
}
