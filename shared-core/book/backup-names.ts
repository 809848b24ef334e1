/** Backup file names (data set, time and reason), and which backups are kept. */
import { z } from 'zod';

/** Why a backup was made. */
export const backupReasonSchema = z.enum(['manual', 'automatic', 'closing', 'before-restore', 'before-import']);
export type BackupReason = z.infer<typeof backupReasonSchema>;

/** Eight hexadecimal digits that identify a data set in a shared folder. */
export const datasetSchema = z.string().regex(/^[0-9a-f]{8}$/, 'A data set has 8 hexadecimal digits.');

const NAME =
  /^Job Book ([0-9a-f]{8}) (\d{4}-\d{2}-\d{2}) (\d{2})-(\d{2})-(\d{2})-(\d{3})( manual| before restore| before import)?\.(zip|encrypted)$/;
const SUFFIX: Readonly<Record<BackupReason, string>> = {
  manual: ' manual',
  automatic: '',
  closing: '',
  'before-restore': ' before restore',
  'before-import': ' before import',
};

/** A backup's own file name; never a path. */
export const backupNameSchema = z.string().max(90).regex(NAME, 'That is not the name of a backup.');

export type BackupNaming = { readonly dataset: string; readonly madeAt: string; readonly reason: BackupReason };

/** The file name of a backup (UTC in the name, so that names sort by time); `encrypted` with a passphrase. */
export function backupName({ dataset, madeAt, reason }: BackupNaming, encrypted = false): string {
  const [day = '', time = ''] = new Date(madeAt).toISOString().split('T');
  const clock = time.replace('Z', '').replace(/[:.]/g, '-');
  return `Job Book ${dataset} ${day} ${clock}${SUFFIX[reason]}.${encrypted ? 'encrypted' : 'zip'}`;
}

/** Reads a backup's name; null for another file. A backup made on closing counts as automatic. */
export function readBackupName(name: string): BackupNaming | null {
  const [, dataset = '', day = '', hour = '', minute = '', second = '', ms = '', suffix = ''] = NAME.exec(name) ?? [];
  const madeAt = `${day}T${hour}:${minute}:${second}.${ms}Z`;
  if (dataset === '' || Number.isNaN(Date.parse(madeAt))) return null;
  const reason = (Object.keys(SUFFIX) as BackupReason[]).find((candidate) => SUFFIX[candidate] === suffix) ?? 'automatic';
  return { dataset, madeAt, reason };
}

export type BackupFile = { readonly name: string; readonly bytes: number };

/**
 * Of the automatic backups are kept: the newest of each of the last 24 hours, 14 days and 10 weeks that have one, and of each month.
 * They are counted, not dated against the clock of this machine: a wrong clock removes none.
 */
const KEPT = [
  { of: 'hour', count: 24 },
  { of: 'day', count: 14 },
  { of: 'week', count: 10 },
  { of: 'month', count: Number.POSITIVE_INFINITY },
] as const;
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const WEEK_MS = 7 * DAY_MS;
/** Days that a manual backup, or one before a restore or import, is kept ... */
const PROTECTED_MS = 90 * DAY_MS;
/** ... and until as many later days have backups, so that a clock set ahead does not remove it. */
const PROTECTED_DAYS = 20;

const slotOf = (atMs: number, period: (typeof KEPT)[number]['of']): string =>
  period === 'month'
    ? new Date(atMs).toISOString().slice(0, 7)
    : `${Math.floor(atMs / { hour: HOUR_MS, day: DAY_MS, week: WEEK_MS }[period])}`;

type Dated = BackupFile & { readonly atMs: number; readonly reason: BackupReason };

const bySlots = (newestFirst: readonly Dated[]): Set<string> => {
  const names = new Set<string>();
  for (const { of: period, count } of KEPT) {
    const slots = new Set<string>();
    for (const { name, atMs } of newestFirst) {
      const slot = slotOf(atMs, period);
      if (slots.has(slot)) continue;
      if (slots.size >= count) break;
      slots.add(slot);
      names.add(name);
    }
  }
  return names;
};

const isProtected = (file: Dated, all: readonly Dated[], nowMs: number): boolean => {
  if (file.reason === 'automatic' || file.reason === 'closing') return false;
  const laterDays = new Set(all.filter(({ atMs }) => atMs > file.atMs).map(({ atMs }) => slotOf(atMs, 'day')));
  return nowMs - file.atMs < PROTECTED_MS || laterDays.size < PROTECTED_DAYS;
};

/**
 * Which backups may go. Those of other data sets and the newest one always stay; those made by hand, before a restore or before an
 * import stay at least 90 days.
 * @param files those in the folder; names that are not ours are left alone
 * @param dataset whose backups are thinned
 * @param limitBytes the space the automatic ones may take together; the oldest go first
 * @returns names to remove
 */
export function thinBackups(files: readonly BackupFile[], dataset: string, now: string, limitBytes: number): string[] {
  const own = files
    .flatMap((file): Dated[] => {
      const read = readBackupName(file.name);
      return read?.dataset === dataset ? [{ ...file, atMs: Date.parse(read.madeAt), reason: read.reason }] : [];
    })
    .sort((a, b) => b.atMs - a.atMs || (a.name < b.name ? 1 : -1));
  const nowMs = Date.parse(now);
  const thinned = own.filter((file) => !isProtected(file, own, nowMs));
  const retained = bySlots(thinned);
  const removable: string[] = [];
  let total = 0;
  for (const [i, { name, bytes }] of thinned.entries()) {
    total += retained.has(name) ? bytes : 0;
    if (name !== own[0]?.name && (!retained.has(name) || (i > 0 && total > limitBytes))) removable.push(name);
  }
  return removable;
}
