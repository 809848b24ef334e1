/** Rules about the underlayment over this substrate, under this flooring, and over heat. */
import type { Layer } from '../book/layer.ts';
import { INCH_M } from '../measure/length-units.ts';
import { formatListOr } from '../measure/list.ts';
import { isAllWood } from './exposed-layers.ts';
import { type ExposedFacts, type FloorFacts, isPouredOn, mayHoldAsbestos } from './floor-facts.ts';
import { type BondClass, bondClass, hasSlab, isWood, LAYER_WORDS } from './layer-words.ts';
import { COVER_OVER_HEAT_M, type HeatDepth, heatDepth, isHeatBuried, isHeatDown, isHeatInPour, isHeatLaid } from './radiant.ts';
import { type Case, once, type Rule, rule } from './rule.ts';
import { isTypicalSheet, whose } from './whose-figure.ts';

const hasGypsum = (facts: FloorFacts): boolean => isPouredOn(facts, (material) => material === 'gypsum');
const isCement = (facts: FloorFacts): boolean => facts.product !== null && facts.product.kind !== 'calcium-sulfate';
const names = (facts: FloorFacts, substrate: BondClass): boolean => facts.product?.powder.bondsTo.includes(substrate) === true;
/** Substrates that have rules of their own. */
const JUDGED_APART: readonly BondClass[] = ['gypsum', 'planks', 'osb'];
type MissingBond = Case & { readonly key: BondClass; readonly substrates: readonly string[] };
/** One case for each substrate, so that an override of one does not cover another that is added later. */
const missingBond = (facts: FloorFacts): readonly MissingBond[] => {
  if (facts.product === null || facts.product.powder.bondsTo.length === 0) return [];
  const missing = new Map<BondClass, Set<string>>();
  for (const match of facts.exposed) {
    const key = bondClass(match.layer.material);
    if (key === null || JUDGED_APART.includes(key) || names(facts, key)) continue;
    // Residue that must not be removed stays, so the data sheet has to name it. Other residue has its own rule.
    if (key === 'adhesive' && !mayHoldAsbestos(match)) continue;
    missing.set(key, (missing.get(key) ?? new Set()).add(LAYER_WORDS[match.layer.material]));
  }
  return [...missing].map(([key, substrates]) => ({ key, substrates: [...substrates] }));
};
type BuildUp = Case & { readonly substrate: 'planks' | 'osb' };
const buildUp = (facts: FloorFacts): readonly BuildUp[] =>
  (['planks', 'osb'] as const)
    .filter((substrate) => !names(facts, substrate) && isPouredOn(facts, (material) => bondClass(material) === substrate))
    .map((substrate) => ({ key: substrate, substrate }));
/** More than this off a wood panel cuts through its face ply and weakens it: 1/8 in. Common practice, no source. */
const SANDED_MOST_M = 0.125 * INCH_M;
/** Depths are read and said to a sixteenth of an inch. */
const SIXTEENTH_M = INCH_M / 16;
type Sanded = Case & { readonly cutM: number };
/** Where part of the floor is not wood, the deepest high spot may be on that part, and the floor is ground. */
const sandedDeep = (facts: FloorFacts): readonly Sanded[] => {
  const cutM = facts.cutMostM;
  return cutM === null || cutM < SANDED_MOST_M + SIXTEENTH_M / 2 || !isAllWood(facts.exposed) ? [] : [{ cutM }];
};
const isBoard = ({ layer: { material } }: ExposedFacts): boolean => material === 'boards' || material === 'wood-flooring';
const pieceOf = (wood: readonly ExposedFacts[]): string =>
  wood.every(isBoard) ? 'board' : wood.some(isBoard) ? 'board or panel' : 'panel';
/** Wood that carries the pour. Particleboard is covered or comes out. */
const isSubfloor = ({ material }: Layer): boolean => isWood(material) && material !== 'joists' && material !== 'particleboard';
type Thin = Case & { readonly hasM: number; readonly leastM: number };
const thin = (facts: FloorFacts, leastM: number | null): readonly Thin[] =>
  facts.depth !== null && leastM !== null && facts.depth.leastM < leastM - 1e-6 ? [{ hasM: facts.depth.leastM, leastM }] : [];
/** What most data sheets ask for over joists: 3/4 in. of wood, whose panels measure 23/32 in. As quoted in a concrete trade article. */
const SUBFLOOR_M = 0.75 * INCH_M;
type ThinSubfloor = Case & { readonly key: string; readonly woodM: number };
/** The wood on joists down from each part that is poured on, where all of it is measured and it is too thin. */
const thinSubfloor = (facts: FloorFacts): readonly ThinSubfloor[] => {
  if (!facts.isWoodFramed || buildUp(facts).length > 0) return [];
  return facts.exposed.flatMap(({ layer }) => {
    if (!isSubfloor(layer)) return [];
    const below = facts.kept.slice(facts.kept.indexOf(layer) + 1).filter((one) => one.area === null && isSubfloor(one));
    const thicknesses = [layer, ...below].map(({ thicknessM }) => thicknessM);
    const woodM = thicknesses.reduce<number>((sum, m) => sum + (m ?? Infinity), 0);
    return woodM < SUBFLOOR_M - SIXTEENTH_M ? [{ key: layer.id, woodM }] : [];
  });
};
const isFramedTop = (facts: FloorFacts): boolean =>
  isPouredOn(facts, (material) => ['plywood', 'osb', 'boards', 'wood-flooring'].includes(material));

const HEAT_TEST: Readonly<Record<string, string>> = {
  'electric-in-pour': 'Test resistance before, during and after the pour.',
  'hydronic-in-pour': 'Keep the tubing under pressure before, during and after the pour.',
  'in-pour': 'Test resistance, or keep tubing under pressure, before, during and after the pour.',
};
type Over = Case & { readonly heat: HeatDepth };
/** The depth over the heat, where the kind of heat or a recorded thickness tells it; else what is not recorded, for tubing. */
const overHeat = (facts: FloorFacts, isKnown: boolean): readonly Over[] => {
  const heat = heatDepth(facts, facts.product?.powder ?? null);
  return heat === null || isKnown !== (!heat.isTypical || facts.heat === 'electric-in-pour') ? [] : [{ heat }];
};
type HeatCase = Case & { readonly test: string; readonly isLaid: boolean };
const heatCase = (facts: FloorFacts): HeatCase => ({
  test: HEAT_TEST[facts.heat] ?? HEAT_TEST['in-pour'] ?? '',
  isLaid: isHeatLaid(facts.kept),
});

/** Where the thickness of the heat is taken from. Nobody can measure it in a placed floor. */
function heatMeasured(facts: FloorFacts): string {
  if (isHeatBuried(facts))
    return 'The heat is in the placed floor. Take its thickness from the installer’s record or the data sheet of the tubing.';
  return `${isHeatLaid(facts.kept) ? 'Measure the heat' : 'Once the heat is laid, measure it'} from the floor to its highest point.`;
}

const SUBSTRATE_FIT: readonly Rule[] = [
  rule({
    id: 'wood-build-up',
    title: (match: BuildUp) => (match.substrate === 'planks' ? 'planks need plywood' : 'OSB not named'),
    reads: 'poured on planks, strip flooring or OSB, and no data sheet chosen names it',
    verdict: 'hold',
    when: buildUp,
    text: (match, w) =>
      match.substrate === 'planks'
        ? `Most data sheets do not allow planks. Glue and screw plywood over them, ${w.inches(1 / 2)} or thicker, joints staggered, or choose a product that names planks.`
        : 'Most data sheets allow plywood but not OSB. Screw plywood over it, or choose a product whose data sheet names OSB.',
    holds: ['pour'],
    does: ['drill'],
    otherwise: ({ substrate }) => ({
      text:
        substrate === 'planks'
          ? 'Most data sheets do not allow planks. Choose a product that names planks.'
          : 'Most data sheets allow plywood but not OSB. Choose a product whose data sheet names OSB.',
      does: [],
    }),
    lifts: 'jobRoom.materialId',
    source: 'common practice; the underlayment’s data sheet',
  }),
  rule({
    id: 'thin-subfloor',
    title: 'thin subfloor',
    reads: 'poured on less than 3/4 in. of wood over joists',
    verdict: 'hold',
    when: thinSubfloor,
    text: (match: ThinSubfloor, w) =>
      `The wood on the joists is ${w.depth(match.woodM)} thick. Most data sheets ask for ${w.depth(SUBFLOOR_M)}. Glue and screw plywood over it, or choose a product whose data sheet allows less.`,
    holds: ['pour'],
    does: ['drill'],
    otherwise: () => ({
      text: 'Most data sheets ask for more wood on the joists. Choose a product whose data sheet allows this subfloor.',
      does: [],
    }),
    lifts: ({ key }) => `room.layers.${key}.thicknessM`,
    source: 'common practice; the underlayment’s data sheet',
  }),
  rule({
    id: 'thin-over-wood',
    title: 'depth over wood',
    reads: 'the minimum pour depth is under the data sheet’s minimum over wood',
    verdict: 'hold',
    when: (facts) => (isFramedTop(facts) ? thin(facts, facts.product?.powder.overWoodLeastM?.value ?? null) : []),
    text: (match, w, facts) =>
      `The pour is ${w.depthUnder(match.hasM, match.leastM)} at its thinnest. The ${whose(facts.product?.powder.overWoodLeastM)} minimum over wood is ${w.depth(match.leastM)}. Raise the finish elevation.`,
    holds: ['pour'],
    lifts: 'jobRoom.level.leastThicknessM',
    source: 'the underlayment’s data sheet, typical until its figure is entered',
  }),
  rule({
    id: 'sanding-deep',
    title: 'sanding depth',
    reads: 'all of the floor is wood, and the estimate sands more than 1/8 in. off it',
    verdict: 'hold',
    when: sandedDeep,
    text: (match, w, { exposed }) => {
      const wood = exposed.map(({ layer: { material, thicknessM } }) =>
        thicknessM === null ? LAYER_WORDS[material] : `${w.depth(thicknessM)} ${LAYER_WORDS[material]}`,
      );
      return `The estimate sands ${w.depth(match.cutM)} off the ${formatListOr([...new Set(wood)])}. More than ${w.depth(SANDED_MOST_M)} weakens a ${pieceOf(exposed)}. Lower the max sanding depth, raise the finish elevation, or replace the ${pieceOf(exposed)}.`;
    },
    holds: ['sand'],
    lifts: 'jobRoom.level.grindMostM',
    source: 'common practice',
  }),
  rule({
    id: 'gypsum-under-cement',
    title: 'cement over gypsum',
    reads: 'a cement-based product on gypsum, and its data sheet does not name gypsum',
    verdict: 'hold',
    when: (facts) => once(hasGypsum(facts) && isCement(facts) && !names(facts, 'gypsum')),
    text: () => 'Cement-based underlayment can debond from gypsum. Choose a product whose data sheet names gypsum, or remove the gypsum.',
    holds: ['pour'],
    lifts: 'jobRoom.materialId',
    source: 'common practice',
  }),
  rule({
    id: 'gypsum-named',
    title: 'gypsum substrate',
    reads: 'poured on gypsum with a gypsum-based product, or one whose data sheet names gypsum',
    when: (facts) => once(hasGypsum(facts) && facts.product !== null && (!isCement(facts) || names(facts, 'gypsum'))),
    text: () => 'The gypsum must be dry and sound. Sand off its skin and prime as the data sheet says for gypsum, usually in two coats.',
    does: ['sand'],
    lifts: 'jobRoom.materialId',
    source: 'ASTM F2419; the data sheet',
  }),
  rule({
    id: 'gypsum-no-product',
    title: 'gypsum substrate',
    reads: 'poured on gypsum, and no product is chosen',
    when: (facts) => once(hasGypsum(facts) && facts.product === null),
    text: () => 'Not every product may go on gypsum. Choose one whose data sheet names it.',
    holds: ['pour'],
    lifts: 'jobRoom.materialId',
    source: 'common practice',
  }),
  rule({
    id: 'bond-not-named',
    title: 'product and substrate',
    reads: 'the data sheet lists its substrates, and this one is not among them',
    verdict: 'hold',
    when: missingBond,
    text: ({ substrates }, _w, { product }) =>
      product !== null && isTypicalSheet(product.powder)
        ? `The typical sheet does not name ${formatListOr(substrates)}. Check your data sheet and enter what it names, choose another product, or get the manufacturer’s approval in writing.`
        : `The data sheet does not name ${formatListOr(substrates)}. Choose a product that does, or get the manufacturer’s approval in writing.`,
    holds: ['pour'],
    lifts: 'jobRoom.materialId',
    source: 'the data sheet',
  }),
];

const FLOORING_FIT: readonly Rule[] = [
  rule({
    id: 'stone-and-moisture',
    title: 'stone tile and moisture',
    reads: 'stone tile is planned over a slab, and no moisture limit is entered for it',
    when: (facts) => once(facts.flooring === 'stone-tile' && facts.limits.slabHumidity === null && hasSlab(facts.kept)),
    text: () => 'Some stone, such as green marble and resin-backed tile, warps or stains when damp. Ask its supplier for a moisture limit.',
    lifts: 'jobRoom.flooring',
    source: 'common practice; the stone supplier',
  }),
  rule({
    id: 'not-a-wearing-floor',
    title: 'no flooring planned',
    reads: 'the floor stays bare, and the product is no wear surface',
    verdict: 'hold',
    when: (facts) => once(facts.flooring === 'bare-sealed' && facts.product !== null && !facts.product.powder.wearsBare),
    text: () => 'This underlayment is made to be covered and wears off under foot traffic. Choose a topping, or flooring.',
    holds: ['pour'],
    lifts: 'jobRoom.materialId',
    source: 'the data sheet',
  }),
  rule({
    id: 'nailed-over-pour',
    title: 'nailed wood over underlayment',
    reads: 'wood flooring is to be nailed over the pour',
    verdict: 'hold',
    when: (facts) => once(facts.flooring === 'wood-nailed'),
    text: () =>
      'Nails and staples shatter underlayment and do not hold in it. Choose glued or floating wood, or another way of leveling. Plywood over the pour is glued or floated, never fastened to it, and thicker than the nails reach.',
    holds: ['pour'],
    lifts: 'jobRoom.flooring',
    source: 'common practice',
  }),
  rule({
    id: 'product-weak',
    title: 'strength for the flooring',
    reads: 'the product’s compressive strength is under what the flooring asks for',
    verdict: 'hold',
    when: (facts) => {
      const strength = facts.product?.powder.strengthPa ?? null;
      const asked = facts.demand?.strengthPa ?? null;
      return strength !== null && asked !== null && strength.value < asked.value * (1 - 1e-9) ? [{ has: strength.value, asked }] : [];
    },
    text: (match: Case & { readonly has: number; readonly asked: { readonly value: number } }, w, facts) =>
      `The ${whose(facts.product?.powder.strengthPa)} strength is ${w.strength(match.has)}. For ${facts.demand?.name ?? 'this flooring'} the minimum is ${w.strength(match.asked.value)}. Choose a stronger product.`,
    holds: ['pour'],
    lifts: 'jobRoom.materialId',
    source: 'ASTM F710: 3,000 psi; typical for glued wood; the data sheets first',
  }),
];

const HEAT: readonly Rule[] = [
  rule({
    id: 'heat-in-pour',
    title: 'radiant heat in the pour',
    reads: 'electric mats or tubing are to be laid and covered by the pour',
    when: (facts) => (isHeatInPour(facts.heat) && !isHeatDown(facts) ? [heatCase(facts)] : []),
    text: (match: HeatCase, w) =>
      `The data sheet must allow embedding. Grinding, screws and lath come before the heat is laid, none after. ${match.test} Cover it by ${w.depth(COVER_OVER_HEAT_M)} or as the sheet says.`,
    lifts: 'room.circumstances.radiantHeat',
    source: 'common practice; the heating and underlayment data sheets',
  }),
  rule({
    id: 'heat-laid',
    title: 'radiant heat on this floor',
    reads: 'mats or tubing lie on the floor and are to be covered by the pour, or its placed part covers them',
    when: (facts) => (isHeatDown(facts) ? [heatCase(facts)] : []),
    text: (match: HeatCase, w, facts) =>
      `${isHeatBuried(facts) ? 'Mats or tubing are in the placed floor: no drilling, sawing, grinding or fastening, there or beside it. Before anything is cut out, have the heat’s installer locate them.' : 'Mats or tubing lie on this floor: no drilling, grinding or fastening.'} The data sheet must allow embedding. ${match.test} Cover it by ${w.depth(COVER_OVER_HEAT_M)} or as the sheet says.`,
    holds: ['drill', 'grind'],
    lifts: ({ isLaid }) => (isLaid ? 'room.layers' : 'room.circumstances.radiantHeat'),
    source: 'common practice; the heating and underlayment data sheets',
  }),
  rule({
    id: 'thin-over-heat',
    title: 'cover over the heat',
    reads: 'the minimum pour depth is under the thickness of the mat or tubing and the cover over it',
    verdict: 'hold',
    when: (facts) => overHeat(facts, true).flatMap(({ heat }) => thin(facts, heat.leastM).map((match) => ({ ...match, heat }))),
    text: ({ hasM, leastM, heat }: Thin & Over, w) =>
      `The pour is ${w.depthUnder(hasM, leastM)} deep at its thinnest, from the floor under the heat. It needs ${w.depth(leastM)}: ${w.depth(heat.thicknessM)} of mat or tubing${heat.isTypical ? ' (typical)' : ''} and ${w.depth(heat.coverM)} of cover${heat.isCoverTypical ? ' (typical)' : ''}. Raise the finish elevation.`,
    holds: ['pour'],
    lifts: 'jobRoom.level.leastThicknessM',
    source: 'the data sheets; 3/8 in. of cover and a mat of 1/8 in. are typical',
  }),
  rule({
    id: 'heat-thickness',
    title: 'thickness of the heat not entered',
    reads: 'tubing, or heat of an unknown kind, is covered by the pour, and its thickness is not recorded',
    verdict: 'hold',
    when: (facts) => overHeat(facts, false),
    text: ({ heat }, w, facts) =>
      `${heatMeasured(facts)} ${isHeatLaid(facts.kept) ? 'Enter that as the thickness of its layer.' : 'Add “radiant floor heat” as the top layer, “new, laid after the readings”.'} The pour needs that thickness and ${w.depth(heat.coverM)} of cover${heat.isCoverTypical ? ' (typical)' : ''}. Tubing is typically ${w.depth(heat.thicknessM)}: plan for ${w.depth(heat.leastM)} or more.`,
    holds: ['pour'],
    lifts: 'room.layers',
    source: 'common practice; 5/8 in. is the outside of 1/2 in. tubing (ASTM F876)',
  }),
  rule({
    id: 'radiant-heat',
    title: 'radiant floor heat',
    reads: 'there is radiant heat in the floor under the pour',
    when: (facts) => once(facts.isHeatInFloor),
    text: () =>
      'Do not drill or grind: tubes or cables are close. Locate them with a thermal camera. Turn the heat off 24 to 48 hours before, and back on as the data sheet says.',
    holds: ['drill', 'grind'],
    lifts: 'room.circumstances.radiantHeat',
    source: 'common practice; the data sheet',
  }),
  rule({
    id: 'radiant-unknown',
    title: 'radiant floor heat not checked',
    reads: 'not recorded whether there is radiant heat in the floor',
    when: (facts) => once(facts.heat === 'unknown'),
    text: () => 'Ask the owner, and look for a manifold or a thermostat. Do not drill or grind until then.',
    holds: ['drill', 'grind'],
    lifts: 'room.circumstances.radiantHeat',
    source: 'common practice',
  }),
];

/** The rows. */
export const PRODUCT_RULES: readonly Rule[] = [...SUBSTRATE_FIT, ...FLOORING_FIT, ...HEAT];
