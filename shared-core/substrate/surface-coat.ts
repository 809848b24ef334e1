/** What takes a coat (paint, wax, gloss, oil, dirt in a contaminated place) off each part of the surface. */
import { type ExposedFacts, type FloorFacts, type LayerFacts, mayHoldAsbestos } from './floor-facts.ts';
import { isNeverGround, isWood } from './layer-words.ts';
import { isOverHeat } from './radiant.ts';
import type { Task } from './rule.ts';

/** By machine, stripped wet by the own crew, stripped wet by a licensed abatement contractor, or by that contractor in his own way. */
export type CoatWork = 'machine' | 'strip' | 'strip-suspect' | 'abate';
const WORKS: readonly CoatWork[] = ['machine', 'strip', 'strip-suspect', 'abate'];

/** @param noMachine whether a part of the floor may contain asbestos: then no machine runs on the rest */
function coatWork(part: ExposedFacts, noMachine: boolean): CoatWork {
  if (isNeverGround(part.layer.material)) return mayHoldAsbestos(part) ? 'strip-suspect' : 'strip';
  return noMachine ? 'abate' : 'machine';
}

/** How a coat comes off over heat. Common practice, no source. */
export const OFF_BY_HAND = 'Take it off by hand: no machine runs over the heat.';

/** Parts of the surface that are worked in one way. */
export type CoatParts = { readonly work: CoatWork; readonly parts: readonly ExposedFacts[] };

type Surface = Pick<FloorFacts, 'exposed' | 'circumstances' | 'layers' | 'heat' | 'isPouredOver'>;

/**
 * Parts of the surface by the way a coat comes off them. A surface with no layers recorded counts as worked by machine.
 * @param floor the whole surface: no machine runs beside a part that may contain asbestos
 */
export function coatParts({ exposed }: Pick<FloorFacts, 'exposed'>, parts: readonly ExposedFacts[] = exposed): readonly CoatParts[] {
  if (parts.length === 0) return [{ work: 'machine', parts: [] }];
  const noMachine = exposed.some(mayHoldAsbestos);
  return WORKS.map((work) => ({ work, parts: parts.filter((part) => coatWork(part, noMachine) === work) })).filter(
    (group) => group.parts.length > 0,
  );
}

/**
 * The work that takes a coat off a surface: wood is sanded, all else is ground, and over heat it is sanded by hand. None where no machine
 * may work for what the surface is.
 */
export function coatTasks(floor: Surface, parts: readonly ExposedFacts[] = floor.exposed): readonly Task[] {
  const machined = coatParts(floor, parts).find(({ work }) => work === 'machine')?.parts;
  if (machined === undefined) return [];
  if (isOverHeat(floor)) return ['sand'];
  const onWood = machined.filter(({ layer }) => isWood(layer.material)).length;
  return [...(machined.length === 0 || onWood < machined.length ? (['grind'] as const) : []), ...(onWood > 0 ? (['sand'] as const) : [])];
}

/**
 * The work that takes paint or sealer off these parts. Stripping paint that may contain asbestos waits as scraping does: it disturbs
 * the paint itself.
 */
export function paintTasks(floor: Surface, paint: LayerFacts, parts: readonly ExposedFacts[]): readonly Task[] {
  const machine = coatTasks(floor, parts);
  return [...(machine.length === 0 && mayHoldAsbestos(paint) ? (['scrape'] as const) : machine), 'disturb-paint'];
}
