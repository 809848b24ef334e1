/** The heights that the pour changes, as a table of the quote: place, how much higher, what to do and who does it. */
import type { Layer } from '../book/layer.ts';
import type { Opening } from '../book/plan-fields.ts';
import type { Frozen } from '../book/quote.ts';
import type { Room } from '../book/room.ts';
import { formatDepth } from '../measure/length-format.ts';
import type { RoomEstimate } from '../price/estimate-room.ts';
import { quotedDepths } from '../price/quoted-price.ts';
import { type HeightInput, type HeightLine, heightSchedule } from '../prep/height-schedule.ts';
import { listed } from '../standing/names.ts';
import { LAYER_WORDS } from '../substrate/layer-words.ts';
import type { DoorwayLevel } from '../survey/doorway-levels.ts';
import { heatOnTop } from '../survey/heat-on-top.ts';
import { headingBlock, tableBlocks, textBlock } from './blocks.ts';
import type { Block } from './tree.ts';

/** How far the finish lies above the floor as it is before grinding, meters: least on the highest place, most on the lowest. */
function riseOf(room: RoomEstimate): HeightInput['rise'] {
  const { survey, level } = room;
  if (survey.state === 'waiting' || level.mode === 'follow') return quotedDepths(room);
  const { fill, highSpots, highSpotsAreGround } = survey.level;
  const overM = Math.max(0, ...highSpots.map((spot) => spot.depthM));
  const leastM = highSpotsAreGround && overM > 0 ? Math.max(level.leastThicknessM - overM, -level.grindMostM) : fill.leastDepthM;
  return { leastM, mostM: fill.greatestDepthM };
}

function linesOf(frozen: Frozen, estimate: RoomEstimate): readonly HeightLine[] {
  const room = frozen.rooms.find(({ id }) => id === estimate.roomId);
  if (room === undefined) return [];
  const { survey } = estimate;
  const doorways = survey.state === 'surveyed' ? survey.level.doorways : [];
  const doorwayAt = ({ id }: Opening): DoorwayLevel | undefined => doorways.find(({ openingId }) => openingId === id);
  return heightSchedule({
    openings: room.plan.openings,
    fixtures: room.circumstances.fixtures,
    hasStair: room.plan.holes.some((hole) => hole.kind === 'stair'),
    rise: riseOf(estimate),
    riseAtM: (opening) => {
      const doorway = doorwayAt(opening);
      return doorway === undefined ? null : doorway.finishedM - doorway.floorM;
    },
    stepAtM: (opening) => doorwayAt(opening)?.stepM ?? null,
    isFlooringCounted: isFlooringCounted(frozen, estimate.roomId),
    flooringThicknessM:
      (flooringM(frozen, estimate.roomId) ?? 0) + laidOver(room).reduce((sum, { thicknessM }) => sum + (thicknessM ?? 0), 0),
  });
}

/** Layers laid over the whole floor after it was read, which raise it too. The pour's own depth counts the heat it covers. */
function laidOver({ layers }: Pick<Room, 'layers'>): Layer[] {
  const heat = heatOnTop(layers);
  return layers.filter((layer) => layer.laid === 'after-readings' && layer.fate === 'keep' && layer.area === null && !heat.includes(layer));
}

/** The floor that heights are compared with, and the new layers they include. */
function comparedWords(frozen: Frozen, rooms: readonly RoomEstimate[]): string[] {
  const { units, locale } = frozen.business;
  const laid = rooms.flatMap(({ roomId, name }) =>
    laidOver(frozen.rooms.find(({ id }) => id === roomId) ?? { layers: [] }).map(({ material, thicknessM }) => ({
      ...{ name, thicknessM, words: `new ${LAYER_WORDS[material]}` },
    })),
  );
  if (laid.length === 0) return ['Heights are compared with the floor we pour on, after any old flooring is out.'];
  const kinds = listed([...new Set(laid.map(({ words }) => words))]);
  const known = laid.flatMap(({ name, thicknessM }) => (thicknessM === null ? [] : [`${name} ${formatDepth(thicknessM, units, locale)}`]));
  const open = laid.flatMap(({ name, thicknessM }) => (thicknessM === null ? [name] : []));
  return [
    `Heights are compared with the floor before the ${kinds}, after any old flooring is out.`,
    ...(known.length === 0 ? [] : [`They include the ${kinds}: ${listed(known)}.`]),
    ...(open.length === 0 ? [] : [`Add the thickness of the ${kinds} in: ${listed(open)}.`]),
  ];
}

const flooringM = ({ job }: Frozen, roomId: string): number | null =>
  job.rooms.find((room) => room.roomId === roomId)?.flooringThicknessM ?? null;

/** Whether the heights of a room include its new flooring, or it gets none. */
const isFlooringCounted = (frozen: Frozen, roomId: string): boolean =>
  flooringM(frozen, roomId) !== null || frozen.job.rooms.find((room) => room.roomId === roomId)?.flooring === 'bare-sealed';

function higherWords(raise: HeightLine['raise'], { units, locale }: Frozen['business']): string {
  if (raise === null) return 'Not measured';
  const none = formatDepth(0, units, locale);
  const [least, most] = [raise.leastM, raise.mostM].map((m) => formatDepth(Math.abs(m), units, locale));
  if (least === none && most === none) return 'No change';
  if (raise.leastM < 0 && raise.mostM > 0) return `${least} lower to ${most} higher`;
  const side = raise.mostM > 0 ? 'higher' : 'lower';
  return least === most ? `${least} ${side}` : `${least} to ${most} ${side}`;
}

function noteWords(frozen: Frozen, rooms: readonly RoomEstimate[]): string {
  const { units, locale } = frozen.business;
  const counted = rooms.flatMap(({ roomId, name }) => {
    const thickM = flooringM(frozen, roomId);
    return thickM === null ? [] : [`${name} ${formatDepth(thickM, units, locale)}`];
  });
  const open = rooms.filter(({ roomId }) => !isFlooringCounted(frozen, roomId)).map(({ name }) => name);
  const isEstimated = rooms.some(({ survey }) => survey.state === 'surveyed' && survey.level.doorways.some((door) => door.extrapolated));
  return [
    ...comparedWords(frozen, rooms),
    ...(isEstimated ? ['At doorways beyond our readings they are estimated.'] : []),
    ...(counted.length === 0 ? [] : [`They include the new flooring: ${listed(counted)}.`]),
    ...(open.length === 0 ? [] : [`Add the thickness of the new flooring in: ${listed(open)}.`]),
  ].join(' ');
}

/** The table under its title; empty where no room has a doorway, a stair or a fixture recorded. */
function heightTable({ business }: Frozen, rooms: readonly RoomHeights[], title: string): Block[] {
  const lines = rooms.flatMap(({ room, lines: own }) => own.map((line) => ({ ...line, name: `${room.name}: ${line.name}` })));
  if (lines.length === 0) return [];
  return [
    headingBlock(2, title),
    ...tableBlocks('Heights that change', lines, [
      ['Place', null, ({ name }) => name],
      ['New height', 0.16, ({ raise }) => higherWords(raise, business)],
      ['Work', 0.4, ({ check }) => check],
      ['Done by', 0.2, ({ who }) => who],
    ]),
  ];
}

type RoomHeights = { readonly room: RoomEstimate; readonly lines: readonly HeightLine[] };
const heightsOf = (frozen: Frozen, rooms: readonly RoomEstimate[]): RoomHeights[] =>
  rooms.map((room) => ({ room, lines: linesOf(frozen, room) })).filter(({ lines }) => lines.length > 0);

/** The part “Heights that change” under its title; empty where no room has a doorway, a stair or a fixture recorded. */
export function heightBlocks(frozen: Frozen, estimates: readonly RoomEstimate[], title: string): Block[] {
  const rooms = heightsOf(frozen, estimates);
  if (rooms.length === 0) return [];
  const note = noteWords(
    frozen,
    rooms.map(({ room }) => room),
  );
  return [{ kind: 'together', blocks: [...heightTable(frozen, rooms, title), textBlock(note)] }];
}

/** The same for an option whose heights are not all those of `base`, the option above it: the rooms that differ. */
export function changedHeights(frozen: Frozen, estimates: readonly RoomEstimate[], base: readonly RoomEstimate[], title: string): Block[] {
  const wordsOf = (lines: readonly HeightLine[]): string =>
    lines.map(({ name, raise, check, who }) => [name, higherWords(raise, frozen.business), check, who].join()).join('\n');
  const before = new Map(heightsOf(frozen, base).map(({ room, lines }) => [room.roomId, wordsOf(lines)]));
  const changed = heightsOf(frozen, estimates).filter(({ room, lines }) => wordsOf(lines) !== before.get(room.roomId));
  return changed.length === 0 ? [] : [{ kind: 'together', blocks: heightTable(frozen, changed, title) }];
}
