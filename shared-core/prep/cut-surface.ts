/** Words, cautions and amounts of lines that cut or clean parts of the surface. */
import type { Mark } from '../book/plan-fields.ts';
import { formatListAnd } from '../measure/list.ts';
import type { CautionId } from '../substrate/cautions.ts';
import { isAllWood } from '../substrate/exposed-layers.ts';
import { type ExposedFacts, type FloorFacts, isAbated, isUntestedAtFace, type LayerFacts, mayHoldLead } from '../substrate/floor-facts.ts';
import { isWithoutSilica, isWood, LAYER_WORDS } from '../substrate/layer-words.ts';
import { type meters, type PrepDraft } from './prep-input.ts';
import type { PrepItem } from './prep-item.ts';
import { timed, type TYPICAL_HOURS } from './task-hours.ts';

/** The end of a line that cuts what a lab should test first. */
export const AFTER_LAB = ', after a lab sample shows no asbestos';

/** Whether all of the surface is wood, so that nothing mineral is cut. */
export const onWood = (facts: FloorFacts): boolean => isAllWood(facts.exposed);
/** Names parts of the surface, within a sentence. */
export const namesOf = (parts: readonly ExposedFacts[]): string =>
  `the ${formatListAnd(parts.map(({ layer }) => LAYER_WORDS[layer.material]))}`;
/** Names the parts of the surface that a line is for; empty where it is for all of it. */
export const onlyOn = ({ exposed }: FloorFacts, parts: readonly ExposedFacts[]): string =>
  parts.length === exposed.length ? '' : `, only on ${namesOf(parts)}`;
/** What a machine may cut in these parts: the paint that was on them, too. */
const cutIn = ({ paintOnTop }: FloorFacts, parts: readonly LayerFacts[]): readonly LayerFacts[] => [...parts, ...paintOnTop];
/** What a line that cuts these parts waits for; empty where a lab need not see any of them. */
export const afterLab = (facts: FloorFacts, parts: readonly ExposedFacts[]): string =>
  cutIn(facts, parts).some((part) => isUntestedAtFace(part, facts)) ? AFTER_LAB : '';
/** What is known of asbestos in these parts: detected, or not ruled out. */
export const asbestosCaution = (facts: FloorFacts, parts: readonly LayerFacts[]): readonly CautionId[] => [
  ...(cutIn(facts, parts).some(isAbated) ? (['asbestos-found'] as const) : []),
  ...(cutIn(facts, parts).some((part) => isUntestedAtFace(part, facts)) ? (['asbestos'] as const) : []),
];
/** The row of OSHA's Table 1 for abrading these parts of the surface; null where none of them raises silica. */
export const dustOf = (parts: readonly ExposedFacts[]): PrepItem['dust'] =>
  parts.length > 0 && parts.every(({ layer }) => isWithoutSilica(layer.material)) ? null : 'hand-grinder';
/** Cautions of abrading a surface: silica where it is mineral, wood dust where it is wood, sparks where it is metal, asbestos and lead where it may hold them. */
export const abrasionCautions = (facts: FloorFacts, exposed: readonly ExposedFacts[]): readonly CautionId[] => [
  ...asbestosCaution(facts, exposed),
  ...(exposed.some(({ layer }) => isWood(layer.material)) ? (['wood-dust'] as const) : []),
  ...(dustOf(exposed) === null ? [] : (['silica'] as const)),
  ...(exposed.some(({ layer }) => layer.material === 'metal') ? (['sparks'] as const) : []),
  ...(cutIn(facts, exposed).some(mayHoldLead) ? (['lead'] as const) : []),
];

const ids = (marks: readonly Mark[]): readonly string[] => marks.map((mark) => mark.id).toSorted();
const sumOf = (marks: readonly Mark[], sizes: Readonly<Record<string, number>>): number | null =>
  marks.every((mark) => sizes[mark.id] !== undefined)
    ? marks
        .map((mark) => sizes[mark.id] ?? 0)
        .toSorted((a, b) => a - b)
        .reduce((sum, size) => sum + size, 0)
    : null;
/** How much is marked on the plan, its time, and which marks. */
export function marked(
  marks: readonly Mark[],
  work: keyof typeof TYPICAL_HOURS,
  unit: typeof meters,
  sizes: Readonly<Record<string, number>>,
): Pick<PrepDraft, 'amount' | 'hours' | 'on'> {
  const size = sumOf(marks, sizes);
  return { amount: unit(size), hours: timed(work, size), on: ids(marks) };
}
