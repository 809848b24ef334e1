/** Reads one line about a call into the fields of a lead. The rest is kept as notes. */
import type { LeadStep } from '../book/lead.ts';
import { capital } from '../measure/first-letter.ts';
import { plainFractions } from '../measure/fraction.ts';
import { parseLength } from '../measure/length.ts';
import { dayOfInstant } from '../measure/moment.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { takeFloor } from './line-floor.ts';
import { isName, Line, nameIn, notesOf, partsOf, SENTENCE_END, WIDE_BREAK } from './line-parts.ts';
import { takeReach } from './line-reach.ts';
import { changedNext, readStep, type Span, WEEKDAY } from './read-step.ts';
import { readSize, SIZE } from './room-size.ts';
import { isOfName, roomName, SHORT_ROOM } from './short-rooms.ts';
import { BUMP, DEPTH, depthsInDigits, FOOT_SIGN, LAYER_WORD, ROOM, ROOM_NAME, ROOM_WORD, SOURCE, sourceName } from './trade-words.ts';

/** A room as the caller described it; meters, null while unknown. */
export type RoomRead = { readonly name: string; readonly widthM: number | null; readonly lengthM: number | null };

export type LeadRead = {
  readonly name: string;
  readonly phone: string;
  readonly email: string;
  readonly source: string;
  /** Street address as typed; empty while unknown. */
  readonly address: string;
  /** With a state and a ZIP code, from `Burlington VT 05401`; empty while unknown. */
  readonly city: string;
  readonly region: string;
  readonly zip: string;
  readonly yearBuilt: number | null;
  readonly rooms: readonly RoomRead[];
  /** The floor from the top down in the caller's words, `tile over slab`; `readFloor` reads it. */
  readonly floor: string;
  /** Worst gap under a 6 ft level in meters, as guessed on the phone; null while unknown. */
  readonly roughGapM: number | null;
  /** The room that the gap was said of; null for all of them. */
  readonly gapRoom: string | null;
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

/** Where a part of the line starts, blank words before it included. */
const PART_START = String.raw`(?<=^|[,;.]\s*|\s{2})`;
const YYYY = String.raw`(?<year>(?:18|19|20)\d\d)\b(?!\s*(?:sq|sf|to\b|${FOOT_SIGN}))`;
const KIND_OF_HOUSE = 'ranch|farmhouse|bungalow|colonial|cape|condo|duplex|cottage';
/**
 * A year with a word for the house, or as a part of its own. `2000 sq ft`, `gate code 1951`, `deck built 2004` and `vinyl from 1985` are
 * none. The kind of house, `ranch`, stays in the line.
 */
const YEARS = [
  String.raw`\b(?:house|home|place|${KIND_OF_HOUSE})\s+(?:(?:is|was)\s+|(?:(?:is|was)\s+)?(?:from|built(?:\s+in)?)\s+)${YYYY}`,
  String.raw`(?<![\w$#.-]|\bcode\s+)${YYYY}(?:\s+(?:house|home)\b|(?=\s+(?:${KIND_OF_HOUSE}|building)\b))`,
  String.raw`${PART_START}(?:(?:house|home)|(?:it\s+)?(?:was\s+)?(?:year\s+)?built:?(?:\s+in)?)\s+${YYYY}`,
  String.raw`${PART_START}${YYYY}(?=\s*(?:[,;]|\s{2}|$))`,
].map((source) => new RegExp(source, 'gi'));
/** Words before `room` that do not name it: `friday room 12x14`, `needs room`, `one room`. */
const NO_KIND = String.raw`(?:an?|the|one|all|both|my|our|his|her|their|big|small|large|new|old|empty|wet|level|for|from|to|on|with|and|plus|also|then|next|needs?|wants?|has|have|is|call|visit|measure|quote|referred|referral|website|today|tomorrow|${WEEKDAY})\b`;
/** A room by what it is for or where it is, `piano room`, first in a part or after the two words of the name. */
const OTHER_ROOM = String.raw`(?<=[,;.&]\s*|\s{2}|\b(?:and|plus)\s+|^\s*\S+\s\S+\s+)(?!${NO_KIND}|${LAYER_WORD}\s)[a-z][a-z’'-]*\s+room\b`;
const SIZED_ROOM = new RegExp(String.raw`(?<=\S\s+)(?:${ROOM.source}|${OTHER_ROOM}|${SHORT_ROOM})(?=:?\s+${SIZE.source})`, 'gi');
/** Several rooms of a kind: `2 offices`, or `halls` before a size. */
const ROOMS = new RegExp(
  String.raw`(?<=\S\s+)(?<![\w/.-])(?:(?<count>[2-9]|two|three|four|five)\s+(?<counted>${ROOM_NAME})s\b|(?<sized>${ROOM_NAME})s(?=:?\s+${SIZE.source}))`,
  'gi',
);
const COUNTS = ['two', 'three', 'four', 'five'];
const ABOUT = String.raw`(?:(?:about|around|approx\.?|approximately|roughly|maybe|up to|between|~)\s*)?`;
const OFF = String.raw`(?:out(?:\s+of\s+(?:flat|level))?(?!\s+of\b)|off|unlevel)\b`;
const SPAN = String.raw`\s*\b(?:in|over|per|across)\s+(?:an?\s+)?\d+[\s-]*(?:${FOOT_SIGN}|m\b)`;
/** A number with a depth’s form that is none: a pitch, `1/4 per foot`, or a time, `1/2 day`. */
const NO_DEPTH = String.raw`(?!${DEPTH}\s*(?:(?:per|an?)\s+(?:foot|ft)|days?|hours?|weeks?)\b)`;
/** The first depth of a range, by the name of its group: `1/4 to`, `1 to`. */
const range = (name: string): string =>
  String.raw`(?:(?<${name}>${DEPTH}(?=\s*(?:to|or|and|-|–))|\d{1,2}(?=\s+to\b))\s*(?:to|or|and|-|–)\s*)?`;
/**
 * A gap: the larger of two depths or a depth alone, before or after what is wrong. In metric a whole number without a unit is a depth with
 * words such as `out`; in inches it counts things. `within 1/8` and `1/8 in 10 feet` may be what is asked for, and `36 in. high` is a cabinet.
 */
const gap = (whole: string): RegExp =>
  new RegExp(
    String.raw`(?:${[
      String.raw`${ABOUT}(?<![\w/.-]|\b(?:within|flat to|needs?|wants?)\s+)${range('beforeLow')}(?<before>${DEPTH})(?:${SPAN})?\s*(?:${OFF}|(?:low|${BUMP})\b)`,
      String.raw`${ABOUT}(?<![\w/.-])(?<bare>${whole})\s*(?:${OFF}|low\b(?! \w))`,
      String.raw`\b(?:out(?:\s+of\s+(?:flat|level))?|off|low|high|drops?|slopes?)\s+(?:by\s+)?${ABOUT}${NO_DEPTH}${range('afterLow')}(?<after>${DEPTH}|${whole}(?! ?[\w/%]))`,
      String.raw`(?<=\b${BUMP}\s+(?:(?:of|is|are)\s+)?)${ABOUT}${NO_DEPTH}${range('lastLow')}(?<last>${DEPTH})`,
      // Of the floor itself: a wall or a cabinet is named before, and is higher.
      String.raw`(?:${PART_START}|(?<=\b(?:${LAYER_WORD}|floor|side)\s+(?:is\s+)?))${ABOUT}${range('proudLow')}(?=[12]\D|\d\d?/)(?<proud>${DEPTH})\s*(?:deep|high)(?:\s+${BUMP}\b|(?=\s*(?:[,;.]|$|\s{2})|\s+(?:at|in|on|by|near|along|across)\b))`,
    ].join('|')})(?:${SPAN})?`,
    'i',
  );
const GAP: Readonly<Record<UnitSystem, RegExp>> = { us: gap('(?!)'), metric: gap(String.raw`\d{1,3}`) };
/** A room where the line names it. `to` is where its words end. */
type Named = {
  readonly name: string;
  readonly from: number;
  readonly to: number;
  readonly least: number;
  readonly most: number;
  readonly sizes: RoomRead[];
};

/** What is around a room that is all of its part: `bedroom, bedroom`. */
const [PART_BEFORE, PART_AFTER] = [/(?:^|[,;.&+]|\b(?:and|plus))\s*$/i, /^\s*(?:$|[,;.&+]|(?:and|plus)\b)/i];
/** The word that tells a room from others of its kind: `guest bath`, `2nd bedroom`. */
const TOLD_BY =
  /(?<![\w’'-])(\d(?:st|nd|rd|th)|first|second|third|fourth|(?:an)?other|guest|master|main|kids?|spare|half|upper|lower|(?:up|down)stairs|front|back|rear|side|middle|left|right)\s+$/i;
/** The word for a room before another, which it tells from others: `hall bath`. */
const IN_ROOM = new RegExp(String.raw`^(.+) (?=${ROOM_WORD}$)`, 'i');
/** A room that says only where the one before it is: `half bath off kitchen 4x5`. */
const AS_PLACE = new RegExp(
  String.raw`${ROOM.source}(?<sized>:?\s+${SIZE.source})?\s+(?:in|off|by|near|beside|behind|above|below|over|under|outside|opposite|(?:next|close|adjacent|open) to|across from)(?:\s+of)?(?:\s+(?:the|my|our|his|her|their))?\s+$`,
  'i',
);
/** A size of its own in the same part, `the hall upstairs is 3x12`; in `the hall and 5x8 bath` it is of another room. */
const OWN_SIZE = new RegExp(String.raw`^(?:(?!${ROOM.source})[^,;])*?${SIZE.source}(?!\s+${ROOM_WORD}\b)`, 'i');
const SIZE_BEFORE = new RegExp(String.raw`${SIZE.source}\s+$`, 'i');
const BETWEEN_ROOM_AND_SIZE = /^:?\s*(?:(?:is|are)\s+)?(?:about\s+)?$/i;

/** Whether a room only says where another is. */
function isPlace({ from, to }: Named, line: string): boolean {
  const place = AS_PLACE.exec(line.slice(0, from));
  return place !== null && (place.groups?.['sized'] === undefined || !OWN_SIZE.test(line.slice(to)));
}

/** The rooms without those that only speak again of another: `kitchen 10x12, her kitchen floor is tile` is one room. */
function namedOnce(named: readonly Named[], line: string): Named[] {
  const isAgain = ({ from, to, least }: Named): boolean => {
    const [before, after] = [line.slice(0, from), line.slice(to)];
    return least === 1 && !(PART_BEFORE.test(before) && PART_AFTER.test(after)) && !SIZE_BEFORE.test(before) && !OWN_SIZE.test(after);
  };
  const kindOf = ({ name }: Named): string => capital(name.replace(IN_ROOM, ''));
  const toldBy = ({ name, from }: Named): string => (IN_ROOM.exec(name) ?? TOLD_BY.exec(line.slice(0, from)))?.[1]?.toLowerCase() ?? '';
  return named.filter((one, n) => {
    const word = toldBy(one);
    // `bath` may speak again of a guest bath named before, but not of one named after it.
    const isSame = (other: Named, m: number): boolean =>
      kindOf(other) === kindOf(one) && (toldBy(other) === word || (word === '' && m < n));
    return !isAgain(one) || !named.some((other, m) => isSame(other, m) && (isAgain(other) ? m < n : m !== n));
  });
}

/** Rooms with the sizes beside them; a size alone is also a room. */
function takeRooms(line: Line, context: LineContext): RoomRead[] {
  const words: Named[] = [];
  const told = line.left;
  const start = nameEnd(told);
  const add = ({ 0: found, index, groups = {} }: RegExpExecArray): void => {
    const to = index + found.length;
    const { count, counted, sized, short } = groups;
    if (short !== undefined && isOfName(short, line.whole.slice(0, index), line.whole.slice(to))) return;
    // `Jim and Sue Hall kitchen 12x14`: the first word is of the name.
    const from = start > index && start < to ? start : index;
    const text = line.whole.slice(from, to);
    line.blank(from, to);
    const several = count === undefined ? 1 : Number(count) || COUNTS.indexOf(count.toLowerCase()) + 2;
    words.push({
      ...{ name: roomName(counted ?? sized ?? text), from, to, sizes: [] },
      ...{ least: several, most: sized === undefined ? several : Infinity },
    });
  };
  for (const pattern of [ROOMS, SIZED_ROOM]) for (const match of line.left.matchAll(pattern)) add(match);
  for (let match = ROOM.exec(rest(line, start)); match !== null; match = ROOM.exec(rest(line, start))) add(match);
  words.sort((a, b) => a.from - b.from);
  const places = words.filter((one) => isPlace(one, line.whole));
  for (const { from, to } of places) line.restore(from, to);
  const named = namedOnce(
    words.filter((one) => !places.includes(one)),
    line.whole,
  );
  const sizes = [...line.left.matchAll(new RegExp(SIZE, 'gi'))].flatMap(({ 0: words, 1: first = '', 2: second = '', index }) => {
    const size = readSize([first, second], context, {
      before: line.whole.slice(0, index),
      after: line.whole.slice(index + words.trimEnd().length),
    });
    if (size !== null) line.blank(index, index + words.length);
    return size === null ? [] : [{ from: index, to: index + words.trimEnd().length, size }];
  });
  return numberedRooms(
    withSizes(named, sizes, line.whole, told).flatMap(({ name, least, sizes }) => [
      ...sizes,
      ...Array.from({ length: Math.max(0, least - sizes.length) }, () => ({ name, widthM: null, lengthM: null })),
    ]),
  );
}

type SizeRead = Span & { readonly size: Omit<RoomRead, 'name'> };

/**
 * The rooms, each with its sizes, and a room for each size that is of none.
 * @param told the line without how to reach the customer
 */
function withSizes(named: readonly Named[], sizes: readonly SizeRead[], line: string, told: string): readonly Named[] {
  const rooms = [...named];
  const isBeside = (to: number, from: number): boolean => line.slice(to, from).trim() === '';
  /** The rooms with the size before them. */
  const led: Named[] = [];
  /** Whether a size is first in its part, but for the name, or right after a room with the size before it. */
  const isLed = (from: number): boolean => {
    const before = told.slice(0, from).split(WIDE_BREAK).at(-1)?.trim() ?? '';
    return before === '' || (isName(before) && told.trimStart().startsWith(before)) || led.some(({ to }) => isBeside(to, from));
  };
  // A size of its own right after a room: `x-ray 10x8, hall 4x22` and `unit A 20x30 hall 4x20`, but not `12x14 kitchen 4x20 hall`.
  const hasOther = (room: Named, size: Span): boolean => {
    const own = sizes.find(({ from }) => from >= room.to && BETWEEN_ROOM_AND_SIZE.test(line.slice(room.to, from)));
    if (own === undefined || !isBeside(size.to, room.from)) return own !== undefined;
    const next = named.find(({ from }) => from >= own.to && isBeside(own.to, from));
    return !isLed(size.from) && (next === undefined || hasOther(next, own));
  };
  // As many sizes after as many rooms: `kitchen and hall 12x14 and 4x20`.
  const isList = named.length === sizes.length && named.every(({ from, most }) => most === 1 && from < (sizes[0]?.from ?? 0));
  for (const [n, { from, to, size }] of sizes.entries()) {
    const open = rooms.filter((one) => one.sizes.length < one.most);
    const unnamed: Named = { name: 'Room', from, to: from, least: 1, most: 1, sizes: [] };
    const before = open.filter((one) => one.from < from).at(-1);
    const room = (isList ? named[n] : undefined) ?? before ?? open.find((one) => !hasOther(one, { from, to })) ?? unnamed;
    if (room === unnamed) rooms.push(unnamed);
    else if (room.from > from) led.push(room);
    room.sizes.push({ name: room.name, ...size });
  }
  return rooms;
}

/** The rooms with numbers where they share a name, because a property has one room by each name: `Hall 1`, `Hall 2`. */
export function numberedRooms(rooms: readonly RoomRead[]): RoomRead[] {
  const kindOf = ({ name }: RoomRead): string => name.trim().replace(/ \d+$/, '').toLowerCase();
  const taken = new Set(rooms.map(({ name }) => name.trim().toLowerCase()));
  const free = (name: string): string => {
    let number = 1;
    while (taken.has(`${name} ${number}`.toLowerCase())) number += 1;
    taken.add(`${name} ${number}`.toLowerCase());
    return `${name} ${number}`;
  };
  return rooms.map((room) => {
    const isShared = rooms.some((other) => other !== room && kindOf(other) === kindOf(room));
    return isShared && !/ \d+$/.test(room.name.trim()) ? { ...room, name: free(room.name.trim()) } : room;
  });
}

/**
 * Where the customer's name ends: at the first comma, number or part already read. A room word in it is a room when it is not written like
 * the name: `Dana Wicklow kitchen`, but `Jim and Sue Hall`. The first two words are always the name.
 */
function nameEnd(left: string): number {
  const first = new RegExp(String.raw`\S[^,;\d]*?(?=[,;\d]|\s{2}|\s*$|${SENTENCE_END})`).exec(left);
  const name = left.slice(0, first === null ? 0 : first.index + first[0].length);
  const two = /^\s*\S+\s\S+/.exec(name)?.[0].length ?? name.length;
  const isMixed = name !== name.toLowerCase() && name !== name.toUpperCase();
  const room = [...name.matchAll(new RegExp(String.raw`\b${ROOM_WORD}\b`, 'gi'))].find(
    ({ 0: word, index }) => index >= two && !(isMixed ? /^[A-Z]/.test(word) : name.slice(index + word.length).trim() === ''),
  );
  return room?.index ?? name.length;
}

/** The line with everything before a position blank. */
const rest = (line: Line, from: number): string => ' '.repeat(from) + line.left.slice(from);

/**
 * The source as far as that is no room and no next step: all of it, or who referred as far as it is written like a name, so that
 * `Joe Hall` is no room and `Ann Doyle visit friday` has a step.
 */
function referrerIn(left: string): Span {
  const { 0: source = '', index: from = 0 } = SOURCE.exec(left) ?? {};
  const { length } = /^\S+ \S+ (?:\S+(?: \S+)?\s*$|\S+(?: [A-Z]\S*)*)/.exec(source)?.[0] ?? source;
  return { from, to: from + length };
}

/** The year the house was built; null when the line has none, or two. */
function takeYear(line: Line, address: string): number | null {
  // The first two name the house. Before the others no word may stand but the address, not even one already read: `garage built 2004`.
  const isHouse = (before: string): boolean => /(?:^|[^\p{L}\s])$/u.test(before) || (address !== '' && before.endsWith(address));
  const found = YEARS.flatMap((pattern, n) =>
    [...line.left.matchAll(pattern)].filter(({ index }) => n < 2 || isHouse(line.whole.slice(0, index).trimEnd())),
  );
  const [year = null, ...others] = new Set(found.map(({ groups }) => Number(groups?.['year'])));
  if (others.length > 0) return null;
  for (const { 0: words, index } of found) line.blank(index, index + words.length);
  return year;
}

/** What a floor does, after its room: `den dips`. */
const DIPS = /^\s+(?:floor\s+)?(?:dips|slopes|drops|sags|falls|has|is)\b/i;

/** The room named in the part of the line that a gap is in: the only one, or the one that dips; null where the line does not tell. */
function roomOfGap(line: string, rooms: readonly RoomRead[], at: number): string | null {
  const part = partsOf(line, false).findLast(({ from }) => from <= at);
  if (rooms.length < 2 || part === undefined) return null;
  const named = [...part.text.matchAll(new RegExp(ROOM, 'gi'))].filter(({ 0: word }) => rooms.some(({ name }) => name === roomName(word)));
  const dipping = named.filter(({ 0: word, index }) => DIPS.test(part.text.slice(index + word.length)));
  const [only] = named.length === 1 ? named : dipping.length === 1 ? dipping : [];
  return only === undefined ? null : roomName(only[0]);
}

/** What tells a drop across the room: `1 inch low one corner`. Common practice, no source. */
const DROP =
  /\b(?:corners?|slop(?:es?|ed|ing)|drains?|(?:drops?|falls?|to|toward\w*)\b[^,;]*\bdoor(?:way)?|(?:one|other|far|each|either|left|right|front|back|(?:north|south|east|west)\w*)\s+(?:side|end)|side to side|end to end|across (?:the|her|his|their) (?:\w+ )?(?:room|floor)|wall to wall)\b/i;
/** At a door a floor dips by up to an inch, and drops by more: `low 2" at door`. Common practice, no source. */
const [AT_DOOR, MOST_AT_DOOR_M] = [/\bdoor(?:way)?\b/i, 0.0254];
/** What a level laid over it shows, wherever it is. */
const LOCAL = /\b(?:dips?|[hb]umps?|sags?|crowns?|ridges?|gaps?|(?:low|high)\s+(?:spot|area|place|point)s?)\b/i;

/**
 * The largest gap under a level in the line. A drop across the room is none, as a level lies flat on a slope. `kept` are the words that say
 * more than the depth: several gaps, a gap in a span, or a drop.
 */
function takeGap(line: Line, context: LineContext): { gapM: number | null; at: number; kept: readonly Span[] } {
  const found: { readonly words: string; readonly at: number; readonly gaps: readonly number[]; readonly isDrop: boolean }[] = [];
  for (let match = line.take(GAP[context.units]); match !== null; match = line.take(GAP[context.units])) {
    const { 0: words, index: at, groups = {} } = match;
    const before = line.left.slice(0, at).split(WIDE_BREAK).at(-1) ?? '';
    const part = `${before}${words}${line.left.slice(at + words.length).split(WIDE_BREAK)[0] ?? ''}`;
    const gaps = Object.values(groups).flatMap((text: string | undefined) => {
      const read = text === undefined ? null : parseLength(text, context.units, 'depth', context.locale);
      return read?.ok === true && read.value > 0 ? [read.value] : [];
    });
    const isDrop = DROP.test(part) || (AT_DOOR.test(part) && gaps.some((gapM) => gapM > MOST_AT_DOOR_M));
    found.push({ words, at, gaps, isDrop: isDrop && !LOCAL.test(part) });
  }
  const depths = found.flatMap(({ gaps, at, isDrop }) => (isDrop ? [] : gaps.map((gapM) => ({ gapM, at }))));
  const [largest = { gapM: null, at: 0 }] = depths.toSorted((a, b) => b.gapM - a.gapM);
  const isMore = found.length > 1 || found.some(({ words, isDrop }) => isDrop || new RegExp(SPAN, 'i').test(words));
  return {
    ...largest,
    kept: isMore ? found.map(({ at, words }) => ({ from: at, to: at + words.length })) : [],
  };
}

/**
 * Reads a line such as `Dana Wicklow 555-0142, kitchen 12x14, tile over slab, about 3/8 out, referred, visit Thu 4pm`.
 * Only the name is needed, and it comes first. Sizes without a unit are feet, gaps without a unit inches; in metric, meters and
 * millimeters. The layers are taken for every room named, and so is a gap that is not said of one. A next step with neither a day nor a time is for tomorrow.
 * @param text the line
 * @param context moment, units and country of the entry
 */
export function readLeadLine(text: string, context: LineContext): LeadRead {
  // One space before a fraction: wider ones are between parts that were read.
  const line = new Line(plainFractions(depthsInDigits(text)).replace(/\s+(?=\d+\/\d)/g, ' '));
  const { phone, email, address, city, region, zip } = takeReach(line, context.country);
  const reached = line.left;
  const referrer = referrerIn(line.left);
  line.blank(referrer.from, referrer.to);
  const rooms = takeRooms(line, context);
  const { gapM: roughGapM, at, kept } = takeGap(line, context);
  const next = readStep(line.left, line.whole, context.now, context.zone);
  for (const { from, to } of next?.read ?? []) line.blank(from, to);
  line.restore(referrer.from, referrer.to);
  const source = line.take(SOURCE)?.[0] ?? '';
  const yearBuilt = takeYear(line, address);
  const offset = line.left.length - line.left.trimStart().length;
  const length = new RegExp(String.raw`[,;]|\s{2,}|${SENTENCE_END}`).exec(line.left.slice(offset))?.index ?? line.left.length - offset;
  const name = nameIn(line.left.slice(offset, offset + length).trim());
  line.blank(offset, offset + name.length);
  const floor = takeFloor(line);
  // No day was read for the step, so its words are kept too.
  const noDay = next?.day === null ? next.read : [];
  for (const { from, to } of [...kept, ...noDay]) line.restore(from, to);
  const nameTo = offset + name.length;
  const notesFrom = nameTo + (/^(?:[\s,;./:@<>)–—-]|\((?=\s))*/.exec(reached.slice(nameTo))?.[0].length ?? 0);
  const hasFloor = floor !== '' || roughGapM !== null || kept.length > 0;
  return {
    name,
    phone,
    email,
    source: source === '' ? '' : sourceName(source),
    ...{ address, city, region, zip },
    yearBuilt,
    rooms: rooms.length === 0 && hasFloor ? [{ name: 'Room', widthM: null, lengthM: null }] : rooms,
    floor,
    roughGapM,
    gapRoom: roughGapM === null ? null : roomOfGap(line.whole, rooms, at),
    ...{ step: null, day: null, clock: null },
    ...(next === null ? {} : next.isUnclear ? { step: next.step } : changedNext(next, {}, dayOfInstant(context.now, context.zone))),
    notes: notesOf(line.whole, line.left, notesFrom),
  };
}
