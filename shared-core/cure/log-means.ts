/** Reduces thousands of readings to averages over whole minutes, so that screens stay fast. The dates do not change. */
import type { CureReading } from '../book/cure-record.ts';

/** Maximum readings stored per log. Our choice: a week by the minute, ten weeks by ten minutes. */
export const KEPT_READINGS = 10_000;

const MINUTE_MS = 60_000;
const MINUTES = [1, 2, 5, 10, 15, 20, 30, 60, 120, 180, 360, 720, 1440] as const;

type Read = { readonly atMs: number; readonly tempC: number; readonly humidity: number | null };
type Bin = { count: number; atMs: number; tempC: number; humid: number; humidity: number };

/**
 * Readings as they are kept.
 * @param reads in order of time, one per instant
 * @returns the readings, and the minutes each stands for; null where every one is kept as it was read
 */
export function keptReadings(reads: readonly Read[]): { readonly readings: CureReading[]; readonly everyMin: number | null } {
  if (reads.length <= KEPT_READINGS) {
    const readings = reads.map((r) => ({ instant: new Date(r.atMs).toISOString(), tempC: r.tempC, relativeHumidity: r.humidity }));
    return { readings, everyMin: null };
  }
  const spanMin = ((reads.at(-1)?.atMs ?? 0) - (reads[0]?.atMs ?? 0)) / MINUTE_MS;
  const everyMin = MINUTES.find((minutes) => spanMin / minutes < KEPT_READINGS - 1) ?? Math.ceil(spanMin / (KEPT_READINGS - 1));
  const bins = new Map<number, Bin>();
  for (const { atMs, tempC, humidity } of reads) {
    const key = Math.floor(atMs / (everyMin * MINUTE_MS));
    const bin = bins.get(key) ?? { count: 0, atMs: 0, tempC: 0, humid: 0, humidity: 0 };
    bin.count++;
    bin.atMs += (atMs - bin.atMs) / bin.count;
    bin.tempC += (tempC - bin.tempC) / bin.count;
    if (humidity !== null) {
      bin.humid++;
      bin.humidity += (humidity - bin.humidity) / bin.humid;
    }
    bins.set(key, bin);
  }
  const readings = [...bins.values()].map((bin) => ({
    instant: new Date(Math.round(bin.atMs)).toISOString(),
    tempC: bin.tempC,
    relativeHumidity: bin.humid === 0 ? null : bin.humidity,
  }));
  return { readings, everyMin };
}
