/** The air that a quote assumed, beside the one assumed now. */
import { roomAir } from '../../../shared-core/climate/room-air.ts';
import { formatInstantDay } from '../../../shared-core/measure/moment.ts';
import { formatPercent } from '../../../shared-core/measure/percent.ts';
import { formatTemperature } from '../../../shared-core/measure/temperature.ts';
import { milestoneName } from '../../../shared-core/standing/cure-words.ts';
import { standingQuote } from '../../../shared-core/standing/job-bundle.ts';
import { jobReadingCures } from '../../../shared-core/standing/job-cures.ts';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import type { CuringRoom, Saying } from './cure-room.ts';

/** A sentence when the assumed air differs from the quote's; null when equal or without a quote. */
export function quoteAir(reading: JobReading, room: CuringRoom, say: Saying): string | null {
  const frozen = standingQuote(reading.bundle)?.frozen;
  const jobRoom = frozen?.job.rooms.find((r) => r.roomId === room.id);
  const quotedRoom = frozen?.rooms.find((r) => r.id === room.id);
  if (jobRoom === undefined || quotedRoom === undefined) return null;
  const quotedAir = roomAir(quotedRoom, jobRoom);
  const air = roomAir(room.room, room.jobRoom);
  const isSame = Math.abs(quotedAir.tempC - air.tempC) < 0.1 && Math.abs(quotedAir.relativeHumidity - air.relativeHumidity) < 0.005;
  if (isSame) return null;
  const { bundle } = reading;
  const expectedAir = { tempC: quotedAir.tempC, relativeHumidity: quotedAir.relativeHumidity, enteredAt: say.now };
  const job = { ...bundle.job, rooms: bundle.job.rooms.map((r) => (r.roomId === room.id ? { ...r, expectedAir } : r)) };
  const then = jobReadingCures({ ...reading, bundle: { ...bundle, job } }).find((c) => c.room.id === room.id)?.schedule.cover ?? null;
  const assumed = `The quote assumed ${formatTemperature(quotedAir.tempC, say.units, say.locale)} and ${formatPercent(quotedAir.relativeHumidity, 0, say.locale)} humidity.`;
  if (then === null || then.statedAt === null) return assumed;
  return `${assumed} In that air: ${milestoneName(then)} from ${formatInstantDay(then.statedAt, say.zone, 'short', say.locale)}.`;
}
