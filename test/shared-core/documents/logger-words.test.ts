import { expect, it } from 'vitest';
import type { LogProblem, RowProblem } from '../../../shared-core/cure/log-preview.ts';
import type { LogQuestion } from '../../../shared-core/cure/log-questions.ts';
import { logProblemWords, logQuestionWords, rowProblemWords } from '../../../shared-core/documents/logger-words.ts';

type Asked<Question = LogQuestion> = Question extends unknown ? Omit<Question, 'suggest'> : never;

const hours = { fromMs: 0, toMs: 1, otherLog: null };
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

const rows: readonly (readonly [RowProblem, string])[] = [
  [{ kind: 'no-time' }, 'no time'],
  [{ kind: 'no-temperature' }, 'no temperature'],
  [{ kind: 'not-a-time', cell: 'soon' }, '“soon” is not a date and time'],
  [{ kind: 'not-a-temperature', cell: 'warm' }, '“warm” is not a temperature'],
  [{ kind: 'not-in-a-room', cell: '400' }, '400 is not possible in a room'],
  [{ kind: 'humidity', percent: 120.5 }, 'a humidity of 120.5% is not possible'],
  [{ kind: 'wide', cells: 4, headings: 3 }, '4 cells under headings for 3'],
  [{ kind: 'hours', hours }, 'before the pour'],
  [{ kind: 'hours', hours: { ...hours, otherLog: 'hall.csv' } }, '“hall.csv” has this hour'],
];
it.each(rows)('says why a row is left out: %o', (problem, words) => expect(rowProblemWords(problem)).toBe(words));

const noRows = 'No row has both a time and a temperature in the selected columns.';
const files: readonly (readonly [LogProblem, string])[] = [
  [{ kind: 'zone', message: 'Enter a zone.' }, 'Enter a zone.'],
  [
    { kind: 'all-excluded', hours: [hours, { ...hours, otherLog: 'hall.csv' }] },
    'Every reading is excluded: before the pour, “hall.csv” has this hour. Cancel, or choose another file.',
  ],
  [{ kind: 'no-rows', first: null }, `${noRows} Select other columns.`],
  [{ kind: 'no-rows', first: { row: 3, problem: { kind: 'no-time' } } }, `${noRows} Row 3: no time. Select other columns.`],
  [
    { kind: 'too-many', readings: 500_100, most: 500_000 },
    'These are 500,100 readings. The limit per file is 500,000. Export it in 2 parts, or with a longer interval.',
  ],
];
it.each(files)('says why nothing can be read: %o', (problem, words) => expect(logProblemWords(problem)).toBe(words));
