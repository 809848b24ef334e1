/** One page for the flooring installer: substrate, product, strength, dates, moisture and pH, flatness, joints, contact. */
import { isSealed } from '../book/flooring.ts';
import { formatInstantDay } from '../measure/moment.ts';
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatStrength } from '../measure/pressure.ts';
import { withoutHolesWords } from '../standing/cure-words.ts';
import { listed } from '../standing/names.ts';
import type { JobReading } from '../standing/read-job.ts';
import { highestHumidity } from '../substrate/highest-moisture.ts';
import { isHeated } from '../substrate/radiant.ts';
import { LAYER_WORDS } from '../substrate/layer-words.ts';
import { lastVisit } from '../substrate/test-kinds.ts';
import { ASBESTOS_LEFT, asbestosLeftLines } from './asbestos-left.ts';
import { drawingBlock, headingBlock, listBlock, listPart, noteBlock, textBlock } from './blocks.ts';
import type { DocumentInput } from './document-input.ts';
import { HEAT_CARE, woodAfterHeat } from './handover-care.ts';
import { flatnessPicture } from './handover-flatness.ts';
import { handoverPlan } from './handover-picture.ts';
import { type HandoverRoom, handoverRooms } from './handover-rooms.ts';
import { placeOf } from './handover-sheet.ts';
import {
  flatHeading,
  flatTable,
  type HandoverPlace,
  honoredLines,
  partLines,
  placedTable,
  readyTable,
  repairLines,
} from './handover-tables.ts';
import { customerLine, issuerName, revisedDocument, reachWords } from './letterhead.ts';
import type { Block, DocumentTree } from './tree.ts';

/** The page between its margins, the space between the plan and the map beside it, and their heights, less for each room past one. */
const MEASURE_PX = 696;
const GAP_PX = 24;
/** The names and figures over the maps. */
const TITLE_PX = 52;
const HEIGHT_PX = { most: 180, least: 110, perRoom: 20 } as const;

/** What lies under the underlayment, from its top down. */
function substrateOf({ room }: HandoverRoom): string {
  const isBelow = room.circumstances.belowGrade === true;
  const layers = room.layers
    .filter((layer) => layer.fate !== 'remove')
    .map(({ material }) => (isBelow && material === 'concrete-on-ground' ? 'slab below grade' : LAYER_WORDS[material]));
  return layers.length === 0 ? 'Not recorded' : listed(layers);
}

/** The strength of the weakest product placed. */
function strengthOf({ materials }: HandoverRoom, { units, locale }: HandoverPlace): string {
  const strengths = materials.map(({ powder }) => powder?.strengthPa?.value ?? null);
  const known = strengths.filter((pa) => pa !== null);
  return known.length < strengths.length ? 'see the data sheet' : formatStrength(Math.min(...known), units, locale);
}

/** The newest surface pH on record. */
function phOf({ room, schedule }: HandoverRoom, { zone, locale }: HandoverPlace): string {
  const test = room.tests
    .filter((candidate) => candidate.kind === 'surface-ph')
    .toSorted((a, b) => a.takenAt.localeCompare(b.takenAt))
    .at(-1);
  return test?.kind === 'surface-ph'
    ? `${formatNumber(test.ph, { most: 1 }, locale)} on ${formatInstantDay(test.takenAt, zone, 'short', locale)}${test.takenAt < schedule.placedAt ? ', before the pour' : ''}`
    : 'not tested';
}

/** The wettest reading of the slab's last RH tests before the pour; empty without any. */
function slabHumidityOf({ room, schedule }: HandoverRoom, { zone, locale }: HandoverPlace): string {
  const before = lastVisit(
    room.tests.filter(({ takenAt }) => takenAt < schedule.placedAt),
    'slab-humidity',
  );
  const highest = highestHumidity(before);
  const test = before.find(({ id }) => id === highest?.testId);
  return test === undefined
    ? ''
    : `Highest slab RH: ${formatPercent(test.relativeHumidity, 0, locale)} on ${formatInstantDay(test.takenAt, zone, 'short', locale)}, before the pour. `;
}

function heatWords(handoverRoom: HandoverRoom): string {
  const { heat } = handoverRoom;
  if (isHeated(heat)) return `Radiant heat. ${HEAT_CARE}${woodAfterHeat(handoverRoom)}`;
  return heat === 'none' ? 'No radiant heat.' : 'Radiant heat: not recorded.';
}

/** Substrate, slab RH, primer, strength and pH, a line for all rooms where they are the same. */
function substrateLines(rooms: readonly HandoverRoom[], place: HandoverPlace): string[] {
  const byFacts = new Map<string, string[]>();
  for (const handoverRoom of rooms) {
    const { room, primers } = handoverRoom;
    const facts = `${substrateOf(handoverRoom)}. ${slabHumidityOf(handoverRoom, place)}${primers.length === 0 ? 'No primer' : listed(primers)}. Compressive strength at 28 days: ${strengthOf(handoverRoom, place)}. Surface pH: ${phOf(handoverRoom, place)}. ${heatWords(handoverRoom)}`;
    byFacts.set(facts, [...(byFacts.get(facts) ?? []), room.name]);
  }
  return [...byFacts].map(([facts, names]) => `${listed(names)}: ${facts}`);
}

/** The plan, and beside it the flatness after the pour where it was measured. */
function pictures(rooms: readonly HandoverRoom[], place: HandoverPlace): Block[] {
  const heightPx = Math.max(HEIGHT_PX.least, HEIGHT_PX.most - HEIGHT_PX.perRoom * (rooms.length - 1));
  const halfPx = (MEASURE_PX - GAP_PX) / 2;
  const flat = flatnessPicture(rooms, place, { sides: ['after'], widthPx: halfPx, mapPx: heightPx - TITLE_PX });
  const plan = drawingBlock(
    handoverPlan(rooms, place, flat === null ? MEASURE_PX : halfPx, heightPx),
    `Plan of ${listed(rooms.map(({ room }) => room.name))}`,
    { gives: flat === null },
  );
  if (flat === null) return [plan];
  return [{ kind: 'columns', shares: [1, 1], columns: [[plan], [flat.drawing]] }, noteBlock(flat.key)];
}

/** The placed floors that get flooring: a sealed topping has no installer. */
const installedRooms = (reading: JobReading): HandoverRoom[] => handoverRooms(reading).filter(({ jobRoom }) => !isSealed(jobRoom.flooring));

/** Why no page is needed; null where a placed floor gets flooring. */
export const missingForInstaller = (reading: JobReading): string | null =>
  installedRooms(reading).length > 0 ? null : 'The placed floors are sealed. No flooring goes over them.';

/** The test before the flooring, for the floors that need one; empty where none does, or none may be drilled. */
function testFirstWords(rooms: readonly HandoverRoom[]): string {
  const asked = rooms.flatMap(({ schedule: { clearance, laidOn } }) =>
    laidOn !== null || clearance?.requirement.byHours === true ? [] : [clearance?.requirement],
  );
  const mayDrill = asked.filter((requirement) => requirement === undefined || withoutHolesWords(requirement) === null);
  if (mayDrill.length === 0) return '';
  const except = mayDrill.length < asked.length ? ', except where this page says not to drill' : '';
  const even = rooms.some(({ schedule: { clearance } }) => clearance?.passed === true) ? ', even if it passed before' : '';
  return `Test the floor in the days before installation${except}${even}. `;
}

/** The page; rooms that are not placed whole, and sealed toppings, are left out. */
export function installerPage(input: DocumentInput): DocumentTree {
  const { reading, now, isDrawn = true } = input;
  const { business } = reading.whole;
  const rooms = installedRooms(reading);
  const place = placeOf(reading, now);
  const joints = rooms.flatMap((handoverRoom) =>
    handoverRoom.joins.map((join) => `${join.letter} on the plan, ${handoverRoom.room.name}: possible cold joint.`),
  );
  return revisedDocument(input, {
    name: 'Installer page',
    about: 'Floor data for the flooring installer at',
    dated: 'As of ',
    // One page: the plan gives up height to the tables.
    blocks: [
      {
        kind: 'cover',
        blocks: [
          headingBlock(1, 'For the flooring installer'),
          textBlock(customerLine(reading.whole)),
          ...(isDrawn ? pictures(rooms, place) : []),
          headingBlock(2, 'Substrate and product'),
          listBlock(substrateLines(rooms, place)),
          ...listPart(2, ASBESTOS_LEFT, asbestosLeftLines(rooms)),
          ...placedTable(rooms, place),
          ...listPart(2, 'Repairs still to do', repairLines(rooms, place)),
          headingBlock(2, 'Ready for flooring'),
          ...readyTable(rooms, place),
          flatHeading(place),
          ...flatTable(rooms, place),
          ...listPart(2, 'Joints', [...partLines(rooms, place), ...joints, ...honoredLines(rooms)]),
          textBlock(`Questions: ${reachWords(issuerName(business), business)}.`),
          noteBlock(`${testFirstWords(rooms)}The flooring and adhesive manufacturers’ limits decide.`),
        ],
      },
    ],
  });
}
