/** Starting a pour, writing its log, and finishing it. */
import { updated, type Update } from './write.ts';
import type { Job, PourPlan } from '../../shared-core/book/job.ts';
import type { Pour, PourEvent } from '../../shared-core/book/pour-record.ts';
import type { Entry } from '../../shared-core/pour/pour-commands.ts';
import { changeJobRoom } from './job-commands.ts';
import { newId, nowInstant, stamps, done, type Outcome, refused } from './command.ts';
import { logPourEvent, storePour } from './pour-log.ts';

export type PourOpening = {
  readonly job: Pick<Job, 'id'>;
  readonly roomIds: readonly string[];
  readonly lift: number;
  readonly materialId: string;
  readonly bagsOnSite: number;
  readonly bagsPlanned: number;
  /** The pour plans, one per room. */
  readonly plans: NonNullable<Pour['plans']>;
  /** The present floor, layout and product, stored with the pour. */
  readonly asPoured: Pour['asPoured'];
  readonly fromPaper: boolean;
};

function pourRow(opening: PourOpening, id: string, now: string, startedAt: string): Pour {
  return {
    ...stamps(now, id),
    jobId: opening.job.id,
    roomIds: [...opening.roomIds],
    lift: opening.lift,
    materialId: opening.materialId,
    startedAt,
    finishedAt: null,
    bagsOnSite: opening.bagsOnSite,
    bagsPlanned: opening.bagsPlanned,
    plans: [...opening.plans],
    asPoured: opening.asPoured,
    fromPaper: opening.fromPaper,
    notes: '',
  };
}

/** Starts a pour: its record and the first log entry. Returns the pour's id. Refused where a pour is running in one of the rooms. */
export async function openPour(opening: PourOpening): Promise<Outcome<string>> {
  const now = nowInstant();
  const id = newId();
  const stored = await storePour(pourRow(opening, id, now, now), [
    { id: newId(), pourId: id, instant: now, estimated: false, kind: 'started' },
  ]);
  return stored.ok ? done(id) : stored;
}

/** Adds an entry to the pour log. Its sequence number is assigned on writing. */
export function logEntry(entry: Entry): Promise<Outcome<PourEvent>> {
  return logPourEvent(entry.event);
}

/** Stores a pour from a handwritten log, every entry marked as estimated. Returns the pour's id. */
export async function enterPaper(
  opening: Omit<PourOpening, 'fromPaper'>,
  of: { readonly id: string; readonly events: readonly PourEvent[]; readonly bagsLeft: number | null; readonly floor: 'whole' | 'partly' },
): Promise<Outcome<string>> {
  const startedAt = of.events[0]?.instant;
  const finishedAt = of.events.at(-1)?.instant;
  if (startedAt === undefined || finishedAt === undefined) return refused('Enter at least one batch with its time.');
  const line = { pourId: of.id, estimated: true };
  const stored = await storePour(pourRow({ ...opening, fromPaper: true }, of.id, nowInstant(), startedAt), [
    { ...line, id: newId(), instant: startedAt, kind: 'started' },
    ...of.events,
    { ...line, id: newId(), instant: finishedAt, kind: 'finished', bagsLeft: of.bagsLeft, floor: of.floor },
  ]);
  return stored.ok ? done(of.id) : stored;
}

/** Changes the pour plan of a room; `begin` is the plan to start from when there is none. */
export function changePourPlan(
  where: { readonly jobId: string; readonly roomId: string },
  label: string,
  startPlan: PourPlan,
  update: Update<PourPlan>,
): Promise<Outcome> {
  return changeJobRoom(where.jobId, where.roomId, label, (r) => ({ ...r, pourPlan: updated(r.pourPlan ?? startPlan, update) }));
}
