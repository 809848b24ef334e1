/** What a quote assumes, what happens if it proves wrong, and what is not in it: drawn from the record. */
import type { WholeJob } from '../book/whole-job.ts';

/** In the order they are read. */
export function quoteTerms(frozen: Pick<WholeJob, 'rooms' | 'property'>): {
  readonly assumptions: readonly string[];
  readonly excluded: readonly string[];
} {
  const { rooms } = frozen;
  const removes = rooms.some((room) => room.layers.some((layer) => layer.fate === 'remove'));
  const wood = rooms.some((room) =>
    room.layers.some((layer) => ['boards', 'plywood', 'osb', 'particleboard', 'joists'].includes(layer.material)),
  );
  const old = frozen.property.yearBuilt === null || frozen.property.yearBuilt <= 1980;
  return {
    assumptions: [
      'The floor is as it was read on our visit. What lies hidden under coverings or in walls was not seen; should it ask for more work, we stop, show you, and quote that work before going on.',
      'The room is empty, dry and between the temperatures the product’s sheet asks for, from the day before until the floor may be walked on.',
      'Moisture is tested again before any covering. If the floor is too damp by then, the covering waits or the floor is sealed, at a price agreed first.',
      ...(removes ? ['Layers to be taken up come off without harm to what lies under them.'] : []),
      ...(wood
        ? [
            'The timber under the floor is sound and carries the added weight. This is no structural check: where in doubt, a structural engineer decides.',
          ]
        : []),
      ...(old
        ? [
            'No asbestos or lead paint has to be disturbed. Where a laboratory finds any, only licensed people remove it, and our price does not include that.',
          ]
        : []),
    ],
    excluded: [
      'The new covering itself, and skirting, doors or thresholds that have to be shortened or changed.',
      'Repairs to pipes, wiring, heating or the structure.',
      'Removal of asbestos, lead or mold, and laboratory fees.',
      'Moving and storing furniture.',
    ],
  };
}
