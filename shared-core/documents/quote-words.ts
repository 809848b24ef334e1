/** Sentences of a quote: findings, proposal, and the scope of each room. */
import { type CutWords, sharedCutWords } from '../survey/cut-words.ts';
import { capital } from '../measure/first-letter.ts';
import { listed, theRoom, theRooms } from '../standing/names.ts';
import type { Material } from '../book/material.ts';
import type { Frozen, QuotedOption } from '../book/quote.ts';
import { formatArea } from '../measure/area.ts';
import { formatInstantDay } from '../measure/moment.ts';
import { formatDepth, formatLength, isZeroDepth } from '../measure/length-format.ts';
import { formatNumber } from '../measure/number.ts';
import type { OptionEstimate } from '../price/estimate-job.ts';
import type { RoomEstimate } from '../price/estimate-room.ts';
import { isAdded } from '../price/line.ts';
import { formatMoney } from '../price/money.ts';
import { quotedDepths } from '../price/quoted-price.ts';
import { primingCoats } from '../material/takeoff.ts';
import { primingWords } from '../price/takeoff-words.ts';
import { bagsWords } from './log-words.ts';
import type { LayerMaterial } from '../book/layer.ts';
import { suspectName } from '../substrate/asbestos.ts';
import { isOldFlooring, isWood, LAYER_WORDS } from '../substrate/layer-words.ts';
import { isHeatInFloor } from '../substrate/radiant.ts';
import { flatnessWords } from './quote-table.ts';

/** With more rooms than this page 1 describes them together, and the scope describes each. */
export const MAX_NAMED_ROOMS = 4;

/** The rooms by name, or how many where they are many: `the hall and laundry`, `10 rooms`. */
export function roomsInWords(rooms: readonly { readonly name: string }[]): string {
  return rooms.length > MAX_NAMED_ROOMS ? `${rooms.length} rooms` : theRooms(rooms.map((r) => r.name));
}

type Measured = { readonly name: string; readonly places: number; readonly outM: number; readonly gapM: number; readonly day: string };

function measured(frozen: Frozen, estimate: RoomEstimate): Measured | null {
  const room = frozen.rooms.find((r) => r.id === estimate.roomId);
  if (room === undefined || estimate.survey.state !== 'surveyed') return null;
  const { floor, flatness } = estimate.survey;
  const { takenAt, readings } = room.survey;
  return {
    name: room.name,
    places: readings.length,
    outM: floor.highestM - floor.lowestM,
    gapM: flatness.worst.point === null ? 0 : flatness.worst.gapM,
    day: takenAt === null ? '' : formatInstantDay(takenAt, frozen.property.timeZone, 'short', frozen.business.locale),
  };
}

/** What the readings showed, a sentence or two a room; of many rooms, the worst. */
export function foundWords(frozen: Frozen, rooms: readonly RoomEstimate[]): string {
  const { business } = frozen;
  const { units, locale } = business;
  const all = rooms.flatMap((room) => measured(frozen, room) ?? []);
  const [worst] = [...all].sort((a, b) => b.outM - a.outM);
  if (worst === undefined) return '';
  const outOfLevel = (room: Measured): string => formatDepth(room.outM, units, locale);
  // The first page also says what each room's flooring needs: more than two rooms are told together.
  if (all.length > 2) {
    const places = formatNumber(
      all.reduce((sum, room) => sum + room.places, 0),
      { most: 0 },
      locale,
    );
    return `We measured ${all.length} rooms in ${places} places. ${capital(theRoom(worst.name))} is the worst: ${outOfLevel(worst)} out of level.`;
  }
  return all
    .map((room) => {
      const dayWords = room.day === '' ? '' : ` on ${room.day}`;
      // Readings on a slope or on a few places show no gap. They do not show that a floor is flat.
      const flat = isZeroDepth(room.gapM, units) ? '' : ` and up to ${flatnessWords(room.gapM, business)} out of flat`;
      return `We measured ${theRoom(room.name)} in ${room.places} places${dayWords}. It is ${outOfLevel(room)} out of level${flat}.`;
    })
    .join(' ');
}

function groundM({ survey }: RoomEstimate): number {
  return survey.state === 'surveyed' && survey.level.highSpotsAreGround ? Math.max(0, ...survey.level.highSpots.map((s) => s.depthM)) : 0;
}

/** A product within a sentence to the customer. A wear surface is no underlayment: nothing goes over it. */
const PRODUCT_WORDS: Readonly<Partial<Record<Material['kind'], string>>> = {
  'cement-topping': 'self-leveling topping',
  'calcium-sulfate': 'gypsum-based underlayment',
};

function productOf({ materials }: Frozen, { takeoff }: RoomEstimate): string {
  const kind = materials.find(({ id }) => id === takeoff.materialId)?.kind;
  return (kind === undefined ? undefined : PRODUCT_WORDS[kind]) ?? 'self-leveling underlayment';
}

const cutOf = (rooms: readonly RoomEstimate[]): CutWords =>
  sharedCutWords(rooms.filter((room) => groundM(room) > 0).map(({ takeoff }) => takeoff.room.cut));

/** What is done, rooms alike told together. */
export function proposedWords(
  frozen: Frozen,
  rooms: readonly RoomEstimate[],
  options: readonly QuotedOption[],
  suggested: QuotedOption,
  quoted: QuotedLines,
): string {
  const cutByUs = (room: RoomEstimate): boolean => !isLeftOut(quoted, room.roomId, 'grind');
  const groups = new Map<string, RoomEstimate[]>();
  for (const room of rooms) {
    const { mode, followThicknessM } = room.level;
    const how = mode === 'follow' ? `follow ${followThicknessM}` : `${mode} ${groundM(room) > 0 ? `ground ${cutByUs(room)}` : ''}`;
    const key = `${how} ${productOf(frozen, room)}`;
    groups.set(key, [...(groups.get(key) ?? []), room]);
  }
  return [
    ...[...groups.values()].map((alike) => groupWords(frozen, alike, cutByUs)),
    rooms.every(cutByUs) ? savingWords(frozen, rooms, options, suggested) : '',
  ]
    .filter((text) => text !== '')
    .join(' ');
}

function groupWords(frozen: Frozen, rooms: readonly RoomEstimate[], cutByUs: (room: RoomEstimate) => boolean): string {
  const { units, locale } = frozen.business;
  const [first] = rooms;
  if (first === undefined) return '';
  const product = productOf(frozen, first);
  const roomsPhrase = `In ${roomsInWords(rooms)}`;
  const { mode, followThicknessM } = first.level;
  if (mode === 'follow')
    return `${roomsPhrase} we pour ${formatDepth(followThicknessM, units, locale)} of ${product} that follows the floor. It will be smooth, but no more level than now.`;
  const offM = Math.max(...rooms.map(groundM));
  const upTo = `by up to ${formatDepth(offM, units, locale)}`;
  const ground = cutByUs(first)
    ? `we ${cutOf(rooms).verb} down the high spots ${upTo}, then`
    : `once the high spots are ${cutOf(rooms).done} down ${upTo}, we`;
  const depth = formatDepth(Math.max(...rooms.map((room) => room.takeoff.room.depths?.mostM ?? 0)), units, locale);
  const shape = mode === 'ramp' ? ', to an even slope' : '';
  return `${roomsPhrase} ${offM > 0 ? ground : 'we'} pour ${product}${shape}, ${depth} at the deepest point.`;
}

/** Bags and money that grinding saves, where the same job without grinding is an option beside it. */
function savingWords(
  { business }: Frozen,
  rooms: readonly RoomEstimate[],
  options: readonly QuotedOption[],
  suggested: QuotedOption,
): string {
  if (!rooms.some((room) => groundM(room) > 0)) return '';
  const without = options.find(
    (option) =>
      option !== suggested &&
      option.rooms.every((room) => {
        const own = suggested.rooms.find((r) => r.roomId === room.roomId);
        return own !== undefined && room.mode === own.mode && room.grindMaxM === 0;
      }),
  );
  if (without === undefined) return '';
  const minor = without.totalMinor - suggested.totalMinor;
  return minor <= 0 ? '' : `${cutOf(rooms).nounFirst} first saves ${formatMoney(minor, business.currency, business.locale)}.`;
}

const FINISH = {
  level: 'Pour the floor level',
  follow: 'Pour an even layer that follows the floor',
  ramp: 'Pour the floor to an even slope',
} as const;

/** The lines of the option that is quoted. */
type QuotedLines = Pick<OptionEstimate['price'], 'lines'>;

/** A sentence of the scope while its line is in the price; where the line is left out, what the labor still in the price does. */
type AsPriced = (line: string, text: string, laborOnly?: string) => string[];

/** Whether a room's line is left out of the price. A line is known by the last part of its key. */
const isLeftOut = ({ lines }: QuotedLines, roomId: string, line: string): boolean =>
  lines.some((one) => one.roomId === roomId && one.leftOut && one.key.endsWith(`/${line}`));

function asPriced({ lines }: QuotedLines, roomId: string): AsPriced {
  const isOut = (line: string): boolean => isLeftOut({ lines }, roomId, line);
  return (line, text, laborOnly) => {
    if (!isOut(line)) return [text];
    return laborOnly === undefined || isOut('labor-prep') ? [] : [laborOnly];
  };
}

/** What is removed from under the flooring, or where there is none, as a customer reads it. */
const oldName = (material: LayerMaterial, paint: string): string =>
  material === 'paint-or-sealer' ? paint : LAYER_WORDS[material === 'adhesive-unknown' ? 'adhesive-other' : material];

/** What is removed, by us and by a licensed abatement contractor, and what only after a lab result. */
function removalWords({ room }: RoomEstimate['takeoff'], priced: AsPriced, area: (m2: number) => string): string[] {
  const namesOf = (which: 'isAbated' | 'isLabFirst', nameOf: (material: LayerMaterial) => string): string =>
    listed([...new Set(room.removed.filter((layer) => layer[which]).map(({ material }) => nameOf(material)))]);
  const abated = namesOf('isAbated', (material) => LAYER_WORDS[material]);
  const untested = namesOf('isLabFirst', suspectName);
  const ours = room.removed.filter(({ isAbated }) => !isAbated);
  const strippedM2 = ours.reduce((sum, layer) => sum + layer.strippedM2, 0);
  const byContractorM2 = ours.reduce((sum, layer) => sum + layer.byContractorM2, 0);
  const paint = `${strippedM2 + byContractorM2 > 0 ? 'rest of the ' : ''}paint or sealer`;
  const hasFlooring = ours.some(({ material }) => isOldFlooring(material));
  const except = hasFlooring && abated !== '' ? `, except the ${abated}` : '';
  const flooring = `the ${hasFlooring ? 'existing flooring' : listed([...new Set(ours.map(({ material }) => oldName(material, paint)))])}${except}`;
  const first = untested === '' ? '' : `${except === '' ? '' : ','} once a lab finds no asbestos in the ${untested}`;
  return [
    ...(strippedM2 > 0 ? [`Strip the paint or sealer off ${area(strippedM2)}, wet (labor not in this price)`] : []),
    ...(byContractorM2 > 0
      ? [`A licensed abatement contractor takes the paint or sealer off ${area(byContractorM2)} (not in this price)`]
      : []),
    ...(ours.some(({ areaM2 }) => areaM2 > 0)
      ? priced('disposal', `Remove and dispose of ${flooring}${first}`, `Remove ${flooring}${first} (disposal not in this price)`)
      : []),
    ...(abated === '' ? [] : [`A licensed abatement contractor removes the ${abated} (not in this price)`]),
  ];
}

/** Isolation strip and dams. */
function edgeWords({ dams, room }: RoomEstimate['takeoff'], supplied: (line: string, text: string) => string[]): string[] {
  const both = [
    ...(dams > 0 ? supplied('dams', `dam ${dams === 1 ? '1 opening' : `${dams} openings`}`) : []),
    ...(room.perimeterM > 0 ? supplied('edges', 'set isolation strip along the walls') : []),
  ].join(' and ');
  return both === '' ? [] : [capital(both)];
}

/** A room's scope of work, a line each: what its lines in the price are for, those added by hand too. */
export const scopeWords = (frozen: Frozen, room: RoomEstimate, quoted: QuotedLines): string[] => scopeParts(frozen, room, quoted).flat();

/** The same by part of the work, so that two options can be compared: each part has its place, with no lines where it is not done. */
export function scopeParts(frozen: Frozen, room: RoomEstimate, quoted: QuotedLines): string[][] {
  const { units, locale } = frozen.business;
  const { takeoff } = room;
  const { abradeM2, crackM, cut, grind, reinforceM2, sealM2 } = takeoff.room;
  const priced = asPriced(quoted, room.roomId);
  const supplied = (line: string, text: string): string[] => priced(line, text, `${text} (material not in this price)`);
  const area = (m2: number): string => formatArea(m2, units, locale);
  const depths = quotedDepths(room);
  const depth = (m: number): string => formatDepth(m, units, locale);
  const deepest = depths === null || depths.leastM === depths.mostM ? '' : ` on average, ${depth(depths.mostM)} at the deepest point`;
  const deep = depths === null ? '' : `: ${area(takeoff.room.areaM2)}, ${depth(depths.meanM)} deep${deepest}`;
  const material = frozen.materials.find((m) => m.id === takeoff.materialId);
  const lifts = takeoff.lifts !== null && takeoff.lifts.count > 1 ? ` in ${takeoff.lifts.count} lifts` : '';
  const heated = frozen.rooms.find(({ id }) => id === room.roomId);
  const clearOfHeat = heated !== undefined && isHeatInFloor(heated) ? ', clear of the radiant heat once it is located' : '';
  return [
    removalWords(takeoff, priced, area),
    scrapingWords(takeoff, priced, area),
    fastenWords(takeoff, priced, area).map((text) => `${text}${clearOfHeat}`),
    grind.areaM2 <= 0
      ? []
      : isLeftOut(quoted, room.roomId, 'grind')
        ? [`High spots are ${cut.done} down before we pour (not in this price)`]
        : [`${cut.verbFirst} ${area(grind.areaM2)} of high spots with dust collection`],
    abradeM2 > 0 ? priced('abrade', `Abrade ${area(abradeM2)} of the surface`) : [],
    takeoff.betweenLiftsM2 > 0 ? priced('abrade', `Abrade and vacuum ${area(takeoff.betweenLiftsM2)} between lifts`) : [],
    crackM > 0 ? supplied('cracks', `Fill ${formatLength(crackM, units, locale)} of cracks, joints, and gaps`) : [],
    mitigationWords(frozen, room, priced),
    laidWords(frozen, room, quoted),
    takeoff.primer === null ? [] : supplied('primer', `Prime the floor, ${primingWords(primingCoats(takeoff))}`),
    reinforceM2 > 0 ? supplied('reinforcement', `Fasten reinforcement over ${area(reinforceM2)} of wood${clearOfHeat}`) : [],
    edgeWords(takeoff, supplied),
    [`${FINISH[room.level.mode]}${deep}`],
    material === undefined || takeoff.bags === null
      ? []
      : supplied('bags', `Material: ${material.name}, about ${bagsWords(takeoff.bags.quotedBags, locale)}${lifts}`),
    sealM2 > 0 ? supplied('sealer', `Seal ${area(sealM2)} once the floor passes its moisture test`) : [],
    addedWords(quoted, room.roomId),
  ];
}

/** The work added by hand to one room, or to the whole job with null. */
export const addedWords = ({ lines }: QuotedLines, roomId: string | null): string[] =>
  lines.filter((line) => isAdded(line.key) && !line.leftOut && line.roomId === roomId).map(({ name }) => name);

/** What the labor in the price scrapes or takes off of layers that stay, and what is left to an abatement contractor. */
const scrapingWords = ({ room }: RoomEstimate['takeoff'], priced: AsPriced, area: (m2: number) => string): string[] =>
  room.scraped.flatMap(({ material, areaM2, isLabFirst, isLoose, isByContractor }) => {
    const name = `${isLoose ? 'loose ' : ''}${oldName(material, LAYER_WORDS[material])}`;
    if (isByContractor) return [`A licensed abatement contractor takes the ${name} off ${area(areaM2)} (not in this price)`];
    const first = isLabFirst ? ', once a lab finds no asbestos in it' : '';
    if (!isLoose) return priced('labor-prep', `Scrape the ${name} on ${area(areaM2)} down to a thin film${first}`);
    const where = `the ${name} on ${area(areaM2)} down to a sound layer${first}`;
    return priced('disposal', `Remove and dispose of ${where}`, `Remove ${where} (disposal not in this price)`);
  });

/** Wood that the labor in the price screws down. */
function fastenWords({ room }: RoomEstimate['takeoff'], priced: AsPriced, area: (m2: number) => string): string[] {
  const { subfloorM2, plywoodM2 } = room.fasten;
  const over = subfloorM2 > 0 ? ' over it' : '';
  const parts = [
    ...(subfloorM2 > 0 ? [`${area(subfloorM2)} of the subfloor`] : []),
    ...(plywoodM2 > 0 ? [`${area(plywoodM2)} of plywood${over}`] : []),
  ];
  return parts.length === 0 ? [] : priced('labor-prep', `Screw down ${listed(parts)}`);
}

const UNLESS_NAMED = ' unless a line below names it';

/** A line of a scope for comparing with another: without what it says only because of other lines. */
export const ownWords = (line: string): string => line.replace(UNLESS_NAMED, '');

/**
 * Panels still to be laid for the pour, entered or not. Whether a line of the user's own is for them only its name says, and that is not
 * interpreted. Panels that were down when the floor was read are the floor.
 */
function laidWords({ rooms, business: { units, locale } }: Frozen, { roomId, takeoff }: RoomEstimate, quoted: QuotedLines): string[] {
  const { plywoodM2, subfloorM2 } = takeoff.room.fasten;
  const laid = (rooms.find(({ id }) => id === roomId)?.layers ?? []).filter((layer) => layer.fate === 'keep' && layer.laid !== undefined);
  const hasOwn = addedWords(quoted, roomId).length + addedWords(quoted, null).length > 0;
  const isFastened = plywoodM2 + subfloorM2 > 0 && !isLeftOut(quoted, roomId, 'labor-prep');
  const lineOf = (material: LayerMaterial, thicknessM: number | null): string => {
    const thick = thicknessM === null ? '' : `, ${formatDepth(thicknessM, units, locale)}`;
    const what = isFastened && isWood(material) ? 'material not' : 'not';
    return `Before we pour: new ${LAYER_WORDS[material]}${thick} (${what} in this price${hasOwn ? UNLESS_NAMED : ''})`;
  };
  return [
    ...laid.filter((layer) => layer.laid === 'after-readings').map(({ material, thicknessM }) => lineOf(material, thicknessM)),
    ...(plywoodM2 > 0 && !laid.some(({ material }) => isWood(material)) ? [lineOf('plywood', null)] : []),
  ];
}

function mitigationWords({ business: { units, locale }, materials }: Frozen, { takeoff }: RoomEstimate, priced: AsPriced): string[] {
  const system = takeoff.room.mitigation ?? null;
  if (system === null || system.areaM2 <= 0) return [];
  // Many a data sheet is named for what it is.
  const name = (materials.find(({ id }) => id === system.materialId)?.name ?? '').replace(/^moisture mitigation(?: system)?\b,?\s*/i, '');
  const what = `Apply a moisture mitigation system${name === '' ? '' : `, ${name},`} to ${formatArea(system.areaM2, units, locale)}`;
  // Its data sheet says how much sand, which is no figure of the sheet here.
  return priced('mitigation', `${what} (sand broadcast over it not in this price)`, `${what} (material not in this price)`);
}

/** What each room's flooring asks of flatness, and whether the floor is expected to meet it; empty where no floor was measured. */
export function flooringWords(frozen: Frozen, rooms: readonly RoomEstimate[]): string[] {
  const { business } = frozen;
  return rooms.flatMap((room) => {
    if (room.flatness === null) return [];
    const expected = flatnessWords(room.flatness.expectedM, business);
    const limits = room.flatness.forFlooring;
    if (limits.length === 0) return [`${room.name}: we expect ${expected}. No flooring is chosen yet.`];
    const meets = limits.every((limit) => limit.meets);
    const needs = [...new Set(limits.flatMap(({ rule }) => rule.limits.map((limit) => flatnessLimit(limit, business))))];
    const isSealed = frozen.job.rooms.some(({ roomId, flooring }) => roomId === room.roomId && flooring === 'bare-sealed');
    return [
      `${room.name}: the ${isSealed ? 'sealed floor' : 'flooring'} needs ${listed(needs)}. We expect ${expected}, ${meets ? 'within' : 'over'} the limit.`,
    ];
  });
}

function flatnessLimit(limit: { readonly gapM: number; readonly spanM: number }, { units, locale }: Frozen['business']): string {
  const span =
    units === 'us'
      ? `${formatNumber(limit.spanM / 0.3048, { most: 1 }, locale)} ft`
      : `${formatNumber(limit.spanM, { most: 1 }, locale)} m`;
  return `${formatDepth(limit.gapM, units, locale)} in ${span}`;
}
