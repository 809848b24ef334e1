/**
 * The entries of Today as last calculated. They follow from the records alone, so that Today's list can be shown at the next start from one
 * row, before the open jobs are read: they are shown only while no record has changed since.
 */
import { useEffect, useState } from 'react';
import type { Agenda } from '../../shared-core/agenda/agenda.ts';
import type { Business } from '../../shared-core/book/business.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import type { JobGlance } from '../../shared-core/standing/read-job.ts';
import { readMark } from './changed-rows.ts';
import { book } from './database.ts';
import { markOf } from './use-whole-job.ts';

/** Identifies the arithmetic of this build. */
declare const __ARITHMETIC__: string;

export type StoredEntries = {
  readonly business: Business;
  readonly entries: Agenda['entries'];
  /** The first room of each job, for entries of a whole job. */
  readonly firstRooms: Readonly<Record<string, string>>;
};

const KEY = 'today/entries';
const stampOf = (mark: string): string => `${__ARITHMETIC__} ${mark}`;
let stored: Agenda['entries'] | null = null;

type Shown = { readonly agenda: Agenda; readonly business: Business; readonly readings: readonly JobGlance[] };

/** @param wholes the jobs that the agenda was calculated from */
export async function storeEntries({ agenda, business, readings }: Shown, wholes: readonly WholeJob[]): Promise<void> {
  if (stored === agenda.entries) return;
  stored = agenda.entries;
  const mark = await markOf(wholes);
  if (mark === null) return;
  const firstRooms = Object.fromEntries(readings.map(({ whole, rooms }) => [whole.job.id, rooms[0]?.room.id ?? '']));
  const entries: StoredEntries = { business, entries: agenda.entries, firstRooms };
  try {
    await book().meta.put({ key: KEY, value: { stamp: stampOf(mark), ...entries } });
  } catch {
    // Calculated again when next needed.
  }
}

async function readEntries(): Promise<StoredEntries | null> {
  const [row, mark] = await Promise.all([book().meta.get(KEY), readMark(book().backendDB())]);
  // Only this module writes this key.
  const value = row?.value as (StoredEntries & { readonly stamp: string }) | undefined;
  return mark !== null && value?.stamp === stampOf(mark) ? value : null;
}

/** Undefined while loading, null when there are none of these records. */
export function useStoredEntries(): StoredEntries | null | undefined {
  const [entries, setEntries] = useState<StoredEntries | null>();
  useEffect(() => {
    let isGone = false;
    readEntries().then(
      (read) => (isGone ? undefined : setEntries(read)),
      () => (isGone ? undefined : setEntries(null)),
    );
    return () => {
      isGone = true;
    };
  }, []);
  return entries;
}
