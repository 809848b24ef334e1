/** The ballpark: one page with a wide price range before anything was measured. It states that it is not an offer. */
import type { Business } from '../book/business.ts';
import { formatArea } from '../measure/area.ts';
import { countWords } from '../measure/count-words.ts';
import { formatDepth, formatLength } from '../measure/length-format.ts';
import { formatInstantDay } from '../measure/moment.ts';
import { formatPercent } from '../measure/percent.ts';
import { isRoughlyKnown } from '../price/estimate-room.ts';
import { formatMoney } from '../price/money.ts';
import { capital } from '../measure/first-letter.ts';
import { listed, theRooms } from '../standing/names.ts';
import type { JobReading, RoomReading } from '../standing/read-job.ts';
import { isOldFlooring, LAYER_WORDS } from '../substrate/layer-words.ts';
import { headingBlock, listBlock, noteBlock, tableBlocks, textBlock } from './blocks.ts';
import type { DocumentInput } from './document-input.ts';
import { customerLine, issuerName, onLetterhead } from './letterhead.ts';
import type { DocumentTree } from './tree.ts';

/** Message while the business has no name. */
export const NO_NAME = 'Enter your business name.';

/** What is missing for a ballpark; null when it can be saved. */
export function missingForBallpark({ rooms, whole }: JobReading): string | null {
  if (!rooms.some((roomReading) => roomReading.estimate != null && isRoughlyKnown(roomReading.estimate)))
    return 'Every room is measured. Issue a quote instead.';
  const open = rooms.find((roomReading) => roomReading.estimate?.takeoff.bags == null);
  if (open !== undefined) return `${open.room.name}: enter a size and a ballpark depth, and choose a material.`;
  return issuerName(whole.business) === '' ? NO_NAME : null;
}

/** The price range before tax, wide on purpose: `$3,240 to $3,480`; one figure where the minimum charge is both ends. */
export function ballparkPrice({ estimate, whole }: JobReading): string {
  const { currency, locale } = whole.business;
  const { leastMinor, mostMinor } = estimate.base.price.range;
  return [...new Set([leastMinor, mostMinor].map((minor) => formatMoney(minor, currency, locale, 'about')))].join(' to ');
}

/** Builds the page. */
export function ballparkSheet({ reading, now, revision }: DocumentInput): DocumentTree {
  const { business, customer, property, job } = reading.whole;
  const { locale } = business;
  const day = formatInstantDay(now, business.timeZone, 'dated', locale);
  return onLetterhead(business, {
    title: `Ballpark ${job.number} number ${revision}, ${customer.name}`,
    subject: `Ballpark price for ${customerLine({ customer, property })}`,
    madeAt: now,
    right: ['Ballpark, not an offer', `${day}. Job ${job.number}, number ${revision}`],
    blocks: [
      headingBlock(1, 'Ballpark price'),
      textBlock(customerLine(reading.whole)),
      { kind: 'figure', label: 'To level the floor, before tax, about', figure: ballparkPrice(reading) },
      textBlock(`This is a rough range to help you decide. It is not an offer. ${unmeasuredWords(reading)}`, { bold: true }),
      headingBlock(2, 'Based on'),
      ...tableBlocks('Rooms', reading.rooms, [
        ['Room', null, ({ room }) => room.name],
        ['Area', 0.16, ({ estimate }) => formatArea(estimate?.takeoff.room.areaM2 ?? 0, business.units, locale), 'end'],
        ['Estimated from', 0.34, (roomReading) => guessWords(roomReading, business)],
        ['Bags (approx.)', 0.18, ({ estimate }) => bagsWords(estimate?.takeoff.bags ?? null), 'end'],
      ]),
      listBlock(basis(reading)),
      headingBlock(2, 'To narrow the range'),
      listBlock([
        'A visit to measure the height of the floor in many places.',
        'An inspection under the old flooring: what is there, and whether it is sound.',
        'Moisture and other tests that the new flooring requires.',
        'The heights at doorways, and the flatness that the new flooring requires.',
      ]),
      textBlock('After that we send a quote with a fixed price.'),
      noteBlock(`Not included: ${listed(notIncluded(reading))}.`),
    ],
  });
}

/** Which floors are guessed: `The hall is not measured yet.` */
function unmeasuredWords({ rooms }: JobReading): string {
  const guessed = rooms.filter(({ estimate }) => estimate !== null && isRoughlyKnown(estimate));
  const not = guessed.some(({ estimate }) => estimate?.ballpark === null) ? 'not fully measured yet' : 'not measured yet';
  if (guessed.length === rooms.length) return rooms.length === 1 ? `The floor is ${not}.` : `The floors are ${not}.`;
  return `${capital(theRooms(guessed.map(({ room }) => room.name)))} ${guessed.length === 1 ? 'is' : 'are'} ${not}.`;
}

const bagsWords = (bags: { readonly leastBags: number; readonly mostBags: number } | null): string =>
  bags === null ? '' : [...new Set([bags.leastBags, bags.mostBags])].join(' to ');

function guessWords({ room, estimate }: RoomReading, { units, locale }: Business): string {
  const guess = room.ballpark;
  if (estimate?.ballpark == null || guess === null)
    return estimate !== null && isRoughlyKnown(estimate)
      ? `${countWords(room.survey.readings.length, 'reading', locale)} on part of the floor`
      : 'Measured';
  const depth = (m: number): string => formatDepth(m, units, locale);
  return guess.kind === 'gap'
    ? `${depth(guess.gapM)} gap under a level ${formatLength(guess.levelLengthM, units, locale)} long`
    : `${depth(guess.leastM)} to ${depth(guess.mostM)} deep on average`;
}

/** The old layers of a room whose removal is priced, by name. */
const removedWords = ({ estimate }: RoomReading): string[] =>
  (estimate?.takeoff.room.removed ?? [])
    .filter(({ isAbated, areaM2 }) => !isAbated && areaM2 > 0)
    .map(({ material }) => LAYER_WORDS[material]);

function basis({ rooms, whole }: JobReading): string[] {
  const { business, materials } = whole;
  const usedIn = (idOf: (room: RoomReading) => string | null) => {
    const used = new Set(rooms.map(idOf));
    return materials.filter(({ id }) => used.has(id));
  };
  const material = usedIn((room) => room.material?.id ?? null).map(({ name, typical }) => `${name}${typical ? ' (typical)' : ''}`);
  const primers = usedIn(({ estimate }) => estimate?.takeoff.primer?.primerId ?? null);
  // A typical primer is named for its substrate, which says nothing to a homeowner.
  const primer = new Set(primers.map(({ name, typical }) => (typical ? 'typical for the surface of the floor' : name)));
  const removed = [...new Set(rooms.flatMap(removedWords))];
  return [
    ...(material.length === 0 ? [] : [`Material: ${material.join(', ')}.`]),
    ...(primer.size === 0 ? [] : [`Primer: ${[...primer].join(', ')}.`]),
    ...(removed.length === 0 ? [] : [`Removal and disposal of the old ${listed(removed)}.`]),
    `Waste factor: ${formatPercent(business.usualLossShare, 0, business.locale)}.`,
    'Prep and labor as usual for a floor of this size.',
  ];
}

/** What the price leaves out: the primer too where it is not priced, and removal where there is or may be old flooring. */
function notIncluded({ rooms }: JobReading): string[] {
  const unless = (what: string, isPriced: (room: RoomReading) => boolean): string[] => {
    const without = rooms.filter((roomReading) => !isPriced(roomReading));
    if (without.length === 0) return [];
    return [without.length === rooms.length ? what : `${what} in ${theRooms(without.map(({ room }) => room.name))}`];
  };
  return [
    ...unless('primer', ({ estimate }) => estimate?.takeoff.primer != null),
    ...unless(
      'removal of old flooring',
      (roomReading) =>
        removedWords(roomReading).length > 0 ||
        (roomReading.room.layers.length > 0 && !roomReading.room.layers.some(({ material }) => isOldFlooring(material))),
    ),
    ...['asbestos', 'lead', 'structural or plumbing work', 'new flooring'],
  ];
}
