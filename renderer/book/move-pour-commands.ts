/** Tries to move a pour against every open job, so that its conflicts are shown first. */
import { agenda } from '../../shared-core/agenda/agenda.ts';
import { movePour, type PourMove } from '../../shared-core/agenda/move-pour.ts';
import { roomsOf } from '../../shared-core/standing/job-bundle.ts';
import { readEstimated } from '../../shared-core/standing/read-job.ts';
import { roomsOfGo } from '../../shared-core/standing/read-pour.ts';
import { roomPour } from '../../shared-core/standing/room-pour.ts';
import { estimateOf } from '../workers/job-estimates.ts';
import { book } from './database.ts';
import { nowInstant } from './command.ts';
import { readOpenLeads } from './use-leads.ts';
import { readWholeJob } from './use-whole-job.ts';

/** What a move takes along and what conflicts; null where there is no pour to move. */
export async function tryMove(jobId: string, roomId: string, toAt: string): Promise<PourMove | null> {
  const now = nowInstant();
  const jobs = await book().rowsOf('jobs').toArray();
  const open = jobs.filter((job) => job.state === 'open' && job.deletedAt === null);
  const wholes = (await Promise.all(open.map((job) => readWholeJob(job.id)))).filter((whole) => whole !== null);
  const readings = await Promise.all(wholes.map(async (whole) => readEstimated(whole, now, await estimateOf(whole, now))));
  const own = readings.find((reading) => reading.whole.job.id === jobId);
  if (own === undefined) return null;
  const nextAt = new Map(own.rooms.map(({ room, nextPourAt }) => [room.id, nextPourAt]));
  // Rooms of the same lift have the same time and stay together. A room that is placed whole keeps the dates of its own pour.
  const placed = roomsOf(own.bundle).filter((facts) => facts.room.id !== roomId && roomPour(own.bundle, facts).part === 'whole');
  const together = roomsOfGo(own, roomId).filter(
    (id) => !placed.some(({ room }) => room.id === id) && nextAt.get(id) === nextAt.get(roomId),
  );
  const bundles = readings.map((reading) => reading.bundle);
  return movePour(agenda(bundles, own.whole.business, null, await readOpenLeads()), jobId, together, toAt, now);
}
