// @vitest-environment node
/** What a change of the readings says of heights that it clears elsewhere. */
import { expect, it } from 'vitest';
import { newRoom } from '../../../shared-core/book/new-records.ts';
import { changeNotice, changeSurvey } from '../../../renderer/plan/reported-changes.ts';
import { opening } from '../../shared-core/plan/rooms.ts';
import { freshBook, NOW } from '../book/fresh-book.ts';

const reading = { id: 'reading-1', xM: 1, yM: 1, valueM: 1.2, note: null, confirmed: false };

it('names the doorways whose heights go with the last reading, and says nothing of other changes', async () => {
  const book = await freshBook();
  const blank = newRoom({ id: 'room-hall', now: NOW }, 'house-1', 'Hall');
  const openings = [
    opening({ id: 'opening-a', name: 'kitchen', adjoiningM: -1.2 }),
    opening({ id: 'opening-b', name: 'porch', kind: 'exterior-door', adjoiningM: -1.21 }),
    opening({ id: 'opening-c', name: 'den', adjoiningM: null }),
  ];
  await book.rowsOf('rooms').put({ ...blank, plan: { ...blank.plan, openings } });
  const change = async (readings: (typeof reading)[], method?: 'height') => {
    await changeSurvey('room-hall', 'before', 'readings', { readings, ...(method && { method }) });
    return changeNotice.get();
  };
  expect(await change([reading, { ...reading, id: 'reading-2', xM: 2 }])).toBeNull();
  expect(await change([reading])).toBeNull();
  expect(await change([])).toEqual({
    ok: true,
    text: 'The heights measured at the kitchen and the porch were deleted, because the readings they belong to are gone or of another type. Measure them again under Plan, or undo.',
  });
  expect(await change([])).toBeNull();
  // Elevations imported where a doorway was measured before any reading.
  await book.rowsOf('rooms').put({ ...blank, id: 'room-den', plan: { ...blank.plan, openings: openings.slice(0, 1) } });
  await changeSurvey('room-den', 'before', 'import', { method: 'height', readings: [reading] });
  expect(changeNotice.get()).toMatchObject({
    text: expect.stringMatching(/^The height measured at the kitchen was deleted,.*Measure it again/),
  });
});
