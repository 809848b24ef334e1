/** Rules about what the visual inspection notes on the surface that is poured on. */
import { type FloorFacts, isStrippedWet } from './floor-facts.ts';
import { isDense, isDropTested, keepMachinesOff, machineOff, STRIP_WET } from './layer-words.ts';
import { isOverHeat } from './radiant.ts';
import { coatTasks, OFF_BY_HAND } from './surface-coat.ts';
import { type Case, once, type Rule, rule, type RuleRow, type Task } from './rule.ts';

type Look = FloorFacts['looks'][number];
type LookRow = {
  readonly is: Look;
  readonly title: string;
  readonly text: string | ((exposed: FloorFacts['exposed']) => string);
  readonly does?: readonly Task[];
};
/** The end of a text where drops are tested on the surface. */
const dropAgain = (exposed: FloorFacts['exposed']): string =>
  exposed.length === 0 || exposed.some(({ layer }) => isDropTested(layer.material)) ? ' Repeat the water drop test.' : '';
/**
 * What the visual inspection noted. Where the surface may contain asbestos, one rule replaces the others: it is cleaned, never abraded.
 * Other resilient flooring is stripped wet.
 */
const look = ({ is, title, text, does = [] }: LookRow): Rule => {
  const row: RuleRow<Case> = {
    id: `surface-${is}`,
    title,
    reads: `the visual inspection notes ${is.replace('-', ' ')}`,
    when: (facts) => once(facts.looks.includes(is) && !facts.surfaceMayHoldAsbestos),
    text: (_match, _w, facts) => {
      const words = typeof text === 'string' ? text : text(facts.exposed);
      if (!does.includes('grind')) return words;
      if (isOverHeat(facts)) return `Nothing bonds to it. ${OFF_BY_HAND}`;
      return isStrippedWet(facts) ? `Nothing bonds to it. Strip it ${STRIP_WET}.` : `${words}${keepMachinesOff(facts.exposed)}`;
    },
    does: (facts) => does.flatMap((task) => (task === 'grind' ? coatTasks(facts) : [task])),
    lifts: 'room.tests.surface-look',
    source: 'ASTM F710: clean, smooth, sound; method is common practice',
  };
  return rule(row);
};

/** The rows, with the one that replaces the others first. */
export const LOOK_RULES: readonly Rule[] = [
  rule({
    id: 'asbestos-surface',
    title: 'cleaning a surface that may contain asbestos',
    reads: 'the surface poured on may contain asbestos, and the inspection notes something on it',
    when: (facts) => once(facts.surfaceMayHoldAsbestos && facts.looks.some((seenLook) => seenLook !== 'sound-clean')),
    text: () =>
      'Use only a HEPA vacuum and a damp cloth. Wax is stripped wet, with a low-abrasion pad under 300 rpm, by a licensed abatement contractor. Do not abrade.',
    lifts: 'room.tests.surface-look',
    source: '29 CFR 1926.1101(l)(3)',
  }),
  look({
    is: 'dusty',
    title: 'dust',
    text: 'Primer will not bond to dust. Use a HEPA vacuum, then check with a dark cloth or clear tape. Damp concrete must dry again.',
  }),
  look({
    is: 'glossy',
    title: 'glossy surface',
    text: (exposed) => `Nothing bonds to gloss. Abrade it to a dull, sound face.${dropAgain(exposed)}`,
    does: ['grind'],
  }),
  look({
    is: 'oily',
    title: 'oil or grease',
    text: (exposed) =>
      `Oil comes back through any pour. ${machineOff('it', exposed)}.${exposed.length > 0 && exposed.every(({ layer }) => isDense(layer.material)) ? '' : ' Use no solvent.'}`,
    does: ['grind'],
  }),
  look({
    is: 'waxed',
    title: 'wax',
    text: (exposed) =>
      `Nothing bonds to wax. Remove it mechanically. Strippers and acid leave residue that breaks the bond.${dropAgain(exposed)}`,
    does: ['grind'],
  }),
  look({
    is: 'painted',
    title: 'paint',
    text: 'Underlayment bonds no better than the paint under it. Remove the paint down to the bare substrate.',
    does: ['grind', 'disturb-paint'],
  }),
  look({
    is: 'curing-compound',
    title: 'curing compound',
    text: 'Curing compound blocks primer. Grind it off, then repeat the water drop test.',
    does: ['grind'],
  }),
  look({
    is: 'efflorescence',
    title: 'salts',
    text: 'White salts mean water moves through the floor. Remove them with a HEPA vacuum and brush head, find the water, test moisture again.',
  }),
  look({
    is: 'rough',
    title: 'rough surface',
    text: 'A rough surface takes more material than its depth shows. Raise the texture allowance.',
  }),
];
