/** Lines that fasten wood, and the areas they are for. */
import type { Layer, LayerMaterial } from '../book/layer.ts';
import { formatInches } from '../measure/length-format.ts';
import { formatListAnd } from '../measure/list.ts';
import { type ExposedLayer, exposedLayers, partAreaM2 } from '../substrate/exposed-layers.ts';
import { isPouredWood, isRefastened } from '../substrate/floor-facts.ts';
import { bondClass, isAdhesive, isWood, LAYER_WORDS } from '../substrate/layer-words.ts';
import { isHeatFoundLaid } from '../substrate/radiant.ts';
import { type PrepDraft, type PrepInput, slabCaution, squareMeters } from './prep-input.ts';
import { isRemovedLoose } from './removal-items.ts';
import { timed } from './task-hours.ts';

type Fastened = {
  /** Loose wood on joists. */
  readonly loose: readonly Layer[];
  readonly looseM2: number | null;
  /** Wood that is poured on or that new plywood covers, and that of it which is not loose. */
  readonly screwedM2: number | null;
  readonly soundM2: number | null;
  /** What is to be covered with plywood, or is covered. */
  readonly builtUp: readonly LayerMaterial[];
  readonly builtUpM2: number | null;
  /** Whether the plywood is entered as a layer wherever it is called for. */
  readonly isDown: boolean;
};

/** What is fastened, m²; null where it is not known. */
function fastened(input: PrepInput): Fastened {
  const { facts } = input;
  const loose = facts.kept.filter((layer) => layer.sound === 'loose' && isRefastened(layer, facts));
  const covered = facts.exposed.flatMap(({ layer }) => coveredBy(layer, facts.kept));
  const isCover = ({ id }: Layer): boolean => covered.some(({ by }) => by === id);
  const floor =
    covered.length === 0
      ? facts.exposed
      : exposedLayers({ ...facts, layers: facts.layers.filter((layer) => !isNewWood(layer) && !isCoat(layer)) });
  const isScrewed = ({ layer }: ExposedLayer): boolean => isPouredWood(layer, facts) && !isRemovedLoose(layer, facts);
  const isSound = (part: ExposedLayer): boolean => isScrewed(part) && !loose.some(({ id }) => id === part.layer.id);
  const isCalledFor = ({ layer }: ExposedLayer): boolean =>
    input.findings.some(
      ({ key }) =>
        key === `wood-build-up:${bondClass(layer.material)}` ||
        key === `thin-subfloor:${layer.id}` ||
        (key === `particleboard:${layer.id}` && facts.isWoodFramed),
    );
  const called = facts.exposed.filter(isCalledFor).map(({ layer }) => layer.material);
  return {
    loose,
    looseM2: areaOfLayers(input, loose),
    screwedM2: partAreaM2(floor, facts.areaM2, isScrewed),
    soundM2: partAreaM2(floor, facts.areaM2, isSound),
    builtUp: [...new Set([...called, ...covered.map(({ material }) => material)])],
    builtUpM2: partAreaM2(facts.exposed, facts.areaM2, (part) => isCalledFor(part) || isCover(part.layer)),
    isDown: called.length === 0,
  };
}

/** What lies on wood without bearing a floor of its own: screws go through it. */
const isCoat = ({ material }: Layer): boolean => material === 'paint-or-sealer' || material === 'underlay-felt' || isAdhesive(material);

const isNewWood = ({ laid, material }: Layer): boolean => laid !== undefined && isWood(material);

/** The wood that new wood covers. On joists or a slab the new wood is the subfloor itself. @param kept from the top down */
function coveredBy(layer: Layer, kept: readonly Layer[]): { readonly by: string; readonly material: LayerMaterial }[] {
  if (!isNewWood(layer)) return [];
  const under = kept.slice(kept.findIndex(({ id }) => id === layer.id) + 1).find((one) => !isNewWood(one) && !isCoat(one))?.material;
  return under !== undefined && isWood(under) && under !== 'joists' ? [{ by: layer.id, material: under }] : [];
}

/** Areas whose fastening takes hours, m²; what is not known counts as none. */
export type FastenedAreas = {
  readonly subfloorM2: number;
  /** Plywood over the subfloor, which is fastened besides. */
  readonly plywoodM2: number;
};

/** What the checklist has fastened, to price it. */
export function fastenedAreas(input: PrepInput): FastenedAreas {
  if (isHeatFoundLaid(input.facts.kept)) return { subfloorM2: 0, plywoodM2: 0 };
  const { looseM2, soundM2, builtUpM2 } = fastened(input);
  return { subfloorM2: (looseM2 ?? 0) + (soundM2 ?? 0), plywoodM2: builtUpM2 ?? 0 };
}

/** Fasten loose wood and wood that is poured on, and cover what the data sheet does not name with plywood. */
export function fastenItems(input: PrepInput): readonly PrepDraft[] {
  const { facts } = input;
  // Nothing is fastened through mats or tubing.
  if (isHeatFoundLaid(facts.kept)) return [];
  const { loose, looseM2, screwedM2, soundM2, builtUp, builtUpM2, isDown } = fastened(input);
  const items: PrepDraft[] = [];
  const inches = (length: number): string => formatInches(length, input.units);
  // Wood on a slab is fastened into it.
  const cautions = facts.isWoodFramed ? [] : slabCaution(facts);
  const fasten = (line: Pick<PrepDraft, 'key' | 'what' | 'why'>, areaM2: number | null, timedM2: number | null): void =>
    void items.push({
      ...line,
      phase: 'make-sound',
      amount: squareMeters(areaM2),
      tasks: ['drill'],
      cautions,
      hours: timed('refasten', timedM2),
    });
  const why = 'a moving substrate cracks the underlayment';
  const looseWords = loose.map((layer) => LAYER_WORDS[layer.material]).join(' and ');
  if (loose.length > 0)
    fasten({ key: 'refasten:loose', what: `Glue and screw the loose ${looseWords} to the joists`, why }, looseM2, looseM2);
  // Once loose wood is fastened it is marked sound, so the line over all wood reads the same for both. Only its hours leave it out.
  if (facts.exposed.some(({ layer }) => isPouredWood(layer, facts) && !isRemovedLoose(layer, facts)))
    fasten(
      {
        key: 'refasten',
        what: `Screw down the subfloor, about every ${inches(6)} at edges and ${inches(8)} in the field, glue what moves`,
        why,
      },
      screwedM2,
      soundM2,
    );
  if (builtUp.length > 0)
    fasten(
      {
        key: 'plywood',
        what: `Glue and screw plywood over the ${formatListAnd(builtUp.map((material) => (material === 'plywood' ? 'subfloor' : LAYER_WORDS[material])))}, ${inches(1 / 2)} or thicker, joints staggered`,
        why: isDown
          ? why
          : 'most data sheets ask for it on this subfloor. Add the plywood as a new layer when it is down. Under Keep or remove, choose “new, laid after the readings”',
      },
      builtUpM2,
      builtUpM2,
    );
  return items;
}

/** Area of layers that stay, m², at most that of the room. */
function areaOfLayers({ facts, areasM2 }: PrepInput, layers: readonly Layer[]): number | null {
  const { areaM2 } = facts;
  return areaM2 === null
    ? null
    : Math.min(
        areaM2,
        layers.reduce((sum, { id, area }) => sum + (area === null ? areaM2 : (areasM2[id] ?? areaM2)), 0),
      );
}
