/** Names of snapshots carry when they were made, and which of them are kept. */
import { z } from 'zod';
import type { SnapshotReason } from './snapshot.ts';

const NAME = /^Book (\d{4}-\d{2}-\d{2}) (\d{2})-(\d{2})-(\d{2})-(\d{3})( before restoring)?\.(zip|locked)$/;

/** A snapshot's own file name; never a path. */
export const snapshotNameSchema = z.string().max(80).regex(NAME, 'That is not the name of a backup.');

/** The file name of a snapshot made at an instant (UTC in the name, so that names sort by time); `locked` by a passphrase. */
export function snapshotName(at: string, reason: SnapshotReason, locked = false): string {
  const iso = new Date(at).toISOString();
  const [day = '', time = ''] = iso.split('T');
  return `Book ${day} ${time.replace('Z', '').replace(/[:.]/g, '-')}${reason === 'before-restoring' ? ' before restoring' : ''}.${locked ? 'locked' : 'zip'}`;
}

/** When the snapshot of this name was made; null when the name is not one of ours. */
export function snapshotMoment(name: string): string | null {
  const found = NAME.exec(name);
  if (found === null) return null;
  const at = `${found[1] ?? ''}T${found[2] ?? ''}:${found[3] ?? ''}:${found[4] ?? ''}.${found[5] ?? ''}Z`;
  return Number.isNaN(Date.parse(at)) ? null : at;
}

export type SnapshotFile = { readonly name: string; readonly bytes: number };

/** What is kept: the newest of each hour for a day, of each day for two weeks, of each week for ten, of each month after that. */
const KEPT_HOURS = 24;
const KEPT_DAYS = 14;
const KEPT_WEEKS = 10;
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const WEEK_MS = 7 * DAY_MS;
/** A copy made before a restore is the way back from it: it stays this long whatever else was made in its hour. */
const BEFORE_RESTORING_MS = 30 * DAY_MS;

const slot = (atMs: number, nowMs: number): string => {
  const age = nowMs - atMs;
  if (age < KEPT_HOURS * HOUR_MS) return `hour ${Math.floor(atMs / HOUR_MS)}`;
  if (age < KEPT_DAYS * DAY_MS) return `day ${Math.floor(atMs / DAY_MS)}`;
  if (age < KEPT_WEEKS * WEEK_MS) return `week ${Math.floor(atMs / WEEK_MS)}`;
  return `month ${new Date(atMs).toISOString().slice(0, 7)}`;
};

/**
 * Which snapshots may go. The newest always stays, whatever its size.
 * @param files those in the folder; names that are not ours are left alone
 * @param limitBytes the room they may take together; the oldest go first
 * @returns names to remove
 */
export function thinSnapshots(files: readonly SnapshotFile[], now: string, limitBytes: number): string[] {
  const nowMs = Date.parse(now);
  const dated = files
    .flatMap(({ name, bytes }) => {
      const at = snapshotMoment(name);
      return at === null ? [] : [{ name, bytes, atMs: Date.parse(at) }];
    })
    .sort((a, b) => b.atMs - a.atMs || (a.name < b.name ? 1 : -1));
  const taken = new Set<string>();
  const gone: string[] = [];
  let total = 0;
  let full = false;
  for (const { name, bytes, atMs } of dated) {
    const key = name.includes(' before restoring.') && nowMs - atMs < BEFORE_RESTORING_MS ? name : slot(atMs, nowMs);
    const first = total === 0 && taken.size === 0;
    if (taken.has(key)) {
      gone.push(name);
      continue;
    }
    if (!first && (full || total + bytes > limitBytes)) {
      full = true;
      gone.push(name);
      continue;
    }
    taken.add(key);
    total += bytes;
  }
  return gone;
}
