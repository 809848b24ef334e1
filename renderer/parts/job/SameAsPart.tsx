import { canInherit } from '../../../shared-core/book/same-room.ts';
import type { JobGlance, RoomGlance } from '../../../shared-core/standing/read-job.ts';
import { roomWords } from '../../../shared-core/standing/names.ts';
import { TextButton } from '../Buttons.tsx';
import { BlockPart } from '../Sheet.tsx';

interface SameAsPartProps {
  readonly reading: Pick<JobGlance, 'rooms'>;
  readonly roomReading: RoomGlance;
  readonly onPick: (from: RoomGlance) => void;
}

/** A button for each other room that has what this one lacks. */
export function SameAsPart({ reading, roomReading, onPick }: SameAsPartProps) {
  const others = reading.rooms.filter((other) => other.room.id !== roomReading.room.id && canInherit(roomReading, other));
  if (others.length === 0) return null;
  return (
    <BlockPart>
      <div className="words">
        {others.map((other) => (
          <TextButton key={other.room.id} kind="outlined" onPress={() => onPick(other)}>
            {`Same as ${roomWords(other.room.name)}`}
          </TextButton>
        ))}
      </div>
      <p className="small">
        Copies material with its minimum thickness and flooring, and the layers, tests, and site conditions that this room lacks. Primer,
        moisture mitigation, and what comes out are copied only where the layers are the same. The finish, coating, gas, fixtures,
        structure, lab results, and deflection stay with their own room.
      </p>
    </BlockPart>
  );
}
