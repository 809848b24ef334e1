/** Lists of pours, their logs and batches, room conditions, promised dates and clearance tests. */
import type { PourEvent } from '../../book/pour-record.ts';
import type { RowOf } from '../../book/rows.ts';
import { liveEvents } from '../../pour/log-time.ts';
import { type DataTable, dataTable, madeRows, moments, number, text } from './data-table.ts';
import { inUse, type ListRows, type Names } from './list-rows.ts';

type CureLog = RowOf<'cureLogs'>;
type Condition = { readonly log: CureLog; readonly reading: CureLog['readings'][number] };
function* conditionsOf(logs: readonly CureLog[]): Generator<Condition, void> {
  for (const log of logs) for (const reading of log.readings) yield { log, reading };
}

/** A field of a log entry, where its kind has it. */
const field = (event: PourEvent, key: string): unknown => (event as Readonly<Record<string, unknown>>)[key];
const numberField = (event: PourEvent, key: string): number | null => {
  const value = field(event, key);
  return typeof value === 'number' ? value : null;
};
const textField = (event: PourEvent, ...keys: readonly string[]): string =>
  keys
    .map((key) => field(event, key))
    .filter((value) => typeof value === 'string' && value !== '')
    .join('; ');
const percent = (share: number | null): number | null => (share === null ? null : share * 100);

/** The lists of pours and of what was read and promised while they cured. */
export function pourLists(rows: ListRows, names: Names): readonly DataTable[] {
  const pours = inUse(rows.pours);
  const events = [...rows.pourEvents].sort((a, b) => (a.pourId === b.pourId ? a.seq - b.seq : a.pourId < b.pourId ? -1 : 1));
  const placed = liveEvents(events).flatMap((event) => (event.kind === 'placed' ? [event] : []));
  const jobOf = (event: PourEvent): string => names.get('pours', event.pourId)?.jobId ?? '';
  const zone = (event: PourEvent): string => names.zoneOfJob(jobOf(event));
  const roomsOf = (event: PourEvent): string => {
    const roomId = field(event, 'roomId');
    return names.rooms(typeof roomId === 'string' ? [roomId] : (names.get('pours', event.pourId)?.roomIds ?? []));
  };
  const conditions = madeRows(() => conditionsOf(inUse(rows.cureLogs)));
  const [promises, tests] = [inUse(rows.promises), inUse(rows.clearanceTests)];
  return [
    dataTable('pours', 'One row per pour.', pours, [
      text('Pour ID', (p) => p.id),
      text('Job ID', (p) => p.jobId),
      text('Job', (p) => names.job(p.jobId)),
      text('Room IDs', (p) => p.roomIds.join('; ')),
      text('Rooms', (p) => names.rooms(p.roomIds)),
      number('Lift', 0, (p) => p.lift),
      text('Material', (p) => names.material(p.materialId)),
      ...moments<(typeof pours)[number]>('Started', names.rowZone, (p) => p.startedAt),
      ...moments<(typeof pours)[number]>('Finished', names.rowZone, (p) => p.finishedAt),
      number('Bags on site', 2, (p) => p.bagsOnSite),
      number('Bags planned', 2, (p) => p.bagsPlanned),
      text('Handwritten log', (p) => (p.fromPaper ? 'yes' : 'no'), 'Entered afterwards: its times are estimates.'),
      text('Notes', (p) => p.notes),
    ]),
    dataTable('batches', 'One row per batch placed, as corrected. Voided entries are left out.', placed, [
      text('Pour ID', (e) => e.pourId),
      text('Job', (e) => names.job(jobOf(e))),
      text('Rooms', roomsOf),
      ...moments<(typeof placed)[number]>('Placed', zone, (e) => e.instant),
      number('Batch', 0, (e) => e.batch),
      number('Bags', 2, (e) => e.bags),
      number('Lane', 0, (e) => e.lane),
    ]),
    dataTable('pour log', 'Every entry of every pour, in order. A voided entry stays.', events, [
      text('Entry ID', (e) => e.id),
      text('Pour ID', (e) => e.pourId),
      text('Job', (e) => names.job(jobOf(e))),
      number('Number', 0, (e) => e.seq),
      ...moments<PourEvent>('At', zone, (e) => e.instant),
      text('Estimated', (e) => (e.estimated ? 'yes' : 'no')),
      text('Entry', (e) => e.kind),
      text('Voids or corrects', (e) => textField(e, 'eventId'), 'The ID of another entry.'),
      text('Rooms', roomsOf),
      number('Batch', 0, (e) => numberField(e, 'batch')),
      number('Bags', 2, (e) => numberField(e, 'bags') ?? numberField(e, 'bagsLeft') ?? numberField(e, 'toBags')),
      number('Water (L)', 2, (e) => numberField(e, 'waterL')),
      number('Air (°C)', 1, (e) => numberField(e, 'airTempC')),
      number('Surface (°C)', 1, (e) => numberField(e, 'surfaceTempC')),
      number('Water temperature (°C)', 1, (e) => numberField(e, 'waterTempC')),
      number('Powder (°C)', 1, (e) => numberField(e, 'powderTempC')),
      number('Relative humidity (%)', 1, (e) => percent(numberField(e, 'relativeHumidity'))),
      number('Flow (mm)', 0, (e) => {
        const spreadM = numberField(e, 'spreadM');
        return spreadM === null ? null : spreadM * 1000;
      }),
      text('Details', (e) => textField(e, 'what', 'state', 'lot', 'floor', 'toAt', 'note', 'text', 'why', 'by')),
    ]),
    dataTable('room conditions', 'One row per reading of a room’s air.', conditions, [
      text('Log ID', ({ log }) => log.id),
      text('Job', ({ log }) => names.job(log.jobId)),
      text('Room', ({ log }) => names.rooms([log.roomId])),
      text('Logger', ({ log }) => log.name),
      text('Source', ({ log }) => log.source),
      ...moments<Condition>(
        'At',
        ({ log }) => names.rowZone(log),
        ({ reading }) => reading.instant,
      ),
      number('Air (°C)', 1, ({ reading }) => reading.tempC),
      number('Relative humidity (%)', 1, ({ reading }) => percent(reading.relativeHumidity)),
    ]),
    dataTable('promised dates', 'One row per date promised to a customer.', promises, [
      text('Promise ID', (p) => p.id),
      text('Job', (p) => names.job(p.jobId)),
      text('Room', (p) => names.rooms([p.roomId])),
      text('Milestone', (p) => p.milestone),
      text('Flooring', (p) => p.flooring),
      text('Told to', (p) => p.to),
      ...moments<(typeof promises)[number]>('Promised for', names.rowZone, (p) => p.promisedFor),
      ...moments<(typeof promises)[number]>('Made', names.rowZone, (p) => p.madeAt),
    ]),
    dataTable('clearance tests', 'One row per test before flooring.', tests, [
      text('Test ID', (t) => t.id),
      text('Job', (t) => names.job(t.jobId)),
      text('Room', (t) => names.rooms([t.roomId])),
      text('Flooring', (t) => t.flooring),
      text('Method', (t) => t.method),
      number('Result', 4, (t) => t.value, '`share` is 0 to 1, `lb` is lb per 1000 sq ft in 24 h.'),
      text('Unit', (t) => t.unit),
      ...moments<(typeof tests)[number]>('Taken', names.rowZone, (t) => t.takenAt),
      text('By', (t) => t.by),
      text('Note', (t) => t.note),
    ]),
  ];
}
