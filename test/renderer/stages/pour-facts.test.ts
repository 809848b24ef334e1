/** The largest sentence beside a running pour. */
import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { expect, it } from 'vitest';
import { PourFacts } from '../../../renderer/stages/pour/PourFacts.tsx';
import { pourState } from '../../../shared-core/pour/pour-state.ts';

it('asks for the next batch while one is planned, and for the finish once every one is placed', () => {
  const plan = { layout: null, hasLater: false, healingMin: 15, workingTimeMin: 20, bagsPerBatch: 2 };
  const state = pourState(plan, { bagsOnSite: 4 }, [], '2026-05-12T15:00:00.000Z');
  const facts = { state, plan, forecast: null, runOut: null, notices: [], deepRoomIds: [] };
  const said = (isExtra: boolean) => renderToStaticMarkup(createElement(PourFacts, { ...facts, isExtra }));
  expect(said(false)).toContain('Mix batch 1 next.');
  expect(said(true)).toContain('Every planned batch is placed. Finish under More, or mix an extra batch.');
  expect(said(true)).not.toContain('next');
});
