/** Where the window was last: kept beside the program's data, used only while a screen is still there. */
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
  readonly keep: (place: Area & { readonly maximized: boolean }) => void;
};

const USUAL: Place = { width: 1440, height: 900, maximized: false };
const LEAST = { width: 390, height: 600 };
/** So much of the window's top edge has to be on a screen to take hold of it. */
const HOLD_PX = 100;

const numberIn = (kept: object, key: string): number | null => {
  const value = (kept as Readonly<Record<string, unknown>>)[key];
  return typeof value === 'number' && Number.isFinite(value) ? Math.round(value) : null;
};

/** Reads a kept place against the screens there are now. */
export function placeOn(kept: unknown, screens: readonly Area[]): Place {
  if (typeof kept !== 'object' || kept === null) return USUAL;
  const [x, y, width, height] = ['x', 'y', 'width', 'height'].map((key) => numberIn(kept, key));
  if (x == null || y == null || width == null || height == null) return USUAL;
  const size = {
    width: Math.max(LEAST.width, width),
    height: Math.max(LEAST.height, height),
    maximized: 'maximized' in kept && kept.maximized === true,
  };
  const isThere = screens.some(
    (s) => Math.min(x + size.width, s.x + s.width) - Math.max(x, s.x) >= HOLD_PX && y >= s.y - 1 && y < s.y + s.height - HOLD_PX,
  );
  return isThere ? { ...size, x, y } : USUAL;
}

/** The place kept in a file. One that cannot be read or written is the usual one: no reason to stop. */
export function windowPlace(path: string): WindowPlace {
  return {
    read: (screens) => {
      try {
        return placeOn(JSON.parse(readFileSync(path, 'utf8')), screens);
      } catch {
        return USUAL;
      }
    },
    keep: (place) => {
      try {
        mkdirSync(dirname(path), { recursive: true });
        writeFileSync(path, JSON.stringify(place));
      } catch {
        // The next start stands in the usual place.
      }
    },
  };
}
