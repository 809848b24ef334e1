/** The sample's pours and the readings taken while their floors cured. */
import type { CureLog, CureReading, Promised, ClearanceTest } from '../book/cure-record.ts';
import type { PouredPlan } from '../book/poured-plan.ts';
import type { Pour, PourEvent } from '../book/pour-record.ts';
import { addSeconds } from '../measure/moment.ts';
import { celsiusFromFahrenheit } from '../measure/temperature.ts';
import { bagsToMix } from '../pour/layout.ts';
import { pourEnd } from '../pour/log-time.ts';
import { type SampleClock, stampsAt } from './sample-time.ts';

type PouredRoom = {
  readonly jobId: string;
  readonly roomId: string;
  readonly startedAt: string;
  readonly bags: number;
  readonly bagsPerBatch: number;
  readonly materialId: string;
  /** The plan at the start of the pour. */
  readonly asPoured: PouredPlan;
};

/** Minutes between placed batches in the sample, before the small differences. */
const BATCH_MINUTES = 3.4;
const UNEVEN_MIN = [0, 0.4, -0.3, 0.2, -0.5, 0.6, 0.1] as const;

/** The batches of the stored layout; without one, even batches in one lane. */
function plannedBatches({ bags, bagsPerBatch, asPoured: { layout } }: PouredRoom): readonly { lane: number; bags: number }[] {
  if (layout !== null) return layout.batches.map(({ lane, number }) => ({ lane, bags: bagsToMix(layout, number) }));
  const count = Math.max(1, Math.ceil(bags / bagsPerBatch));
  return Array.from({ length: count }, (_, i) => ({
    lane: 1,
    bags: Math.min(bagsPerBatch, bags - i * bagsPerBatch),
  }));
}

/** A pour without problems, logged batch by batch. */
export function samplePour(room: PouredRoom): { pour: Pour; events: PourEvent[] } {
  const id = `sample-pour-${room.roomId.replace('sample-', '')}`;
  const batches = plannedBatches(room);
  const minuteOf = (i: number): number => 4 + i * BATCH_MINUTES + (UNEVEN_MIN[i % UNEVEN_MIN.length] ?? 0);
  const events: PourEvent[] = [];
  const log = (minutes: number, event: Record<string, unknown>): void => {
    const stamps = {
      id: `${id}-e${events.length + 1}`,
      pourId: id,
      seq: events.length + 1,
      instant: addSeconds(room.startedAt, Math.round(minutes * 60)),
      estimated: false,
    };
    // Each call below gives the fields of one member of the union.
    events.push({ ...stamps, ...event } as unknown as PourEvent);
  };
  log(0, { kind: 'started' });
  log(1, { kind: 'lot', lot: `L${room.startedAt.slice(2, 10).replaceAll('-', '')}A` });
  log(1.5, {
    kind: 'reading',
    airTempC: celsiusFromFahrenheit(66),
    surfaceTempC: celsiusFromFahrenheit(64),
    waterTempC: celsiusFromFahrenheit(58),
    powderTempC: celsiusFromFahrenheit(65),
    relativeHumidity: 0.5,
    spreadM: 0.14,
  });
  for (const [i, { lane, bags }] of batches.entries()) {
    log(minuteOf(i), { kind: 'placed', batch: i + 1, roomId: room.roomId, lane, bags });
  }
  const end = minuteOf(batches.length - 1) + 6;
  const placed = batches.reduce((sum, { bags }) => sum + bags, 0);
  log(end, { kind: 'finished', bagsLeft: Math.max(0, room.bags + 1 - placed) });
  return {
    pour: {
      ...stampsAt(id, room.startedAt),
      changedAt: events.at(-1)?.instant ?? room.startedAt,
      jobId: room.jobId,
      roomIds: [room.roomId],
      lift: 1,
      materialId: room.materialId,
      startedAt: room.startedAt,
      finishedAt: pourEnd(events),
      bagsOnSite: room.bags + 1,
      bagsPlanned: room.bags,
      asPoured: room.asPoured,
      fromPaper: false,
      notes: '',
    },
    events,
  };
}

/** A room's logger: where it is, from when on, and the one night when the windows were open or the heat was off, in days from today. */
type Logger = {
  readonly jobId: string;
  readonly roomId: string;
  readonly fromDays: number;
  readonly fromClock: string;
  readonly coldDay?: number;
};
const LOGGERS: readonly Logger[] = [
  { jobId: 'sample-job-abara', roomId: 'sample-back-hall', fromDays: -8, fromClock: '13:30' },
  { jobId: 'sample-job-abara', roomId: 'sample-dining', fromDays: -6, fromClock: '14:30', coldDay: -4 },
  { jobId: 'sample-job-abara', roomId: 'sample-living', fromDays: -1, fromClock: '15:40', coldDay: -1 },
  { jobId: 'sample-job-lindqvist', roomId: 'sample-sunroom', fromDays: -4, fromClock: '12:00' },
];
/** Air of a heated room on average, and the coldest of a cold night. */
const [WARM_F, LOW_F] = [65, 37] as const;

/** The hourly readings of each logger, from the pour to now: a daily swing and the cold night. */
export function sampleLogs(clock: SampleClock, now: string): CureLog[] {
  return LOGGERS.map(({ jobId, roomId, fromDays, fromClock, coldDay }) => {
    const start = clock.instantAt(fromDays, fromClock);
    const hours = Math.max(1, Math.floor((Date.parse(now) - Date.parse(start)) / 3_600_000));
    const night = coldDay === undefined ? null : { from: clock.instantAt(coldDay, '21:00'), until: clock.instantAt(coldDay + 1, '08:00') };
    const [from, until] = [Date.parse(night?.from ?? ''), Date.parse(night?.until ?? '')];
    const readings: CureReading[] = Array.from({ length: hours + 1 }, (_, h) => {
      const instant = addSeconds(start, h * 3600);
      const ms = Date.parse(instant);
      const hour = (ms / 3_600_000) % 24;
      const usualF = WARM_F + 1.6 * Math.sin(((hour - 13) / 24) * 2 * Math.PI);
      const isCold = ms >= from && ms <= until;
      const share = isCold ? Math.sin((Math.PI * (ms - from)) / (until - from)) : 0;
      const tempF = usualF + (LOW_F - usualF) * Math.min(1, share * 1.6);
      return { instant, tempC: Math.round(celsiusFromFahrenheit(tempF) * 10) / 10, relativeHumidity: 0.48 + 0.03 * Math.sin(h / 9) };
    });
    const stamps = { ...stampsAt(`sample-log-${roomId.replace('sample-', '')}`, start), changedAt: now };
    return { ...stamps, jobId, roomId, source: 'imported', name: 'room logger, hourly', readings };
  });
}

type Stamps = keyof ReturnType<typeof stampsAt>;

/** A date promised to the customer. */
export function samplePromise(promise: Omit<Promised, Stamps | 'documentId'>): Promised {
  const id = `sample-promise-${promise.roomId.replace('sample-', '')}-${promise.milestone}`;
  return { ...stampsAt(id, promise.madeAt), ...promise, documentId: null };
}

type Clearances = Omit<ClearanceTest, Stamps | 'value' | 'unit' | 'by' | 'note'> & { readonly values: readonly number[] };

/** The tests that a floor passed before its flooring, on one visit. */
export function sampleClearances({ values, ...test }: Clearances): ClearanceTest[] {
  return values.map((value, i) => ({
    ...stampsAt(`sample-cover-${test.roomId.replace('sample-', '')}${i === 0 ? '' : `-${i + 1}`}`, test.takenAt),
    ...{ ...test, value, unit: 'share', by: 'Ros Teague', note: '' },
  }));
}
