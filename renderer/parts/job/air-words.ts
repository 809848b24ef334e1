import type { RoomAir } from '../../../shared-core/climate/room-air.ts';
import { formatInstantDay } from '../../../shared-core/measure/moment.ts';

/** The source of a room's expected air: `Measured Nov 12.` */
export function airWords({ basis, instant }: RoomAir, zone: string, locale: string): string {
  if (instant === null) return 'Typical. Measure the air on Assess or Prep, or enter it here.';
  const day = formatInstantDay(instant, zone, 'short', locale);
  return basis === 'measured' ? `Measured ${day}.` : `Entered ${day}.`;
}
