import type { Update } from '../../book/write.ts';
import { roomsOf } from '../../../shared-core/standing/job-bundle.ts';
import { roomPour } from '../../../shared-core/standing/room-pour.ts';
import { roomsOfGo } from '../../../shared-core/standing/read-pour.ts';
import type { JobReading, RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { PourPlan } from '../../../shared-core/book/job.ts';
import { facingDoorways, type DoorwayPair } from '../../../shared-core/pour/open-doorways.ts';
import { CheckRow, SelectField } from '../../parts/Choices.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';

interface TogetherProps {
  readonly reading: JobReading;
  readonly roomReading: RoomReading;
  readonly onPlan: (label: string, update: Update<PourPlan>) => void;
  /** Why the chosen rooms cannot be poured together; null when they can. */
  readonly problem: string | null;
}

const PLACES = ['first', 'second', 'third'] as const;
const place = (i: number): string => PLACES[i] ?? `${i + 1}th`;

/** Which rooms are poured together, in what order, and through which doorways the wet edge continues. */
export function TogetherPart({ reading, roomReading, onPlan, problem }: TogetherProps) {
  const own = roomReading.room.id;
  // A room needs an estimate, and floor left to pour.
  const others = reading.rooms.filter((r) => {
    const facts = roomsOf(reading.bundle).find((f) => f.room.id === r.room.id);
    return r.room.id !== own && facts?.summary?.bags != null && roomPour(reading.bundle, facts).part !== 'whole';
  });
  const go = roomsOfGo(reading, own);
  if (others.length === 0) return null;
  const nameOf = (id: string) => reading.rooms.find((r) => r.room.id === id)?.room.name ?? '';
  const inOrder = (label: string, ids: readonly string[]) => onPlan(label, { withRoomIds: ids.length > 1 ? [...ids] : [] });
  const earlier = (i: number) => {
    const ids = [...go];
    const [moved] = ids.splice(i, 1);
    if (moved !== undefined) inOrder(`Pour ${nameOf(moved)} earlier`, ids.toSpliced(i - 1, 0, moved));
  };
  return (
    <BlockPart heading="Pour together">
      {others.map(({ room }) => (
        <CheckRow
          key={room.id}
          dense
          label={room.name}
          checked={go.includes(room.id)}
          onChange={(on) =>
            inOrder(
              on ? `Pour ${room.name} together` : `Pour ${room.name} separately`,
              on ? [...go, room.id] : go.filter((id) => id !== room.id),
            )
          }
        />
      ))}
      {go.length > 1 && (
        <>
          <p className="small">In this order. Pour the room farthest from the exit first.</p>
          <ol className="figures">
            {go.map((id, i) => (
              <li key={id}>
                <span>
                  {nameOf(id)}, {place(i)}
                </span>
                {i > 0 && (
                  <TextButton kind="plain" label={`Pour ${nameOf(id)} earlier`} onPress={() => earlier(i)}>
                    Move up
                  </TextButton>
                )}
              </li>
            ))}
          </ol>
          <DoorwayFields
            rooms={go.flatMap((id) => reading.rooms.find((r) => r.room.id === id) ?? [])}
            plan={roomReading.jobRoom.pourPlan}
            onPlan={onPlan}
          />
        </>
      )}
      {problem !== null && (
        <p className="field-problem" role="alert">
          {`${problem} This room is planned separately for now.`}
        </p>
      )}
    </BlockPart>
  );
}

interface DoorwayProps {
  readonly rooms: readonly RoomReading[];
  readonly plan: PourPlan | null;
  readonly onPlan: TogetherProps['onPlan'];
}

const keyOf = (end: { readonly roomId: string; readonly openingId: string }): string => `${end.roomId}:${end.openingId}`;

const asEnd = (pair: DoorwayPair) => ({ roomId: pair.toRoomId, openingId: pair.toOpeningId });

/** The opening on the other side that it is poured through to; empty for none. */
function otherEnd(open: readonly DoorwayPair[], end: { readonly roomId: string; readonly openingId: string }): string {
  for (const pair of open) {
    if (keyOf(pair) === keyOf(end)) return keyOf(asEnd(pair));
    if (keyOf(asEnd(pair)) === keyOf(end)) return keyOf(pair);
  }
  return '';
}

/** Each doorway of the rooms: dammed, or poured through to an opening of another room. */
function DoorwayFields({ rooms, plan, onPlan }: DoorwayProps) {
  const open = plan?.openDoorways ?? [];
  const facing = facingDoorways(rooms.map(({ room }) => ({ roomId: room.id, plan: room.plan })));
  const ends = rooms.flatMap(({ room }, order) =>
    room.plan.openings
      .filter((o) => o.kind === 'doorway' || o.kind === 'open-side' || o.kind === 'sliding-door')
      .map((o) => ({ roomId: room.id, openingId: o.id, name: o.name === '' ? 'doorway' : o.name, room: room.name, order })),
  );
  const faces = (a: (typeof ends)[number], b: (typeof ends)[number]) =>
    facing.some((f) => (keyOf(f) === keyOf(a) && keyOf(asEnd(f)) === keyOf(b)) || (keyOf(f) === keyOf(b) && keyOf(asEnd(f)) === keyOf(a)));
  // Each doorway is asked about once, from the room poured first.
  const asked = ends.flatMap((end) => {
    const met = ends.filter((e) => e.order > end.order);
    const over = met.filter((e) => faces(end, e));
    // Where rooms are placed on the property plan, only the opposite opening is possible.
    const choices = over.length > 0 ? over : facing.length > 0 ? [] : met;
    return choices.length > 0 ? [{ end, choices }] : [];
  });
  if (asked.length === 0) return <p className="small">No doorway between them is drawn. Each room ends at a dam.</p>;
  return (
    <>
      {asked.map(({ end, choices }) => (
        <SelectField
          key={keyOf(end)}
          label={`${end.room} doorway: ${end.name}`}
          value={otherEnd(open, end)}
          options={[{ value: '', word: 'dammed' }, ...choices.map((c) => ({ value: keyOf(c), word: `open to ${c.room}: ${c.name}` }))]}
          onChange={(value) => {
            const to = choices.find((c) => keyOf(c) === value);
            const rest = open.filter((d) => otherEnd([d], end) === '');
            onPlan(to === undefined ? 'Dam a doorway' : 'Open a doorway', {
              openDoorways:
                to === undefined
                  ? rest
                  : [...rest, { roomId: end.roomId, openingId: end.openingId, toRoomId: to.roomId, toOpeningId: to.openingId }],
            });
          }}
        />
      ))}
    </>
  );
}
