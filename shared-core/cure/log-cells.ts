/** Reading single cells of a logger's file: moments and numbers, in the ways loggers and spreadsheets write them. */

export type DateOrder = 'ymd' | 'mdy' | 'dmy';

/** A moment as written in the file: an instant when the file gives the zone, otherwise wall-clock time. */
export type CellMoment = { readonly kind: 'instant'; readonly ms: number } | { readonly kind: 'wall'; readonly ms: number };

/** Hours from UTC of the zones named in RFC 5322, section 4.3, and of Alaska and Hawaii by 15 U.S.C. 261, from memory. */
const ZONE_HOURS: Readonly<Record<string, number>> = {
  ...{ Z: 0, UT: 0, UTC: 0, GMT: 0 },
  ...{ EST: -5, EDT: -4, CST: -6, CDT: -5, MST: -7, MDT: -6, PST: -8, PDT: -7 },
  ...{ AKST: -9, AKDT: -8, HST: -10 },
};
/** The zone behind a time: `Z`, `-06:00`, `-06`, `UTC-6`, `MDT`. */
const ZONE = String.raw`(?:${Object.keys(ZONE_HOURS).join('|')}|(?:UTC|GMT)?\s*[+\-−]\d{1,2}(?::?\d{2})?)`;
const CLOCK = String.raw`(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,3})\d*)?)?\s*(?:([ap])\.?m?\.?)?\s*(?:\(?(${ZONE})\)?)?`;
const WALL = new RegExp(String.raw`^(\d{1,4})[-/.](\d{1,2})[-/.](\d{1,4})(?:[T ,]+${CLOCK})?$`, 'i');
const TIME_OF_DAY = new RegExp(`^${CLOCK}$`, 'i');

/** Whether a cell is a time of day alone, such as `2:05 PM`. */
export const isTimeOfDay = (cell: string): boolean => TIME_OF_DAY.test(cell);

const EPOCH_SECONDS = /^\d{10}$/;
const EPOCH_MILLISECONDS = /^\d{13}$/;

function hourOfDay(hour: number, half: string | undefined): number | null {
  if (half === undefined) return hour <= 23 ? hour : null;
  if (hour < 1 || hour > 12) return null;
  return (hour % 12) + (half.toLowerCase() === 'p' ? 12 : 0);
}

function yearMonthDay(a: string, b: string, c: string, order: DateOrder): [number, number, number] | null {
  const [x, y, z] = [Number(a), Number(b), Number(c)];
  // A four-digit first part is a year whatever the order chosen.
  const [year, month, day] = a.length === 4 || order === 'ymd' ? [x, y, z] : order === 'mdy' ? [z, x, y] : [z, y, x];
  const full = year < 100 ? 2000 + year : year;
  const ms = Date.UTC(full, month - 1, day);
  const back = new Date(ms);
  return back.getUTCMonth() === month - 1 && back.getUTCDate() === day ? [full, month, day] : null;
}

/** The offset of a zone, ms; null for one that is on no clock. */
function zoneMs(text: string): number | null {
  const named = ZONE_HOURS[text.toUpperCase()];
  if (named !== undefined) return named * 3_600_000;
  const [, sign, hours = '', minutes = '0'] = /([+\-−])(\d{1,2}?):?(\d{2})?$/.exec(text) ?? [];
  if (Number(hours) > 14 || Number(minutes) > 59) return null;
  return (sign === '+' ? 1 : -1) * (Number(hours) * 60 + Number(minutes)) * 60_000;
}

/** A spreadsheet's serial date with its time, 1927 to 2064: days since December 30, 1899 (ECMA-376, 18.17.4.1). */
const SERIAL = /^[1-5]\d{4}[.,]\d+$/;
const SERIAL_ZERO_MS = Date.UTC(1899, 11, 30);
const DAY_SECONDS = 86_400;

const MONTHS = ['jan', 'feb', 'mar', 'apr', 'may', 'jun', 'jul', 'aug', 'sep', 'oct', 'nov', 'dec'];
const NAMED =
  /^(?:[A-Za-z]{3,9},?\s+)?(?:(\d{1,2})(?:st|nd|rd|th)?[\s.\-/]+([A-Za-z]{3,9})|([A-Za-z]{3,9})\.?[\s\-/]+(\d{1,2})(?:st|nd|rd|th)?)[\s,.\-/]+(\d{4}|\d{2})\b(.*)$/;

/** `May 12, 2026 2:05 PM` or `12-May-26 14:05` with the month as a number; null where no month is named. */
function namedMonth(cell: string): { readonly text: string; readonly order: DateOrder } | null {
  const match = NAMED.exec(cell);
  if (match === null) return null;
  const [, dayFirst, monthAfter, monthFirst, dayAfter, year, rest = ''] = match;
  const month = MONTHS.indexOf((monthAfter ?? monthFirst ?? '').slice(0, 3).toLowerCase()) + 1;
  const day = dayFirst ?? dayAfter;
  if (month === 0 || day === undefined || year === undefined) return null;
  return { text: `${day}/${month}/${year}${rest.replace(/^,/, '')}`, order: 'dmy' };
}

/**
 * Reads a moment: `2026-05-12 14:05`, `5/12/2026 2:05 PM`, `12.05.2026 14:05:30`, `2026-05-12T14:05:00Z`, `5/12/2026 2:05 PM MDT`,
 * `May 12, 2026 2:05 PM`, `12-May-26 14:05`, a spreadsheet's serial date, or seconds since 1970.
 * @returns null when it is none of these, or no real date.
 */
export function readMoment(text: string, order: DateOrder): CellMoment | null {
  const cell = text.trim();
  const serial = SERIAL.exec(cell);
  if (serial !== null) return { kind: 'wall', ms: SERIAL_ZERO_MS + Math.round(Number(serial[0].replace(',', '.')) * DAY_SECONDS) * 1000 };
  const named = namedMonth(cell);
  if (named !== null) return readMoment(named.text, named.order);
  if (EPOCH_SECONDS.test(cell)) return { kind: 'instant', ms: Number(cell) * 1000 };
  if (EPOCH_MILLISECONDS.test(cell)) return { kind: 'instant', ms: Number(cell) };
  const match = WALL.exec(cell);
  if (match === null) return null;
  const [, a = '', b = '', c = '', hourText = '0', minuteText = '0', secondText = '0', part = '0', half, zone] = match;
  const date = yearMonthDay(a, b, c, order);
  const hour = hourOfDay(Number(hourText), half);
  if (date === null || hour === null || Number(minuteText) > 59 || Number(secondText) > 59) return null;
  const ms = Date.UTC(date[0], date[1] - 1, date[2], hour, Number(minuteText), Number(secondText), Number(part.padEnd(3, '0')));
  if (zone === undefined) return { kind: 'wall', ms };
  const offsetMs = zoneMs(zone);
  return offsetMs === null ? null : { kind: 'instant', ms: ms - offsetMs };
}

/** A unit written in the cell itself, such as `64.5 °F`. */
export type CellNumber = { readonly value: number; readonly unit: 'C' | 'F' | '%' | null };

const NUMBER = /^([+\-−]?\d+(?:[.,]\d+)?)\s*(?:°|º|deg)?\s*([CF%])?$/i;

/** Reads a number with a point or a comma, and the unit behind it if there is one. Null when it is no number. */
export function readCellNumber(text: string): CellNumber | null {
  const match = NUMBER.exec(text.trim());
  if (match === null) return null;
  const value = Number((match[1] ?? '').replace('−', '-').replace(',', '.'));
  const sign = match[2]?.toUpperCase();
  return { value, unit: sign === 'C' || sign === 'F' || sign === '%' ? sign : null };
}
