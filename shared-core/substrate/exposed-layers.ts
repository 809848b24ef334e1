/** The layers on top of a floor, and those that a pour touches. */
import type { FloorTest, Layer } from '../book/layer.ts';
import type { Plan } from '../book/plan-fields.ts';
import { clipToRing } from '../plan/clip-to-ring.ts';
import { areaInRoomM2 } from '../plan/overlap.ts';
import { ringAreaM2 } from '../plan/polygon.ts';
import { type CutWords, GROUND, SANDED } from '../survey/cut-words.ts';
import { isAsbestosDetected } from './asbestos.ts';
import { isWood } from './layer-words.ts';
import { areaOf, type Region, roomRegion } from '../plan/region.ts';

/** Parts of a floor are drawn by hand: a gap or edge under half a square foot is no floor of its own, m². */
const GAP_M2 = 0.05;

type Outline = Pick<Plan, 'outline' | 'holes'>;
/** What of a room decides which layers are poured on. */
export type LayeredRoom = { readonly layers: readonly Layer[]; readonly tests: readonly FloorTest[]; readonly plan: Outline };
/** A layer that is poured on, and its area that is not covered by another, m²; null while the room is not drawn. */
export type ExposedLayer = { readonly layer: Layer; readonly areaM2: number | null };

/**
 * The layers that are to stay and lie on top: from the top down, until the whole room is covered. Heat laid on the floor is
 * covered by the pour and is no surface. In a room that is not drawn, only a layer over the whole room covers it.
 * @param layers from the top down
 * @param within the part of the room that is asked for; null for all of it
 */
export function topLayers(layers: readonly Layer[], plan: Outline, within: Layer['area'] = null): readonly ExposedLayer[] {
  const surfaces = layers.filter((layer) => layer.fate === 'keep' && layer.material !== 'radiant-heating');
  const { outline, holes } = plan;
  if (outline.length < 3) {
    const whole = surfaces.findIndex((layer) => layer.area === null);
    const above = whole < 0 ? surfaces : surfaces.slice(0, whole + 1);
    return above.map((layer) => ({ layer, areaM2: layer.area === null ? null : ringAreaM2(layer.area) }));
  }
  if (within !== null) return drawnParts(surfaces, plan, clipToRing(roomRegion(plan), within).inside);
  const known = exposedOf.get(layers);
  if (known?.outline === outline && known.holes === holes) return known.exposed;
  const exposed = drawnParts(surfaces, plan, [roomRegion(plan)]);
  exposedOf.set(layers, { outline, holes, exposed });
  return exposed;
}

type Known = Outline & { readonly exposed: readonly ExposedLayer[] };
/** The last answer by the layers of a room: several parts of one reading ask for it. */
const exposedOf = new WeakMap<readonly Layer[], Known>();

function drawnParts(surfaces: readonly Layer[], plan: Outline, floor: readonly Region[]): readonly ExposedLayer[] {
  let open = floor;
  const gapM2 = Math.min(GAP_M2, areaOf(floor) / 2);
  return surfaces.flatMap((layer) => {
    const { area } = layer;
    if (areaOf(open) < gapM2) return [];
    const parts = area === null ? [{ inside: open, outside: [] }] : open.map((region) => clipToRing(region, area));
    const areaM2 = areaOf(parts.flatMap(({ inside }) => inside));
    open = parts.flatMap(({ outside }) => outside);
    const ownM2 = area === null ? gapM2 : areaInRoomM2(plan, area);
    return areaM2 > 0 && areaM2 > Math.min(gapM2, ownM2) - 1e-6 ? [{ layer, areaM2 }] : [];
  });
}

/** Whether a layer is paint or sealer. */
export const isPaint = ({ material }: Layer): boolean => material === 'paint-or-sealer';

/** Tells the paint and sealer that comes off by itself: no asbestos was detected in it. */
const coatIn =
  (tests: readonly FloorTest[]) =>
  (layer: Layer): boolean =>
    isPaint(layer) && !isAsbestosDetected(tests, layer.id);

/** The layers that a paint or sealer lies on, those to be removed too. */
export function layersUnder({ layers, tests, plan }: LayeredRoom, paint: Layer): readonly ExposedLayer[] {
  const comesOff = coatIn(tests);
  const below = layers.slice(layers.indexOf(paint) + 1);
  const present = layers
    .filter((layer) => !comesOff(layer))
    .map((layer) => (below.includes(layer) ? { ...layer, fate: 'keep' as const } : layer));
  return topLayers(present, plan, paint.area).flatMap(({ layer, areaM2 }) =>
    layers.filter(({ id }) => id === layer.id).map((own) => ({ layer: own, areaM2 })),
  );
}

/** Whether a coat leaves whole with what it lies on. */
function leavesWhole(room: LayeredRoom, paint: Layer): boolean {
  const place = room.layers.indexOf(paint);
  const below = layersUnder(room, paint).filter(({ layer }) => room.layers.indexOf(layer) > place);
  return coatIn(room.tests)(paint) && below.length > 0 && below.every(({ layer }) => layer.fate === 'remove');
}

/** The paint or sealer on top of a floor, and that on top of what is left where a coat leaves with the layer under it. */
export function paintOnTop(room: LayeredRoom): readonly Layer[] {
  const top = topLayers(room.layers, room.plan).flatMap(({ layer }) => (isPaint(layer) ? [layer] : []));
  const leaving = top.filter((paint) => leavesWhole(room, paint));
  if (leaving.length === 0) return top;
  return [...leaving, ...paintOnTop({ ...room, layers: room.layers.filter((layer) => !leaving.includes(layer)) })];
}

/**
 * The layers that are poured on. Paint or sealer on top comes off, whatever is planned for it, so what is under it is poured on. It
 * stays where asbestos was detected in it, and counts itself where nothing is recorded under it.
 * @param within the part of the room that is asked for; null for all of it
 */
export function exposedLayers({ layers, tests, plan }: LayeredRoom, within: Layer['area'] = null): readonly ExposedLayer[] {
  const comesOff = coatIn(tests);
  const top = topLayers(layers, plan, within);
  if (!top.some(({ layer }) => comesOff(layer))) return top;
  const bared = topLayers(
    layers.filter((layer) => !comesOff(layer)),
    plan,
    within,
  );
  return bared.length === 0 ? top : bared;
}

/**
 * Area of those parts of a surface that apply, m²; null while it is not known.
 * @param exposed the layers that are poured on
 * @param roomM2 the room's area, for a surface that applies whole
 */
export function partAreaM2<E extends Pick<ExposedLayer, 'areaM2'>>(
  exposed: readonly E[],
  roomM2: number | null,
  applies: (part: E) => boolean,
): number | null {
  const parts = exposed.filter(applies);
  if (parts.length > 0 && parts.length === exposed.length) return roomM2;
  return parts.reduce<number | null>((sum, { areaM2 }) => (sum === null || areaM2 === null ? null : sum + areaM2), 0);
}

/** Whether all of the surface that is poured on is wood, so that it is sanded and never ground. */
export const isAllWood = (exposed: readonly Pick<ExposedLayer, 'layer'>[]): boolean =>
  exposed.length > 0 && exposed.every(({ layer }) => isWood(layer.material));

/** How high spots of a room are taken down: sanded over wood, ground over everything else. */
export const cutWords = (room: LayeredRoom): CutWords => (isAllWood(exposedLayers(room)) ? SANDED : GROUND);
