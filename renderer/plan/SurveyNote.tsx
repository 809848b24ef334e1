import type { Room } from '../../shared-core/book/room.ts';
import type { RoomFloor } from '../../shared-core/pour/placed-floor.ts';
import type { WhichSurvey } from '../book/plan-commands.ts';
import { TextButton } from '../parts/Buttons.tsx';
import { changeSurvey } from './reported-changes.ts';
import type { Survey } from '../../shared-core/book/plan-fields.ts';
import { formatDepth } from '../../shared-core/measure/length-format.ts';
import { LAYER_WORDS } from '../../shared-core/substrate/layer-words.ts';
import { ChoiceRow } from '../parts/Choices.tsx';
import { useMeasure } from '../parts/use-measure.ts';

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
        onPress={() => void changeSurvey(room.id, 'after', `readings of the ${room.name} after the pour`, { takenAt: null, readings: [] })}
      >
        Start again
      </TextButton>
    </p>
  );
}

/** Asks whether readings were taken on top of flooring that will be removed. */
function ReadOver({ room }: { readonly room: Room }) {
  const { units, locale } = useMeasure();
  const out = room.layers.filter((layer) => layer.fate === 'remove');
  if (out.length === 0) return null;
  const { over = null } = room.survey;
  const thick = (layer: (typeof out)[number]): string =>
    layer.thicknessM === null ? 'not measured' : formatDepth(layer.thicknessM, units, locale);
  const names = out.map((layer) => `${LAYER_WORDS[layer.material]}, ${thick(layer)}`).join('; ');
  return (
    <div className="plan-part">
      <ChoiceRow<NonNullable<Survey['over']>>
        label="Readings taken"
        captioned
        value={over}
        options={{ 'as-found': 'On the old flooring', 'once-out': 'After removal' }}
        onChange={(to) => void changeSurvey(room.id, 'before', `reading surface of the ${room.name}`, { over: to })}
      />
      <p className="small">
        {names}.{' '}
        {over === 'as-found'
          ? 'The volume is calculated to the floor under it.'
          : over === 'once-out'
            ? 'The readings are of the substrate.'
            : 'If they were taken on top of it, the substrate is lower and the volume larger.'}
      </p>
    </div>
  );
}
