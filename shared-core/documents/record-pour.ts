/** The log of a pour as the job record keeps it: every entry with its time, those taken back too. */
import type { WholeJob } from '../book/whole-job.ts';
import type { Pour, PourEvent } from '../book/pour-record.ts';
import { formatInstant, formatInstantTime } from '../measure/moment.ts';
import { formatDepth } from '../measure/length-format.ts';
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';
import { formatTemperature } from '../measure/temperature.ts';
import { formatLiquid } from '../measure/volume.ts';
import { listed } from '../standing/names.ts';
import type { HandoverPlace } from './handover-picture.ts';
import { joined, recordHeading, recordTable, recordWords } from './record-blocks.ts';
import type { Block } from './tree.ts';

const INCIDENT: Readonly<Record<Extract<PourEvent, { kind: 'incident' }>['what'], string>> = {
  'blocked-outlet': 'blocked outlet',
  spill: 'spill',
  'dry-spot': 'dry spot',
  'wrong-water': 'wrong water',
  'power-lost': 'power lost',
  other: 'something else went wrong',
};

type Names = { readonly place: HandoverPlace; readonly roomOf: (id: string | null) => string };

const bagsSaid = (bags: number, { locale }: HandoverPlace): string =>
  `${formatNumber(bags, { most: 1 }, locale)} ${bags === 1 ? 'bag' : 'bags'}`;

function readingSaid(event: Extract<PourEvent, { kind: 'reading' }>, { units, locale }: HandoverPlace): string {
  const temp = (word: string, value: number | null): string => (value === null ? '' : `${word} ${formatTemperature(value, units, locale)}`);
  return joined([
    temp('air', event.airTempC),
    temp('floor', event.surfaceTempC),
    temp('water', event.waterTempC),
    temp('powder', event.powderTempC),
    event.relativeHumidity === null ? '' : `humidity ${formatPercent(event.relativeHumidity, 0, locale)}`,
    event.spreadM === null ? '' : `spread ${formatDepth(event.spreadM, units, locale)}`,
  ]);
}

/** One entry in full. */
function entrySaid(event: PourEvent, { place, roomOf }: Names): string {
  switch (event.kind) {
    case 'started':
      return 'Pour opened';
    case 'mixed': {
      const water = event.waterL === null ? '' : `, ${formatLiquid(event.waterL, place.units, place.locale)} of water`;
      return `Batch ${event.batch} mixed: ${bagsSaid(event.bags, place)}${water}`;
    }
    case 'placed': {
      const lane = event.lane === null ? '' : `lane ${event.lane}`;
      const where = joined([roomOf(event.roomId), lane]);
      return `Batch ${event.batch} landed: ${bagsSaid(event.bags, place)}${where === '' ? '' : `, ${where}`}`;
    }
    case 'lane-finished':
      return `${joined([roomOf(event.roomId), `lane ${event.lane}`])} finished`;
    case 'incident':
      return `Went wrong: ${INCIDENT[event.what]}${event.note === '' ? '' : `. ${event.note}`}`;
    case 'reading':
      return `Read: ${readingSaid(event, place)}`;
    case 'lot':
      return `Lot ${event.lot}`;
    case 'bags-added':
      return `${bagsSaid(event.bags, place)} brought`;
    case 'note':
      return `Note: ${event.text}`;
    case 'undone':
      return 'An entry taken back';
    case 'finished':
      return `Pour finished${event.bagsLeft === null ? '' : `, ${bagsSaid(event.bagsLeft, place)} left`}`;
  }
}

/** One pour with its log. */
export function recordPour(whole: WholeJob, pour: Pour, place: HandoverPlace): Block[] {
  const { zone, locale } = place;
  const names = new Map(whole.rooms.map((room) => [room.id, room.name]));
  const roomOf = (id: string | null): string => (id === null ? '' : (names.get(id) ?? ''));
  const events = whole.pourEvents.filter((event) => event.pourId === pour.id).toSorted((a, b) => a.seq - b.seq);
  const undone = new Map(events.flatMap((event) => (event.kind === 'undone' ? [[event.eventId, event.seq] as const] : [])));
  const material = whole.materials.find((m) => m.id === pour.materialId)?.name ?? 'a material no longer in the book';
  const rooms = listed(pour.roomIds.map(roomOf).filter((name) => name !== ''));
  const at = (instant: string | null): string => (instant === null ? 'not noted' : formatInstant(instant, zone, 'dated', locale));
  const paper = pour.fromPaper ? ' The times were entered from paper afterwards: they are estimates.' : '';
  const caption = `${rooms}${pour.lift > 1 ? `, lift ${pour.lift}` : ''}: the log of the pour`;
  return [
    recordHeading(`${rooms}${pour.lift > 1 ? `, lift ${pour.lift}` : ''}`),
    recordWords(
      `${material}. Opened ${at(pour.startedAt)}, finished ${at(pour.finishedAt)}. ${bagsSaid(pour.bagsPlanned, place)} reckoned, ${bagsSaid(pour.bagsOnSite, place)} on site.${paper}`,
    ),
    ...(joined([pour.weather, pour.notes]) === '' ? [] : [recordWords(joined([pour.weather, pour.notes]))]),
    ...recordTable(
      caption,
      [
        ['', 0.07],
        ['Time', 0.17],
        ['What', null],
        ['', 0.2],
      ],
      events.map((event) => [
        String(event.seq),
        `${formatInstantTime(event.at, zone, locale)}${event.estimated ? ', about' : ''}`,
        event.kind === 'undone'
          ? `Entry ${events.find((other) => other.id === event.eventId)?.seq ?? 'before'} taken back`
          : entrySaid(event, { place, roomOf }),
        undone.has(event.id) ? `taken back, entry ${undone.get(event.id) ?? ''}` : '',
      ]),
    ),
  ];
}
