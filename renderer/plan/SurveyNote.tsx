import type { Room } from '../../shared-core/book/room.ts';
import type { RoomFloor } from '../../shared-core/pour/placed-floor.ts';
import type { WhichSurvey } from '../book/plan-commands.ts';
import { TextButton } from '../parts/Buttons.tsx';
import { ReadOver } from './ReadOver.tsx';
import { changeSurvey } from './reported-changes.ts';

interface NoteProps {
  readonly room: Room;
  readonly which: WhichSurvey;
  readonly floor: RoomFloor;
}

/** What to know or answer before taking readings. */
export function SurveyNote({ room, which, floor }: NoteProps) {
  if (which === 'before') return <ReadOver room={room} />;
  if (which === 'rest') return <p className="small">Include at least 2 points on the placed floor. They tie the rest to its level.</p>;
  const end = floor.pours.at(-1)?.finishedAt ?? null;
  const takenAt = room.surveyAfter?.takenAt ?? null;
  if (end === null || takenAt === null || takenAt >= end) return null;
  return (
    <p className="small">
      These readings are from before the last pour and do not count.{' '}
      <TextButton
        kind="plain"
        onPress={() =>
          void changeSurvey(room.id, 'after', `readings of the ${room.name} after the pour`, (stored) => ({
            ...stored,
            takenAt: null,
            readings: [],
          }))
        }
      >
        Start again
      </TextButton>
    </p>
  );
}
