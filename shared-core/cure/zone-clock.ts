/** Wall-clock time in a time zone, and the instants it stands for: none in the hour skipped in spring, two in the hour repeated in autumn. */
import { zoneOffsetMs } from '../measure/moment.ts';

const DAY_MS = 86_400_000;

/** Wall-clock time counted as if it were UTC, in milliseconds. */
export type WallMs = number;

export type ZoneClock = {
  /** The instants a wall-clock time stands for, earliest first. */
  readonly instants: (wallMs: WallMs) => readonly number[];
};

/**
 * A reader of wall-clock times for one zone. It asks the zone twice a day, so that half a million rows stay quick.
 * @param timeZone an IANA name; an unknown one throws a RangeError
 */
export function zoneClock(timeZone: string): ZoneClock {
  const byDay = new Map<number, readonly [number, number]>();
  const offsets = (day: number): readonly [number, number] => {
    const known = byDay.get(day);
    if (known !== undefined) return known;
    // No zone is more than a day from UTC, and none changes twice within three days.
    const pair = [zoneOffsetMs((day - 1) * DAY_MS, timeZone), zoneOffsetMs((day + 2) * DAY_MS, timeZone)] as const;
    byDay.set(day, pair);
    return pair;
  };
  return {
    instants: (wallMs) => {
      const [before, after] = offsets(Math.floor(wallMs / DAY_MS));
      if (before === after) return [wallMs - before];
      return [wallMs - before, wallMs - after]
        .filter((ms, i) => zoneOffsetMs(ms, timeZone) === (i === 0 ? before : after))
        .sort((a, b) => a - b);
    },
  };
}
