/** Automatic backups: after edits pause, and at least every ten minutes of steady work. */
import { afterEach, beforeEach, expect, it, vi } from 'vitest';
import { backupTimer } from '../../../renderer/backup/backup-timer.ts';

const MINUTE = 60_000;
let backups: number;
beforeEach(() => {
  vi.useFakeTimers();
  backups = 0;
});
afterEach(() => vi.useRealTimers());
const timer = () => backupTimer(() => (backups += 1));

it('is due soon after the start, and three minutes after the last change', () => {
  const { changed } = timer();
  vi.advanceTimersByTime(MINUTE);
  expect(backups).toBe(1);
  changed();
  vi.advanceTimersByTime(2 * MINUTE);
  changed();
  vi.advanceTimersByTime(2 * MINUTE);
  expect(backups).toBe(1);
  vi.advanceTimersByTime(MINUTE);
  expect(backups).toBe(2);
});

it('is due at least every ten minutes of steady work', () => {
  const { changed } = timer();
  vi.advanceTimersByTime(MINUTE);
  for (let second = 0; second < 31 * 60; second += 20) {
    changed();
    vi.advanceTimersByTime(20_000);
  }
  expect(backups).toBe(4);
});

it('makes none after it is stopped', () => {
  const { changed, stop } = timer();
  changed();
  stop();
  vi.advanceTimersByTime(60 * MINUTE);
  expect(backups).toBe(0);
});
