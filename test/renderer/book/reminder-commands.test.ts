import { beforeEach, describe, expect, it } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { remindersOf } from '../../../shared-core/agenda/reminders.ts';
import { changeReminderState, giveBack, readReminderState, takeDue } from '../../../renderer/book/reminder-commands.ts';
import { BUSINESS, bundle, visit } from '../../shared-core/agenda/bundle-fixture.ts';
import { freshBook, NOW } from './fresh-book.ts';

const SINCE = '2026-05-01T00:00:00.000Z';
const all = remindersOf(agenda([bundle({ id: 'b', visits: [visit('v-b', 'own', '2026-05-12T12:00:00.000Z', [])] })], BUSINESS, null));

beforeEach(async () => {
  await freshBook();
});

describe('what is due', () => {
  it('is taken by one window only, and stays said', async () => {
    const claimed = await Promise.all([takeDue(all, SINCE, NOW), takeDue(all, SINCE, NOW)]);
    expect(claimed.map((due) => due.length).sort()).toEqual([0, 1]);
    expect(await takeDue(all, SINCE, NOW)).toEqual([]);
  });

  it('is said again when it could not be shown', async () => {
    const due = await takeDue(all, SINCE, NOW);
    expect(due).toHaveLength(1);
    await giveBack(due);
    expect(await takeDue(all, SINCE, NOW)).toEqual(due);
  });

  it('is off until somebody chooses, and on again from the moment it is switched on', async () => {
    expect(await readReminderState()).toEqual({ since: undefined, problem: null });
    await changeReminderState((state) => ({ ...state, since: NOW }));
    expect((await readReminderState()).since).toBe(NOW);
  });
});
