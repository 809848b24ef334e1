/** Lines from the primer to the first bag. */
import { found, item, type PrepInput, squareMeters } from './prep-input.ts';
import type { PrepItem } from './prep-item.ts';
import { hoursFor } from './task-hours.ts';

function dilution(waterParts: number): string {
  return waterParts === 0 ? 'neat' : `1 part to ${waterParts} of water`;
}

/** The moisture barrier or the primer. */
export function primeItems(input: PrepInput): readonly PrepItem[] {
  const { facts } = input;
  const areaM2 = facts.areaM2;
  const items: PrepItem[] = [];
  if (facts.primerKind === 'moisture-barrier') {
    items.push(
      item({
        key: 'barrier',
        phase: 'prime',
        what: 'Roll on the moisture barrier, as its sheet says',
        why:
          found(input, 'slab-humid-barrier', 'slab-emits-barrier').length > 0
            ? 'the slab is over the covering’s limit'
            : 'chosen for this slab',
        amount: squareMeters(areaM2),
        cautions: ['solvents'],
        hours: areaM2 === null ? null : hoursFor('barrier', areaM2),
      }),
    );
  }
  const { primer } = input;
  const why =
    facts.absorption === 'porous'
      ? 'the floor drinks: a drop is gone within a minute'
      : facts.absorption === 'non-porous'
        ? 'the floor is closed: a drop stays'
        : 'without primer the floor drinks the water out of the pour';
  items.push(
    item({
      key: 'prime',
      phase: 'prime',
      what:
        primer === null
          ? 'Prime, as the sheet says for this floor'
          : `Prime, ${primer.coats === 1 ? 'one coat' : `${primer.coats} coats`}, ${dilution(primer.waterParts)}`,
      why,
      amount: primer?.liters === null || primer === null ? squareMeters(areaM2) : { value: primer.liters, unit: 'L' },
      cautions: ['solvents', 'slips'],
      hours: areaM2 === null ? null : hoursFor('primeCoat', areaM2 * (primer?.coats ?? 1)),
    }),
  );
  return items;
}

/** Heating off, windows shut, readings, bags and water staged, helpers told. */
export function pourDayItems(input: PrepInput): readonly PrepItem[] {
  const { facts } = input;
  const items: PrepItem[] = [];
  if (found(input, 'radiant-heat').length > 0) {
    items.push(
      item({
        key: 'heating-off',
        phase: 'pour-day',
        what: 'Floor heating off, in time for the floor to cool',
        why: 'a warm floor takes the water out of the pour',
      }),
    );
  }
  items.push(
    item({
      key: 'windows',
      phase: 'pour-day',
      what: 'Shut windows, doors and vents',
      why: found(input, 'dries-fast', 'dries-too-fast').length > 0 ? 'the air dries too fast' : 'a draft dries the skin',
    }),
    item({
      key: 'read-air',
      phase: 'pour-day',
      what: 'Read air, floor and humidity',
      why: 'dew point and the sheet’s window hold on the day',
    }),
    item({
      key: 'stage',
      phase: 'pour-day',
      what: 'Stage bags and tools, wash-out outside',
      why: 'nobody fetches anything once it runs',
      amount: input.bags === null ? null : { value: input.bags, unit: 'bag' },
      cautions: facts.isSuspended ? ['lifting', 'floor-weight'] : ['lifting'],
      hours: input.bags === null ? null : hoursFor('stageBag', input.bags),
    }),
    item({
      key: 'water',
      phase: 'pour-day',
      what: 'Measure the water into buckets',
      why: 'too much weakens, too little will not flow',
      amount: input.waterL === null ? null : { value: input.waterL, unit: 'L' },
      cautions: ['electricity'],
    }),
  );
  if (input.helpers > 0) {
    items.push(
      item({
        key: 'brief',
        phase: 'pour-day',
        what: 'Tell the helpers their stations and the order of strips',
        why: 'nobody asks once it runs',
        amount: { value: input.helpers, unit: 'helper' },
        cautions: ['wet-cement'],
      }),
    );
  }
  return items;
}
