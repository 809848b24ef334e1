/** Heights on a raster, for shading only; pixels off the floor are NaN. No figure is calculated from it. */
import { heightInCellM } from './mosaic.ts';
import { isOnFloor, type RoomRings } from './room-rings.ts';
import type { Surface } from './surface.ts';
import { real, whole } from './typed-reads.ts';

/** Row by row from the top left; pixel (i, j) has its center at left + (i + ½)·pixel, top + (j + ½)·pixel, meters. */
export type HeightRaster = {
  readonly columns: number;
  readonly rows: number;
  readonly pixelM: number;
  readonly leftM: number;
  readonly topM: number;
  readonly zM: Float64Array;
};

/** Rasters the surface over the room with about `across` pixels on its longer side. */
export function heightRaster(surface: Surface, room: RoomRings, across: number): HeightRaster {
  const width = room.rightM - room.leftM;
  const height = room.bottomM - room.topM;
  const pixelM = Math.max(width, height) / Math.max(1, Math.round(across));
  const columns = Math.max(1, Math.ceil(width / pixelM - 1e-9));
  const rows = Math.max(1, Math.ceil(height / pixelM - 1e-9));
  const zM = new Float64Array(columns * rows).fill(Number.NaN);
  const { xM, yM, cellStart, cellCorners } = surface;
  for (let cell = 0; cell + 1 < cellStart.length; cell += 1) {
    const corners = cellCorners.subarray(whole(cellStart, cell), whole(cellStart, cell + 1));
    let [x0, x1, y0, y1] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
    for (const i of corners) {
      x0 = Math.min(x0, real(xM, i));
      x1 = Math.max(x1, real(xM, i));
      y0 = Math.min(y0, real(yM, i));
      y1 = Math.max(y1, real(yM, i));
    }
    const i0 = Math.max(0, Math.ceil((x0 - room.leftM) / pixelM - 0.5));
    const i1 = Math.min(columns - 1, Math.floor((x1 - room.leftM) / pixelM - 0.5));
    const j0 = Math.max(0, Math.ceil((y0 - room.topM) / pixelM - 0.5));
    const j1 = Math.min(rows - 1, Math.floor((y1 - room.topM) / pixelM - 0.5));
    for (let j = j0; j <= j1; j += 1) {
      const y = room.topM + (j + 0.5) * pixelM;
      for (let i = i0; i <= i1; i += 1) {
        const x = room.leftM + (i + 0.5) * pixelM;
        let inside = true;
        for (let k = 0; k < corners.length && inside; k += 1) {
          const a = whole(corners, k);
          const b = whole(corners, (k + 1) % corners.length);
          inside = (real(xM, b) - real(xM, a)) * (y - real(yM, a)) - (real(yM, b) - real(yM, a)) * (x - real(xM, a)) >= -1e-12;
        }
        if (inside && isOnFloor(room, x, y)) zM[j * columns + i] = heightInCellM(surface, cell, x, y);
      }
    }
  }
  return { columns, rows, pixelM, leftM: room.leftM, topM: room.topM, zM };
}
