/** Rules about marks on the plan: cracks, joints, hollow and contaminated spots. */
import type { Mark } from '../book/plan-fields.ts';
import { hasMovement } from '../plan/honored-marks.ts';
import { asbestosKept, type ExposedFacts, exposedWithin, type FloorFacts } from './floor-facts.ts';
import { keepMachinesOff, machineOff, STRIP_WET } from './layer-words.ts';
import { isOverHeat } from './radiant.ts';
import { type Rule, rule } from './rule.ts';
import { coatParts, coatTasks, OFF_BY_HAND } from './surface-coat.ts';

type MarkCase = { readonly key: string; readonly mark: Mark };

const marked = (facts: FloorFacts, applies: (mark: Mark) => boolean): readonly MarkCase[] =>
  facts.marks.filter(applies).map((mark) => ({ key: mark.id, mark }));
/** Whether cracks are filled as they are: a crack chaser would reach asbestos that stays, or heat. Common practice, no source. */
export const isFilledUnopened = (facts: FloorFacts): boolean => asbestosKept(facts).length > 0 || isOverHeat(facts);
/** How dirt comes off these parts of the surface. */
function dirtWords(facts: FloorFacts, parts: readonly ExposedFacts[]): string {
  const works = coatParts(facts, parts).map(({ work }) => work);
  if (works.includes('machine') && isOverHeat(facts)) return OFF_BY_HAND;
  if (works.includes('machine')) return `${machineOff('it', parts)}.${keepMachinesOff(parts)}`;
  return works.every((work) => work === 'strip')
    ? `Strip it ${STRIP_WET}.`
    : 'Where the surface may contain asbestos, only a licensed abatement contractor cleans it.';
}

/** The rows. */
export const JOINT_RULES: readonly Rule[] = [
  rule({
    id: 'expansion-joint',
    title: 'expansion or isolation joint',
    reads: 'an expansion or isolation joint is drawn on the plan',
    when: (facts) => marked(facts, (mark) => mark.kind === 'expansion-joint'),
    text: () => 'Honor it through the underlayment and the flooring. Never fill it, even if it looks dormant.',
    lifts: (match) => `room.marks.${match.key}`,
    source: 'ASTM F710: only control or non-moving joints are filled; TCNA EJ171 for tile',
  }),
  rule({
    id: 'joint-moves',
    title: (match: MarkCase) => `active ${match.mark.kind}`,
    reads: 'a crack or joint is active',
    when: (facts) => marked(facts, (mark) => hasMovement(mark) && mark.moves === 'moving'),
    text: (match) => `Carry the ${match.mark.kind} through the underlayment. A pour across it cracks there.`,
    lifts: (match) => `room.marks.${match.key}.moves`,
    source: 'ASTM F710: only non-moving joints are filled; ACI 224 on active cracks',
  }),
  rule({
    id: 'joint-unknown',
    title: (match: MarkCase) => `${match.mark.kind}, active or dormant`,
    reads: 'not recorded whether a crack or joint is active',
    when: (facts) => marked(facts, (mark) => hasMovement(mark) && mark.moves === 'unknown'),
    text: (match) =>
      `Find out whether the ${match.mark.kind} is active. A crack gauge over weeks shows it. A step shows old movement. Until then treat it as active.`,
    holds: ['pour'],
    lifts: (match) => `room.marks.${match.key}.moves`,
    source: 'ASTM F710; common practice',
  }),
  rule({
    id: 'joint-still',
    title: (match: MarkCase) => `dormant ${match.mark.kind}`,
    reads: 'a crack, control joint or construction joint is dormant',
    when: (facts) => marked(facts, (mark) => hasMovement(mark) && mark.moves === 'still'),
    text: (_match, _w, facts) =>
      isFilledUnopened(facts)
        ? 'Clean it with a HEPA vacuum and fill it by hand before priming. Do not open or cut it here.'
        : 'Open it with a crack chaser, vacuum it, and fill it before priming.',
    does: (facts) => (isFilledUnopened(facts) ? [] : ['grind']),
    lifts: (match) => `room.marks.${match.key}.moves`,
    source: 'ASTM F710: non-moving joints and cracks are filled',
  }),
  rule({
    id: 'hollow',
    title: 'hollow place',
    reads: 'a hollow or loose place is drawn on the plan',
    when: (facts) => marked(facts, (mark) => mark.kind === 'hollow' || mark.kind === 'loose'),
    text: (_match, _w, facts) =>
      asbestosKept(facts).length > 0
        ? 'A layer that stays may contain asbestos. Only a licensed abatement contractor opens the hollow place and removes what is loose.'
        : `Open the hollow place${isOverHeat(facts) ? ' by hand' : ''}, remove what is loose, and patch it. If most of the room is hollow, remove the layer.`,
    does: (facts) => (asbestosKept(facts).length > 0 ? [] : isOverHeat(facts) ? ['scrape'] : ['drill', 'scrape']),
    lifts: (match) => `room.marks.${match.key}`,
    source: 'ASTM F710: sound; common practice',
  }),
  rule({
    id: 'contaminated',
    title: 'contaminated place',
    reads: 'a contaminated place is drawn on the plan',
    when: (facts) => marked(facts, (mark) => mark.kind === 'contaminated'),
    text: ({ mark }, _w, facts) => `Nothing bonds there. ${dirtWords(facts, exposedWithin(facts, mark.points))}`,
    does: (facts, { mark }) => coatTasks(facts, exposedWithin(facts, mark.points)),
    lifts: (match) => `room.marks.${match.key}`,
    source: 'ASTM F710: clean; common practice',
  }),
];
