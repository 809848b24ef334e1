/** Reads how to reach the customer in a line about a call: phone, email and address. */
import { parsePhoneNumberFromString, type CountryCode } from 'libphonenumber-js/min';
import { CITY } from './whole-address.ts';
import { PHONE_EXTENSION } from '../measure/phone-email.ts';
import type { Line } from './line-parts.ts';
import { ROOM, ROOM_WORD } from './trade-words.ts';

const EMAIL = /[^\s,;<>]+@[^\s,;<>]+\.[a-z]{2,}/i;
/** A pattern of small letters that also finds capitals, for patterns that tell `The Pines` from `the way`. */
const anyCase = (source: string): string => source.replace(/(?<!\\)[a-z]/g, (letter) => `[${letter}${letter.toUpperCase()}]`);
/** These words in small letters or all in capitals, not capitalized as in a name. */
const plainWord = (words: string): string => `(?:${words}|${words.toUpperCase()})`;
const STREET_KIND = String.raw`(?:${anyCase(
  'street|st|road|rd|avenue|ave|lane|ln|drive|dr|court|ct|way|place|pl|boulevard|blvd|circle|cir|terrace|ter|trail|highway|hwy|route|wharf|row|alley|pike|parkway|pkwy',
)})\b`;
const CAPITALIZED = '[A-Z][a-z]';
const STREET_WORD = String.raw`[\w’'.-]+\s+`;
/** What follows a number that is no house number: `14 by 16`, `2 low spots`, `1 high place`, `2 low one way`, `14 off the drive`. */
const NO_STREET = [
  String.raw`(?:${anyCase('x|by')})\s+\d`,
  String.raw`(?:${anyCase('low|high')})\s+(?:${anyCase('spots?|areas?|places?|points|corners?')})\b`,
  String.raw`${plainWord('low|high')}\s+(?!${STREET_KIND}|${STREET_WORD}(?!${anyCase('way')}\b)${STREET_KIND}|${CAPITALIZED})`,
  String.raw`${plainWord('out|off|x|by')}\s+(?!${STREET_KIND})`,
  String.raw`${plainWord('in|at|on|over|to|of|and')}\s`,
].join('|');
/** Words that no name of a street goes on with: `2 dips off the drive`, `8 all the way`. */
const STREET_ENDS = [
  String.raw`${plainWord('out|off|x|by|in|at|on|over|to|low|high')}\s`,
  String.raw`${plainWord('and')}\s+(?:an?\s|${ROOM.source})`,
  String.raw`${plainWord('of')}\s+(?!(?:the\s+)?${CAPITALIZED})`,
  String.raw`${plainWord('the')}\s+(?!${CAPITALIZED})`,
  String.raw`(?:${anyCase('the')})\s+${STREET_KIND}`,
  // `88 Elm St has a court`.
  String.raw`(?<=\b(?=[A-Z])${STREET_KIND}\.?\s+)[a-z]`,
].join('|');
/** What follows a house number, `Main St` or `Old Mill Lane`. A room in its place, `kitchen by the drive`, is none. */
const STREET_NAME = String.raw`\s+(?!${ROOM.source}|${NO_STREET})[a-z][\w’'.-]*\s+(?:(?!${STREET_ENDS})[a-z][\w’'.-]*\s+){0,3}?${STREET_KIND}`;
/** A number with its extension, neither of them digits of an email, and the extension not a house number. */
const phone = (number: string): RegExp =>
  new RegExp(String.raw`(?<![\w/@])${number}(?:${PHONE_EXTENSION}(?!\d|${STREET_NAME}))?(?!\w|[^\s,;<>]*@)`, 'i');
/** With a country code. */
const INTERNATIONAL = phone(String.raw`\+(?:1(?:[\s().-]*\d){10}|(?!1)\d[\d\s().-]{6,18}\d)`);
/**
 * Without a country code, or with one that is typed without care, in the order to look for them. `210 1234` alone may be a unit and a
 * house number, so it comes last and is none before the name of a street.
 */
const phones = (prefix: string): readonly RegExp[] => [
  phone(String.raw`(?:${prefix}[\s.-]?)?(?:(?:\(\d{3}\)[\s.-]*|\d{3}[\s.-]?)\d{3}[\s.-]?\d{4}|\d{3}[.-]?\d{4})`),
  phone(String.raw`(?:${prefix}[\s.-]?)?\d{3}\s(?!\d{4}${STREET_NAME})\d{4}`),
];
const [AMERICAN, OTHER] = [phones(String.raw`\+?1`), phones(String.raw`\+?\d{1,3}`)];
/** The number or letter of a unit. A word such as `I` or `a` is one only before a comma, a number or a room. */
const UNIT_NUMBER = String.raw`(?:\d{1,5}-?[A-Za-z]?|[A-Za-z]-?\d{1,4}|[A-HJ-Z]|[a-zI](?=\s*(?:[,;.]|$)|\s{2}|\s+(?:\d|${anyCase(ROOM_WORD)}\b)))`;
/** What follows a number that is no unit: `12x14`, `2 bedrooms`, `850 sq ft`, `2 bed`. */
const NO_UNIT = String.raw`\s*(?:[x×]|by)\s*\d|\s+${anyCase(ROOM_WORD)}s\b|\s*['’′"”″]|\s*(?:${anyCase('sq|square|feet|foot|acre|bed|sf|ft|br|bd')})\b`;
const UNIT_WORD = String.raw`(?:${anyCase('apt|apartment|unit|suite|ste|lot')})\b\.?`;
/** The unit in a building: `#4`, `apt 2B`, `unit B`. `apt 2 bedrooms` and `unit in back` are none. */
const UNIT = String.raw`(?:#|${UNIT_WORD}\s*#?)\s*${UNIT_NUMBER}(?!\w|${NO_UNIT})`;
/** Where an address ends, before its unit or city. */
const END = String.raw`(?=\s*[,;]|\.?\s*$|\s{2}|\s+${UNIT}|\s+[A-Z][\w.'’ -]*,?\s[A-Z]{2}\s+\d{5}\b)`;
const DIRECTION = String.raw`(?:[NnSs](?:\.?[EeWw])?|[EeWw]|(?:${anyCase('(?:north|south)(?:east|west)?|east|west')})(?!\s+[A-Z][a-z]))(?!\w)\.?`;
/** A kind of street that is named after it: `Highway 160`, `County Road 17`, `Avenue B`. */
const ROUTE = String.raw`(?:${anyCase('highway|hwy|route|(?:county|state|ranch)\\s+(?:road|rd)')})`;
/** What belongs to a street after its kind: `Ave N`, `Highway 160 W`, `Main St 3B`. Before other words, only a direction or a route's number is certain. */
const TAIL = String.raw`(?:(?:\s+(?:${DIRECTION}|(?:\d{1,3}[A-Za-z]?|[A-Za-z])(?!\w))){1,3}${END}|(?:(?<=\b${ROUTE}\.?)\s+\d{1,4}(?:\.\d|\s1/2)?\b)?(?:\s+(?:[NS](?:\.?[EW])?|[EW])(?!\w)\.?)?)`;
/** What a number stands after that is no house number: a unit, a box, a code or the first number of a size. */
const NO_HOUSE = String.raw`(?<!(?:${UNIT_WORD}|\b(?:${anyCase('box|code|rr|built(?:\\s+in)?')}))\s*#?\s*|\d\S*\s*(?:[x×]|by)\s*|#\s*(?=\d+\s+\d))`;
/** A house number, up to five words and a kind of street, or a street named after its kind, `3 Avenue B`, with the unit. `3/8 out all the way` is none. */
const STREET = new RegExp(
  String.raw`(?<![\w/.-])${NO_HOUSE}(?:[Aa]t\s+)?(\d{1,6}[A-Za-z]?\s+(?:(?!${NO_STREET})${STREET_WORD}(?:(?!${STREET_ENDS})${STREET_WORD}){0,4}${STREET_KIND}|(?:${anyCase('highway|hwy|route|avenue|ave')})\b(?=\.?\s+(?:\d{1,4}[A-Z]?|[A-Z])\b))\.?${TAIL}(?:,?\s*${UNIT})?)`,
);

function takePhone(line: Line, country: string): string {
  const patterns = [INTERNATIONAL, ...(country === 'US' || country === 'CA' ? AMERICAN : OTHER)];
  const match = patterns.reduce<RegExpExecArray | null>((found, pattern) => found ?? line.take(pattern), null);
  if (match === null) return '';
  const typed = match[0].trim();
  // With a country code unknown to the library, the digits are kept as typed.
  const number = parsePhoneNumberFromString(typed, country as CountryCode);
  if (number?.isPossible() !== true) return typed;
  return number.country === country || number.countryCallingCode === '1' ? number.formatNational() : number.formatInternational();
}

/** How to reach the customer, with `address` the street as typed. What is read is blanked out in the line; each is empty while unknown. */
export function takeReach(line: Line, country: string) {
  // Before the address: `303 555 0199 88 Elm St, #4` has both, and each number is of one.
  const phone = takePhone(line, country);
  const email = line.take(EMAIL)?.[0] ?? '';
  const address = (line.take(STREET)?.[1] ?? '').trim().replace(/\s+/g, ' ');
  const { city = '', region = '', zip = '' } = line.take(CITY)?.groups ?? {};
  return { phone, email, address, city, region, zip };
}
