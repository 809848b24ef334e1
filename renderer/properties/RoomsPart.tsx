import { useState } from 'react';
import type { Job } from '../../shared-core/book/job.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { removeFromJob, addToJob } from '../book/job-rooms.ts';
import { nowInstant, type Outcome } from '../book/command.ts';
import { unarchive, change, archive } from '../book/write.ts';
import { ArchivedList } from '../parts/ArchivedList.tsx';
import { LinkWord, TextButton } from '../parts/Buttons.tsx';
import { TextField, checkName } from '../parts/Fields.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { roomHref } from '../parts/job/stage-words.ts';
import { CheckRow } from '../parts/Choices.tsx';
import { titleOfRooms } from '../../shared-core/standing/names.ts';

interface RoomsPartProps {
  readonly rooms: readonly Room[];
  readonly archived: readonly Room[];
  readonly openJobs: readonly Job[];
  readonly name: string;
  readonly onName: (name: string) => void;
  readonly onAdd: () => void;
  readonly problem: string | null;
  readonly onSay: (outcome: Outcome<unknown>) => void;
}

export function RoomsPart({ rooms, archived, openJobs, name, onName, onAdd, problem, onSay }: RoomsPartProps) {
  return (
    <BlockPart heading="Rooms">
      <ul className="property-rooms">
        {rooms.map((room) => (
          <RoomRow key={room.id} room={room} job={openJobs.find((j) => j.rooms.some((r) => r.roomId === room.id)) ?? null} onSay={onSay} />
        ))}
      </ul>
      <form
        className="property-new"
        onSubmit={(event) => {
          event.preventDefault();
          onAdd();
        }}
      >
        <TextField label="New room" value={name} onChange={onName} placeholder="Hall, kitchen, laundry" problem={problem} />
        <TextButton submits kind="outlined">
          Add room
        </TextButton>
      </form>
      {archived.length > 0 && (
        <ArchivedList
          label="Archived rooms"
          rows={archived}
          words={(room) => <span className="caption">{room.name}, archived</span>}
          onUnarchive={({ id, name }) => unarchive([{ table: 'rooms', id }], `unarchive ${name}`, nowInstant()).then(onSay)}
        />
      )}
    </BlockPart>
  );
}

interface RoomRowProps {
  readonly room: Room;
  readonly job: Job | null;
  readonly onSay: (outcome: Outcome<unknown>) => void;
}

function RoomRow({ room, job, onSay }: RoomRowProps) {
  const jobRoom = job?.rooms.find((r) => r.roomId === room.id) ?? null;
  const [renaming, setRenaming] = useState(false);
  const isDrawn = room.plan.outline.length >= 3;
  return (
    <li>
      {renaming ? (
        <TextField
          label={`Name of ${room.name}`}
          bare
          autoFocus
          value={room.name}
          emptyMessage="Enter a room name."
          check={checkName}
          onChange={(name) => void change('rooms', room.id, `name of ${room.name}`, nowInstant(), { name }).then(onSay)}
          onEnter={() => setRenaming(false)}
        />
      ) : (
        <LinkWord href={job !== null && jobRoom !== null ? roomHref(job.id, room.id) : `/plan/${room.id}`} tall>
          {room.name}
        </LinkWord>
      )}
      <span className="caption">{jobRoom !== null ? `Job ${job?.number ?? ''}` : isDrawn ? 'Drawn' : 'Not drawn'}</span>
      <span className="words property-room-actions">
        <LinkWord href={`/plan/${room.id}`}>
          Plan<span className="hidden-words"> of {room.name}</span>
        </LinkWord>
        {isDrawn && (
          <LinkWord href={`/readings/${room.id}`}>
            Readings<span className="hidden-words"> of {room.name}</span>
          </LinkWord>
        )}
        <TextButton kind="plain" label={renaming ? `Done with ${room.name}` : `Rename ${room.name}`} onPress={() => setRenaming(!renaming)}>
          {renaming ? 'Done' : 'Rename'}
        </TextButton>
        {job === null ? (
          <TextButton
            kind="delete"
            label={`Archive ${room.name}`}
            onPress={() => void archive([{ table: 'rooms', id: room.id }], `archive ${room.name}`, nowInstant()).then(onSay)}
          >
            Archive
          </TextButton>
        ) : (
          <TextButton
            kind="delete"
            label={`Remove ${room.name} from job ${job.number}`}
            onPress={() => void removeFromJob(job, room.id, room.name).then(onSay)}
          >
            Remove from job
          </TextButton>
        )}
      </span>
    </li>
  );
}

interface JobPartProps {
  /** Rooms without an open job. */
  readonly free: readonly Room[];
  readonly picked: readonly string[];
  readonly onPick: (picked: readonly string[]) => void;
  readonly openJobs: readonly Job[];
  readonly onStart: () => void;
  readonly onSay: (outcome: Outcome<unknown>) => void;
}

/** Adds rooms to a new or open job. */
export function JobPart({ free, picked, onPick, openJobs, onStart, onSay }: JobPartProps) {
  const names = titleOfRooms(free.filter((room) => picked.includes(room.id)));
  return (
    <BlockPart heading={openJobs.length === 0 ? 'Rooms for a new job' : 'Rooms without a job'}>
      {free.map((room) => (
        <CheckRow
          key={room.id}
          label={room.name}
          checked={picked.includes(room.id)}
          onChange={(on) => onPick(on ? [...picked, room.id] : picked.filter((id) => id !== room.id))}
        />
      ))}
      {openJobs.map((job) => (
        <div key={job.id}>
          <TextButton
            disabled={picked.length === 0}
            onPress={() =>
              void addToJob(job, picked, names).then((outcome) => {
                onSay(outcome);
                if (outcome.ok) onPick([]);
              })
            }
          >
            Add to job {job.number}
          </TextButton>
        </div>
      ))}
      {openJobs.length > 0 && (
        <TextButton disabled={picked.length === 0} onPress={onStart}>
          Start new job
        </TextButton>
      )}
    </BlockPart>
  );
}
