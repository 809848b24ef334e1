/**
 * Everything the rules read, collected once from the records. Figures that other parts compute (area, weight
 * added, dew point, evaporation) are passed in as plain values; null always means “unknown”, never “fine”.
 */
import type { Flooring } from '../book/flooring.ts';
import type { FlooringLimits, Override } from '../book/job.ts';
import type { Circumstances, FloorTest, Layer } from '../book/layer.ts';
import type { MaterialKind, PowderSheet } from '../book/material.ts';
import type { Mark, Opening, Plan } from '../book/plan-fields.ts';
import {
  isClearedByDocument,
  isFlooringPresumed,
  isLabAdvised,
  isSurfacingPresumed,
  isSuspectAtFace,
  labAnswer,
  type LabAnswer,
} from './asbestos.ts';
import { type ExposedLayer, exposedLayers, isPaint, layersUnder, paintOnTop, topLayers } from './exposed-layers.ts';
import { FLOORING_DEMANDS, type FlooringDemand, limitsInForce, type LimitsInForce } from './flooring-demands.ts';
import { type Absorption, pullOffLeastPa } from './measured-tests.ts';
import { type Deflection, deflectionOf } from './floor-deflection.ts';
import { isAdhesive, isFramed, isNeverGround, isSmooth, isSoft, isSteelDeck, isWood } from './layer-words.ts';
import { baseboardAreaM2, isLeadFinish, isLeadPresumed } from './lead-paint.ts';
import { type Heat, isHeated, isHeatInFloor, roomHeat } from './radiant.ts';
import type { FinishToDrain } from './slope-to-drain.ts';
import { isStale, kindOf, lastAbsorption, lastVisit } from './test-kinds.ts';
import { type NeedInput, type TestNeed, testNeeds } from './test-needs.ts';
import { type TestOf, testsOf } from '../book/tests-of.ts';
import type { Wording } from './wording.ts';

/** Ambient conditions over the floor, with dew point and evaporation. */
export type AirFacts = {
  readonly test: TestOf<'air'>;
  readonly dewPointC: number | null;
  readonly marginC: number | null;
  readonly marginLeastC: number;
  readonly marginPasses: boolean;
  /** Null while the air speed is not recorded. */
  readonly evaporationKgM2H: number | null;
  readonly condenses: boolean;
};

/** The data of the selected underlayment that the assessment needs. */
export type ProductFacts = { readonly kind: MaterialKind; readonly powder: PowderSheet };

/** What the records say about a room's floor. */
export type FloorInput = {
  readonly layers: readonly Layer[];
  readonly tests: readonly FloorTest[];
  readonly marks: readonly Mark[];
  readonly openings: readonly Opening[];
  readonly circumstances: Circumstances;
  /** The room's outline and cutouts, for the layers over part of it. */
  readonly plan: Pick<Plan, 'outline' | 'holes'>;
  readonly areaM2: number | null;
  readonly slab?: NonNullable<NeedInput['slab']>;
  readonly yearBuilt: number | null;
  readonly flooring: Flooring | null;
  readonly flooringLimits: FlooringLimits | null;
  readonly level: FinishToDrain;
  readonly product: ProductFacts | null;
  /** Whether a moisture mitigation system goes under the primer. */
  readonly hasMoistureSystem: boolean;
  /** Load of the pour at its deepest point, pascals; null while there is no estimate. */
  readonly addedLoadPa: number | null;
  /** Minimum and maximum pour depth, meters; null while there is no estimate. */
  readonly depth: { readonly leastM: number; readonly mostM: number; readonly isBallpark?: boolean } | null;
  /** How deep the high spots are ground or sanded at most, meters; null where none are. */
  readonly cutMostM: number | null;
  /** Number of lifts; null while there is no estimate. */
  readonly lifts: number | null;
  /** Whether a pour already covers at least a part of this floor. */
  readonly isPouredOver: boolean;
  /** Walls less openings: the length of the baseboard, meters; null while the room is not drawn. */
  readonly baseboardM: number | null;
  /** Whether a stair begins or ends in the room. */
  readonly hasStair: boolean;
  /** Step up from the floor or sill beyond each opening to the new flooring, by the opening's id, meters; without those not known. */
  readonly doorSteps: Readonly<Record<string, number>>;
  readonly air: AirFacts | null;
  /** The overrides and documents recorded for the room. */
  readonly overrides: readonly Override[];
  readonly now: string;
  /** Today's date at the property, `2026-05-12`. */
  readonly today: string;
};

/** A layer with its presumed and tested hazards. */
export type LayerFacts = {
  readonly layer: Layer;
  readonly presumed: boolean;
  /** The asbestos result. */
  readonly lab: LabAnswer;
  /** Whether it is gone with its asbestos, by a recorded clearance. */
  readonly cleared: boolean;
  /** Whether its paint or varnish counts as lead paint until tested. */
  readonly leadFinish: boolean;
  /** The lead result for its finish. */
  readonly leadLab: LabAnswer;
};

/** Whether only a licensed abatement contractor removes a layer: asbestos was detected in it. */
export const isAbated = ({ lab }: Pick<LayerFacts, 'lab'>): boolean => lab === 'found';

/** The tests of a room and the year its building was built; null or left out while unknown. */
type AgedRoom = { readonly tests: readonly FloorTest[]; readonly yearBuilt?: number | null };

/** Asbestos in a layer, by the records of its room. @param day `2026-05-12`, for lab results */
export const asbestosIn = (
  layer: Layer,
  { tests, yearBuilt = null }: AgedRoom,
  overrides: readonly Override[],
  day: string,
): Pick<LayerFacts, 'presumed' | 'lab' | 'cleared'> => ({
  presumed: isFlooringPresumed(layer, yearBuilt),
  lab: labAnswer(tests, 'asbestos', layer.id, day),
  cleared: isClearedByDocument(layer, overrides),
});

/** Whether a layer may contain asbestos: presumed or sampled without a complete result, or detected, and no clearance recorded. */
export const mayHoldAsbestos = ({ presumed, lab, cleared }: Pick<LayerFacts, 'presumed' | 'lab' | 'cleared'>): boolean =>
  !cleared && lab !== 'none-found' && (presumed || lab !== 'not-asked');

/** Whether the finish of a layer counts as lead paint: detected, or presumed and not tested. */
export const mayHoldLead = ({ leadFinish, leadLab }: LayerFacts): boolean =>
  leadLab === 'found' || (leadFinish && leadLab !== 'none-found');

/** Later than any day a result is dated. */
const ANY_DAY = '9999-12-31';

/** Whether a layer that stays under the floor may contain asbestos. A lab result counts whatever its day. */
export const staysWithAsbestos = (room: AgedRoom & Pick<FloorInput, 'layers'>): boolean =>
  room.layers.some((layer) => layer.fate === 'keep' && mayHoldAsbestos(asbestosIn(layer, room, [], ANY_DAY)));

/** Whether a lab result comes before a layer is removed: it may contain asbestos, or its age and material ask for a test. */
export const isLabFirst = (facts: LayerFacts, { yearBuilt }: Pick<FloorInput, 'yearBuilt'>): boolean =>
  !isAbated(facts) && !facts.cleared && (mayHoldAsbestos(facts) || isLabAdvised(facts.layer, facts.lab, yearBuilt));

/** A layer that is poured on, with its hazards. */
export type ExposedFacts = LayerFacts & ExposedLayer;

/** Whether air ducts run in the slab: a floor register in a slab on grade. */
export const hasSlabDucts = (facts: Pick<FloorInput, 'circumstances' | 'layers'>): boolean =>
  facts.circumstances.fixtures.includes('floor-register') && facts.layers.some((layer) => layer.material === 'concrete-on-ground');

/** Whether the floor has a drain: a cutout or a mark of the plan, or a fixture recorded on the floor. */
export const hasDrain = ({ plan, marks, circumstances }: Pick<FloorInput, 'plan' | 'marks' | 'circumstances'>): boolean =>
  plan.holes.some((hole) => hole.kind === 'drain') ||
  marks.some((mark) => mark.kind === 'drain') ||
  circumstances.fixtures.includes('floor-drain');

/** The facts the rules read. */
export type FloorFacts = FloorInput & {
  readonly layerFacts: readonly LayerFacts[];
  readonly kept: readonly Layer[];
  /** The layers that are poured on; none when no layer stays or none is described. */
  readonly exposed: readonly ExposedFacts[];
  /** Paint or sealer on top of the floor: it comes off, whatever is planned for it, unless asbestos was detected in it. */
  readonly paintOnTop: readonly LayerFacts[];
  readonly heat: Heat;
  /** Whether there is heat in the floor under the pour, which the pour may cover with more. */
  readonly isHeatInFloor: boolean;
  /** Whether any part of the surface may contain asbestos, so that the floor must not be abraded. */
  readonly surfaceMayHoldAsbestos: boolean;
  /** Painted surface removed with the baseboard, m²; null while its length or height is unknown. */
  readonly baseboardAreaM2: number | null;
  readonly demand: FlooringDemand | null;
  readonly limits: LimitsInForce;
  readonly needs: readonly TestNeed[];
  readonly coatingPresumed: boolean;
  readonly coatingLab: LabAnswer;
  readonly paintLab: LabAnswer;
  /** Tests not yet stale, whether or not they count. */
  readonly recent: readonly FloorTest[];
  /** Readings of the last visit that count and are fresh. */
  readonly humidity: readonly TestOf<'slab-humidity'>[];
  readonly dishes: readonly TestOf<'moisture-dish'>[];
  readonly wood: Readonly<Record<'boards' | 'structure' | 'flooring', readonly number[]>>;
  readonly absorption: Absorption | null;
  readonly looks: readonly TestOf<'surface-look'>['is'][number][];
  readonly deflection: { readonly test: TestOf<'floor-deflection'>; readonly answer: Deflection } | null;
  /** A suspended slab, a steel deck, a floor on joists, or wood with no slab below, which is presumed to be on joists. */
  readonly isSuspended: boolean;
  /** Suspended and of wood, whether or not the joists are listed as a layer. */
  readonly isWoodFramed: boolean;
};

/** Paint as a layer, varnish on wood flooring, or a finish seen on the surface poured on. */
function hasLeadFinish(layer: Layer, isExposed: boolean, looks: FloorFacts['looks'], yearBuilt: number | null): boolean {
  if (isLeadFinish(layer, yearBuilt)) return true;
  const hasFinish = looks.includes('painted') || (looks.includes('glossy') && isWood(layer.material));
  return isExposed && hasFinish && !isSmooth(layer.material) && isLeadPresumed(yearBuilt);
}

/** Whether a layer is wood that is screwed down and lathed for a pour. Particleboard on a slab has no joists to hold it: it comes out. */
export const isPouredWood = ({ material }: Pick<Layer, 'material'>, { isWoodFramed }: Pick<FloorFacts, 'isWoodFramed'>): boolean =>
  isWood(material) && (isWoodFramed || material !== 'particleboard');

/** Whether any part of the surface that is poured on is of such a material. */
export const isPouredOn = (facts: Pick<FloorFacts, 'exposed'>, applies: (material: Layer['material']) => boolean): boolean =>
  facts.exposed.some(({ layer }) => applies(layer.material));

/** Whether cutting the face of a layer waits for a lab result. */
export const isUntestedAtFace = (part: LayerFacts, facts: Pick<FloorInput, 'yearBuilt'>): boolean =>
  isSuspectAtFace(part.layer.material) && isLabFirst(part, facts);

/**
 * The parts of the surface within an area drawn on the plan, each with its size there; all of the surface where the area holds none.
 * @param area null for the whole room
 */
export function exposedWithin(
  facts: Pick<FloorFacts, 'exposed' | 'layers' | 'tests' | 'plan'>,
  area: Layer['area'],
): readonly ExposedFacts[] {
  if (area === null) return facts.exposed;
  const inside = exposedLayers(facts, area);
  const parts = facts.exposed.flatMap((part) =>
    inside.filter(({ layer }) => layer === part.layer).map(({ areaM2 }) => ({ ...part, areaM2 })),
  );
  return parts.length === 0 ? facts.exposed : parts;
}

/**
 * What a layer of paint or sealer lies on: the parts of the surface that it comes off, and the layers to be removed that it leaves
 * with. Both are empty where nothing is recorded under it.
 */
export function underPaint(
  facts: FloorFacts,
  paint: Layer,
): { readonly parts: readonly ExposedFacts[]; readonly leavesWith: readonly Layer[] } {
  const isBelow = ({ layer }: ExposedLayer): boolean => facts.layers.indexOf(layer) > facts.layers.indexOf(paint);
  const under = layersUnder(facts, paint);
  if (under.length === 0) return { parts: facts.exposed.filter(isBelow), leavesWith: [] };
  return {
    parts: under
      .filter(isBelow)
      .flatMap(({ layer, areaM2 }) => facts.exposed.filter((part) => part.layer === layer).map((part) => ({ ...part, areaM2 }))),
    leavesWith: under.filter((one) => isBelow(one) && one.layer.fate === 'remove').map(({ layer }) => layer),
  };
}

/** Whether dirt is stripped wet: all of the surface is never ground, and none of it may contain asbestos. */
export const isStrippedWet = (facts: Pick<FloorFacts, 'exposed' | 'surfaceMayHoldAsbestos'>): boolean =>
  facts.exposed.length > 0 && !facts.surfaceMayHoldAsbestos && !isPouredOn(facts, (material) => !isNeverGround(material));

/** Paint or sealer on top that comes off, though it is to stay. Where asbestos was detected in it, it is covered instead. */
export const paintOff = (facts: Pick<FloorFacts, 'paintOnTop'>): readonly LayerFacts[] => facts.paintOnTop.filter((one) => !isAbated(one));

/** Whether a layer is fastened again when it is loose: wood on joists. Any other loose layer comes off. */
export const isRefastened = (layer: Layer, facts: Pick<FloorFacts, 'isWoodFramed'>): boolean =>
  facts.isWoodFramed && isWood(layer.material);

/** The layers that come off: those that are planned to, and paint on top. */
export const removedLayers = (facts: Pick<FloorFacts, 'layerFacts' | 'paintOnTop'>): readonly LayerFacts[] => {
  const paint = paintOff(facts);
  return facts.layerFacts.filter((one) => one.layer.fate === 'remove' || paint.includes(one));
};

/** Paint and sealer that comes off and in which no asbestos was detected. */
export const paintRemoved = (facts: Pick<FloorFacts, 'layerFacts' | 'paintOnTop'>): readonly LayerFacts[] =>
  removedLayers(facts).filter((one) => isPaint(one.layer) && !isAbated(one));

/** The paint and sealer that leaves with a layer to be removed. */
export const coatsLeaving = (facts: FloorFacts, layer: Layer): readonly LayerFacts[] =>
  paintRemoved(facts).filter((paint) => underPaint(facts, paint.layer).leavesWith.includes(layer));

/** The layers that stay and may contain asbestos. With any, the crew opens, cuts and scrapes nothing of the floor. Paint that comes off is none. */
export const asbestosKept = (facts: Pick<FloorFacts, 'layerFacts' | 'paintOnTop'>): readonly LayerFacts[] => {
  const paint = paintOff(facts);
  return facts.layerFacts.filter((one) => one.layer.fate === 'keep' && mayHoldAsbestos(one) && !paint.includes(one));
};

/**
 * Whether nothing is stuck into the floor, no metal spike and no pin: they cut mats and tubing, and break old tile that may contain asbestos.
 * Common practice, no source.
 */
export const isNothingStuckIn = (facts: Pick<FloorFacts, 'heat' | 'layerFacts' | 'paintOnTop'>): boolean =>
  isHeated(facts.heat) || asbestosKept(facts).length > 0;

/** Whether a layer lies on the floor or comes off it by hand: floating plank, and carpet or pad that no adhesive holds. */
function isLaidLoose(facts: Pick<FloorFacts, 'layers'>, layer: Layer): boolean {
  const under = facts.layers[facts.layers.indexOf(layer) + 1];
  return isSoft(layer.material) && (layer.material === 'floating-plank' || under === undefined || !isAdhesive(under.material));
}

/**
 * The layers with detected asbestos because of which a licensed abatement contractor removes another layer: those it is bonded over,
 * and for all but carpet, pad and plank those that stay anywhere in the room. What is laid loose comes off after a test pull. Common
 * practice, no source; where in doubt the contractor does it.
 */
export function abatedWith(facts: Pick<FloorFacts, 'layers' | 'layerFacts' | 'plan'>, layer: Layer): readonly LayerFacts[] {
  const below = facts.layers.slice(facts.layers.indexOf(layer) + 1);
  const isUnder = (one: Layer): boolean =>
    below.includes(one) &&
    (one.area === null || layer.area === null || topLayers([{ ...one, fate: 'keep' }], facts.plan, layer.area).length > 0);
  const isLoose = isLaidLoose(facts, layer);
  return facts.layerFacts.filter((one) => {
    if (one.layer === layer || isPaint(layer) || isLoose || !isAbated(one)) return false;
    return isUnder(one.layer) || (one.layer.fate === 'keep' && !isSoft(layer.material));
  });
}

/** Adhesive that is poured on and may be scraped: it may not contain asbestos. */
export const scrapedAdhesive = ({ exposed }: Pick<FloorFacts, 'exposed'>): readonly ExposedFacts[] =>
  exposed.filter((part) => isAdhesive(part.layer.material) && !mayHoldAsbestos(part));

/** Collects the facts the rules read. */
export function floorFacts(input: FloorInput, wording: Pick<Wording, 'depth'>): FloorFacts {
  const keptLayers = input.layers.filter((layer) => layer.fate === 'keep');
  const seen = topLayers(input.layers, input.plan);
  const demand = input.flooring === null ? null : FLOORING_DEMANDS[input.flooring];
  const limits = limitsInForce(input.flooring, input.flooringLimits);
  const context = { depth: wording.depth, pullOffLeastPa: pullOffLeastPa(input.product, input.hasMoistureSystem) };
  const recent = input.tests.filter((test) => !isStale(test.kind, test.takenAt, input.now));
  const good = recent.filter((test) => kindOf(test).doesNotCount(test, input.layers, context) === null);
  const woodOf = (part: 'boards' | 'structure' | 'flooring'): readonly number[] => {
    const ofPart = testsOf(good, 'wood-moisture').filter((test) => test.part === part);
    return lastVisit(ofPart, 'wood-moisture').flatMap((test) => test.readings);
  };
  const looks = [...new Set(testsOf(good, 'surface-look').at(-1)?.is ?? [])].toSorted();
  const layerFacts = input.layers.map(
    (layer): LayerFacts => ({
      layer,
      ...asbestosIn(layer, input, input.overrides, input.today),
      leadFinish: hasLeadFinish(
        layer,
        seen.some((one) => one.layer === layer),
        looks,
        input.yearBuilt,
      ),
      leadLab: labAnswer(input.tests, 'lead-paint', layer.id, input.today),
    }),
  );
  const exposed = exposedLayers(input).flatMap(({ layer, areaM2 }) =>
    layerFacts.filter((one) => one.layer === layer).map((one) => ({ ...one, areaM2 })),
  );
  const paint = paintOnTop(input);
  const paintFacts = layerFacts.filter(({ layer }) => paint.includes(layer));
  const isWoodFramed = isFramed(keptLayers);
  const deflectionTest = testsOf(good, 'floor-deflection').at(-1) ?? null;
  return {
    ...input,
    layerFacts,
    kept: keptLayers,
    exposed,
    paintOnTop: paintFacts,
    heat: roomHeat(input),
    isHeatInFloor: isHeatInFloor(input),
    surfaceMayHoldAsbestos: [...exposed, ...paintFacts].some(mayHoldAsbestos),
    baseboardAreaM2: baseboardAreaM2(input.baseboardM, input.circumstances.baseboardHeightM),
    demand,
    limits,
    needs: testNeeds({ ...input, kept: keptLayers, exposed, limits, isWoodFramed }, context),
    coatingPresumed: input.circumstances.texturedCoating === true && isSurfacingPresumed(input.yearBuilt),
    coatingLab: labAnswer(input.tests, 'asbestos', null, input.today),
    paintLab: labAnswer(input.tests, 'lead-paint', null, input.today),
    recent,
    humidity: lastVisit(good, 'slab-humidity'),
    dishes: lastVisit(good, 'moisture-dish'),
    wood: { boards: woodOf('boards'), structure: woodOf('structure'), flooring: woodOf('flooring') },
    absorption: lastAbsorption(good),
    looks,
    deflection: deflectionTest === null ? null : { test: deflectionTest, answer: deflectionOf(deflectionTest, input.addedLoadPa ?? 0) },
    isSuspended: isWoodFramed || isSteelDeck(keptLayers) || keptLayers.some((layer) => layer.material === 'concrete-suspended'),
    isWoodFramed,
  };
}
