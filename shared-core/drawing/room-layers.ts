/** A room's floor assembly for its section: each layer with its hatch, its words, and a bar if it is on hold. */
import type { Point } from '../book/fields.ts';
import type { Layer, LayerMaterial } from '../book/layer.ts';
import type { Room } from '../book/room.ts';
import { capital } from '../measure/first-letter.ts';
import { formatDepth } from '../measure/length-format.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { between, distanceM } from '../plan/point.ts';
import { boundsOf } from '../plan/polygon.ts';
import { pointInRing } from '../plan/region.ts';
import { isWood, LAYER_WORDS } from '../substrate/layer-words.ts';
import type { NeedId } from '../substrate/test-kind.ts';
import { profilesAlong } from '../survey/profile.ts';
import type { SurveyedRoom } from '../survey/survey-room.ts';
import type { LayerPart, LayersInput, SectionLayer } from './layers-section.ts';
import { usualSection } from './room-plan.ts';

const LOOKS: Readonly<Record<LayerMaterial, SectionLayer['look']>> = {
  'sheet-flooring': 'plain',
  'resilient-tile': 'cut',
  'floating-plank': 'panel',
  carpet: 'plain',
  'ceramic-tile': 'tile',
  'stone-tile': 'stone',
  terrazzo: 'concrete',
  'wood-flooring': 'grain',
  'adhesive-cutback': 'adhesive',
  'adhesive-other': 'adhesive',
  'adhesive-unknown': 'adhesive',
  thinset: 'plain',
  'underlay-felt': 'plain',
  'foam-pad': 'plain',
  'paint-or-sealer': 'plain',
  'old-leveling': 'plain',
  screed: 'concrete',
  gypsum: 'plain',
  boards: 'grain',
  plywood: 'panel',
  particleboard: 'panel',
  osb: 'panel',
  membrane: 'membrane',
  'concrete-on-ground': 'concrete',
  'concrete-suspended': 'concrete',
  joists: 'joists',
  metal: 'cut',
  'radiant-heating': 'plain',
  gravel: 'gravel',
  earth: 'earth',
  unknown: 'plain',
};

/** A layer in one line: `¾″ boards of 1926: stays`, `½″ plywood, new: stays`. */
export function layerLine(layer: Layer, units: UnitSystem): string {
  const thickness = layer.thicknessM === null ? '' : `${formatDepth(layer.thicknessM, units)} `;
  const name = LAYER_WORDS[layer.material];
  const age = layer.laid !== undefined ? ', new' : layer.yearInstalled === null ? ', age not known' : ` of ${layer.yearInstalled}`;
  return capital(`${thickness}${name}${age}: ${layer.fate === 'keep' ? 'stays' : 'comes out'}`);
}

/** A test in the section: what it is for, and where its line is across the drawing. */
export type NeedProbe = { readonly id: NeedId; readonly x: number; readonly label: string };

export type RoomLayersChoice = {
  readonly room: Pick<Room, 'plan' | 'layers'>;
  readonly survey: SurveyedRoom | null;
  /** Layers with a hold. */
  readonly heldIds: ReadonlySet<string>;
  readonly units: UnitSystem;
  readonly widthPx: number;
  /** Inner faces of the walls at both ends. */
  readonly x0: number;
  readonly x1: number;
  readonly probes: readonly NeedProbe[];
};

/** Spacing of the layers' leader lines, and the y of the first one. */
const LIST_STEP_PX = 23;
const LIST_TOP_PX = 24;
/** Height of the broken-off walls, between the last leader and the datum line. */
const WALLS_PX = 78;
/** Height from the datum line to the bottom of the drawing, where the tests' fields begin. */
const HANGING_PX = 232;
/** A hollow shallower than this gets no figure. */
const LEAST_DEPTH_M = 0.002;
/** Width of the pointer and its word before the wall. */
const LEVEL_WORD_PX = 110;
/** Number of samples along the cut. */
const STEPS = 120;
/** Length shown for a room without an outline. */
const UNDRAWN_M = 4;

type Cut = readonly [Point, Point];
type Choice = Pick<RoomLayersChoice, 'room' | 'survey'>;

/** Candidate cuts: the default one, and those through the center in both directions. */
function cutsOf({ room, survey }: Choice): readonly Cut[] {
  const bounds = room.plan.outline.length < 3 ? null : boundsOf(room.plan.outline);
  if (bounds === null) return [];
  const defaultCut = survey === null ? null : usualSection(room, survey);
  const { leftM, rightM, topM, bottomM } = bounds;
  const [midX, midY] = [(leftM + rightM) / 2, (topM + bottomM) / 2];
  const along: Cut = [
    { xM: leftM, yM: midY },
    { xM: rightM, yM: midY },
  ];
  const across: Cut = [
    { xM: midX, yM: topM },
    { xM: midX, yM: bottomM },
  ];
  const middleCuts = rightM - leftM >= bottomM - topM ? [along, across] : [across, along];
  return defaultCut === null ? middleCuts : [defaultCut, ...middleCuts];
}

/** The layers at each sample of a cut, from one end to the other. */
function layersAlong(layers: readonly Layer[], [from, to]: Cut): readonly (readonly Layer[])[] {
  return Array.from({ length: STEPS }, (_, i) => {
    const point = between(from, to, (i + 0.5) / STEPS);
    return layers.filter((layer) => layer.area === null || pointInRing(point, layer.area) !== 'outside');
  });
}

/** The first cut that crosses every layer; the default cut if none does. */
function bestCut(choice: Choice): Cut | null {
  const cuts = cutsOf(choice);
  const { layers } = choice.room;
  const crossesAll = (cut: Cut): boolean => {
    const crossed = new Set(layersAlong(layers, cut).flat());
    return layers.every((layer) => crossed.has(layer));
  };
  return cuts.find(crossesAll) ?? cuts[0] ?? null;
}

/** The surface along the cut, measured down from its highest point; flat until there are readings. */
function surfaceOf({ survey }: Choice, cut: Cut | null, lengthM: number): LayersInput['surface'] {
  const flat = [
    { alongM: 0, belowM: 0 },
    { alongM: lengthM, belowM: 0 },
  ];
  if (survey === null || survey.state === 'waiting' || cut === null) return flat;
  const points = profilesAlong(survey.floor.surface, survey.floor.room, cut[0], cut[1]).flat();
  const surface = points.map((p) => ({ alongM: p.alongM, belowM: survey.floor.highestM - p.zM }));
  return surface.length < 2 ? flat : surface;
}

/** Stretches of the cut with the same floor assembly. */
function partsOf(choice: RoomLayersChoice, cut: Cut | null, lengthM: number): LayerPart[] {
  const { room, units, heldIds } = choice;
  const sectionLayers = (layers: readonly Layer[]): SectionLayer[] =>
    layers.map((layer) => ({
      id: layer.id,
      words: layerLine(layer, units),
      look: LOOKS[layer.material],
      thicknessM: layer.thicknessM,
      isHeld: heldIds.has(layer.id),
      isRemoved: layer.fate === 'remove',
    }));
  if (cut === null) return [{ fromM: 0, toM: lengthM, layers: sectionLayers(room.layers) }];
  const steps = layersAlong(room.layers, cut);
  const parts: { from: number; to: number; layers: readonly Layer[] }[] = [];
  steps.forEach((layers, i) => {
    const last = parts.at(-1);
    const isSame = last !== undefined && last.layers.length === layers.length && last.layers.every((layer, k) => layer === layers[k]);
    if (last !== undefined && isSame) last.to = i + 1;
    else parts.push({ from: i, to: i + 1, layers });
  });
  return parts.map(({ from, to, layers }) => ({
    fromM: (lengthM * from) / STEPS,
    toM: (lengthM * to) / STEPS,
    layers: sectionLayers(layers),
  }));
}

const WOOD_NEEDS: readonly NeedId[] = ['wood-structure', 'deflection'];

/** The layer a test is made in; null for a test of the air. */
function probedLayer(id: NeedId, layers: readonly Layer[]): Layer | null {
  const remaining = layers.filter((layer) => layer.fate === 'keep');
  const first = (test: (layer: Layer) => boolean): Layer | null => remaining.find(test) ?? null;
  if (id === 'air') return null;
  if (WOOD_NEEDS.includes(id)) return first((layer) => layer.material === 'joists');
  if (id === 'wood-boards') return first((layer) => isWood(layer.material) && layer.material !== 'joists');
  if (id === 'slab-moisture') return first((layer) => layer.material.startsWith('concrete') || layer.material === 'screed');
  return first((layer) => layer.material !== 'radiant-heating');
}

/** Probes whose layer is in the floor assembly above their test's field; the others are left out. */
function probesOf(choice: RoomLayersChoice, parts: readonly LayerPart[], lengthM: number): LayersInput['probes'] {
  const { x0, x1, room } = choice;
  const toM = (x: number): number => ((x - x0) / (x1 - x0)) * lengthM;
  return choice.probes.flatMap(({ id, x, label }) => {
    const layer = probedLayer(id, room.layers);
    const alongM = toM(Math.max(x0 + 20, Math.min(x1 - 20, x)));
    const part = parts.find((p) => alongM >= p.fromM && alongM <= p.toM);
    const layerIndex = part?.layers.findIndex((l) => l.id === layer?.id) ?? -1;
    return layerIndex < 0 ? [] : [{ id, alongM, layerIndex, label }];
  });
}

/** Input for `layersSection`. Its `datumY` depends only on the number of layers. */
export function roomLayers(choice: RoomLayersChoice): LayersInput {
  const { units, widthPx, x0, x1 } = choice;
  const cut = bestCut(choice);
  const lengthM = cut === null ? UNDRAWN_M : distanceM(cut[0], cut[1]);
  const surface = surfaceOf(choice, cut, lengthM);
  const parts = partsOf(choice, cut, lengthM);
  const deepest = surface.reduce((worst, p) => (p.belowM > worst.belowM ? p : worst), { alongM: 0, belowM: 0 });
  const rows = Math.max(1, ...parts.map((part) => part.layers.length));
  const datumY = LIST_TOP_PX + LIST_STEP_PX * (rows - 1) + WALLS_PX;
  return {
    widthPx,
    heightPx: datumY + HANGING_PX,
    datumY,
    x0,
    x1,
    lengthM,
    units,
    parts,
    surface,
    depths: deepest.belowM > LEAST_DEPTH_M ? [{ alongM: deepest.alongM, text: formatDepth(deepest.belowM, units) }] : [],
    probes: probesOf(choice, parts, lengthM),
    lineWords: x0 >= LEVEL_WORD_PX ? 'level' : '',
    listY: LIST_TOP_PX,
    probeToY: datumY + HANGING_PX,
  };
}
