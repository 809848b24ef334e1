import type { RibbonRowView, RibbonView } from '../../../shared-core/agenda/today.ts';
import { dayOfNumber } from '../../../shared-core/standing/local-days.ts';
import type { Days, RibbonInput, RibbonJob, RibbonRoom } from '../../../shared-core/drawing/ribbon.ts';

type Lane = RibbonRowView['lanes'][number];

const spansOf = (row: RibbonRowView, kind: Lane['kind']): Days[] =>
  row.lanes
    .filter((s) => s.kind === kind)
    .map((lane) => ({ from: lane.began ? lane.fromDay - 1 : lane.fromDay, to: lane.goesOn ? lane.toDay + 1 : lane.toDay }));
const spanOf = (row: RibbonRowView, kind: Lane['kind']): Days | null => spansOf(row, kind)[0] ?? null;

const roomOf = (row: RibbonRowView): RibbonRoom => ({
  id: row.roomId,
  name: row.roomName,
  state: row.standing.state,
  letter: row.letters[0] ?? null,
  isAgreed: row.lanes.every((s) => s.agreed),
  prep: spanOf(row, 'prep'),
  pours: spansOf(row, 'pour'),
  drying: spanOf(row, 'drying'),
  ready: spanOf(row, 'ready'),
  held: spanOf(row, 'held'),
  note: row.label,
  isNoteLate: false,
  label: `${row.roomName}, ${row.customerName}: ${row.label}`,
});

/** Rows grouped by job, in order. */
function jobsOf(rows: readonly RibbonRowView[]): RibbonJob[] {
  const jobs = new Map<string, { id: string; name: string; place: string; rooms: RibbonRoom[] }>();
  for (const row of rows) {
    const job = jobs.get(row.jobId) ?? { id: row.jobId, name: row.customerName, place: row.address, rooms: [] };
    job.rooms.push(roomOf(row));
    jobs.set(row.jobId, job);
  }
  return [...jobs.values()];
}

/** Converts Today's ribbon into the drawing's input for a width. */
export function ribbonInput(view: RibbonView, widthPx: number, isNarrow: boolean, locale: string): RibbonInput {
  return {
    widthPx,
    fromDay: dayOfNumber(view.firstDay),
    days: view.days,
    today: view.today,
    locale,
    jobs: jobsOf(view.rows),
    x0: isNarrow ? 18 : Math.min(392, Math.max(376, widthPx * 0.3)),
    x1: widthPx - (isNarrow ? 18 : 36),
    datumY: 30,
    isNarrow,
  };
}
