import { formatClockTime } from '../../shared-core/measure/clock-time.ts';
import { parseClockTime } from '../../shared-core/measure/clock-time.ts';
import { formatDay, parseDay } from '../../shared-core/measure/day.ts';
import { clockOfInstant, dayOfInstant, instantAt } from '../../shared-core/measure/moment.ts';
import type { Parsed } from '../../shared-core/measure/parsed.ts';
import { Field, type FieldCommon } from './Field.tsx';
import { useMeasure } from './use-measure.ts';

interface MomentFieldProps extends FieldCommon<string> {
  /** The zone whose clock is meant. */
  readonly zone: string;
  readonly now: string;
}

/** A day and a time in one line, `May 12 9:40 am`, or the time alone for today; the value is an instant. */
export function MomentField({ zone, now, ...rest }: MomentFieldProps) {
  const { locale } = useMeasure();
  const today = dayOfInstant(now, zone);
  const parse = (text: string): Parsed<string> => {
    const words = text.trim().split(/\s+/);
    // The time stands last: `9:40`, `9:40 am`, `noon`.
    for (const timeWords of [2, 1]) {
      if (words.length < timeWords) continue;
      const clock = parseClockTime(words.slice(-timeWords).join(' '));
      if (!clock.ok) continue;
      const dayText = words.slice(0, -timeWords).join(' ').replace(/,$/, '');
      const day = dayText === '' ? { ok: true as const, value: today } : parseDay(dayText, today, locale);
      if (!day.ok) continue;
      const at = instantAt(day.value, clock.value, zone);
      return at.ok ? { ok: true, value: at.value.at } : at;
    }
    return { ok: false, message: 'Type a day and a time, such as May 12 9:40 am, or a time alone for today.' };
  };
  const format = (at: string): string => {
    const day = dayOfInstant(at, zone);
    const time = formatClockTime(clockOfInstant(at, zone), locale);
    return day === today ? time : `${formatDay(day, day.slice(0, 4) === today.slice(0, 4) ? 'short' : 'dated', locale)} ${time}`;
  };
  return <Field {...rest} parse={parse} format={format} />;
}
