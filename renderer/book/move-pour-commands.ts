/** Moves a pour, after checking the move against every open job so that its conflicts are shown first. */
import { agenda } from '../../shared-core/agenda/agenda.ts';
import { movePour, type PourMove } from '../../shared-core/agenda/move-pour.ts';
import { readEstimated } from '../../shared-core/standing/read-job.ts';
import { roomsOfGo } from '../../shared-core/standing/read-pour.ts';
import { estimateOf } from '../workers/job-estimates.ts';
import { book } from './database.ts';
import { nowInstant, type Outcome } from './command.ts';
import { readWholeJob } from './use-whole-job.ts';
import { write } from './write.ts';

/** What a move takes along and what conflicts; null where there is no pour to move. */
export async function tryMove(jobId: string, roomId: string, toAt: string): Promise<PourMove | null> {
  const now = nowInstant();
  const jobs = await book().rowsOf('jobs').toArray();
  const open = jobs.filter((job) => job.state === 'open' && job.deletedAt === null);
  const wholes = (await Promise.all(open.map((job) => readWholeJob(job.id)))).filter((whole) => whole !== null);
  const readings = await Promise.all(wholes.map(async (whole) => readEstimated(whole, now, await estimateOf(whole, now))));
  const own = readings.find((reading) => reading.whole.job.id === jobId);
  if (own === undefined) return null;
  const fromAt = own.whole.job.rooms.find((r) => r.roomId === roomId)?.pourAt ?? null;
  // Rooms of the same lift have the same time and stay together.
  const together = roomsOfGo(own, roomId).filter((id) => own.whole.job.rooms.some((r) => r.roomId === id && r.pourAt === fromAt));
  const bundles = readings.map((reading) => reading.bundle);
  return movePour(agenda(bundles, own.whole.business, null), jobId, together, toAt, now);
}

/** Moves the pour and what depends on it in one edit. */
export function saveMove(move: PourMove): Promise<Outcome> {
  const pourAt = new Map(move.job.rooms.map((r) => [r.roomId, r.pourAt]));
  return write('Move pour', nowInstant(), {
    patches: [
      {
        table: 'jobs',
        id: move.job.id,
        change: (job) => ({ ...job, rooms: job.rooms.map((r) => ({ ...r, pourAt: pourAt.get(r.roomId) ?? r.pourAt })) }),
      },
      ...move.visits.map((visit) => ({
        table: 'visits' as const,
        id: visit.id,
        change: <V extends { readonly instant: string; readonly sequence: number }>(v: V): V => ({
          ...v,
          instant: visit.instant,
          sequence: v.sequence + 1,
        }),
      })),
    ],
  });
}
