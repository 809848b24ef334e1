/** Materials on hand, and what accepted jobs reserve of them. */
import { useLiveQuery } from 'dexie-react-hooks';
import { useEffect, useState } from 'react';
import type { Business } from '../../shared-core/book/business.ts';
import type { LedgerEntry } from '../../shared-core/book/ledger.ts';
import type { Material } from '../../shared-core/book/material.ts';
import type { JobNeed } from '../../shared-core/ledger/shopping-day.ts';
import { aggregateUses, pourUses, prepUses, type Stock, stockOn } from '../../shared-core/ledger/stock.ts';
import { dayOfInstant } from '../../shared-core/measure/moment.ts';
import { readEstimated } from '../../shared-core/standing/read-job.ts';
import { jobNeeds } from '../../shared-core/standing/shopping-for.ts';
import { estimateOf } from '../workers/job-estimates.ts';
import { book } from './database.ts';
import { readable } from './integrity.ts';
import { paced } from './stored-figures.ts';
import { nowInstant } from './command.ts';
import { useWholeJobs } from './use-whole-job.ts';

export type StockReading = {
  readonly business: Business;
  /** All data sheets, archived ones included: they may be on hand or needed by a job. */
  readonly materials: readonly Material[];
  /** Purchases and stock entries, newest first, voided ones included. */
  readonly entries: readonly Extract<LedgerEntry, { kind: 'purchase' | 'stock' }>[];
  readonly stock: Stock;
  /** `YYYY-MM-DD` in the company's time zone. */
  readonly today: string;
};

async function readStock(): Promise<StockReading | undefined> {
  const db = book();
  const [business, rows, sheets] = await Promise.all([
    db.rowsOf('business').get('business'),
    db.rowsOf('ledger').where('kind').anyOf('purchase', 'stock').toArray(),
    db.rowsOf('materials').toArray(),
  ]);
  if (business === undefined) return undefined;
  const entries = readable('ledger', rows)
    .filter((e): e is StockReading['entries'][number] => (e.kind === 'purchase' || e.kind === 'stock') && e.deletedAt === null)
    .sort((a, b) => b.onDay.localeCompare(a.onDay) || b.createdAt.localeCompare(a.createdAt));
  const first = entries.filter((e) => e.kind === 'stock' || e.lines.some((line) => line.materialId !== null)).at(-1)?.onDay;
  const pours = first === undefined ? [] : readable('pours', await db.rowsOf('pours').where('finishedAt').aboveOrEqual(first).toArray());
  const ids = pours.map((pour) => pour.id);
  const events = readable('pourEvents', await db.rowsOf('pourEvents').where('pourId').anyOf(ids).toArray());
  const materials = readable('materials', sheets);
  const dayOf = (instant: string): string => dayOfInstant(instant, business.timeZone);
  const today = dayOf(nowInstant());
  const jobs = first === undefined ? [] : readable('jobs', await db.rowsOf('jobs').toArray());
  const uses = [...pourUses(pours, events, dayOf), ...aggregateUses(pours, events, entries, dayOf), ...prepUses(jobs, entries, dayOf)];
  return { business, materials, entries, stock: stockOn(entries, uses, today), today };
}

/** Materials on hand today, live; undefined while loading. Pours before the first purchase or count do not matter. */
export function useStock(): StockReading | undefined {
  return useLiveQuery(() => book().transaction('r', ['business', 'ledger', 'materials', 'jobs', 'pours', 'pourEvents'], readStock), []);
}

/** Maximum number of jobs to reserve for; more than one person has accepted at a time. */
const MOST_OPEN = 60;

/** What accepted jobs still need; null while it is calculated. */
export function useJobNeeds(): readonly JobNeed[] | null {
  const open = useWholeJobs('open', MOST_OPEN);
  const [found, setFound] = useState<readonly JobNeed[] | null>(null);
  useEffect(() => {
    if (open === undefined) return undefined;
    let isUnmounted = false;
    const read = async (): Promise<void> => {
      const all: JobNeed[] = [];
      const pace = paced();
      for (const whole of open) {
        if (!whole.quotes.some((quote) => quote.state === 'accepted')) continue;
        await pace();
        if (isUnmounted) return;
        const now = nowInstant();
        all.push(...jobNeeds(readEstimated(whole, now, await estimateOf(whole, now))));
      }
      if (!isUnmounted) setFound(all);
    };
    void read();
    return () => {
      isUnmounted = true;
    };
  }, [open]);
  return found;
}
