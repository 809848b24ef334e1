/** What a quote assumes and what it leaves out, from the record. */
import type { WholeJob } from '../book/whole-job.ts';

const WOOD = new Set(['boards', 'plywood', 'osb', 'particleboard', 'joists']);
/** Homes built up to this year are presumed to have asbestos in flooring. Source: 29 CFR 1926.1101(b), "no later than 1980". */
const ASBESTOS_PRESUMED_TO = 1980;

/** Assumptions and exclusions, in the order they are read. */
export function quoteTerms({ rooms, property }: Pick<WholeJob, 'rooms' | 'property'>): {
  readonly assumptions: readonly string[];
  readonly excluded: readonly string[];
} {
  const removes = rooms.some((room) => room.layers.some((layer) => layer.fate === 'remove'));
  const wood = rooms.some((room) => room.layers.some((layer) => WOOD.has(layer.material)));
  const old = property.yearBuilt === null || property.yearBuilt <= ASBESTOS_PRESUMED_TO;
  return {
    assumptions: [
      'The price is based on the floor as we measured it.',
      'The rooms are empty and dry, and kept at the temperature stated in the terms.',
      'The floor passes a moisture test before flooring goes down. If it does not, it dries longer or gets a moisture mitigation system at a price agreed first.',
      ...(removes ? ['The old flooring comes up without damage to the floor below it.'] : []),
      ...(wood ? ['The wood floor is sound and can carry the added weight. We have not checked the structure.'] : []),
      ...(old ? ['The work does not disturb asbestos or lead paint.'] : []),
    ],
    excluded: [
      'New flooring.',
      'Trimming or replacing baseboards, doors, and thresholds.',
      'Repairs to plumbing, wiring, heating, or the structure.',
      'Testing for and removal of asbestos, lead, or mold, which takes a licensed abatement contractor.',
      'Moving and storing furniture.',
    ],
  };
}
