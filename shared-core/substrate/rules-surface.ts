/** Rules about the surface that is poured on: sound, clean, and open enough to hold. */
import type { Layer } from '../book/layer.ts';
import type { Mark } from '../book/plan-fields.ts';
import type { FloorFacts } from './floor-facts.ts';
import { isAdhesive, isNoSurface, isSmooth, isSoft, LAYER_WORDS } from './layer-words.ts';
import { once, type Rule, rule, type RuleRow, type Case } from './rule.ts';
import { isPhWithin, PH_WITHIN, PULL_OFF_LEAST_PA, pullOffAnswer } from './surface-strength.ts';
import { lastVisit, type TestOf } from './tests-of.ts';

type LayerCase = { readonly key: string; readonly layer: Layer };
type MarkCase = { readonly key: string; readonly mark: Mark };

const kept = (facts: FloorFacts, applies: (layer: Layer, place: number) => boolean): readonly LayerCase[] =>
  facts.kept.filter(applies).map((layer) => ({ key: layer.id, layer }));
const name = ({ layer }: LayerCase): string => LAYER_WORDS[layer.material];
const marked = (facts: FloorFacts, applies: (mark: Mark) => boolean): readonly MarkCase[] =>
  facts.marks.filter(applies).map((mark) => ({ key: mark.id, mark }));
const isLine = (mark: Mark): boolean => mark.kind === 'crack' || mark.kind === 'joint';
type Scratch = TestOf<'scratch'>['result'];
const WORST_FIRST: readonly Scratch[] = ['crumbles', 'dusts', 'scores', 'firm'];
/** The weakest place of the last visit stands for the floor. */
const scratched = (facts: FloorFacts, results: readonly Scratch[]): readonly Case[] => {
  const visit = lastVisit(facts.recent, 'scratch');
  const worst = WORST_FIRST.find((result) => visit.some((test) => test.result === result));
  const test = visit.find((one) => one.result === worst);
  return test !== undefined && results.includes(test.result) ? [{ testId: test.id }] : [];
};
const pulls = (facts: FloorFacts, answer: ReturnType<typeof pullOffAnswer>): readonly (Case & { readonly stressPa: number })[] => {
  const weakest = lastVisit(facts.recent, 'pull-off').toSorted((a, b) => a.stressPa - b.stressPa)[0];
  return weakest !== undefined && pullOffAnswer(weakest) === answer ? [{ testId: weakest.id, stressPa: weakest.stressPa }] : [];
};
const phs = (facts: FloorFacts, within: boolean): readonly (Case & { readonly ph: number })[] => {
  const visit = lastVisit(facts.recent, 'surface-ph');
  const test = visit.find((one) => !isPhWithin(one.ph)) ?? visit[0];
  return test !== undefined && isPhWithin(test.ph) === within ? [{ testId: test.id, ph: test.ph }] : [];
};

type Look = FloorFacts['looks'][number];
const look = (is: Look, title: string, says: string): Rule => {
  const row: RuleRow<Case> = {
    id: `surface-${is}`,
    title,
    reads: `the surface is noted as ${is.replace('-', ' ')}`,
    verdict: 'go-with-work',
    when: (facts) => once(facts.looks.includes(is)),
    says: () => says,
    holds: [],
    lifts: 'room.tests.surface-look',
    source: 'ASTM F710: clean, smooth, sound; how, common practice',
  };
  return rule(row);
};

/** The rows. */
export const SURFACE_RULES: readonly Rule[] = [
  rule({
    id: 'no-layers',
    title: 'what the floor is made of',
    reads: 'no layer is described, or none that stays',
    verdict: 'hold',
    when: (facts) => once(facts.top === null),
    says: () => 'Nothing is written about what the pour will lie on. Add the layers from the top down to the structure.',
    holds: ['pour'],
    lifts: 'room.layers',
    source: 'common practice',
  }),
  rule({
    id: 'no-surface',
    title: name,
    reads: 'the uppermost layer that stays is earth, gravel, bare joists or heating pipes',
    verdict: 'hold',
    when: (facts) => kept(facts, (layer, place) => place === 0 && isNoSurface(layer.material)),
    says: (found: LayerCase) => `A thin pour cannot lie on ${name(found)}. It needs a sound floor beneath it first.`,
    holds: ['pour'],
    lifts: 'room.layers',
    source: 'ASTM F2873 scope: wood, panels, concrete, bonded floors',
  }),
  rule({
    id: 'layer-weak',
    title: (found: LayerCase) => `weak ${name(found)}`,
    reads: 'a layer that stays is weak',
    verdict: 'hold',
    when: (facts) => kept(facts, (layer) => layer.sound === 'weak'),
    says: () => 'A pour is no stronger than what it lies on. Take it out or down to sound ground, then write it as sound.',
    holds: ['pour'],
    lifts: (found) => `room.layers.${found.key}.sound`,
    source: 'ASTM F710: sound',
  }),
  rule({
    id: 'layer-loose',
    title: (found: LayerCase) => `loose ${name(found)}`,
    reads: 'a layer that stays is loose',
    verdict: 'hold',
    when: (facts) => kept(facts, (layer) => layer.sound === 'loose'),
    says: () => 'What moves under a pour cracks it. Refasten it or take it out, then write it as sound.',
    holds: ['pour'],
    lifts: (found) => `room.layers.${found.key}.sound`,
    source: 'ASTM F710: sound',
  }),
  rule({
    id: 'layer-unsounded',
    title: (found: LayerCase) => `${name(found)}, not sounded`,
    reads: 'nobody has written whether the uppermost layer that stays is sound',
    verdict: 'go-with-work',
    when: (facts) => kept(facts, (layer, place) => place === 0 && layer.sound === 'unknown'),
    says: () => 'Tap it all over and listen for hollow places. Write whether it is sound; the pour waits for that.',
    holds: ['pour'],
    lifts: (found) => `room.layers.${found.key}.sound`,
    source: 'common practice',
  }),
  rule({
    id: 'soft-layer',
    title: name,
    reads: 'carpet, pad, felt, floating plank or sheet flooring stays under the pour',
    verdict: 'hold',
    when: (facts) => kept(facts, (layer) => isSoft(layer.material)),
    says: (found: LayerCase) => `A pour over ${name(found)} breaks, for it gives way. Take it out, or ask the product’s maker in writing.`,
    holds: ['pour'],
    lifts: (found) => `room.layers.${found.key}.fate`,
    source: 'common practice',
  }),
  rule({
    id: 'particleboard',
    title: 'particleboard',
    reads: 'particleboard stays',
    verdict: 'hold',
    when: (facts) => kept(facts, (layer) => layer.material === 'particleboard'),
    says: () => 'Particleboard swells with the water of the pour and lets go. Take it out, or have it covered with plywood first.',
    holds: ['pour'],
    lifts: (found) => `room.layers.${found.key}.fate`,
    source: 'common practice',
  }),
  rule({
    id: 'adhesive-stays',
    title: name,
    reads: 'adhesive residue stays at the top',
    verdict: 'go-with-work',
    when: (facts) => kept(facts, (layer, place) => place === 0 && isAdhesive(layer.material)),
    says: () =>
      'Only what no scraper lifts may stay, and only if the product’s sheet names this residue. Its age decides first whether it may be touched.',
    holds: [],
    lifts: (found) => `room.layers.${found.key}.fate`,
    source: 'common practice; the product’s sheet',
  }),
  rule({
    id: 'smooth-top',
    title: (found: LayerCase) => `smooth ${name(found)}`,
    reads: 'tile, stone, terrazzo, metal or paint is poured on',
    verdict: 'go-with-work',
    when: (facts) => kept(facts, (layer, place) => place === 0 && isSmooth(layer.material)),
    says: () => 'Nothing keys into it. Degrease it, abrade it, and use the primer its sheet gives for closed floors.',
    holds: [],
    lifts: (found) => `room.layers.${found.key}.material`,
    source: 'common practice; the product’s sheet',
  }),
  look('dusty', 'dust', 'Primer on dust holds the dust. Vacuum, wipe with a damp hand, vacuum again until the hand stays clean.'),
  look('glossy', 'glossy surface', 'Nothing keys into gloss. Abrade it to a dull, open face.'),
  look(
    'oily',
    'oil or grease',
    'Oil comes back through any pour. Take it out by machine, not by solvent, and let drops of water show that the floor drinks again.',
  ),
  look('waxed', 'wax', 'Nothing holds on wax. Strip it, rinse, and test with drops of water.'),
  look('painted', 'paint', 'A pour holds no better than the paint. Grind it off where its age allows, down to the bare floor.'),
  look('curing-compound', 'curing compound', 'It keeps primer out. Grind it off, then test with drops of water.'),
  look('efflorescence', 'salts', 'White salts mean water moves through the floor. Brush them off dry, and read the slab’s moisture again.'),
  look('rough', 'rough surface', 'A rough face takes more material than its depth says. Raise the allowance for texture in the level.'),
  rule({
    id: 'scratch-crumbles',
    title: 'crumbling surface',
    reads: 'the weakest scratch of the last visit crumbles',
    verdict: 'hold',
    when: (facts) => scratched(facts, ['crumbles']),
    says: () => 'It crumbles under a nail. Take it down to sound ground and scratch again, or ask the product’s maker about a hardener.',
    holds: ['pour'],
    lifts: 'room.tests.scratch',
    source: 'ASTM F710: sound; scratch by nail, common practice',
  }),
  rule({
    id: 'scratch-weak',
    title: 'soft surface',
    reads: 'the weakest scratch of the last visit scores or dusts',
    verdict: 'go-with-work',
    when: (facts) => scratched(facts, ['scores', 'dusts']),
    says: () => 'The skin is soft. Abrade it away, vacuum, scratch again.',
    holds: [],
    lifts: 'room.tests.scratch',
    source: 'ASTM F710: sound; scratch by nail, common practice',
  }),
  rule({
    id: 'scratch-firm',
    title: 'firm surface',
    reads: 'the weakest scratch of the last visit is firm',
    verdict: 'go',
    when: (facts) => scratched(facts, ['firm']),
    says: () => 'Firm under the nail.',
    holds: [],
    lifts: 'room.tests.scratch',
    source: 'scratch by nail, common practice',
  }),
  rule({
    id: 'pull-weak',
    title: 'weak surface',
    reads: 'the weakest pull-off of the last visit is under 200 psi (1.4 N/mm²) and the glue held',
    verdict: 'hold',
    when: (facts) => pulls(facts, 'weak'),
    says: (found, w) =>
      `It let go at ${w.strength(found.stressPa)}; ${w.strength(PULL_OFF_LEAST_PA)} is wanted. Take it down to sound ground and pull again.`,
    holds: ['pour'],
    lifts: 'room.tests.pull-off',
    source: 'ASTM C1583; 200 psi common practice, from memory',
  }),
  rule({
    id: 'pull-unproved',
    title: 'pull-off without an answer',
    reads: 'the weakest pull-off of the last visit is under 200 psi because the glue let go',
    verdict: 'go-with-work',
    when: (facts) => pulls(facts, 'not-proved'),
    says: (found, w) => `The glue let go at ${w.strength(found.stressPa)}, so the floor has shown no more than that. Pull again.`,
    holds: ['pour'],
    lifts: 'room.tests.pull-off',
    source: 'ASTM C1583',
  }),
  rule({
    id: 'pull-strong',
    title: 'strength of the surface',
    reads: 'the weakest pull-off of the last visit reaches 200 psi (1.4 N/mm²)',
    verdict: 'go',
    when: (facts) => pulls(facts, 'strong'),
    says: (found, w) => `It held ${w.strength(found.stressPa)}; ${w.strength(PULL_OFF_LEAST_PA)} is wanted.`,
    holds: [],
    lifts: 'room.tests.pull-off',
    source: 'ASTM C1583; 200 psi common practice, from memory',
  }),
  rule({
    id: 'ph-outside',
    title: 'alkalinity',
    reads: `a pH of the last visit is under ${PH_WITHIN.least} or over ${PH_WITHIN.most}, under a glued covering`,
    verdict: 'go-with-work',
    when: (facts) => (facts.demand?.glued === true ? phs(facts, false) : []),
    says: (found, w) =>
      `pH ${w.number(found.ph, 1)} lies outside ${PH_WITHIN.least} to ${PH_WITHIN.most}, where adhesives suffer. Test the new floor again before anything is glued to it.`,
    holds: ['cover'],
    lifts: 'room.tests.surface-ph',
    source: 'ASTM F710; upper limit from memory',
  }),
  rule({
    id: 'ph-within',
    title: 'alkalinity',
    reads: `every pH of the last visit is from ${PH_WITHIN.least} to ${PH_WITHIN.most}`,
    verdict: 'go',
    when: (facts) => phs(facts, true),
    says: (found, w) => `pH ${w.number(found.ph, 1)}, within ${PH_WITHIN.least} to ${PH_WITHIN.most}.`,
    holds: [],
    lifts: 'room.tests.surface-ph',
    source: 'ASTM F710; upper limit from memory',
  }),
  rule({
    id: 'joint-moves',
    title: (found: MarkCase) => `the ${found.mark.kind} moves`,
    reads: 'a crack or joint moves',
    verdict: 'go-with-work',
    when: (facts) => marked(facts, (mark) => isLine(mark) && mark.moves === 'moving'),
    says: (found) => `Carry the ${found.mark.kind} up through the new floor; a pour across it cracks there.`,
    holds: [],
    lifts: (found) => `room.marks.${found.key}.moves`,
    source: 'ASTM F710: only non-moving joints are filled',
  }),
  rule({
    id: 'joint-unknown',
    title: (found: MarkCase) => `${found.mark.kind}, still or moving`,
    reads: 'nobody has written whether a crack or joint moves',
    verdict: 'go-with-work',
    when: (facts) => marked(facts, (mark) => isLine(mark) && mark.moves === 'unknown'),
    says: (found) =>
      `Watch whether the ${found.mark.kind} moves: a pencil line across it, or a step between its sides. Until then it counts as moving.`,
    holds: ['pour'],
    lifts: (found) => `room.marks.${found.key}.moves`,
    source: 'ASTM F710; common practice',
  }),
  rule({
    id: 'joint-still',
    title: (found: MarkCase) => `still ${found.mark.kind}`,
    reads: 'a crack or joint is still',
    verdict: 'go-with-work',
    when: (facts) => marked(facts, (mark) => isLine(mark) && mark.moves === 'still'),
    says: () => 'Rake it out, vacuum it and fill it before priming.',
    holds: [],
    lifts: (found) => `room.marks.${found.key}.moves`,
    source: 'ASTM F710: non-moving joints and cracks are filled',
  }),
  rule({
    id: 'hollow',
    title: 'hollow place',
    reads: 'a hollow or loose place is drawn on the plan',
    verdict: 'go-with-work',
    when: (facts) => marked(facts, (mark) => mark.kind === 'hollow' || mark.kind === 'loose'),
    says: () =>
      'It sounds hollow: open it up, take out what is loose, make it good. If it runs under most of the room, take the layer out.',
    holds: [],
    lifts: (found) => `room.marks.${found.key}`,
    source: 'ASTM F710: sound; common practice',
  }),
  rule({
    id: 'contaminated',
    title: 'contaminated place',
    reads: 'a contaminated place is drawn on the plan',
    verdict: 'go-with-work',
    when: (facts) => marked(facts, (mark) => mark.kind === 'contaminated'),
    says: () => 'Nothing holds there. Cut it out or take it off by machine, and let a drop of water show that the floor drinks.',
    holds: [],
    lifts: (found) => `room.marks.${found.key}`,
    source: 'ASTM F710: clean; common practice',
  }),
];
