/** Draws the working day on the datum, with the hours outside it hatched. */
import type { Business } from '../../shared-core/book/business.ts';
import { clearLabels, hourTicks, scaleX } from '../../shared-core/drawing/datum.ts';
import type { DatumScale } from '../parts/Datum.tsx';

const [FIRST_HOUR, LAST_HOUR] = [4, 22];

const EDGE_PX = 36;

const hoursOf = (clock: string): number => {
  const [hours = 0, minutes = 0] = clock.split(':').map(Number);
  return hours + minutes / 60;
};

/** The datum of the settings screen at a given width. */
export function workingDay(hours: Business['hours'], clock: '12' | '24', widthPx: number): DatumScale {
  const scale = { from: FIRST_HOUR, to: LAST_HOUR, x0: EDGE_PX, x1: widthPx - EDGE_PX, isLog: false };
  const hourX = (hour: number): number => scaleX(scale, Math.min(LAST_HOUR, Math.max(FIRST_HOUR, hour)));
  const ticks = clearLabels(hourTicks(FIRST_HOUR, LAST_HOUR, clock), scale);
  return {
    ticks: ticks.map((tick) => ({ xPx: hourX(tick.value), ...(tick.label === null ? {} : { label: tick.label }) })),
    stretches: [
      { fromPx: 0, toPx: hourX(hoursOf(hours.from)), hatch: 'wall' },
      { fromPx: hourX(hoursOf(hours.to)), toPx: widthPx, hatch: 'wall' },
    ],
  };
}
