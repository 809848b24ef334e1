/** Short signed documents: certificate of completion, warranty certificate, lien waivers. */
import { countWords } from '../measure/count-words.ts';
import { formatDay } from '../measure/day.ts';
import { capital } from '../measure/first-letter.ts';
import { formatInstantDay, isPastDay } from '../measure/moment.ts';
import { termsOfJob } from '../ledger/job-contract.ts';
import { removalKey } from '../prep/prep-item.ts';
import { listed, theRooms } from '../standing/names.ts';
import type { JobReading } from '../standing/read-job.ts';
import { type FloorFacts, isAbated, isLabFirst, type LayerFacts } from '../substrate/floor-facts.ts';
import { isHeated, isHeatUnder, roomHeat } from '../substrate/radiant.ts';
import { customerSignature, fieldsBlock, headingBlock, listBlock, listPart, noteBlock, signatureBlock, textBlock } from './blocks.ts';
import { warrantyClause } from './clauses.ts';
import type { DocumentInput } from './document-input.ts';
import { heatOffWords, KEEP_ROOM_PERIOD, keepRoomWords } from './handover-care.ts';
import { type HandoverRoom, handoverRooms, receivedBy, unfinishedRooms } from './handover-rooms.ts';
import { placeOf } from './handover-sheet.ts';
import { placedTable, repairLines } from './handover-tables.ts';
import { customerLine, issuerName, revisedDocument, reachWords } from './letterhead.ts';
import type { Block, DocumentTree } from './tree.ts';
import { warrantyOf } from '../standing/warranty-period.ts';

const onPage = (input: DocumentInput, name: string, blocks: Block[]): DocumentTree =>
  revisedDocument(input, { name, about: `${name} for`, blocks });

/** The rooms whose promised flatness is not measured since the pour, a line each. */
const unmeasuredLines = (rooms: readonly HandoverRoom[]): string[] =>
  rooms
    .filter(({ flatness: { after } }) => after.promisedM !== null && after.verdict === 'not-measured')
    .map(({ room }) => `${room.name}: measure the flatness.`);

/** The certificate of completion: what was done, what is left, both signatures. */
export function completionCertificate(input: DocumentInput): DocumentTree {
  const { reading, now } = input;
  const { business, customer } = reading.whole;
  const rooms = handoverRooms(reading);
  const open = unfinishedRooms(reading);
  const place = placeOf(reading, now);
  const left = [...repairLines(rooms, place), ...unmeasuredLines(rooms)];
  return onPage(input, 'Certificate of completion', [
    headingBlock(1, 'Certificate of completion'),
    textBlock(customerLine(input.reading.whole)),
    textBlock(
      `The leveling work in ${listed(rooms.map(({ room }) => room.name))} is complete${left.length === 0 ? '' : ', except as listed under “Still to do”'}.`,
    ),
    ...placedTable(rooms, place),
    ...(open.length === 0 ? [] : [textBlock(`Not included: ${listed(open.map((room) => room.name))}.`, { bold: true })]),
    headingBlock(2, 'Still to do'),
    ...(left.length === 0 ? [] : [listBlock(left)]),
    fieldsBlock({ label: `List any ${left.length === 0 ? '' : 'other '}open work, or write “none”`, share: 1 }),
    textBlock('I have seen the work. Apart from what is listed here, it is complete.'),
    customerSignature('Customer', customer.name, receivedBy(rooms)),
    signatureBlock(issuerName(business), business.ownerName),
  ]);
}

/** The warranty as it was sold, with its first and last day. */
export function warrantyCertificate(input: DocumentInput): DocumentTree {
  const { reading } = input;
  const { business } = reading.whole;
  const rooms = handoverRooms(reading);
  const { starts, ends } = warrantyOf(reading.whole);
  const months = termsOfJob(reading.whole).warrantyMonths;
  const terms = warrantyClause(reading.whole);
  const lasts = months === null ? null : countWords(months, 'month', business.locale);
  const dayWords = (day: string): string => formatDay(day, 'full', business.locale);
  const period = {
    // The customer keeps this page from before the handover as well, so no day is left blank.
    starts: starts === null ? 'On the day of handover' : dayWords(starts),
    ends: ends !== null ? dayWords(ends) : lasts === null ? '' : `${lasts} after the handover`,
  };
  return onPage(input, 'Warranty', [
    headingBlock(1, 'Warranty'),
    textBlock(customerLine(input.reading.whole)),
    textBlock(`Floors covered: ${listed(rooms.map((handoverRoom) => handoverRoom.room.name))}.`),
    fieldsBlock({ label: 'Starts', share: 0.5, value: period.starts }, { label: 'Ends', share: 0.5, value: period.ends }),
    ...(terms === '' ? [] : [headingBlock(2, 'Terms'), textBlock(terms)]),
    headingBlock(2, 'To make a claim'),
    textBlock(`${capital(reachWords(issuerName(business), business))}. Keep this page.`),
    signatureBlock(issuerName(business), business.ownerName),
    noteBlock('Your state’s rules on warranties for home improvement work also apply.'),
  ]);
}

/** A form of waiver: what it says, when it takes effect, what is filled in, and when to sign it. */
const WAIVERS = [
  {
    title: 'Conditional waiver',
    text: 'When the payment below has cleared, the contractor waives any lien on the property for work and materials up to the date below. Until then this waiver has no effect.',
    labels: ['Amount of payment', 'Work through (date)', 'Exceptions, if any'],
    sign: '',
  },
  {
    title: 'Final waiver',
    text: 'The contractor has been paid in full for all work and materials and waives any lien on the property.',
    labels: ['Total paid', 'Exceptions, if any'],
    sign: 'Sign this form only after the last payment has cleared. ',
  },
] as const;

/** Lien waivers to fill in: conditional and final, marked to be checked against the state's own forms. */
export function lienWaiver(input: DocumentInput): DocumentTree {
  const { business } = input.reading.whole;
  const forms = WAIVERS.flatMap(({ title, text, labels, sign }, i): Block[] => [
    ...(i === 0 ? [] : [{ kind: 'page' as const }]),
    headingBlock(2, title),
    textBlock(customerLine(input.reading.whole)),
    textBlock(text),
    fieldsBlock(...labels.map((label) => ({ label, share: 1 / labels.length }))),
    signatureBlock(issuerName(business), business.ownerName),
    noteBlock(`${sign}Check your state’s own form before you sign. Several states require exact wording, and some require a notary.`),
  ]);
  return onPage(input, 'Lien waiver', [headingBlock(1, 'Lien waivers'), ...forms]);
}

/** Why no letter is needed; null while a floor is not poured. */
export function missingForLetter({ standing }: JobReading): string | null {
  return standing.rooms.length > 0 && standing.rooms.every((room) => room.poured === 'whole') ? 'Every floor of this job is poured.' : null;
}

/** What is known of asbestos in some layers: nothing, that they may contain it, or that a lab detected it. */
type Suspicion = 'none' | 'may contain' | 'contains';
const suspicionOf = (layers: readonly LayerFacts[], facts: FloorFacts): Suspicion =>
  layers.some(isAbated) ? 'contains' : layers.some((layer) => isLabFirst(layer, facts)) ? 'may contain' : 'none';

/**
 * What the customer does with the old floor of each room that is not poured yet: what comes out is left to us, and what may contain
 * asbestos is left alone, also where it stays. What a clearance is recorded for is gone, and so is what was signed as removed.
 */
function oldFloorAsked({ rooms, standing }: JobReading): string[] {
  const open = rooms.filter(({ room }) => standing.rooms.find(({ roomId }) => roomId === room.id)?.poured === 'none');
  const asked = open.flatMap(({ room, assessment: { facts }, preparation }) => {
    const isGone = ({ layer, cleared }: LayerFacts): boolean =>
      cleared || preparation.lines.some(({ key, state }) => key === removalKey(layer) && state === 'signed');
    const there = facts.layerFacts.filter((one) => !isGone(one));
    const suspicion = suspicionOf(there, facts);
    // Paint is no flooring that a customer could take up.
    const isRemoved = there.some(({ layer }) => layer.fate === 'remove' && layer.material !== 'paint-or-sealer');
    return !isRemoved && suspicion === 'none' ? [] : [{ name: room.name, isRemoved, suspicion }];
  });
  return [true, false].flatMap((isRemoved) =>
    (['none', 'may contain', 'contains'] as const).flatMap((suspicion) => {
      const names = asked.filter((one) => one.isRemoved === isRemoved && one.suspicion === suspicion).map(({ name }) => name);
      if (names.length === 0) return [];
      const where = `in ${theRooms(names)}`;
      if (suspicion === 'none') return [`Leave the old flooring in place ${where}. We remove it.`];
      return isRemoved
        ? [`Leave the old flooring in place ${where}. Some of it ${suspicion} asbestos. Do not lift, cut, sand or scrape it.`]
        : [`Do not lift, cut, sand or scrape the old floor ${where}. Some of it ${suspicion} asbestos.`];
    }),
  );
}

/** What to do about radiant heat in the rooms that are still to be poured; nothing where there is none. */
function heatAsked({ whole, rooms }: JobReading, pouredIds: readonly string[]): string[] {
  const open = rooms.filter(({ room }) => !pouredIds.includes(room.id) && roomHeat(room) !== 'none').map(({ room }) => room);
  if (open.length === 0) return [];
  const chosen = whole.job.rooms.filter(({ roomId }) => open.some(({ id }) => id === roomId)).map(({ materialId }) => materialId);
  const off = heatOffWords(whole.materials.filter(({ id }) => chosen.includes(id)));
  if (open.some(isHeatUnder)) return [`Turn radiant floor heat off two days before the pour, and leave it ${off}`];
  return open.some((room) => isHeated(roomHeat(room)))
    ? [`Leave the radiant heat in the pour ${off}`]
    : [`If you have radiant floor heat, turn it off two days before the pour, and leave it ${off}`];
}

/** The letter that asks the customer to prepare the house before the first day. Floors that are poured are not in it. */
export function preparationLetter(input: DocumentInput): DocumentTree {
  const { reading, now } = input;
  const { business, customer, job, property } = reading.whole;
  const { locale } = business;
  const zone = property.timeZone;
  const wholeIds = reading.standing.rooms.filter(({ poured }) => poured === 'whole').map(({ roomId }) => roomId);
  const pours = reading.rooms
    .flatMap(({ room, nextPourAt }) =>
      nextPourAt === null || wholeIds.includes(room.id) ? [] : [{ name: room.name, instant: nextPourAt }],
    )
    .toSorted((a, b) => a.instant.localeCompare(b.instant));
  const hasBegun = reading.standing.rooms.some((room) => room.pouredAt !== null);
  const days = [...(hasBegun || job.prepVisitAt === null ? [] : [job.prepVisitAt]), ...pours.map(({ instant }) => instant)].toSorted();
  const first = days.find((instant) => !isPastDay(instant, now, zone)) ?? null;
  const dayName = hasBegun ? 'next' : 'first';
  return onPage(input, 'Before we start', [
    headingBlock(1, 'Before we start'),
    textBlock(`Dear ${customer.name},`),
    textBlock(
      first === null
        ? `We look forward to working on your floors. We will call you with the ${dayName} day.`
        : `We look forward to working on your floors. Our ${dayName} ${first === job.prepVisitAt ? 'day' : 'pour'} is ${formatInstantDay(first, zone, 'full', locale)}.`,
    ),
    ...listPart(
      2,
      'Pour dates',
      pours
        .filter(({ instant }) => !isPastDay(instant, now, zone))
        .map((pour) => `${pour.name}: ${formatInstantDay(pour.instant, zone, 'full', locale)}`),
    ),
    headingBlock(2, `Please do before our ${dayName} day`),
    listBlock(
      [
        'Move all furniture, rugs, and curtains out of the rooms.',
        'Clear closets that share the floor.',
        ...oldFloorAsked(reading),
        `Keep the rooms at a steady ${keepRoomWords(business.units, locale)} ${KEEP_ROOM_PERIOD}.`,
        ...heatAsked(reading, wholeIds),
        'Leave a parking space close to the door, and keep the path to the door clear.',
        'Make sure power and water are on.',
        'Plan another way through the house: the floor is closed until we open it.',
        'Keep children and pets away from the work area.',
      ],
      'box',
    ),
    textBlock(`Questions? ${capital(reachWords(business.ownerName, business))}.`),
    textBlock(issuerName(business)),
  ]);
}
