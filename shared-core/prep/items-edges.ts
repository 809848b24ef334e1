/** Lines that keep the pour in the room and off the walls. */
import type { Fixture } from '../book/layer.ts';
import { formatListAnd } from '../measure/list.ts';
import { isDammed } from '../plan/dammed-openings.ts';
import { hasDrain, isPouredOn } from '../substrate/floor-facts.ts';
import { isWood } from '../substrate/layer-words.ts';
import { whose } from '../substrate/whose-figure.ts';
import { meters, type PrepDraft, type PrepInput } from './prep-input.ts';
import { hoursFor } from './task-hours.ts';

/** Fixtures to seal off from the mix, with their names within a sentence. */
const DAMMED: Readonly<Partial<Record<Fixture, string>>> = {
  toilet: 'the toilet flange',
  'tub-or-shower': 'the tub or shower',
  'floor-register': 'floor registers and returns',
  'floor-outlet': 'floor outlets',
  hatch: 'the hatch',
  cleanout: 'the cleanout',
  'sliding-door': 'the sliding door track',
};

/** Isolation strip, dams, feather edges, drains, fixtures, gaps, openings that stay. Termites and radon: common practice, no source; local codes differ. */
export function edgeItems(input: PrepInput): readonly PrepDraft[] {
  const { facts } = input;
  const wood = isPouredOn(facts, isWood);
  const items: PrepDraft[] = [
    {
      key: 'isolation-strip',
      phase: 'edges',
      what: 'Set the perimeter isolation strip at walls, columns, tub and fixed cabinets',
      why: 'the underlayment must not touch the walls. Trim it flush only after the pour',
      amount: meters(input.perimeterM),
      hours: input.perimeterM === null ? null : hoursFor('isolationStrip', input.perimeterM),
    },
  ];
  const openings = (areDammed: boolean) =>
    facts.openings.filter((opening) => isDammed(opening) === areDammed).toSorted((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0));
  const width = (edges: readonly { readonly widthM: number }[]): number =>
    edges
      .map((opening) => opening.widthM)
      .toSorted((a, b) => a - b)
      .reduce((sum, widthM) => sum + widthM, 0);
  const dams = openings(true);
  if (dams.length > 0)
    items.push({
      key: 'dams',
      phase: 'edges',
      what: dams.length === 1 ? 'Dam 1 opening' : `Dam ${dams.length} openings`,
      why: 'the mix runs out of every gap',
      amount: meters(width(dams)),
      hours: hoursFor('dam', dams.length),
      on: dams.map((opening) => opening.id),
    });
  const feathers = openings(false);
  if (feathers.length > 0)
    items.push({
      key: 'feathers',
      phase: 'edges',
      what: feathers.length === 1 ? 'Mark the feather edge' : `Mark ${feathers.length} feather edges`,
      why: `end the pour at the ${whose(facts.product?.powder.liftM)} minimum thickness, and feather to zero with patch by hand`,
      amount: meters(width(feathers)),
      hours: hoursFor('feather', feathers.length),
      on: feathers.map((opening) => opening.id),
    });
  if (hasDrain(facts))
    items.push({
      key: 'drains',
      phase: 'edges',
      what: 'Dam and cap the drain',
      why: 'cement in a drain stays there',
      on: facts.marks
        .filter((mark) => mark.kind === 'drain')
        .map((mark) => mark.id)
        .toSorted(),
    });
  const dammed = facts.circumstances.fixtures.flatMap((fixture) => DAMMED[fixture] ?? []).toSorted();
  const isLive = facts.circumstances.fixtures.includes('floor-outlet');
  if (dammed.length > 0)
    items.push({
      key: 'fixtures',
      phase: 'edges',
      what: `${isLive ? 'With the breaker of the outlets off and locked out, dam' : 'Dam'} and seal ${formatListAnd(dammed)}`,
      why: 'keep the mix out, and leave access',
      amount: { value: dammed.length, unit: 'place' },
      cautions: isLive ? ['electricity'] : [],
      hours: hoursFor('sealGap', dammed.length),
    });
  const gaps = facts.marks.filter((mark) => mark.kind === 'gap' || mark.kind === 'pipe');
  if (gaps.length > 0 || wood)
    items.push({
      key: 'gaps',
      phase: 'edges',
      what: wood ? 'Seal gaps, panel joints, knots and pipe holes in the subfloor' : 'Sleeve pipes and seal gaps',
      why: wood && facts.isWoodFramed ? 'the mix runs through to the space below' : 'the mix runs through every one',
      amount: gaps.length > 0 ? { value: gaps.length, unit: 'place' } : null,
      hours: gaps.length > 0 ? hoursFor('sealGap', gaps.length) : null,
      on: gaps.map((mark) => mark.id).toSorted(),
    });
  if (facts.kept.some((layer) => layer.material === 'concrete-on-ground'))
    items.push({
      key: 'keep-open',
      phase: 'edges',
      what: 'Keep termite inspection gaps, bath traps, sumps and radon pipes open',
      why: 'where the house has them. Ask the pest control firm before drilling a treated slab',
      holdsPour: false,
    });
  return items;
}
