import { beforeEach, describe, expect, it, vi } from 'vitest';
import { agenda } from '../../../shared-core/agenda/agenda.ts';
import { remindersOf } from '../../../shared-core/agenda/reminders.ts';
import { changeReminderState, giveBack, readReminderState, takeDue } from '../../../renderer/book/reminder-commands.ts';
import { closeBackup, openReadOnly } from '../../../renderer/book/open-read-only.ts';
import { BUSINESS, bundle, visit } from '../../shared-core/agenda/bundle-fixture.ts';
import { pageLocks } from '../page-locks.ts';
import { freshBook, NOW } from './fresh-book.ts';
import { readBookRows, walkRows } from './whole-book.ts';

const SINCE = '2026-05-01T00:00:00.000Z';
const all = remindersOf(agenda([bundle({ id: 'b', visits: [visit('v-b', 'own', '2026-05-12T12:00:00.000Z', [])] })], BUSINESS, null));

beforeEach(async () => {
  await freshBook();
});

describe('due reminders', () => {
  it('are claimed by one window only, and stay claimed', async () => {
    const claimed = await Promise.all([takeDue(all, SINCE, NOW), takeDue(all, SINCE, NOW)]);
    expect(claimed.map((due) => due.length).sort()).toEqual([0, 1]);
    expect(await takeDue(all, SINCE, NOW)).toEqual([]);
  });

  it('appear again when they could not be shown', async () => {
    const due = await takeDue(all, SINCE, NOW);
    expect(due).toHaveLength(1);
    await giveBack(due);
    expect(await takeDue(all, SINCE, NOW)).toEqual(due);
  });

  it('stay claimed while a backup is open read-only', async () => {
    await changeReminderState((state) => ({ ...state, since: SINCE }));
    expect(await takeDue(all, SINCE, NOW)).toHaveLength(1);
    vi.stubGlobal('navigator', { locks: pageLocks() });
    expect(await openReadOnly(walkRows(await readBookRows()).pieces(), NOW)).toMatchObject({ ok: true });
    expect(await takeDue(all, SINCE, NOW)).toEqual([]);
    expect((await readReminderState()).since).toBe(SINCE);
    await closeBackup();
    vi.unstubAllGlobals();
  });

  it('are off until chosen, and start from the moment they are turned on', async () => {
    expect(await readReminderState()).toEqual({ since: undefined, problem: null });
    await changeReminderState((state) => ({ ...state, since: NOW }));
    expect((await readReminderState()).since).toBe(NOW);
  });
});
