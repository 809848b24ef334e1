/** Lines that fasten wood, and the areas they are for. */
import type { Layer } from '../book/layer.ts';
import { formatListAnd } from '../measure/list.ts';
import { partAreaM2 } from '../substrate/exposed-layers.ts';
import type { ExposedFacts } from '../substrate/floor-facts.ts';
import { bondClass, isWood, LAYER_WORDS } from '../substrate/layer-words.ts';
import { type PrepDraft, type PrepInput, slabCaution, squareMeters } from './prep-input.ts';
import { isRefastened, isRemovedLoose } from './removal-items.ts';
import { timed } from './task-hours.ts';

type Fastened = {
  /** Loose wood on joists. */
  readonly loose: readonly Layer[];
  readonly looseM2: number | null;
  /** Wood that is poured on, and that of it which is not loose. */
  readonly screwedM2: number | null;
  readonly soundM2: number | null;
  /** What is covered with plywood. */
  readonly builtUp: readonly ExposedFacts[];
  readonly builtUpM2: number | null;
};

/** What is fastened, m²; null where it is not known. */
function fastened(input: PrepInput): Fastened {
  const { facts } = input;
  const loose = facts.kept.filter((layer) => layer.sound === 'loose' && isRefastened(layer, facts));
  const isScrewed = ({ layer }: ExposedFacts): boolean => isWood(layer.material) && !isRemovedLoose(layer, facts);
  const isSound = (part: ExposedFacts): boolean => isScrewed(part) && !loose.some(({ id }) => id === part.layer.id);
  const isBuiltUp = ({ layer }: ExposedFacts): boolean =>
    input.findings.some(({ key }) => key === `wood-build-up:${bondClass(layer.material)}`);
  const areaM2 = (applies: (part: ExposedFacts) => boolean): number | null => partAreaM2(facts.exposed, facts.areaM2, applies);
  return {
    loose,
    looseM2: areaOfLayers(input, loose),
    screwedM2: areaM2(isScrewed),
    soundM2: areaM2(isSound),
    builtUp: facts.exposed.filter(isBuiltUp),
    builtUpM2: areaM2(isBuiltUp),
  };
}

/** The area whose fastening takes hours, m²; what is not known counts as none. Plywood over wood is fastened besides the wood itself. */
export function fastenedM2(input: PrepInput): number {
  const { looseM2, soundM2, builtUpM2 } = fastened(input);
  return (looseM2 ?? 0) + (soundM2 ?? 0) + (builtUpM2 ?? 0);
}

/** Fasten loose wood and wood that is poured on, and cover what the data sheet does not name with plywood. */
export function fastenItems(input: PrepInput): readonly PrepDraft[] {
  const { facts } = input;
  const { loose, looseM2, screwedM2, soundM2, builtUp, builtUpM2 } = fastened(input);
  const items: PrepDraft[] = [];
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
  if (facts.exposed.some(({ layer }) => isWood(layer.material) && !isRemovedLoose(layer, facts)))
    fasten(
      { key: 'refasten', what: 'Screw down the subfloor, about every 6 in. at edges and 8 in. in the field, glue what moves', why },
      screwedM2,
      soundM2,
    );
  if (builtUp.length > 0)
    fasten(
      {
        key: 'plywood',
        what: `Glue and screw plywood over the ${formatListAnd(builtUp.map(({ layer }) => LAYER_WORDS[layer.material]))}, 1/2 in. or thicker, joints staggered`,
        why: 'the data sheet does not name this substrate. Add the plywood as a new layer when it is down. Under Keep or remove, choose “new, laid after the readings”',
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
