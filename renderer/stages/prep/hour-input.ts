/** The day of the pour by the hour, for the hour strip. */
import type { HourStripInput } from '../../../shared-core/drawing/hour-strip.ts';
import {
  clockOfInstant,
  dayOfInstant,
  formatInstantDay,
  formatInstantTime,
  secondsBetween,
  instantAt,
} from '../../../shared-core/measure/moment.ts';
import type { PrimerClock } from '../../../shared-core/prep/primer-clock.ts';
import type { SignedLine } from '../../../shared-core/prep/signed-lines.ts';

type HourFacts = {
  readonly clock: PrimerClock | null;
  readonly primedAt: string | null;
  /** When the pour is planned, or was. */
  readonly pourAt: string | null;
  readonly lines: readonly SignedLine[];
  readonly now: string;
  readonly zone: string;
  readonly locale: string;
};

const FIRST_HOUR = 6;
const LAST_HOUR = 20;
const POUR_HOURS = 1;

/** Hours since midnight of the day shown: the pour day, or today. Null where nothing is known of the day. */
export function hourInput({ clock, primedAt, pourAt, lines, now, zone, locale }: HourFacts): {
  label: string;
  input: (widthPx: number) => HourStripInput;
} | null {
  const day = dayOfInstant(pourAt ?? now, zone);
  const midnight = instantAt(day, '00:00', zone);
  const start = midnight.ok ? midnight.value.instant : now;
  const hour = (instant: string): number => secondsBetween(start, instant) / 3600;
  const time = (instant: string): string => formatInstantTime(instant, zone, locale);
  const signed = lines
    .flatMap((line) => (line.signature === null ? [] : [line.signature.doneAt]))
    .filter((instant) => dayOfInstant(instant, zone) === day);
  if (pourAt === null && primedAt === null && signed.length === 0) return null;
  const onDay = (h: number): boolean => h >= 0 && h <= 24;
  const inDay = <T extends { readonly hour: number }>(mark: T): T | null => (onDay(mark.hour) ? mark : null);
  const primedHour = primedAt === null ? null : hour(primedAt);
  const from = Math.max(0, Math.min(FIRST_HOUR, ...signed.map((instant) => Math.floor(hour(instant)))));
  const latest =
    clock !== null && clock.latestAt !== null
      ? inDay({ hour: hour(clock.latestAt), text: `no later than ${time(clock.latestAt)}`, beyondText: 'too old, prime again' })
      : null;
  return {
    label: `The day of the pour by the hour, ${formatInstantDay(start, zone, 'long', locale)}`,
    input: (widthPx) => ({
      widthPx,
      x0: 84,
      x1: widthPx - 40,
      datumY: 34,
      fromHour: from,
      toHour: LAST_HOUR,
      clock: clockOfInstant(now, zone) !== '' && /am|pm|noon/.test(time(now)) ? '12' : '24',
      now: dayOfInstant(now, zone) === day ? hour(now) : null,
      preparing:
        signed.length === 0 ? null : { from: Math.min(...signed.map(hour)), to: Math.max(...signed.map(hour)) + 0.2, text: 'prep' },
      primed:
        primedAt === null || primedHour === null || !onDay(primedHour) ? null : { hour: primedHour, text: `primed ${time(primedAt)}` },
      dry:
        clock !== null && clock.earliestAt !== null
          ? inDay({ hour: hour(clock.earliestAt), text: `dry from ${time(clock.earliestAt)}` })
          : null,
      pour: pourAt === null ? null : { from: hour(pourAt), to: hour(pourAt) + POUR_HOURS, text: `pour at ${time(pourAt)}` },
      latest: latest !== null && latest.hour < LAST_HOUR ? latest : null,
    }),
  };
}
