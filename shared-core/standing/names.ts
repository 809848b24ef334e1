import type { Property } from '../book/property.ts';
import { ROOM_WORDS } from '../lead/trade-words.ts';
import { formatListAnd } from '../measure/list.ts';
import { lowerFirst } from '../measure/first-letter.ts';

/** Names within a sentence: the Lindqvists’ family room, Dale Tremaine’s workshop. */

/** Words that identify a company or an institution. Half of a double surname is none: `Barbara Hall-Smith`. */
const FIRM =
  /(?<!-)\b(inc|llc|ltd|co|company|corp|gmbh|trust|school|church|library|club|hall|office|studio|association|partners|group|city|town|county|sons?|brothers|bros|dental|flooring|floors|homes|builders|rentals|properties|estates?|construction|contracting|contractors?|architects?|design|interiors|remodeling|renovations?|realty|management|development|restaurant|bakery|hotel|inn|clinic|services?|supply|tools|masonry|shop|store)\b(?!-)\.?/i;
const hasFirmWord = (name: string): boolean => FIRM.test(name) || /\d/.test(name);

const WORD = String.raw`\p{Lu}[\p{L}’'-]*`;
/** Two people of one surname. An ampersand is in the name of a firm as often. */
const FAMILY = new RegExp(`^${WORD} and ${WORD} (${WORD})$`, 'u');
/** Two people of two surnames. */
const COUPLE = new RegExp(String.raw`^${WORD}(?: \p{Lu}\.)? (${WORD}) and ${WORD}(?: \p{Lu}\.)? (${WORD})$`, 'u');
/** A surname, then a first name, with an initial at most. What is all capitals behind the comma may be a title: `PC`. */
const LAST_FIRST = new RegExp(String.raw`^(${WORD}), (\p{Lu}(?:\p{Ll}[\p{L}’'-]*|\.)(?: \p{Lu}\.?)?)$`, 'u');
const SUFFIX = /,?\s+(?:Jr|Sr|II|III|IV|Ph\.?D|M\.?D|DDS|Esq)\b\.?/g;

const oneLine = (entered: string): string => entered.trim().replace(/\s+/g, ' ');

/** A person's name in one line, without suffixes and with the first name first. */
const personName = (entered: string): string => oneLine(entered).replace(SUFFIX, '').replace(LAST_FIRST, '$2 $1');

/** The name as entered, in one line; of a person, as {@link personName} has it. */
const plainName = (entered: string): string => (customerKind(entered) === 'person' ? personName(entered) : oneLine(entered));

/** Words of a company that are surnames too. From memory. */
const SURNAMES = /^(?:Hall|Church|Town|Son|Brothers)$/i;
/** What stands between two people. */
const BETWEEN = /\s(?:and|&|\+)\s|\s*\/\s*/i;
/** A title or an initial, which makes no name longer. */
const TITLE = /^(?:Mr|Mrs|Ms|Miss|Dr|Rev|Prof|\p{L})\.?$/iu;

/** Whether words may be a person's name: `Barbara Hall` and `Mrs. Hall` as likely as a company's; of the first of two, `Tom` too. */
function mayBePerson(half: string): boolean {
  if (!hasFirmWord(half)) return true;
  const words = half.split(' ');
  const first = words.slice(0, -1);
  const isNamed = first.length > 0 && !hasFirmWord(first.join(' ')) && words.filter((word) => !TITLE.test(word)).length <= 3;
  return isNamed && SURNAMES.test(words.at(-1) ?? '');
}

/** What a customer's name says the customer is: a person or two, a company, a trust or an institution, or as likely one as the other. */
function customerKind(entered: string): 'person' | 'firm' | 'either' {
  const name = oneLine(entered.replace(/\([^)]*\)/g, ''));
  if (!hasFirmWord(name)) return 'person';
  return personName(name).split(BETWEEN).every(mayBePerson) ? 'either' : 'firm';
}

/** The company or trust that a signature is for; '' for a person, and where a name may be that of one. */
export const signingFirm = (name: string): string => (customerKind(name) === 'firm' ? name : '');

/** The one person who signs for a customer; '' for a company or a trust, whose person is not known, and for two people. */
export const signerOf = (name: string): string => (customerKind(name) !== 'person' || BETWEEN.test(name) ? '' : name);

/** Whether two may have to sign for a customer: not for a company; for a trust with two names, as for two people. */
export const mayBeTwo = (name: string): boolean => signingFirm(name) === '' || (BETWEEN.test(name) && /\btrust\b/i.test(name));

/** What only a company or an association has in its name, at the end where it is short. From memory. */
const BUSINESS =
  /\b(?:inc|incorporated|p?llc|l\.l\.c|llp|ltd|corp|corporation|gmbh|company|association|condominiums?)\b|[\s,](?:co\.|l\.?p\.?|p\.?c\.?|hoa)$/i;

/** Whether a customer is a business for certain. A firm's word is not enough: people and the trusts of their homes have them too. */
export const isBusiness = (name: string): boolean => BUSINESS.test(name.trim());

const surnameOf = (name: string): string | null => (customerKind(name) === 'person' ? (FAMILY.exec(name)?.[1] ?? null) : null);

const bySurnames = (name: string): string => (customerKind(name) === 'person' ? name.replace(COUPLE, '$1 and $2') : name);

/** A customer's short name, for titles: `Lindqvist` for Ida and Per Lindqvist, `Abara and Finch` for two surnames, any other whole. */
export function shortName(entered: string): string {
  const name = plainName(entered);
  return surnameOf(name) ?? bySurnames(name);
}

/** A customer's name in a task: `the Lindqvists` for Ida and Per Lindqvist, `Abara and Finch` for two surnames, any other whole. */
export function customerWords(entered: string): string {
  const name = plainName(entered);
  const surname = surnameOf(name);
  return surname === null ? bySurnames(name) : `the ${surname}${/(s|x|z|ch|sh)$/i.test(surname) ? 'es' : 's'}`;
}

/** The possessive: `Dale Tremaine’s`, `the Lindqvists’`, `The Bakers’`. */
export function whose(entered: string): string {
  const customer = customerWords(entered);
  return `${customer}${/^the .*s$/i.test(customer) ? '’' : '’s'}`;
}

/** Words that begin the name of a room and are no proper name, beside the words for rooms. */
const FIRST_WORDS = [
  'the upstairs downstairs upper lower main master primary guest spare kids children boys girls nursery front rear side left',
  'right north south east west middle center inner outer first second third top bottom ground big large small little old new',
  'finished unfinished attached detached formal breakfast lunch media game games music home craft sewing exercise weight storage',
  'furnace boiler mechanical electrical server conference meeting waiting exam break reception show showroom sales stock',
  'dressing changing locker wine bonus in-law walk-in coat linen corridor vestibule stairs stairwell landing nook alcove loft',
  'men women ladies gentlemen boy girl staff teacher teachers student students employee employees visitor visitors parents owner owners',
  'manager managers principal director driver drivers doctor nurse',
  'gym classroom cafeteria theater parlor lounge cellar mezzanine gallery sanctuary chapel stage room whole warehouse toilet restroom screened open',
].flatMap((line) => line.split(' '));
/** First words of a room's name that are written small inside a sentence. */
const SMALL_WORDS = new RegExp(
  String.raw`^(?:${[...ROOM_WORDS, ...ROOM_WORDS.map((words) => words.replace(/ .*/, '')), ...FIRST_WORDS].join('|')})\b(?! \p{Lu})`,
  'u',
);

/** A room's name inside a sentence: `Family room` becomes `family room`; `TV room`, `Florida room` and `Emma’s room` stay. */
export function roomWords(name: string): string {
  const lowered = lowerFirst(name);
  return SMALL_WORDS.test(lowered) ? lowered : name;
}

/** A room's words without an article of its own: `The den` is entered with one. */
const bareWords = (name: string): string => roomWords(name).replace(/^the /i, '');

/** Whether a room is told from others by its number: `Office 2`, `Exam room 3B`. */
const isNumbered = (name: string): boolean => /\s#?\d+\p{L}?$/u.test(name.trim());

/** A room with its article: `the family room`, `Emma’s room`, `office 2`. */
export const theRoom = (name: string): string =>
  isOwned(roomWords(name)) ? name : isNumbered(name) ? bareWords(name) : `the ${bareWords(name)}`;

/** Rooms with their article: `the hall and laundry`, `the kitchen and Emma’s room`, `the hall and office 2`; none as ''. */
export function theRooms(names: readonly string[]): string {
  if (names.length === 0) return '';
  return names.some((name) => isOwned(roomWords(name)) || isNumbered(name))
    ? listed(names.map(theRoom))
    : `the ${listed(names.map(bareWords))}`;
}

/** Whether a room is named for its owner. */
const isOwned = (words: string): boolean => /^\p{Lu}.*(?:['’]s|s['’])(?:\s|$)/u.test(words);

/** A customer's rooms: `the Lindqvists’ family room`, `Emma’s room (the Lindqvists)`. */
export function roomsOfCustomer(names: readonly string[], customerName: string): string {
  return names.some((name) => isOwned(roomWords(name)))
    ? `${theRooms(names)} (${customerWords(customerName)})`
    : `${whose(customerName)} ${listed(names.map(bareWords))}`;
}

/** The title of a job over these rooms: `family room, hall`. */
export const titleOfRooms = (rooms: readonly { readonly name: string }[]): string => rooms.map(({ name }) => roomWords(name)).join(', ');

/** A list in words: `a`, `a and b`, `a, b, and c`. */
export const listed = formatListAnd;

/** A property by its street address, or `Address not recorded`. */
export function propertyName({ address }: Pick<Property, 'address'>): string {
  return address.line.trim() === '' ? 'Address not recorded' : address.line;
}

/** The title of a job over the rooms it has now, without those that a change order withdrew. @param rooms of its property, or more */
export const jobTitle = (
  job: { readonly rooms: readonly { readonly roomId: string }[] },
  rooms: readonly { readonly id: string; readonly name: string }[],
): string => titleOfRooms(job.rooms.flatMap(({ roomId }) => rooms.filter(({ id }) => id === roomId)));
