/** The prep checklist, derived from the substrate, the findings, the plan and the product. Never a fixed list. */
import { edgeItems } from './items-edges.ts';
import { leadItems } from './items-lead.ts';
import { restItems } from './items-rest.ts';
import { pourDayItems, primeItems } from './items-prime.ts';
import { soundItems, surfaceItems } from './items-surface.ts';
import { protectItems, removalItems } from './removal-items.ts';
import { PHASES, type PrepItem } from './prep-item.ts';
import { item, type PrepInput } from './prep-input.ts';

/**
 * Derives the checklist.
 *
 * The result does not depend on the order of entry: lines are sorted by phase, then by the order of work in the phase.
 */
export function prepChecklist(input: PrepInput): readonly PrepItem[] {
  const work = [
    ...protectItems(input),
    ...removalItems(input),
    ...soundItems(input),
    ...surfaceItems(input),
    ...edgeItems(input),
    ...restItems(input),
    ...primeItems(input),
    ...pourDayItems(input),
  ].map(item);
  const { before, after } = leadItems(input, work);
  return [...before.map(item), ...work, ...after.map(item)].toSorted((a, b) => PHASES.indexOf(a.phase) - PHASES.indexOf(b.phase));
}
