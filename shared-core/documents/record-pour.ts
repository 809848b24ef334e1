/** The pour log in the job record: every entry with its time, voided ones included. */
import type { WholeJob } from '../book/whole-job.ts';
import type { Pour } from '../book/pour-record.ts';
import { formatInstant, formatInstantTime } from '../measure/moment.ts';
import { bagsWords, entryInFull, entryWords, type LogWordsPlace } from './log-words.ts';
import { voidedIds } from '../pour/log-time.ts';
import { placedFloor, type PlacedRoom } from '../pour/placed-floor.ts';
import { listed } from '../standing/names.ts';
import type { HandoverPlace } from './handover-tables.ts';
import { recordHeading, recordTable, recordWords } from './record-blocks.ts';
import type { Block } from './tree.ts';

/** The missing or suspect floor of a pour, one sentence per room; empty where all is placed. */
function openWords(room: PlacedRoom, name: string): string {
  if (room.extent === 'none') return `${name}: no floor was placed.`;
  const lanes =
    room.openLanes.length === 0 ? '' : ` Open: ${room.openLanes.length === 1 ? 'lane' : 'lanes'} ${listed(room.openLanes.map(String))}.`;
  if (room.extent === 'partly') return `${name}: partly poured.${lanes}`;
  return room.suspectM2 > 0 ? `${name}: all of the floor was placed. Part of it is suspect.` : '';
}

/** One pour with its log. */
export function recordPour(whole: WholeJob, pour: Pour, place: HandoverPlace): Block[] {
  const { zone, locale, units } = place;
  const names = new Map(whole.rooms.map((room) => [room.id, room.name]));
  const storedName = (id: string): string | undefined => pour.asPoured.rooms.find((r) => r.roomId === id)?.name;
  const roomName = (id: string | null): string => (id === null ? '' : (storedName(id) ?? names.get(id) ?? ''));
  const events = whole.pourEvents.filter((event) => event.pourId === pour.id).toSorted((a, b) => a.seq - b.seq);
  const voided = voidedIds(events);
  const voidedBy = new Map(events.flatMap((event) => (event.kind === 'undone' ? [[event.eventId, event.seq] as const] : [])));
  const words: LogWordsPlace = { units, locale, layout: pour.asPoured.layout, roomName };
  const material = pour.asPoured.material.name;
  const rooms = listed(pour.roomIds.map(roomName).filter((name) => name !== ''));
  const timeText = (instant: string | null): string => (instant === null ? 'not recorded' : formatInstant(instant, zone, 'dated', locale));
  const paper = pour.fromPaper ? ' Times were entered from a handwritten log and are estimates.' : '';
  const title = `${rooms}${pour.lift > 1 ? `, lift ${pour.lift}` : ''}`;
  const open =
    pour.finishedAt === null
      ? []
      : placedFloor(pour, events)
          .map((room) => openWords(room, roomName(room.roomId)))
          .filter((w) => w !== '');
  return [
    recordHeading(title),
    recordWords(
      `${material}. Started ${timeText(pour.startedAt)}, finished ${timeText(pour.finishedAt)}. ${bagsWords(pour.bagsPlanned, locale)} planned, ${bagsWords(pour.bagsOnSite, locale)} on site.${paper}`,
    ),
    ...open.map((sentence) => recordWords(sentence)),
    ...(pour.notes === '' ? [] : [recordWords(pour.notes)]),
    ...recordTable(
      `${title}: pour log`,
      [
        ['No.', 0.07],
        ['Time', 0.17],
        ['Entry', null],
        ['Status', 0.2],
      ],
      events.map((event) => [
        String(event.seq),
        `${formatInstantTime(event.instant, zone, locale)}${event.estimated ? ', estimated' : ''}`,
        event.kind === 'undone'
          ? `Voided: entry ${events.find((other) => other.id === event.eventId)?.seq ?? ''}, ${entryWords(events.find((other) => other.id === event.eventId) ?? event, words)}`
          : entryInFull(event, events, words),
        voided.has(event.id) ? `Voided by entry ${voidedBy.get(event.id) ?? ''}` : '',
      ]),
    ),
  ];
}
