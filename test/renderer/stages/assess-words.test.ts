import { expect, it } from 'vitest';
import { footWords } from '../../../renderer/stages/assess/assess-words.ts';
import type { Assessment } from '../../../shared-core/assess/assess-room.ts';
import type { Finding } from '../../../shared-core/substrate/rule.ts';

const finding = (key: string, title: string) => ({ key, title, text: '', verdict: 'go-with-work', holds: ['pour'] }) as unknown as Finding;
const CRACK = finding('crack', 'Crack of 6 mm');
const COLD = finding('cold', 'Floor too cold');

function under(holdsPour: readonly Finding[], overridden: readonly string[] = []): string {
  const assessment = { holdsPour, overrides: overridden.map((key) => ({ key })), verdict: 'go-with-work' } as unknown as Assessment;
  const { text, under: why } = footWords([], assessment, { tests: [], isAccepted: false, locale: 'en-US' });
  return `${text} ${why}`;
}

it('names the findings that the pour still waits for', () => {
  expect(under([CRACK, COLD])).toBe('Not ready to pour. 2 findings must be cleared before the pour: Crack of 6 mm; Floor too cold.');
  expect(under([CRACK, COLD], ['crack'])).toBe('Not ready to pour. 1 finding must be cleared before the pour: Floor too cold.');
  const five = [CRACK, COLD, finding('damp', 'Slab too damp'), finding('oil', 'Oil on the slab'), finding('dust', 'Dust')];
  expect(under(five)).toBe(
    'Not ready to pour. 5 findings must be cleared before the pour: Crack of 6 mm; Floor too cold; Slab too damp; 2 more.',
  );
  expect(under([CRACK, COLD], ['crack', 'cold'])).toContain('Pour with an overridden hold.');
  expect(under([])).toBe('Ready to pour after prep. The findings name the prep.');
});
