/** Remembers the window's position, and uses it only while its display is connected. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname } from 'node:path';

export type Area = { readonly x: number; readonly y: number; readonly width: number; readonly height: number };
export type Place = {
  readonly width: number;
  readonly height: number;
  readonly x?: number;
  readonly y?: number;
  readonly maximized: boolean;
};
export type WindowPlace = {
  readonly read: (screens: readonly Area[]) => Place;
  readonly save: (place: Area & { readonly maximized: boolean }) => void;
};

const USUAL: Place = { width: 1440, height: 900, maximized: false };
const MINIMUM = { width: 390, height: 600 };
/** Height of the top edge that has to be on a display to be dragged, px. */
const GRAB_PX = 100;

const numberIn = (saved: object, key: string): number | null => {
  const value = (saved as Readonly<Record<string, unknown>>)[key];
  return typeof value === 'number' && Number.isFinite(value) ? Math.round(value) : null;
};

/** Checks a saved position against the connected displays. */
export function placeOn(saved: unknown, screens: readonly Area[]): Place {
  if (typeof saved !== 'object' || saved === null) return USUAL;
  const [x, y, width, height] = ['x', 'y', 'width', 'height'].map((key) => numberIn(saved, key));
  if (x == null || y == null || width == null || height == null) return USUAL;
  const size = {
    width: Math.max(MINIMUM.width, width),
    height: Math.max(MINIMUM.height, height),
    maximized: 'maximized' in saved && saved.maximized === true,
  };
  const isThere = screens.some(
    (s) => Math.min(x + size.width, s.x + s.width) - Math.max(x, s.x) >= GRAB_PX && y >= s.y - 1 && y < s.y + s.height - GRAB_PX,
  );
  return isThere ? { ...size, x, y } : USUAL;
}

/** A saved position. One that cannot be read or written is replaced by the default. */
export function windowPlace(path: string): WindowPlace {
  return {
    read: (screens) => {
      try {
        return placeOn(JSON.parse(readFileSync(path, 'utf8')), screens);
      } catch {
        return USUAL;
      }
    },
    save: (place) => {
      try {
        mkdirSync(dirname(path), { recursive: true });
        writeFileSync(path, JSON.stringify(place));
      } catch {
        // The next start uses the default.
      }
    },
  };
}
