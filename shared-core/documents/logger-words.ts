/** Questions about a logger's file before it is imported, and what cannot be read in it, in words. */
import type { HoursLeftOut } from '../cure/log-choice.ts';
import type { LogProblem, RowProblem } from '../cure/log-preview.ts';
import { HOT_ROOM_C, type LogQuestion } from '../cure/log-questions.ts';
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';

const n = (count: number): string => formatNumber(count, { most: 0 });

function clockWords({ minutesAhead, hoursFast }: Extract<LogQuestion, { kind: 'clock' }>): string {
  if (hoursFast === null) return 'The last reading is more than a day in the future. Check the order of day and month.';
  const fast = hoursFast === 1 ? '1 hour' : `${hoursFast} hours`;
  return `The last reading is ${minutesAhead} minutes in the future. The logger’s clock seems ${fast} fast. Subtract ${fast}, or choose the time zone it was set to.`;
}

/** What is odd about a logger's file, and what to do. */
export function logQuestionWords(question: LogQuestion): string {
  switch (question.kind) {
    case 'unit':
      return question.readAs === 'C'
        ? `Every temperature is above ${HOT_ROOM_C} °C. Are these degrees Fahrenheit? Choose °F.`
        : 'Every temperature is below 45 °F. In a heated room these are degrees Celsius. Choose °C.';
    case 'humidity-unit':
      return question.most === 0
        ? 'Every humidity is 0%. Does the logger measure it? Leave the column out.'
        : `No humidity is over ${formatPercent(question.most, 2, 'en-US')}, too dry for any room. Are these shares of 1, such as 0.55 for 55%? Choose share of 1. Air that is read too dry gives dates that are too early.`;
    case 'clock':
      return clockWords(question);
    case 'skipped-hour':
      return `${question.readings === 1 ? '1 reading falls' : `${n(question.readings)} readings fall`} in the hour that ${question.timeZone} skips when daylight saving time begins. The logger stayed on standard time, so its clock is 1 hour slow from then on. Choose the zone without daylight saving time.`;
    case 'date-order':
      return `Every date can be read day first or month first. It is read ${question.readAs === 'mdy' ? 'month first' : 'day first'}. Is that right?`;
    case 'wide': {
      const [have, are] = question.rows === 1 ? ['row has', 'is'] : ['rows have', 'are'];
      return `${n(question.rows)} ${have} more cells than the headings and ${are} left out. A decimal comma, as in 18,9, may have split a number.`;
    }
    case 'unreadable':
      return `${n(question.rows)} of ${n(question.of)} rows could not be read and would be left out. Is the column of temperatures the right one?`;
    case 'differing':
      return `${question.rows === 1 ? '1 row gives' : `${n(question.rows)} rows give`} a different temperature for a time already read. The first one is used. Does the file have two rooms?`;
    case 'before-pour':
      return `${question.readings === 1 ? '1 reading is' : `${n(question.readings)} readings are`} from before the pour. Leave them out, or check the logger’s time zone.`;
    case 'overlap':
      return `Readings of the same hours are already imported: ${question.logs.map(({ name, count }) => `“${name}” (${n(count)})`).join(', ')}. Keep both if this is a second logger in the room. Otherwise leave these hours out.`;
  }
}

const hoursWords = ({ otherLog }: HoursLeftOut): string => (otherLog === null ? 'before the pour' : `“${otherLog}” has this hour`);

/** Why a row is left out, after its number. */
export function rowProblemWords(problem: RowProblem): string {
  switch (problem.kind) {
    case 'no-time':
      return 'no time';
    case 'no-temperature':
      return 'no temperature';
    case 'not-a-time':
      return `“${problem.cell}” is not a date and time`;
    case 'not-a-temperature':
      return `“${problem.cell}” is not a temperature`;
    case 'not-in-a-room':
      return `${problem.cell} is not possible in a room`;
    case 'humidity':
      return `a humidity of ${problem.percent}% is not possible`;
    case 'wide':
      return `${problem.cells} cells under headings for ${problem.headings}`;
    case 'hours':
      return hoursWords(problem.hours);
  }
}

/** Why nothing of a file can be read, and what to do. */
export function logProblemWords(problem: LogProblem): string {
  switch (problem.kind) {
    case 'zone':
      return problem.message;
    case 'all-excluded':
      return `Every reading is excluded: ${problem.hours.map(hoursWords).join(', ')}. Cancel, or choose another file.`;
    case 'no-rows': {
      const why = problem.first === null ? '' : ` Row ${problem.first.row}: ${rowProblemWords(problem.first.problem)}.`;
      return `No row has both a time and a temperature in the selected columns.${why} Select other columns.`;
    }
    case 'too-many': {
      const { readings, most } = problem;
      return `These are ${n(readings)} readings. The limit per file is ${n(most)}. Export it in ${Math.ceil(readings / most)} parts, or with a longer interval.`;
    }
  }
}
