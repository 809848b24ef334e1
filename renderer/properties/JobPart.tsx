import type { Job } from '../../shared-core/book/job.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { addToJob } from '../book/job-rooms.ts';
import type { Outcome } from '../book/outcome.ts';
import { CheckRow } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';

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
  const names = free
    .filter((room) => picked.includes(room.id))
    .map((room) => room.name.toLowerCase())
    .join(', ');
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
