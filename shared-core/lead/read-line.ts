/** Reads one line about a call into the fields of a lead. The rest is kept as notes. */
import { parsePhoneNumberFromString, type CountryCode } from 'libphonenumber-js/min';
import type { LayerMaterial } from '../book/layer.ts';
import type { LeadStep } from '../book/lead.ts';
import { parseLength } from '../measure/length.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { layerOf, ROOM, SOURCE, sourceName } from './trade-words.ts';
import { en } from 'chrono-node';
import { Temporal } from 'temporal-polyfill';

/** A room as the caller described it; meters, null while unknown. */
export type RoomRead = { readonly name: string; readonly widthM: number | null; readonly lengthM: number | null };

export type LeadRead = {
  readonly name: string;
  readonly phone: string;
  readonly email: string;
  readonly source: string;
  /** Street address as typed; empty while unknown. */
  readonly address: string;
  readonly yearBuilt: number | null;
  readonly rooms: readonly RoomRead[];
  /** The floor from the top down in the caller's words, `tile over slab`; `readFloor` reads it. */
  readonly floor: string;
  /** Worst gap under a 6 ft level in meters, as guessed on the phone; null while unknown. */
  readonly roughGapM: number | null;
  readonly step: LeadStep | null;
  /** `2026-05-14`; null while no day is set. */
  readonly day: string | null;
  /** `16:00`; null for no time. */
  readonly clock: string | null;
  /** The rest of the line. */
  readonly notes: string;
};

export type LineContext = {
  /** Instant, UTC. */
  readonly now: string;
  readonly zone: string;
  readonly units: UnitSystem;
  readonly locale: string;
  /** Two letters, for phone numbers without a country code. */
  readonly country: string;
};

/** A line from which recognized parts are blanked out, so that positions stay. */
class Line {
  left: string;
  constructor(readonly whole: string) {
    this.left = whole;
  }
  blank(from: number, to: number): void {
    this.left = this.left.slice(0, from) + ' '.repeat(to - from) + this.left.slice(to);
  }
  take(pattern: RegExp): RegExpExecArray | null {
    const match = pattern.exec(this.left);
    if (match !== null) this.blank(match.index, match.index + match[0].length);
    return match;
  }
}

const EMAIL = /[^\s,;<>]+@[^\s,;<>]+\.[a-z]{2,}/i;
const PHONE = /(?<![\w/])(?:\+?\d{1,3}[\s.-]?)?(?:\(\d{3}\)\s?|\d{3}[\s.-])?\d{3}[\s.-]?\d{4}(?![\w/])/;
const INTERNATIONAL = /(?<![\w/])\+\d[\d\s().-]{6,18}\d(?![\w/])/;
const STREET =
  /\b(?:at\s+)?(\d{1,6}[a-z]?\s+(?:[\w’'.-]+\s+){0,4}(?:street|st|road|rd|avenue|ave|lane|ln|drive|dr|court|ct|way|place|pl|boulevard|blvd|circle|cir|terrace|ter|trail|highway|hwy|route|wharf|row|alley|pike)\b\.?)/i;
const YEAR = /\b(?:built\s+(?:in\s+)?|house\s+from\s+|from\s+)?((?:18|19|20)\d\d)(?:\s+house)?\b/i;
const NUMBER = String.raw`\d+(?:[.,]\d+)?(?:\s*-?\s*\d+/\d+)?|\d+/\d+`;
const INCH_SIGN = String.raw`(?:"|”|″|in\.?|inch(?:es)?)`;
const FOOT_SIGN = String.raw`(?:'|’|′|ft\.?|feet|foot)`;
const SIDE = String.raw`(?:\d+\s*${FOOT_SIGN}\s*(?:(?:${NUMBER})\s*${INCH_SIGN}?)?|\d+-\d+|(?:\d+(?:[.,]\d+)?)\s*(?:m|cm|${FOOT_SIGN})?)`;
const SIZE = new RegExp(String.raw`(?<![\w/.])(${SIDE})\s*(?:x|×|by)\s*(${SIDE})(?![\w/])`, 'i');
const SIZED_ROOM = new RegExp(String.raw`(?<=\S\s+)${ROOM.source}(?=\s+${SIZE.source})`, 'i');
const GAP_UNIT = String.raw`(?:${INCH_SIGN}|mm|cm)?`;
const ABOUT = String.raw`(?:(?:about|around|approx\.?|approximately|roughly|maybe|up to|~)\s*)?`;
const GAP = new RegExp(
  String.raw`${ABOUT}(?<![\w/])((?:${NUMBER})\s*${GAP_UNIT})\s*(?:out(?:\s+of\s+(?:flat|level))?|off|dip|dips|low|high|hump|gap|drop|unlevel)\b|\b(?:out|off|dips?|drops?)\s+(?:by\s+)?${ABOUT}((?:${NUMBER})\s*${GAP_UNIT})(?![\w/])`,
  'i',
);
const CHAIN = /\b[a-z][a-z -]*?(?:\s+(?:over|on top of|on|and)\s+[a-z][a-z -]*?)+(?=$|[,;.]|\s{2,})/i;

const clean = (text: string): string =>
  text
    .split(/[,;]/)
    .map((part) => part.trim().replace(/\s+/g, ' '))
    .filter((part) => !/^(?:(?:and|with|at|the|on|in)(?: |$))*$/i.test(part))
    .join(', ');

/** A side of a room in meters: a bare number is feet, or meters in metric. */
function sideM(text: string, context: LineContext): number | null {
  const plain = text.trim();
  const isBare = /^\d+(?:[.,]\d+)?$/.test(plain);
  const read = parseLength(isBare ? (context.units === 'us' ? `${plain}'` : `${plain} m`) : plain, context.units, 'length', context.locale);
  return read.ok && read.value > 0 ? read.value : null;
}

function takePhone(line: Line, country: string): string {
  const match = line.take(INTERNATIONAL) ?? line.take(PHONE);
  if (match === null) return '';
  const typed = match[0].trim();
  // With a country code unknown to the library, the digits are kept as typed.
  const number = parsePhoneNumberFromString(typed, country as CountryCode);
  if (number?.isPossible() !== true) return typed;
  return number.country === country || number.countryCallingCode === '1' ? number.formatNational() : number.formatInternational();
}

const BETWEEN = /\s+(?:over|on top of|on|and)\s+/i;

/** The layers that words such as `tile over slab` name, from the top down; null when one of them is not known. */
export function readFloor(text: string): LayerMaterial[] | null {
  const layers = text.trim().split(BETWEEN).map(layerOf);
  return layers.every((layer) => layer !== null) ? layers : null;
}

/** The words for the floor: a whole part of the line, or its end, such as `tile over slab`. */
function takeFloor(line: Line): string {
  const parts = partsOf(line.left);
  const whole = parts.find((part) => readFloor(part.text) !== null);
  if (whole !== undefined) {
    line.blank(whole.from, whole.from + whole.text.length);
    return whole.text;
  }
  const chain = CHAIN.exec(line.left);
  if (chain === null) return '';
  const words = chain[0].split(' ');
  // The chain may follow other words, so the longest readable ending counts.
  for (let skip = 1; skip < words.length - 2; skip++) {
    const text = words.slice(skip).join(' ');
    if (readFloor(text) === null) continue;
    const to = chain.index + chain[0].length;
    line.blank(to - text.length, to);
    return text;
  }
  return '';
}

type Part = { readonly text: string; readonly from: number };

/** The parts between commas and between parts already read. */
function partsOf(text: string): Part[] {
  return [...text.matchAll(/[^,;\s]+(?: [^,;\s]+)*/g)].map((match) => ({ text: match[0], from: match.index }));
}

/** Rooms with the sizes beside them; a size alone is also a room. */
function takeRooms(line: Line, context: LineContext): RoomRead[] {
  const rooms: { name: string; from: number; widthM: number | null; lengthM: number | null }[] = [];
  const add = (match: RegExpExecArray): void => {
    line.blank(match.index, match.index + match[0].length);
    rooms.push({ name: roomName(match[0]), from: match.index, widthM: null, lengthM: null });
  };
  for (let match = SIZED_ROOM.exec(line.left); match !== null; match = SIZED_ROOM.exec(line.left)) add(match);
  // The customer's name comes first, as two words or up to a comma, so that Mr. Hall is not read as a hall.
  const name = /^\s*\S+\s\S+(?=\s)|^[^,;\d]*?(?=[,;\d]|\s{2}|$)/.exec(line.left)?.[0].length ?? 0;
  const comma = /[,;\d]|\S\s{2}/.exec(line.left)?.index ?? line.left.length;
  const start = Math.min(name, comma);
  for (let match = ROOM.exec(rest(line, start)); match !== null; match = ROOM.exec(rest(line, start))) add(match);
  rooms.sort((a, b) => a.from - b.from);
  for (let match = line.take(SIZE); match !== null; match = line.take(SIZE)) {
    const [a, b] = [sideM(match[1] ?? '', context), sideM(match[2] ?? '', context)];
    const index = match.index;
    const room =
      rooms.filter((candidate) => candidate.from < index && candidate.widthM === null).at(-1) ??
      rooms.find((candidate) => candidate.widthM === null);
    if (room === undefined) rooms.push({ name: 'Room', from: index, widthM: a, lengthM: b });
    else [room.widthM, room.lengthM] = [a, b];
  }
  return rooms.map((room) => ({ name: room.name, widthM: room.widthM, lengthM: room.lengthM }));
}

/** The line with everything before a position blank. */
const rest = (line: Line, from: number): string => ' '.repeat(from) + line.left.slice(from);

function roomName(text: string): string {
  const plain = text.toLowerCase();
  return plain.charAt(0).toUpperCase() + plain.slice(1);
}

function takeGap(line: Line, context: LineContext): number | null {
  const match = line.take(GAP);
  if (match === null) return null;
  const read = parseLength(match[1] ?? match[2] ?? '', context.units, 'depth', context.locale);
  return read.ok && read.value > 0 ? read.value : null;
}

/**
 * Reads a line such as `Dana Wicklow 555-0142, kitchen 12x14, tile over slab, about 3/8 out, referred, visit Thu 4pm`.
 * Only the name is needed, and it comes first. Sizes without a unit are feet, gaps without a unit inches; in metric, meters and
 * millimeters. The gap and the layers are taken for every room named.
 * @param text the line
 * @param context moment, units and country of the entry
 */
export function readLeadLine(text: string, context: LineContext): LeadRead {
  const line = new Line(text);
  const email = line.take(EMAIL)?.[0] ?? '';
  const address = (line.take(STREET)?.[1] ?? '').trim().replace(/\s+/g, ' ');
  const phone = takePhone(line, context.country);
  const rooms = takeRooms(line, context);
  const roughGapM = takeGap(line, context);
  const source = line.take(SOURCE)?.[0] ?? '';
  const when = readWhen(line.left, context.now, context.zone);
  if (when !== null) line.blank(when.from, when.to);
  const year = line.take(YEAR)?.[1];
  const offset = line.left.length - line.left.trimStart().length;
  const length = /[,;]|\s{2,}/.exec(line.left.slice(offset))?.index ?? line.left.length - offset;
  const name = line.left.slice(offset, offset + length).trim();
  line.blank(offset, offset + length);
  const floor = takeFloor(line);
  const hasFloor = floor !== '' || roughGapM !== null;
  return {
    name,
    phone,
    email,
    source: source === '' ? '' : sourceName(source),
    address,
    yearBuilt: year === undefined ? null : Number(year),
    rooms: rooms.length === 0 && hasFloor ? [{ name: 'Room', widthM: null, lengthM: null }] : rooms,
    floor,
    roughGapM,
    step: when?.step ?? null,
    day: when?.day ?? null,
    clock: when?.clock ?? null,
    notes: clean(line.left),
  };
}

/** A next step. `day` is null when no day was given; `at` is its position in the line. */
type StepRead = {
  readonly step: LeadStep;
  readonly day: string | null;
  readonly clock: string | null;
  readonly from: number;
  readonly to: number;
};

const STEPS: readonly (readonly [LeadStep, RegExp])[] = [
  ['quote-by', /\b(?:quote|estimate|bid|price)\s+(?:is\s+)?(?:due|by|on|for)?\b/i],
  ['call-back', /\b(?:call(?:ing)?(?:\s+(?:him|her|them))?(?:\s+back)?|callback|phone(?:\s+back)?|follow[ -]up)\b(?:\s+on)?/i],
  [
    'visit',
    /\b(?:site\s+visit|visit|come\s+by|stop\s+by|look\s+at\s+it|meet|walk[ -]?through|measure|appointment)\b(?:\s+(?:on|at|there))?/i,
  ],
];

/** A time of day written alone, `at 4`, would be read as a clock; a month written alone, `May`, is as often a name. */
const isDated = (start: { isCertain: (part: 'day' | 'weekday' | 'hour') => boolean }): boolean =>
  start.isCertain('day') || start.isCertain('weekday') || start.isCertain('hour');

const two = (n: number | null): string => String(n ?? 0).padStart(2, '0');

/**
 * Finds the next step in a line.
 * @param line the line, with what has been read already blanked out by spaces
 * @param now instant, UTC: days are counted from it
 * @param zone IANA time zone of the day and the clock
 */
function readWhen(line: string, now: string, zone: string): StepRead | null {
  const local = Temporal.Instant.from(now).toZonedDateTimeISO(zone);
  const reference = { instant: new Date(local.epochMilliseconds), timezone: local.offsetNanoseconds / 6e10 };
  const matches = STEPS.flatMap(([step, pattern]) => {
    const match = pattern.exec(line);
    return match === null ? [] : [{ step, from: match.index, to: match.index + match[0].length }];
  }).sort((a, b) => a.from - b.from)[0];
  const dates = en.casual
    .parse(line, reference, { forwardDate: true })
    // The name comes first, so a date at the start counts only after a step.
    .filter((date) => isDated(date.start) && (date.index > firstWord(line) || matches !== undefined));
  const near = dates.find((date) => matches !== undefined && date.index >= matches.from) ?? dates[0];
  if (near === undefined && matches === undefined) return null;
  if (near === undefined) return matches === undefined ? null : { ...matches, day: null, clock: null };
  const { start } = near;
  const hasHour = start.isCertain('hour');
  const [from, to] = [Math.min(near.index, matches?.from ?? near.index), Math.max(near.index + near.text.length, matches?.to ?? 0)];
  // Words between the step and its date belong to other fields and are left in the line.
  return {
    step: matches?.step ?? (hasHour ? 'visit' : 'call-back'),
    day: `${start.get('year') ?? local.year}-${two(start.get('month'))}-${two(start.get('day'))}`,
    clock: hasHour ? `${two(workingHour(start))}:${two(start.get('minute'))}` : null,
    from,
    to,
  };
}

/** `at 4` without am or pm is an hour of the working day: 1 to 6 are in the afternoon. Common practice, no source. */
function workingHour(start: { get: (part: 'hour') => number | null; isCertain: (part: 'meridiem') => boolean }): number {
  const hour = start.get('hour') ?? 0;
  return !start.isCertain('meridiem') && hour >= 1 && hour <= 6 ? hour + 12 : hour;
}

function firstWord(line: string): number {
  return /\S/.exec(line)?.index ?? 0;
}
