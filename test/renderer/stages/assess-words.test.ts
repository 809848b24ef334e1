import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, it } from 'vitest';
import { Findings } from '../../../renderer/stages/assess/Findings.tsx';
import { footWords } from '../../../renderer/stages/assess/assess-words.ts';
import type { Assessment } from '../../../shared-core/assess/assess-room.ts';
import type { Finding } from '../../../shared-core/substrate/rule.ts';
import { findingsOf } from '../../../shared-core/substrate/rules.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { factsOf, layer, SLAB, test } from '../../shared-core/substrate/a-floor.ts';

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

// 29 CFR 1926.1101(l)(3): no sanding. Common practice, no source: only what lies loose comes off asbestos that was detected.
it.each(['keep', 'remove'] as const)('warns not to disturb a floor before and after asbestos is detected in it (%s)', (fate) => {
  const footOf = (...tests: readonly ReturnType<typeof test.lab>[]) => {
    const layers = [layer('resilient-tile', { id: 'tile', yearInstalled: 1960, fate }), ...SLAB.layers];
    const findings = findingsOf(factsOf({ ...SLAB, layers, tests: [...SLAB.tests, ...tests] }), wordingFor('us', 'en-US'));
    const holds = findings.filter(({ verdict }) => verdict === 'hold');
    return footWords(holds, { holdsPour: [], overrides: [] } as unknown as Assessment, { tests, isAccepted: false, locale: 'en-US' });
  };
  const pending = { state: 'sent', resultOn: null, dueOn: '2026-05-20' } as const;
  expect(footOf(test.lab({ layerId: 'tile', ...pending }))).toEqual({
    text: 'Hold. Do not scrape, sand, grind, drill or remove anything.',
    under: expect.stringContaining('The lab result is due'),
  });
  const found = test.lab({ layerId: 'tile', state: 'found' });
  expect(footOf(found)).toEqual({
    text: 'Hold. Do not scrape, sand, grind, drill or lift out anything.',
    under: expect.stringMatching(/^Asbestos was detected/),
  });
  const slab = test.lab({ id: 'lab-2', layerId: 'the-concrete-on-ground', ...pending });
  expect(footOf(found, slab)).toEqual({
    text: 'Hold. Do not scrape, sand, grind, drill or remove anything.',
    under: expect.stringMatching(/^Asbestos was detected/),
  });
});

// Common practice, no source: concrete cures 28 days. The form asks its year, not its day.
it('takes the day that new concrete was placed as the reason of an override', () => {
  const nothing = (): void => {};
  const layers = [layer('concrete-on-ground', { yearInstalled: 2026 })];
  const findings = findingsOf(factsOf({ ...SLAB, layers }), wordingFor('us', 'en-US'));
  const on = { onLift: nothing, onAnswer: nothing, onOverride: nothing };
  const list = renderToStaticMarkup(createElement(Findings, { findings, tests: [], past: new Map(), ...on }));
  expect(list).toContain('Override hold… new slab on grade');
  expect(list).toContain('override this hold with the day as the reason');
});
