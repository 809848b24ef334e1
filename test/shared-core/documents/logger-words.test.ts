import { expect, it } from 'vitest';
import type { LogQuestion } from '../../../shared-core/cure/log-questions.ts';
import { logQuestionWords } from '../../../shared-core/documents/logger-words.ts';

type Asked<Question = LogQuestion> = Question extends unknown ? Omit<Question, 'suggest'> : never;

const hours = { fromMs: 0, toMs: 1, why: '' };
const clock = 'The last reading is';
const unread = 'could not be read and would be left out. Is the column of temperatures the right one?';
const said: readonly (readonly [Asked, string])[] = [
  [{ kind: 'unit', readAs: 'C' }, 'Every temperature is above 45 °C. Are these degrees Fahrenheit? Choose °F.'],
  [{ kind: 'unit', readAs: 'F' }, 'Every temperature is below 45 °F. In a heated room these are degrees Celsius. Choose °C.'],
  [{ kind: 'clock', minutesAhead: 2000, hoursFast: null }, `${clock} more than a day in the future. Check the order of day and month.`],
  [
    { kind: 'clock', minutesAhead: 50, hoursFast: 1 },
    `${clock} 50 minutes in the future. The logger’s clock seems 1 hour fast. Subtract 1 hour, or choose the time zone it was set to.`,
  ],
  [
    { kind: 'clock', minutesAhead: 90, hoursFast: 2 },
    `${clock} 90 minutes in the future. The logger’s clock seems 2 hours fast. Subtract 2 hours, or choose the time zone it was set to.`,
  ],
  ...([1, 1200] as const).map((readings): readonly [Asked, string] => [
    { kind: 'skipped-hour', readings, timeZone: 'America/New_York' },
    `${readings === 1 ? '1 reading falls' : '1,200 readings fall'} in the hour that America/New_York skips when daylight saving time begins. The logger stayed on standard time, so its clock is 1 hour slow from then on. Choose the zone without daylight saving time.`,
  ]),
  [{ kind: 'date-order', readAs: 'mdy' }, 'Every date can be read day first or month first. It is read month first. Is that right?'],
  [{ kind: 'date-order', readAs: 'dmy' }, 'Every date can be read day first or month first. It is read day first. Is that right?'],
  [
    { kind: 'wide', rows: 1, of: 9 },
    '1 row has more cells than the headings and is left out. A decimal comma, as in 18,9, may have split a number.',
  ],
  [
    { kind: 'wide', rows: 2, of: 9 },
    '2 rows have more cells than the headings and are left out. A decimal comma, as in 18,9, may have split a number.',
  ],
  [{ kind: 'unreadable', rows: 40, of: 1200 }, `40 of 1,200 rows ${unread}`],
  [
    { kind: 'differing', rows: 1, of: 9 },
    '1 row gives a different temperature for a time already read. The first one is used. Does the file have two rooms?',
  ],
  [
    { kind: 'differing', rows: 3, of: 9 },
    '3 rows give a different temperature for a time already read. The first one is used. Does the file have two rooms?',
  ],
  [{ kind: 'before-pour', readings: 1 }, '1 reading is from before the pour. Leave them out, or check the logger’s time zone.'],
  [{ kind: 'before-pour', readings: 5 }, '5 readings are from before the pour. Leave them out, or check the logger’s time zone.'],
  [
    {
      kind: 'overlap',
      logs: [
        { name: 'hall.csv', count: 4, hours },
        { name: 'old.csv', count: 1000, hours },
      ],
    },
    'Readings of the same hours are already imported: “hall.csv” (4), “old.csv” (1,000). Keep both if this is a second logger in the room. Otherwise leave these hours out.',
  ],
];

it.each(said)('asks what %o means', (question, words) => expect(logQuestionWords({ ...question, suggest: {} })).toBe(words));
