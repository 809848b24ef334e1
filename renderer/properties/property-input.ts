import type { Job } from '../../shared-core/book/job.ts';
import type { Pour } from '../../shared-core/book/pour-record.ts';
import type { Property } from '../../shared-core/book/property.ts';
import type { Room } from '../../shared-core/book/room.ts';
import type { Drawing, Mark } from '../../shared-core/drawing/marks.ts';
import type { HouseInput, HouseRoom } from '../../shared-core/drawing/house.ts';
import { formatInstantDay } from '../../shared-core/measure/moment.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';
import { letterNotes } from './letter-places.ts';

/** A scale bar of 10 ft or 3 m. */
const SCALE_BAR = { us: { lengthM: 3.048, text: '10 ft' }, metric: { lengthM: 3, text: '3 m' } } as const;

type PropertyRecords = {
  readonly property: Property;
  readonly rooms: readonly Room[];
  readonly jobs: readonly Job[];
  readonly pours: readonly Pour[];
  readonly units: UnitSystem;
  readonly locale: string;
  readonly lengthText: (lengthM: number) => string;
};

/** The drawing's input without its size; null until a room is drawn. */
export function propertyInput({
  property,
  rooms,
  jobs,
  pours,
  units,
  locale,
  lengthText,
}: PropertyRecords): Omit<HouseInput, 'widthPx' | 'heightPx'> | null {
  const drawn = rooms.filter((room) => room.plan.outline.length >= 3);
  if (drawn.length === 0) return null;
  const look = (room: Room): { look: HouseRoom['look']; lines: readonly string[] } => {
    const job = jobs.find((j) => j.state === 'open' && j.rooms.some((r) => r.roomId === room.id));
    const poured = pours.filter((p) => p.finishedAt !== null && p.roomIds.includes(room.id)).map((p) => p.finishedAt ?? '');
    const last = poured.toSorted().at(-1);
    if (last !== undefined) {
      const on = `*poured ${formatInstantDay(last, property.timeZone, 'dated', locale)}`;
      return { look: 'ours', lines: job === undefined ? [on] : [on, job.number] };
    }
    const read = room.survey.readings.length > 0 || (room.survey.runs ?? []).length > 0 ? [] : ['*not measured'];
    return job === undefined ? { look: 'plain', lines: read } : { look: 'now', lines: [...read, job.number] };
  };
  return {
    rooms: drawn.map((room) => {
      const { look: looks, lines } = look(room);
      return {
        id: room.id,
        plan: room.plan,
        look: looks,
        hatch: null,
        lines: [room.name, ...lines],
        label: room.name,
      };
    }),
    notes: letterNotes(property, drawn),
    hasDimensions: true,
    hasOpeningNames: true,
    lengthText,
    scale: SCALE_BAR[units],
    key: { ours: 'Poured by us', now: 'In an open job', plain: 'Not poured' },
  };
}

const unnamed = (marks: readonly Mark[]): Mark[] =>
  marks.map((mark) => (mark.kind === 'group' ? { ...mark, label: '', marks: unnamed(mark.marks) } : mark));

/** Only the rooms can be pressed, because a button must not contain another. */
export function pickableRooms(drawing: Drawing): Drawing {
  return {
    ...drawing,
    marks: drawing.marks.map((mark) =>
      mark.kind === 'group' ? { ...mark, label: mark.name.startsWith('room:') ? mark.label : '', marks: unnamed(mark.marks) } : mark,
    ),
  };
}
