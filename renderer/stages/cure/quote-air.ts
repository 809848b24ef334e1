/** Compares the temperature the quote assumed with the present one. */
import { roomAir } from '../../../shared-core/climate/room-air.ts';
import { jobReadingCures } from '../../../shared-core/standing/job-cures.ts';
import { standingQuote } from '../../../shared-core/standing/job-bundle.ts';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { formatInstantDay } from '../../../shared-core/measure/moment.ts';
import { formatTemperature } from '../../../shared-core/measure/temperature.ts';
import type { CuringRoom, Saying } from './cure-room.ts';

/** A sentence when the assumed temperature differs from the quote's; null when equal or without a quote. */
export function quoteAir(reading: JobReading, room: CuringRoom, say: Saying): string | null {
  const frozen = standingQuote(reading.bundle)?.frozen;
  const jobRoom = frozen?.job.rooms.find((r) => r.roomId === room.id);
  const quotedRoom = frozen?.rooms.find((r) => r.id === room.id);
  if (jobRoom === undefined || quotedRoom === undefined) return null;
  const quotedAir = roomAir(quotedRoom, jobRoom);
  if (Math.abs(quotedAir.tempC - roomAir(room.room, room.jobRoom).tempC) < 0.1) return null;
  const { bundle } = reading;
  const expectedAir = { tempC: quotedAir.tempC, relativeHumidity: quotedAir.relativeHumidity, enteredAt: say.now };
  const job = { ...bundle.job, rooms: bundle.job.rooms.map((r) => (r.roomId === room.id ? { ...r, expectedAir } : r)) };
  const then = jobReadingCures({ ...reading, bundle: { ...bundle, job } }).find((c) => c.room.id === room.id)?.schedule.cover ?? null;
  const temperature = formatTemperature(quotedAir.tempC, say.units, say.locale);
  if (then === null || then.likelyAt === null) return `The quote assumed ${temperature}.`;
  return `The quote assumed ${temperature}. At ${temperature}: ${then.name} from ${formatInstantDay(then.likelyAt, say.zone, 'short', say.locale)}.`;
}
