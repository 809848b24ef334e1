/** Records while a floor cures: readings, promised dates, tests, and visits. */
import type { Flooring } from '../../shared-core/book/flooring.ts';
import type { ClearanceTest, CureLog, CureReading, Promised, Visit } from '../../shared-core/book/cure-record.ts';
import { nowInstant, type Outcome, stamps } from './command.ts';
import { add, change, archive, updated, type Update, write } from './write.ts';

/** Room readings entered by hand, pasted or imported. */
export function addReadings(
  jobId: string,
  roomId: string,
  readings: readonly CureReading[],
  source: CureLog['source'],
  name: string,
): Promise<Outcome> {
  return add(
    'cureLogs',
    { ...stamps(), jobId, roomId, source, name, readings: [...readings] },
    readings.length === 1 ? 'room conditions entry' : `${readings.length} room conditions entries`,
    nowInstant(),
  );
}

export function deleteLog(log: Pick<CureLog, 'id' | 'name'>): Promise<Outcome> {
  return archive([{ table: 'cureLogs', id: log.id }], `delete ${log.name}`, nowInstant());
}

/** Records a date told to the customer. Earlier ones stay on record. */
export function promise(
  of: Pick<Promised, 'jobId' | 'roomId' | 'milestone' | 'flooring' | 'promisedFor' | 'to' | 'documentId'>,
): Promise<Outcome> {
  const row = stamps();
  return add('promises', { ...row, ...of, madeAt: row.createdAt }, 'promised date', row.createdAt);
}

/** The moisture tests of one visit before flooring: a record for each result, in one step. */
export function addClearanceTests(
  of: Pick<ClearanceTest, 'jobId' | 'roomId' | 'method' | 'unit' | 'by' | 'takenAt' | 'note'> & { readonly flooring: Flooring },
  results: readonly number[],
): Promise<Outcome> {
  const puts = results.map((value) => ({ table: 'clearanceTests' as const, row: { ...stamps(), ...of, value } }));
  return write(results.length === 1 ? 'clearance test' : `${results.length} clearance tests`, nowInstant(), { puts });
}

export function addVisit(of: Pick<Visit, 'jobId' | 'roomIds' | 'kind' | 'title' | 'instant' | 'minutes'>): Promise<Outcome> {
  const row = stamps();
  return add(
    'visits',
    { ...row, ...of, doneAt: null, cause: '', fix: '', notes: '', photoIds: [], sequence: 0, cancelledAt: null },
    `visit: ${of.title}`,
    row.createdAt,
  );
}

/** Changes a visit and raises its sequence number for calendar files. */
export function changeVisit(id: string, label: string, update: Update<Visit>): Promise<Outcome> {
  return change('visits', id, label, nowInstant(), (v) => ({ ...updated(v, update), sequence: v.sequence + 1 }));
}
