/** Lines from the moisture mitigation system and the primer to the first bag. */
import { formatInches } from '../measure/length-format.ts';
import { INCH_M } from '../measure/length-units.ts';
import { partAreaM2 } from '../substrate/exposed-layers.ts';
import { isNothingStuckIn, isPouredWood } from '../substrate/floor-facts.ts';
import { type SubstrateClass, substrateClass } from '../substrate/primed-substrate.ts';
import { isHeatBuried, isHeatDown, isHeatFoundLaid, isHeatInPour } from '../substrate/radiant.ts';
import { isTypicalFigure } from '../substrate/whose-figure.ts';
import { has, isCutByHand, isOverLift, type PrepDraft, type PrepInput, squareMeters } from './prep-input.ts';
import { hoursFor } from './task-hours.ts';

function dilution(waterParts: number): string {
  return waterParts === 0 ? 'undiluted' : `1 part primer to ${waterParts} of water`;
}

/** The moisture mitigation system with its sand, work between lifts, the primer, lath over primed wood, the test of heat. */
export function primeItems(input: PrepInput): readonly PrepDraft[] {
  const { facts } = input;
  const items: PrepDraft[] = [];
  const inches = (length: number): string => formatInches(length, input.units);
  if (facts.hasMoistureSystem)
    items.push(
      {
        key: 'moisture-system',
        phase: 'prime',
        afterLift: 'buried',
        what: 'Roll on the moisture mitigation system and check it with a wet film gauge',
        why: has(input, 'slab-humid-system', 'slab-emits-system')
          ? 'slab moisture is over the flooring’s limit'
          : 'chosen for this slab. Do cracks and joints first',
        amount: squareMeters(facts.areaM2),
        cautions: ['epoxy'],
        hours: facts.areaM2 === null ? null : hoursFor('moistureSystem', facts.areaM2),
      },
      {
        key: 'moisture-sand',
        phase: 'prime',
        afterLift: 'buried',
        what: isTopping(facts)
          ? 'Broadcast dry sand to refusal and vacuum the loose sand'
          : 'Broadcast dry sand to refusal and vacuum, or leave it for the non-porous primer, as its data sheet says',
        why: isTopping(facts) ? 'a wear surface keys into sanded epoxy' : 'primer and underlayment do not bond to smooth epoxy',
        amount: squareMeters(facts.areaM2),
        cautions: ['silica'],
        hours: facts.areaM2 === null ? null : hoursFor('vacuum', facts.areaM2),
      },
    );
  items.push(...betweenLifts(input), primeItem(input));
  if (isTopping(facts) && !facts.hasMoistureSystem)
    items.push({
      key: 'topping-sand',
      phase: 'prime',
      afterLift: 'buried',
      what: 'Where the topping’s data sheet asks for it: epoxy primer, dry sand broadcast to refusal, loose sand vacuumed',
      why: 'a wear surface keys into sanded epoxy',
      amount: squareMeters(facts.areaM2),
      cautions: ['epoxy', 'silica'],
    });
  const woodM2 = partAreaM2(facts.exposed, facts.areaM2, ({ layer }) => isPouredWood(layer, facts));
  // Lath is fastened before the heat is laid, so the next pour does not ask for it again.
  const isTooLate = isHeatBuried(facts) || isHeatFoundLaid(facts.kept);
  if (facts.exposed.some(({ layer }) => isPouredWood(layer, facts)) && !isTooLate)
    items.push({
      key: 'reinforce',
      phase: 'prime',
      afterLift: 'buried',
      what: `Fasten galvanized lath over the primed subfloor: about every ${inches(6)}, laps ${inches(2)}, or the mesh on the data sheet`,
      why: `wood moves. ${woodDepth(input)}. Check the order on the data sheet`,
      amount: squareMeters(woodM2),
      tasks: ['drill'],
      hours: woodM2 === null ? null : hoursFor('reinforce', woodM2),
    });
  if (isHeatInPour(facts.heat))
    items.push({
      key: 'heat-test',
      phase: 'prime',
      what: isHeatFoundLaid(facts.kept)
        ? 'Have the installer of the heat test its resistance or pressure, record it, and photograph the layout'
        : facts.heat === 'hydronic-in-pour'
          ? 'Tubing laid by its installer, a licensed plumber or heating contractor where local code asks. Pressurize it, record it, and photograph the layout'
          : facts.heat === 'electric-in-pour'
            ? 'Mats laid by their installer, a licensed electrician where local code asks. Test their resistance, record it, and photograph the layout'
            : 'Mats or tubing laid by their installer, a licensed electrician or plumber where local code asks. Test resistance or pressurize, record it, and photograph the layout',
      why: 'test before, during and after the pour. No fasteners once it is down. It must not float',
      cautions: facts.heat === 'hydronic-in-pour' ? [] : ['electricity'],
    });
  return items;
}

/** What makes the placed lift ready for the primer of the next one; none before the first lift. */
function betweenLifts(input: PrepInput): readonly PrepDraft[] {
  const { facts } = input;
  if (!isOverLift(input)) return [];
  const byHand = isCutByHand(input);
  const areaM2 = facts.areaM2 === null ? null : facts.areaM2 * (input.openShare ?? 1);
  return [
    {
      key: 'between-lifts',
      phase: 'prime',
      what: `Between lifts: wait ${liftWait(facts).words}, abrade the skin ${byHand ? 'lightly by hand and do not grind it' : 'to its profile'}, and vacuum`,
      why: 'the next lift does not bond to a smooth skin',
      amount: squareMeters(areaM2),
      hours: areaM2 === null ? null : hoursFor('abrade', areaM2) + hoursFor('vacuum', areaM2),
      tasks: byHand ? [] : ['grind'],
      cautions: ['silica'],
      dust: byHand ? null : 'hand-grinder',
    },
  ];
}

/** How deep the pour is over lath: the minimum over wood that the estimate and the pour keep. */
function woodDepth({ facts, units }: PrepInput): string {
  const powder = facts.product?.powder;
  if (powder?.overWoodLeastM == null) return 'Pour as deep over it as the data sheet says';
  const leastM = Math.max(powder.overWoodLeastM.value, powder.liftM.value.least);
  return `Pour at least ${formatInches(leastM / INCH_M, units)} over it${isTypicalFigure(powder.overWoodLeastM) ? ' (typical)' : ''}`;
}

const isTopping = (facts: PrepInput['facts']): boolean => facts.product?.kind === 'cement-topping';

/** The wait before the next lift, at the sheet's reference temperature: in words, and its shortest, hours; null where the sheet has none. */
export function liftWait(facts: PrepInput['facts']): { readonly words: string; readonly leastHours: number | null } {
  const wait = facts.product?.powder.milestones.find(({ kind }) => kind === 'next-lift');
  if (wait === undefined) return { words: 'as the data sheet says', leastHours: null };
  const hours = wait.hoursLeast === wait.hoursMost ? wait.hoursMost : `${wait.hoursLeast} to ${wait.hoursMost}`;
  const words = isTypicalFigure(wait) ? `${hours} h (typical) or as the data sheet says` : `${hours} h`;
  return { words, leastHours: wait.hoursLeast };
}

/** Why a substrate is primed as it is. */
function substrateWhy({ substrate, by }: SubstrateClass): string {
  if (by === 'expected') return 'expected to be porous once abraded. The water drop test after that decides';
  if (by === 'drops') return substrate === 'porous' ? 'porous: a water drop soaks in within a minute' : 'non-porous: a water drop stays';
  return substrate === 'porous' || substrate === 'wood'
    ? 'without primer the substrate draws water out of the mix'
    : 'without its primer the underlayment does not bond to a non-porous substrate';
}

function primeItem(input: PrepInput): PrepDraft {
  const { facts, primer } = input;
  const areaM2 = facts.areaM2 === null ? null : facts.areaM2 * (input.openShare ?? 1);
  const why = isOverLift(input)
    ? 'new underlayment is porous. Where the substrate is still bare, prime it as before the first lift'
    : facts.hasMoistureSystem
      ? 'the moisture mitigation system is non-porous'
      : substrateWhy(substrateClass(facts));
  return {
    key: 'prime',
    phase: 'prime',
    what:
      primer === null
        ? 'Prime as the data sheet says for this substrate, no puddles'
        : `Prime, ${primer.coats === 1 ? '1 coat' : `${primer.coats} coats`}, ${dilution(primer.waterParts)}, no puddles`,
    why,
    amount: primer?.liters === null || primer === null ? squareMeters(areaM2) : { value: primer.liters, unit: 'L' },
    // A chosen primer's window already causes the hold.
    holdsPour: primer === null,
    cautions: ['primer', 'slips'],
    hours: areaM2 === null ? null : hoursFor('primeCoat', areaM2 * (primer?.coats ?? 1)),
  };
}

/** Heat off, windows closed, bags and water staged, rake set, cart path laid, crew briefed. Ambient conditions are a test and have no line. */
export function pourDayItems(input: PrepInput): readonly PrepDraft[] {
  const { facts } = input;
  const items: PrepDraft[] = [];
  // Heat that is laid for this pour has not warmed the floor.
  if (facts.isHeatInFloor || isHeatDown(facts))
    items.push({
      key: 'heating-off',
      phase: 'pour-day',
      what: 'Radiant heat off 24 to 48 hours before the pour',
      why: 'a warm floor draws water out of the mix',
    });
  items.push(
    {
      key: 'windows',
      phase: 'pour-day',
      what: 'Close windows, doors and registers, and cover glass against direct sun',
      why: has(input, 'dries-fast', 'dries-too-fast')
        ? 'the air dries the surface too fast'
        : 'no draft and no sun, today and for 3 days after',
      // A cold room is heated behind closed windows.
      cautions: has(input, 'too-cold') ? ['carbon-monoxide'] : [],
    },
    {
      key: 'stage',
      phase: 'pour-day',
      what: 'Stage bags and tools: lot and date on the bags checked, powder at room temperature, washout outside',
      why: 'wash water sets and goes in the trash, never in a drain or the yard',
      amount: input.bags === null ? null : { value: input.bags, unit: 'bag' },
      cautions: facts.isSuspended ? ['lifting', 'floor-weight'] : ['lifting'],
      hours: input.bags === null ? null : hoursFor('stageBag', input.bags),
    },
    {
      key: 'water',
      phase: 'pour-day',
      what: 'Measure clean drinking water into buckets and check its temperature against the data sheet',
      why: 'too much water weakens, too little does not flow',
      amount: input.waterL === null ? null : { value: input.waterL, unit: 'L' },
      cautions: ['electricity'],
    },
  );
  const isLastLift = (facts.lifts ?? 1) <= (input.liftsUnder ?? 0) + 1;
  const marks = isNothingStuckIn(facts) ? 'markers (glued on, not pinned)' : 'pins';
  items.push({
    key: 'gauge',
    phase: 'pour-day',
    // Every lift but the last ends at a plane of its own, whether it covers the floor or only the deep places.
    what: isLastLift
      ? `Set the gauge rake over the highest spot at the minimum thickness, and set height ${marks}`
      : `Set the tops of the height ${marks} at the top of this lift, not at the finish`,
    why: `start at lane 1 of the pour plan and check the depth at the ${marks.split(' ')[0]}`,
  });
  if (input.byCart && facts.isWoodFramed)
    items.push({
      key: 'cart-path',
      phase: 'pour-day',
      what: 'Lay plywood runways across the joists for the cart, and lighten its loads',
      why: 'a full cart puts its weight on one or two joists',
      cautions: ['floor-weight'],
    });
  if (input.helpers > 0)
    items.push({
      key: 'brief',
      phase: 'pour-day',
      what: 'Brief the crew: stations, order of lanes, exit, stop rules',
      why: 'there is no time to ask once the pour runs',
      amount: { value: input.helpers, unit: 'helper' },
      cautions: ['wet-cement'],
    });
  return items;
}
