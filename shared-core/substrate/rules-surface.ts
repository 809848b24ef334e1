/** Rules about the surface that is poured on: it must be sound, clean and able to bond. */
import type { Layer } from '../book/layer.ts';
import { addDaysToDay } from '../measure/day.ts';
import { formatListAnd } from '../measure/list.ts';
import {
  asbestosKept,
  type ExposedFacts,
  type FloorFacts,
  isPouredOn,
  isRefastened,
  mayHoldAsbestos,
  paintOff,
  scrapedAdhesive,
  underPaint,
} from './floor-facts.ts';
import {
  isCarrying,
  isConcrete,
  isDense,
  isNeverGround,
  isNoSurface,
  isOpenConcrete,
  isSoft,
  isSteelDeck,
  LAYER_WORDS,
} from './layer-words.ts';
import { JOINT_RULES } from './rules-joints.ts';
import { LOOK_RULES } from './rules-looks.ts';
import { once, type Rule, rule, type Case } from './rule.ts';
import { coatParts, paintTasks } from './surface-coat.ts';
import { isPhWithin, PH_WITHIN, pullOffAnswer, pullOffLeastPa } from './measured-tests.ts';
import type { TestOf } from '../book/tests-of.ts';
import { lastVisit } from './test-kinds.ts';

type LayerCase = { readonly key: string; readonly layer: Layer };

/** Age of concrete before underlayment or a moisture mitigation system, days. Common practice, no source; the data sheet comes first. */
const CONCRETE_DAYS = 28;
/** Whether concrete may be younger than that. Its year is all that is recorded; without one that of the house counts. */
const mayBeNew = ({ yearInstalled }: Layer, { today, yearBuilt }: FloorFacts): boolean =>
  (yearInstalled ?? yearBuilt ?? 0) >= Number(addDaysToDay(today, -CONCRETE_DAYS).slice(0, 4));
const keptLayers = (facts: FloorFacts, applies: (layer: Layer) => boolean): readonly LayerCase[] =>
  facts.kept.filter(applies).map((layer) => ({ key: layer.id, layer }));
const exposed = (facts: FloorFacts, applies: (match: ExposedFacts) => boolean): readonly (LayerCase & ExposedFacts)[] =>
  facts.exposed.filter(applies).map((match) => ({ ...match, key: match.layer.id }));
const name = ({ layer }: LayerCase): string => LAYER_WORDS[layer.material];
const mayBeGround = (material: Layer['material']): boolean => !isNeverGround(material);
/** Layers that no data sheet has a name for: what bonds to them is not known. */
const PANELS_OUT = 'Particleboard, hardboard, lauan, and fire-treated or pressure-treated panels swell or debond. Remove them';
const UNPROVEN: readonly Layer['material'][] = ['membrane', 'unknown'];
const isResilient = ({ layer }: ExposedFacts): boolean => isNeverGround(layer.material);
/** A sentence on the parts that no machine takes paint off; empty where machines may work on all of it. */
function stripWords(facts: FloorFacts, parts: readonly ExposedFacts[]): string {
  const groups = coatParts(facts, parts).filter(({ work }) => work !== 'machine');
  return groups
    .map(({ work, parts: own }) => {
      const names = formatListAnd(own.map(({ layer }) => LAYER_WORDS[layer.material]));
      return work === 'strip'
        ? ` Strip it wet off the ${names}: never sand or grind there.`
        : ` Only a licensed abatement contractor takes it off the ${names}.`;
    })
    .join('');
}
const NO_SANDING = '29 CFR 1926.1101(l)(3): no sanding of flooring with asbestos; common practice for the rest';
type Scratch = TestOf<'scratch'>['result'];
const WORST_FIRST: readonly Scratch[] = ['crumbles', 'dusts', 'scores', 'firm'];
/** The weakest spot of the last visit decides for the floor. */
const scratched = (facts: FloorFacts, results: readonly Scratch[]): readonly Case[] => {
  const visit = lastVisit(facts.recent, 'scratch');
  const worst = WORST_FIRST.find((result) => visit.some((test) => test.result === result));
  const test = visit.find((candidate) => candidate.result === worst);
  return test !== undefined && results.includes(test.result) ? [{ testId: test.id }] : [];
};
type Pull = Case & { readonly stressPa: number; readonly leastPa: number };
const pulls = (facts: FloorFacts, answer: ReturnType<typeof pullOffAnswer>): readonly Pull[] => {
  const leastPa = pullOffLeastPa(facts.product, facts.hasMoistureSystem);
  const weakest = lastVisit(facts.recent, 'pull-off').toSorted((a, b) => a.stressPa - b.stressPa)[0];
  return weakest !== undefined && pullOffAnswer(weakest, leastPa) === answer
    ? [{ testId: weakest.id, stressPa: weakest.stressPa, leastPa }]
    : [];
};
const phs = (facts: FloorFacts, isWithin: boolean): readonly (Case & { readonly ph: number })[] => {
  const visit = lastVisit(facts.recent, 'surface-ph');
  const test = visit.find((candidate) => !isPhWithin(candidate.ph)) ?? visit[0];
  return test !== undefined && isPhWithin(test.ph) === isWithin ? [{ testId: test.id, ph: test.ph }] : [];
};

const LAYERS: readonly Rule[] = [
  rule({
    id: 'no-layers',
    title: 'floor assembly',
    reads: 'no layer is described, or none that stays',
    verdict: 'hold',
    when: (facts) => once(facts.exposed.length === 0),
    text: () => 'The substrate is unknown. Add the layers from the top down to the structure.',
    holds: ['pour'],
    lifts: 'room.layers',
    source: 'common practice',
  }),
  rule({
    id: 'no-structure',
    title: 'what carries this floor',
    reads: 'layers stay, and none is a slab, joists, wood, a steel deck or the ground',
    verdict: 'hold',
    when: (facts) => once(facts.exposed.length > 0 && !facts.kept.some((layer) => isCarrying(layer.material)) && !isSteelDeck(facts.kept)),
    text: () =>
      'What carries this floor is not recorded, so its load, stiffness and moisture are not checked. Add the layers down to the slab, the joists or the ground.',
    holds: ['pour'],
    lifts: 'room.layers',
    source: 'common practice',
  }),
  rule({
    id: 'no-surface',
    title: name,
    reads: 'soil, gravel or bare joists are poured on',
    verdict: 'hold',
    when: (facts) => exposed(facts, ({ layer }) => isNoSurface(layer.material)),
    text: (match: LayerCase) => `Underlayment cannot be poured on ${name(match)}. Add a sound subfloor or slab first.`,
    holds: ['pour'],
    lifts: 'room.layers',
    source: 'ASTM F2873 scope: wood, panels, concrete, bonded floors',
  }),
  rule({
    id: 'concrete-new',
    title: (match: LayerCase) => `new ${name(match)}`,
    reads: `concrete placed so late that it may be under ${CONCRETE_DAYS} days old, by its year or that of the house`,
    verdict: 'hold',
    when: (facts) => (facts.isPouredOver ? [] : keptLayers(facts, (layer) => isConcrete(layer.material) && mayBeNew(layer, facts))),
    text: () =>
      `Ask the day the concrete was placed. It cures ${CONCRETE_DAYS} days, or as the data sheet says, before underlayment or a moisture mitigation system. Once they have passed, override this hold with the day as the reason.`,
    holds: ['pour'],
    lifts: (match) => `room.layers.${match.key}.yearInstalled`,
    source: 'common practice; the data sheet',
  }),
  rule({
    id: 'layer-weak',
    title: (match: LayerCase) => `weak ${name(match)}`,
    reads: 'a layer that stays is weak',
    verdict: 'hold',
    when: (facts) => keptLayers(facts, (layer) => layer.sound === 'weak'),
    text: () => 'Underlayment is no stronger than its substrate. Remove the weak material down to a sound layer, then mark it sound.',
    holds: ['pour'],
    does: ['scrape', 'grind', 'lift-out'],
    lifts: (match) => `room.layers.${match.key}.sound`,
    source: 'ASTM F710: sound',
  }),
  rule({
    id: 'layer-loose',
    title: (match: LayerCase) => `loose ${name(match)}`,
    reads: 'a layer that stays is loose',
    verdict: 'hold',
    when: (facts) => keptLayers(facts, (layer) => layer.sound === 'loose'),
    text: ({ layer }, _, facts) =>
      layer.material === 'radiant-heating'
        ? 'Loose mats or tubing rise into the pour. Have their installer fasten them again, then mark the layer sound.'
        : `A moving substrate cracks the underlayment. ${isRefastened(layer, facts) ? 'Fasten the layer or remove it' : 'Remove what is loose down to a sound layer'}, then mark it sound.`,
    holds: ['pour'],
    does: (facts, { layer }) =>
      layer.material === 'radiant-heating' ? [] : isRefastened(layer, facts) ? ['drill', 'lift-out'] : ['lift-out'],
    otherwise: () => ({ text: 'A moving substrate cracks the underlayment. Plan to remove the layer.', does: ['lift-out'] }),
    lifts: (match) => `room.layers.${match.key}.sound`,
    source: 'ASTM F710: sound',
  }),
  rule({
    id: 'layer-not-sounded',
    title: (match: LayerCase) => `${name(match)}, not sounded`,
    reads: 'soundness of a layer that is poured on not recorded; a soft layer comes out, and is not sounded',
    when: (facts) =>
      exposed(facts, ({ layer }) => layer.sound === 'unknown' && !isSoft(layer.material) && layer.material !== 'underlay-felt'),
    text: () => 'Sound the whole floor with a chain drag, a golf ball or a hammer. Record whether it is sound.',
    holds: ['pour'],
    lifts: (match) => `room.layers.${match.key}.sound`,
    source: 'common practice',
  }),
  rule({
    id: 'soft-layer',
    title: name,
    reads: 'carpet, pad or floating plank stays under the pour, or felt is poured on',
    verdict: 'hold',
    // Felt or black paper lies under most old wood flooring, which holds it flat.
    when: (facts) => [
      ...keptLayers(facts, (layer) => isSoft(layer.material)),
      ...exposed(facts, ({ layer }) => layer.material === 'underlay-felt'),
    ],
    text: (match: LayerCase) => `Underlayment over ${name(match)} cracks because the layer flexes. Plan to remove it.`,
    holds: ['pour'],
    does: ['pull-up'],
    lifts: (match) => `room.layers.${match.key}.fate`,
    source: 'common practice',
  }),
  rule({
    id: 'sheet-stays',
    title: name,
    reads: 'sheet flooring is poured on',
    verdict: 'hold',
    when: (facts) => exposed(facts, ({ layer }) => layer.material === 'sheet-flooring'),
    text: (match) =>
      mayHoldAsbestos(match)
        ? 'Pour over it only if it is fully bonded and not cushioned, and the underlayment’s data sheet names it. Otherwise cover it another way or have it abated.'
        : 'Cushioned sheet flooring flexes and cannot stay. Fully bonded, non-cushioned sheet may stay only where the underlayment’s data sheet names it.',
    holds: ['pour'],
    lifts: (match) => `room.layers.${match.key}.fate`,
    source: 'common practice; the underlayment’s data sheet',
  }),
  rule({
    id: 'particleboard',
    title: name,
    reads: 'particleboard or hardboard is poured on',
    verdict: 'hold',
    when: (facts) => exposed(facts, ({ layer }) => layer.material === 'particleboard'),
    text: (_match, _w, facts) => `${PANELS_OUT}${facts.isWoodFramed ? ', or cover them with plywood screwed to the joists' : ''}.`,
    holds: ['pour'],
    does: (facts) => (facts.isWoodFramed ? ['drill', 'lift-out'] : ['lift-out']),
    otherwise: () => ({ text: `${PANELS_OUT}.`, does: ['lift-out'] }),
    lifts: (match) => `room.layers.${match.key}.fate`,
    source: 'common practice',
  }),
  rule({
    id: 'unproven-top',
    title: name,
    reads: 'a membrane or an unknown layer is poured on',
    verdict: 'hold',
    when: (facts) => exposed(facts, ({ layer }) => UNPROVEN.includes(layer.material)),
    text: (match) =>
      `Underlayment may not bond to it. Pour over it only with the underlayment manufacturer’s approval in writing. ${
        mayHoldAsbestos(match)
          ? 'Otherwise cover it another way or have it abated.'
          : `Otherwise ${match.layer.material === 'unknown' ? 'identify it or ' : ''}remove it.`
      }`,
    holds: ['pour'],
    lifts: (match) => `room.layers.${match.key}.material`,
    source: 'common practice; the underlayment’s data sheet',
  }),
  rule({
    id: 'adhesive-stays',
    title: name,
    reads: 'adhesive residue is poured on and is not presumed asbestos',
    when: (facts) => scrapedAdhesive(facts).map((match) => ({ ...match, key: match.layer.id })),
    text: (_match, _w, facts) =>
      `${
        asbestosKept(facts).length > 0
          ? 'A layer that stays may contain asbestos, so only a licensed abatement contractor removes this adhesive.'
          : 'Remove water-soluble adhesive completely.'
      } Other residue may stay as a thin film only where the underlayment’s data sheet names it. Use no chemical remover.`,
    does: (facts) => (asbestosKept(facts).length > 0 ? [] : ['scrape']),
    lifts: (match) => `room.layers.${match.key}.fate`,
    source: 'ASTM F2873 1.1: non-water-soluble residue; the data sheet',
  }),
  rule({
    id: 'smooth-top',
    title: (match: LayerCase) => `smooth ${name(match)}`,
    reads: 'ceramic, stone, terrazzo or metal is poured on',
    when: (facts) => exposed(facts, ({ layer }) => isDense(layer.material)),
    text: () => 'It is dense and smooth. Clean it, abrade it, and use the primer its data sheet gives for non-porous substrates.',
    does: ['grind'],
    lifts: (match) => `room.layers.${match.key}.material`,
    source: 'common practice; the data sheet',
  }),
  rule({
    id: 'paint-stays',
    title: name,
    reads: 'paint or sealer on top is planned to stay, and no asbestos was detected in it',
    when: (facts) =>
      paintOff(facts).map((paint) => ({ key: paint.layer.id, layer: paint.layer, paint, ...underPaint(facts, paint.layer) })),
    text: ({ parts, leavesWith }, _w, facts) => {
      const isOwn = parts.length > 0 || leavesWith.length === 0;
      const own = isOwn ? ` Plan to remove it down to the bare substrate.${stripWords(facts, parts)}` : '';
      const names = formatListAnd(leavesWith.map(({ material }) => LAYER_WORDS[material]));
      const gone = leavesWith.length > 0 ? ` It leaves with the ${names} under it.` : '';
      return `Underlayment bonds no better than the paint or sealer under it.${own}${gone}`;
    },
    does: (facts, { paint, parts, leavesWith }) => (parts.length === 0 && leavesWith.length > 0 ? [] : paintTasks(facts, paint, parts)),
    lifts: (match) => `room.layers.${match.key}.fate`,
    source: 'ASTM F710: clean; common practice',
  }),
  rule({
    id: 'resilient-top',
    title: (match: LayerCase) => `pour over ${name(match)}`,
    reads: 'resilient tile or sheet flooring is poured on, and nothing else',
    when: (facts) => (isPouredOn(facts, mayBeGround) ? [] : exposed(facts, isResilient)),
    text: (match: LayerCase) =>
      `Never sand or grind ${name(match)}. Clean it, and prime it with a primer whose data sheet allows it without abrading.`,
    holds: ['sand', 'grind'],
    lifts: (match) => `room.layers.${match.key}.material`,
    source: NO_SANDING,
  }),
  rule({
    id: 'resilient-part',
    title: (match: LayerCase) => `pour over ${name(match)}`,
    reads: 'resilient tile or sheet flooring is poured on in part of the room',
    when: (facts) => (isPouredOn(facts, mayBeGround) ? exposed(facts, isResilient) : []),
    text: (match: LayerCase) =>
      `Never sand or grind the ${name(match)}: keep machines on the rest of the floor. Clean it, and prime it with a primer whose data sheet allows it without abrading.`,
    lifts: (match) => `room.layers.${match.key}.material`,
    source: NO_SANDING,
  }),
];

const SURFACES: readonly Rule[] = [
  rule({
    id: 'beads-water',
    title: 'concrete that beads water',
    reads: 'a water drop stays for a minute on concrete, a mortar bed or old underlayment',
    when: (facts) => once(facts.absorption === 'non-porous' && isPouredOn(facts, isOpenConcrete)),
    text: () =>
      'A drop stayed, so the surface is sealed, burnished or contaminated. Abrade it and test again: that test decides the primer. Until then a porous substrate is expected. If drops still stay, it is non-porous.',
    does: ['grind'],
    lifts: 'room.tests.drop-absorption',
    source: 'ASTM F3191; common practice',
  }),
  rule({
    id: 'scratch-crumbles',
    title: 'crumbling surface',
    reads: 'the weakest scratch of the last visit crumbles',
    verdict: 'hold',
    when: (facts) => scratched(facts, ['crumbles']),
    text: () => 'The surface crumbles under a nail. Remove it down to a sound layer and test again.',
    holds: ['pour'],
    does: ['grind'],
    lifts: 'room.tests.scratch',
    source: 'ASTM F710: sound; scratch by nail, common practice',
  }),
  rule({
    id: 'scratch-weak',
    title: 'soft surface',
    reads: 'the weakest scratch of the last visit scores or dusts',
    when: (facts) => scratched(facts, ['scores', 'dusts']),
    text: () => 'The surface is soft. Abrade it, vacuum, and test again.',
    does: ['grind'],
    lifts: 'room.tests.scratch',
    source: 'ASTM F710: sound; scratch by nail, common practice',
  }),
  rule({
    id: 'scratch-firm',
    title: 'firm surface',
    reads: 'the weakest scratch of the last visit is firm',
    verdict: 'go',
    when: (facts) => scratched(facts, ['firm']),
    text: () => 'The surface is firm under a nail.',
    lifts: 'room.tests.scratch',
    source: 'scratch by nail, common practice',
  }),
  rule({
    id: 'pull-weak',
    title: 'weak surface',
    reads: 'the weakest pull-off of the last visit is under the minimum tensile bond and failed in the substrate',
    verdict: 'hold',
    when: (facts) => pulls(facts, 'weak'),
    text: (match, w) =>
      `Tensile bond is ${w.strength(match.stressPa)}. The minimum is ${w.strength(match.leastPa)}. Remove the surface down to a sound layer and test again.`,
    holds: ['pour'],
    does: ['grind'],
    lifts: 'room.tests.pull-off',
    source: 'ASTM C1583; 100 psi under flooring, 200 psi for toppings and ASTM F3010 systems, data sheet first',
  }),
  rule({
    id: 'pull-unproved',
    title: 'pull-off without a result',
    reads: 'the weakest pull-off of the last visit is under the minimum because the adhesive failed',
    when: (facts) => pulls(facts, 'not-proved'),
    text: (match, w) => `The adhesive failed at ${w.strength(match.stressPa)}, so the substrate has shown no more than that. Test again.`,
    holds: ['pour'],
    lifts: 'room.tests.pull-off',
    source: 'ASTM C1583',
  }),
  rule({
    id: 'pull-strong',
    title: 'tensile bond',
    reads: 'the weakest pull-off of the last visit reaches the minimum tensile bond',
    verdict: 'go',
    when: (facts) => pulls(facts, 'strong'),
    text: (match, w) => `Tensile bond is ${w.strength(match.stressPa)}. The minimum is ${w.strength(match.leastPa)}.`,
    lifts: 'room.tests.pull-off',
    source: 'ASTM C1583; 100 psi under flooring, 200 psi for toppings and ASTM F3010 systems, data sheet first',
  }),
  rule({
    id: 'ph-outside',
    title: 'surface pH',
    reads: `a pH of the last visit is under ${PH_WITHIN.least} or over ${PH_WITHIN.most}, under glued flooring`,
    when: (facts) => (facts.demand?.glued === true ? phs(facts, false) : []),
    text: (match, w) =>
      `pH is ${w.number(match.ph, 1)}, outside ${PH_WITHIN.least} to ${PH_WITHIN.most}. The adhesive touches the new surface: test that again before gluing.`,
    holds: ['cover'],
    lifts: 'room.tests.surface-ph',
    source: 'ASTM F710, now ASTM F3441; many manufacturers give 9 as the maximum',
  }),
  rule({
    id: 'ph-within',
    title: 'surface pH',
    reads: `every pH of the last visit is from ${PH_WITHIN.least} to ${PH_WITHIN.most}`,
    verdict: 'go',
    when: (facts) => phs(facts, true),
    text: (match, w) => `pH is ${w.number(match.ph, 1)}, within ${PH_WITHIN.least} to ${PH_WITHIN.most}.`,
    lifts: 'room.tests.surface-ph',
    source: 'ASTM F710, now ASTM F3441; many manufacturers give 9 as the maximum',
  }),
];

/** The rows. */
export const SURFACE_RULES: readonly Rule[] = [...LAYERS, ...LOOK_RULES, ...SURFACES, ...JOINT_RULES];
