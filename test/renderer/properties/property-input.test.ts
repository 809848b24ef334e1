import { describe, expect, it } from 'vitest';
import { houseDrawing } from '../../../shared-core/drawing/house.ts';
import type { Mark } from '../../../shared-core/drawing/marks.ts';
import { sampleBook } from '../../../shared-core/sample/sample-book.ts';
import { propertyInput } from '../../../renderer/properties/property-input.ts';
import { NOW } from '../../shared-core/job-variants.ts';

const rows = sampleBook(NOW);

/** The words on the plan of one property of the sample. */
function wordsOf(propertyId: string): readonly string[] {
  const property = rows.properties.find(({ id }) => id === propertyId);
  if (property === undefined) throw new Error(propertyId);
  const input = propertyInput({
    ...{ property, rooms: rows.rooms.filter((room) => room.propertyId === propertyId), jobs: rows.jobs, pours: rows.pours },
    ...{ units: 'us', locale: 'en-US', lengthText: (m: number) => m.toFixed(2) },
  });
  if (input === null) throw new Error('No room is drawn.');
  const texts = (mark: Mark): readonly string[] =>
    mark.kind === 'group' ? mark.marks.flatMap(texts) : mark.kind === 'text' ? [mark.text] : [];
  return houseDrawing({ ...input, widthPx: 900, heightPx: 520 }).marks.flatMap(texts);
}

describe('the plan of a property', () => {
  it('names the openings that lead out of the rooms drawn, and none between two of them', () => {
    const words = wordsOf('sample-pennant-hill');
    for (const name of ['front door', 'kitchen', 'dining room']) expect(words).toContain(name);
    // The hall and the laundry open to each other.
    expect(words.filter((word) => /laundry|hall/i.test(word))).toEqual(['Hall', 'Laundry']);
  });

  it('says which rooms are poured, with the day, and which have no readings', () => {
    expect(wordsOf('sample-pennant-hill')).toContain('not measured');
    expect(wordsOf('sample-coopers-wharf').filter((word) => word.startsWith('poured '))).toHaveLength(1);
    expect(wordsOf('sample-coopers-wharf')).not.toContain('not measured');
  });
});
