/** What takes a coat (paint, wax, gloss, oil, dirt in a contaminated place) off each part of the surface. */
import { type ExposedFacts, type LayerFacts, mayHoldAsbestos } from './floor-facts.ts';
import { isNeverGround, isWood } from './layer-words.ts';
import type { Task } from './rule.ts';

/** By machine, stripped wet by the own crew, stripped wet by trained people, or by an abatement contractor in his own way. */
export type CoatWork = 'machine' | 'strip' | 'strip-suspect' | 'abate';
const WORKS: readonly CoatWork[] = ['machine', 'strip', 'strip-suspect', 'abate'];

function coatWork(part: ExposedFacts): CoatWork {
  const isSuspect = mayHoldAsbestos(part);
  if (isNeverGround(part.layer.material)) return isSuspect ? 'strip-suspect' : 'strip';
  return isSuspect ? 'abate' : 'machine';
}

/** Parts of the surface that are worked in one way. */
export type CoatParts = { readonly work: CoatWork; readonly parts: readonly ExposedFacts[] };

/** Parts of the surface by the way a coat comes off them. A surface with no layers recorded counts as worked by machine. */
export function coatParts(surface: readonly ExposedFacts[]): readonly CoatParts[] {
  if (surface.length === 0) return [{ work: 'machine', parts: [] }];
  return WORKS.map((work) => ({ work, parts: surface.filter((part) => coatWork(part) === work) })).filter(({ parts }) => parts.length > 0);
}

/** The machine work that takes a coat off a surface: wood is sanded, all else is ground. None where no machine may work. */
export function coatTasks(surface: readonly ExposedFacts[]): readonly Task[] {
  const machined = coatParts(surface).find(({ work }) => work === 'machine')?.parts;
  if (machined === undefined) return [];
  const onWood = machined.filter(({ layer }) => isWood(layer.material)).length;
  return [...(machined.length === 0 || onWood < machined.length ? (['grind'] as const) : []), ...(onWood > 0 ? (['sand'] as const) : [])];
}

/**
 * The work that takes paint or sealer off these parts. Stripping paint that may contain asbestos waits as scraping does: it disturbs
 * the paint itself.
 */
export function paintTasks(paint: LayerFacts, parts: readonly ExposedFacts[]): readonly Task[] {
  const machine = coatTasks(parts);
  return [...(machine.length === 0 && mayHoldAsbestos(paint) ? (['scrape'] as const) : machine), 'disturb-paint'];
}
