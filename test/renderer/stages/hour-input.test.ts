import { expect, it } from 'vitest';
import { hourInput } from '../../../renderer/stages/prep/hour-input.ts';

const now = '2026-05-12T12:10:00Z';
const empty = { clock: null, primedAt: null, pourAt: null, lines: [], now, zone: 'America/New_York', locale: 'en-US' };

it('a room without a pour date, primer or signed line has no hours to show', () => expect(hourInput(empty)).toBeNull());

it('the hours show with a pour date, or with primer on the floor', () => {
  expect(hourInput({ ...empty, pourAt: '2026-05-14T13:00:00Z' })?.input(800).pour).toMatchObject({ from: 9 });
  expect(hourInput({ ...empty, primedAt: '2026-05-12T11:00:00Z' })?.input(800).primed).toMatchObject({ hour: 7 });
});
