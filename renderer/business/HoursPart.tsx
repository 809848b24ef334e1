import { parseClockTime, formatClockTime } from '../../shared-core/measure/clock-time.ts';
import { weekdayName } from '../../shared-core/measure/weekday.ts';
import { CheckRow } from '../parts/Choices.tsx';
import { Field } from '../parts/Field.tsx';
import { Fields } from '../parts/Fields.tsx';
import type { BusinessPart } from './business-edit.ts';
import { hoursSummary } from './part-summaries.ts';
import { SettingsPart } from './SettingsPart.tsx';

const WEEK = [1, 2, 3, 4, 5, 6, 7] as const;

export function HoursPart({ business, edit }: BusinessPart) {
  const { hours, locale } = business;
  const clock = (end: 'from' | 'to', text: string) => {
    const read = parseClockTime(text);
    if (!read.ok) return read;
    const [from, to] = end === 'from' ? [read.value, hours.to] : [hours.from, read.value];
    if (from < to) return read;
    return {
      ok: false as const,
      message:
        end === 'from'
          ? `Enter a time before the end of the day, ${formatClockTime(to, locale)}.`
          : `Enter a time after the start of the day, ${formatClockTime(from, locale)}.`,
    };
  };
  return (
    <SettingsPart
      heading="Working hours"
      text="A day that runs past them is flagged."
      fold={{ key: 'hours', summary: hoursSummary(business) }}
    >
      <Fields>
        {(['from', 'to'] as const).map((end) => (
          <Field
            key={end}
            label={end === 'from' ? 'Day starts' : 'Day ends'}
            value={hours[end]}
            parse={(text) => clock(end, text)}
            format={(time) => formatClockTime(time, locale)}
            emptyMessage="Enter a time, such as 7:30 am."
            onChange={(time) => edit('hours', (b) => ({ ...b, hours: { ...b.hours, [end]: time } }))}
          />
        ))}
      </Fields>
      <fieldset className="settings-days">
        <legend className="caption">Working days</legend>
        {WEEK.map((day) => (
          <CheckRow
            key={day}
            label={weekdayName(day, locale)}
            checked={hours.days.includes(day)}
            onChange={(on) =>
              edit(`${weekdayName(day, locale)}s`, (b) => ({
                ...b,
                hours: { ...b.hours, days: WEEK.filter((d) => (d === day ? on : b.hours.days.includes(d))) },
              }))
            }
          />
        ))}
      </fieldset>
    </SettingsPart>
  );
}
