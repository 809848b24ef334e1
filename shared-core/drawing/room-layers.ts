/** A room's layers as its section shows them: each with its hatch, its words, and a bar where it is held. */
import type { Layer, LayerMaterial } from '../book/layer.ts';
import type { Room } from '../book/room.ts';
import { formatDepth } from '../measure/length-format.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { boundsOf as planBounds } from '../plan/polygon.ts';
import { LAYER_WORDS } from '../substrate/layer-words.ts';
import { profilesAlong } from '../survey/profile.ts';
import type { SurveyedRoom } from '../survey/survey-room.ts';
import type { LayersInput, SectionLayer } from './layers-section.ts';
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

/** A layer in a line: `¾″ boards of 1926: stays`. */
export function layerLine(layer: Layer, units: UnitSystem): string {
  const thick = layer.thicknessM === null ? '' : `${formatDepth(layer.thicknessM, units)} `;
  const name = LAYER_WORDS[layer.material];
  const age = layer.yearInstalled === null ? ', age not known' : ` of ${layer.yearInstalled}`;
  const words = `${thick}${name}${age}: ${layer.fate === 'keep' ? 'stays' : 'comes out'}`;
  return words.charAt(0).toUpperCase() + words.slice(1);
}

export type RoomLayersChoice = {
  readonly room: Pick<Room, 'plan' | 'layers'>;
  readonly survey: SurveyedRoom | null;
  /** Layers something holds. */
  readonly heldIds: ReadonlySet<string>;
  readonly units: UnitSystem;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly isNarrow: boolean;
};

/** The surface along the cut, hung from the highest place; flat while the floor is not read. */
function surfaceOf(choice: RoomLayersChoice, lengthM: number): LayersInput['surface'] {
  const { survey, room } = choice;
  const flat = [
    { alongM: 0, belowM: 0 },
    { alongM: lengthM, belowM: 0 },
  ];
  if (survey === null || survey.state === 'waiting') return flat;
  const cut = usualSection(room, survey);
  if (cut === null) return flat;
  const points = profilesAlong(survey.floor.surface, survey.floor.room, cut[0], cut[1]).flat();
  const surface = points.map((p) => ({ alongM: p.alongM, belowM: survey.floor.highestM - p.zM }));
  return surface.length < 2 ? flat : surface;
}

/** What `layersSection` takes. */
export function roomLayers(choice: RoomLayersChoice): LayersInput {
  const { room, units, widthPx } = choice;
  const bounds = room.plan.outline.length >= 3 ? planBounds(room.plan.outline) : null;
  const lengthM = bounds === null ? 4 : Math.max(bounds.rightM - bounds.leftM, bounds.bottomM - bounds.topM);
  const surface = surfaceOf(choice, lengthM);
  const last = surface.at(-1)?.alongM ?? lengthM;
  const deepest = surface.reduce((worst, p) => (p.belowM > worst.belowM ? p : worst), { alongM: 0, belowM: 0 });
  const listPx = 23 * room.layers.length;
  return {
    widthPx,
    heightPx: choice.heightPx,
    datumY: 40 + listPx + 44,
    x0: choice.isNarrow ? 24 : 150,
    x1: widthPx - (choice.isNarrow ? 24 : 90),
    lengthM: last,
    units,
    parts: [
      {
        fromM: 0,
        toM: last,
        layers: room.layers.map((layer) => ({
          id: layer.id,
          words: layerLine(layer, units),
          look: LOOKS[layer.material],
          thicknessM: layer.thicknessM,
          isHeld: choice.heldIds.has(layer.id),
          isRemoved: layer.fate === 'remove',
        })),
      },
    ],
    surface,
    depths: deepest.belowM > 0.002 ? [{ alongM: deepest.alongM, text: formatDepth(deepest.belowM, units) }] : [],
    probes: [],
    lineWords: 'level',
    listY: 30,
    probeToY: choice.heightPx - 10,
  };
}
