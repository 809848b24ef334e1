/** The names of a property's jobs before its line of years. */
import { expect, it } from 'vitest';
import { propertyYears, yearsInWords } from '../../../renderer/properties/property-years.ts';
import { textWidthPx, SANS, SANS_BOLD } from '../../../shared-core/drawing/type-metrics.ts';
import { checkLabels, textsOf } from '../../shared-core/drawing/check-labels.ts';
import { NOW, wholeOf } from '../../shared-core/job-variants.ts';

const whole = wholeOf('26-031');
const [hall] = whole.rooms;
const [inJob] = whole.job.rooms;
/** The sample's job with rooms of these names alone. */
const yearsOf = (names: readonly string[]) => {
  if (hall === undefined || inJob === undefined) throw new Error('The sample has a hall.');
  return {
    jobs: [{ ...whole.job, rooms: names.map((_, i) => ({ ...inJob, roomId: `room-${i}` })) }],
    rooms: names.map((name, i) => ({ ...hall, id: `room-${i}`, name })),
    pours: [],
    visits: [],
    quotes: [],
    zone: 'America/New_York',
    locale: 'en-US',
    now: NOW,
  };
};
const many = ['Hall', ...Array.from({ length: 11 }, (_, i) => `Upstairs bedroom ${i + 2}`)];

it.each([
  [1440, 'Hall, Upstairs bedroom 2, Upstairs bedroom 3 and 9 more rooms'],
  [1024, 'Hall and 11 more rooms'],
])('at %d px as many names show as fit before the years, then how many more there are', (widthPx, name) => {
  const drawing = propertyYears(yearsOf(many), widthPx, false);
  checkLabels(drawing);
  const shown = textsOf(drawing).find(({ mark }) => mark.text.startsWith('Hall'))?.mark;
  expect(shown?.text.trim()).toBe(name);
});

it('keeps names that the years leave room for, whatever their widths', () => {
  // The years begin where the longest name ends, so each of these fits exactly.
  for (let letters = 1; letters <= 24; letters += 1)
    for (const names of [['Hall', 'W'.repeat(letters)], ['Hall'], ['Hall', 'Laundry'], ['l'.repeat(letters), 'Den']]) {
      const shown = textsOf(propertyYears(yearsOf(names), 1440, false))
        .find(({ group }) => group.startsWith('row:'))
        ?.mark.text.trim();
      expect(shown).toBe(names.join(', '));
    }
});

it('cuts the full names where the form with a number of rooms is longer', () => {
  // “Den, Bath” is shorter than “Den and 1 more room”.
  const drawing = propertyYears({ ...yearsOf(['Den', 'Bath']), locale: 'en-US' }, 330, false);
  const shown =
    textsOf(drawing)
      .find(({ group }) => group.startsWith('row:'))
      ?.mark.text.trim() ?? '';
  expect(shown).not.toContain('and');
});

it('cuts a single long name before the years', () => {
  const drawing = propertyYears(
    yearsOf(['Upstairs guest bedroom with the walk-in closet, the bathroom and the hall before them']),
    900,
    false,
  );
  checkLabels(drawing);
  const [name, note] = textsOf(drawing).filter(({ group }) => group.startsWith('row:'));
  expect(name?.mark.text).toMatch(/^Upstairs guest.*… $/);
  // The names end 24 px before the years, at 45% of the width.
  const right = 36 + textWidthPx(name?.mark.text ?? '', 15, SANS_BOLD) + textWidthPx(note?.mark.text ?? '', 15, SANS);
  expect(right).toBeLessThanOrEqual(0.45 * 900 - 24);
});

it('on a phone the job number is whole, and what does not fit of its event is cut', () => {
  const startedAt = '2026-05-04T13:00:00.000Z';
  const [pour] = wholeOf('26-024').pours;
  if (pour === undefined) throw new Error('The sample has a pour.');
  const years = {
    ...yearsOf(['Hall']),
    pours: [{ ...pour, jobId: whole.job.id, roomIds: ['room-0'], startedAt, finishedAt: startedAt }],
    now: '2026-05-12T13:00:00.000Z',
  };
  const rowAt = (widthPx: number) => {
    const drawing = propertyYears(years, widthPx, true);
    checkLabels(drawing);
    return textsOf(drawing).flatMap(({ group, mark }) => (group.startsWith('row:') && mark.text !== '' ? [mark.text.trim()] : []));
  };
  expect(rowAt(390)).toEqual(['26-031', 'poured May 4']);
  expect(rowAt(320)).toEqual(['26-031', expect.stringMatching(/^poured.*…$/)]);
});

it('names every room for screen readers', () => {
  for (const name of many) expect(yearsInWords(yearsOf(many))).toContain(name);
});
