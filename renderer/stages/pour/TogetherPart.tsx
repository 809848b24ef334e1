import { roomsOfGo } from '../../../shared-core/agenda/read-pour.ts';
import type { JobReading, RoomReading } from '../../../shared-core/agenda/read-job.ts';
import type { PourPlan } from '../../../shared-core/book/job.ts';
import { CheckRow } from '../../parts/CheckRow.tsx';
import { BlockPart } from '../../parts/TitleBlock.tsx';

interface TogetherProps {
  readonly reading: JobReading;
  readonly at: RoomReading;
  readonly onPlan: (label: string, how: (plan: PourPlan) => PourPlan) => void;
  /** Why the rooms chosen cannot go together; null when they can. */
  readonly problem: string | null;
}

/** Which rooms of the job are poured in the same go, in the order they were chosen. */
export function TogetherPart({ reading, at, onPlan, problem }: TogetherProps) {
  const others = reading.rooms.filter(
    (r) =>
      r.room.id !== at.room.id &&
      (r.jobRoom.stage === 'pour' || r.jobRoom.stage === 'quote' || r.jobRoom.stage === 'prep' || r.jobRoom.stage === 'estimate'),
  );
  const go = roomsOfGo(reading, at.room.id);
  if (others.length === 0) return null;
  return (
    <BlockPart heading="In the same go">
      {others.map(({ room }) => {
        const place = go.indexOf(room.id);
        return (
          <CheckRow
            key={room.id}
            dense
            label={room.name}
            checked={place >= 0}
            right={place >= 0 ? (place === 1 ? 'second' : place === 2 ? 'third' : `${place + 1}th`) : ''}
            onChange={(on) =>
              onPlan(on ? `${room.name} in the same go` : `${room.name} on its own`, (was) => ({
                ...was,
                withRoomIds: [...(was.withRoomIds ?? []).filter((id) => id !== room.id), ...(on ? [room.id] : [])],
              }))
            }
          />
        );
      })}
      {problem !== null && (
        <p className="field-problem" role="alert">
          {problem} Until then this room is planned on its own.
        </p>
      )}
    </BlockPart>
  );
}
