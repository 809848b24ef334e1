import { useState } from 'react';
import type { Room } from '../../shared-core/book/room.ts';
import type { RoomFloor } from '../../shared-core/pour/placed-floor.ts';
import { emptySurvey, type WhichSurvey } from '../book/plan-commands.ts';
import { TextButton } from '../parts/Buttons.tsx';
import { changeSurvey, tieSetups } from './reported-changes.ts';
import type { Survey } from '../../shared-core/book/plan-fields.ts';
import { formatDepth } from '../../shared-core/measure/length-format.ts';
import { openingName } from '../../shared-core/plan/openings.ts';
import { LAYER_WORDS } from '../../shared-core/substrate/layer-words.ts';
import { Fields, QuantityField } from '../parts/Fields.tsx';
import { CheckRow, ChoiceRow } from '../parts/Choices.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { changedReading } from '../../shared-core/survey/reading-entry.ts';
import { openingsBySetup } from '../../shared-core/survey/moved-laser.ts';
import type { ReadingProblem } from '../../shared-core/survey/reading-problems.ts';
import { StateShape } from '../parts/StateShape.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { theRoom } from '../../shared-core/standing/names.ts';

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
        onPress={() => void changeSurvey(room.id, 'after', `readings of ${theRoom(room.name)} after the pour`, emptySurvey)}
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
        onChange={(to) => void changeSurvey(room.id, 'before', `reading surface of ${theRoom(room.name)}`, { over: to })}
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

interface QueriesProps {
  readonly room: Room;
  readonly which: WhichSurvey;
  readonly survey: Survey;
  readonly problems: readonly ReadingProblem[];
  readonly onAgain: (readingId: string) => void;
}

/** Readings to check, each with possible corrections to choose from. */
export function Queries({ room, which, survey, problems, onAgain }: QueriesProps) {
  const { units, locale } = useMeasure();
  const asked = problems.filter((problem) => problem.kind !== 'too-few' || survey.readings.length > 0);
  if (asked.length === 0) return null;
  const number = (id: string) => survey.readings.findIndex((r) => r.id === id) + 1;
  const correct = (ids: readonly string[], label: string, values: { valueM: number } | { confirmed: true }) =>
    void changeSurvey(room.id, which, `${label} in ${theRoom(room.name)}`, (now) => ({
      ...now,
      readings: now.readings.map((r) => (ids.includes(r.id) ? changedReading(r, values) : r)),
    }));
  return (
    <BlockPart heading={asked.length === 1 ? 'Check 1 reading' : `Check ${asked.length} readings`}>
      <ul className="plan-list">
        {asked.map((problem) => {
          const id = problem.readingIds[0];
          const { meantM } = problem;
          return (
            <li key={`${problem.kind}${problem.readingIds.join()}`}>
              <StateShape state={problem.weight === 'query' ? 'under-way' : 'held'} sizePx={16} />
              <div className="small">
                <p>
                  {problem.readingIds.length > 0 && problem.readingIds.length < 4 && (
                    <b>{problem.readingIds.map((r) => `Reading ${number(r)}`).join(', ')}. </b>
                  )}
                  {problem.message}
                </p>
                {problem.laterIds !== undefined && (
                  <TieSetups
                    survey={survey}
                    doors={which === 'before' ? openingsBySetup(room.plan, survey.readings, problem.laterIds) : []}
                    count={problem.laterIds.length}
                    of={[false, true].map((isLater) =>
                      number(problem.readingIds.find((r) => problem.laterIds?.includes(r) === isLater) ?? ''),
                    )}
                    onTie={(shiftM, openingIds) =>
                      void tieSetups(room.id, which, `readings after moving the laser in ${theRoom(room.name)}`, {
                        readingIds: problem.laterIds ?? [],
                        openingIds,
                        shiftM,
                      })
                    }
                  />
                )}
                {id !== undefined && problem.kind !== 'too-few' && problem.kind !== 'in-line' && (
                  <div className="words">
                    {meantM !== null && survey.runs === undefined && (
                      <TextButton onPress={() => correct([id], `reading ${number(id)} corrected`, { valueM: meantM })}>
                        Change to {formatDepth(meantM, units, locale)}
                      </TextButton>
                    )}
                    {survey.runs === undefined && problem.kind !== 'moved' && (
                      <TextButton onPress={() => onAgain(id)}>Read again</TextButton>
                    )}
                    {(problem.kind === 'departs' || problem.kind === 'moved') && (
                      <TextButton onPress={() => correct(problem.readingIds, `reading ${number(id)} confirmed`, { confirmed: true })}>
                        {problem.kind === 'moved' ? 'Laser not moved' : 'Confirm reading'}
                      </TextButton>
                    )}
                  </div>
                )}
              </div>
            </li>
          );
        })}
      </ul>
    </BlockPart>
  );
}

interface TieProps {
  readonly survey: Survey;
  /** The openings with a floor beyond that was measured. */
  readonly doors: ReturnType<typeof openingsBySetup>;
  readonly count: number;
  /** The number of a reading of each setup. */
  readonly of: readonly number[];
  readonly onTie: (shiftM: number, openingIds: readonly string[]) => void;
}

/** One spot read from both setups of the laser: their difference shifts what was read from the second. */
function TieSetups({ survey, doors, count, of, onTie }: TieProps) {
  const [openingIds, setOpenings] = useState(doors.flatMap(({ opening, isLater }) => (isLater ? [opening.id] : [])));
  const [first, setFirst] = useState<number | null>(null);
  const [second, setSecond] = useState<number | null>(null);
  const kind = survey.method === 'height' ? 'signed-depth' : 'depth';
  return (
    <Fields>
      <QuantityField kind={kind} label={`Same spot, setup of reading ${of[0] ?? 1}`} value={first} onChange={setFirst} />
      <QuantityField kind={kind} label={`Same spot, setup of reading ${of[1] ?? 2}`} value={second} onChange={setSecond} />
      {doors.map(({ opening }) => (
        <CheckRow
          key={opening.id}
          dense
          label={`Height at the ${openingName(opening)}: read from the setup of reading ${of[1] ?? 2}`}
          checked={openingIds.includes(opening.id)}
          onChange={(on) => setOpenings(on ? [...openingIds, opening.id] : openingIds.filter((id) => id !== opening.id))}
        />
      ))}
      <TextButton
        disabled={first === null || second === null}
        onPress={() => first !== null && second !== null && onTie(first - second, openingIds)}
      >
        {`Shift ${count} readings`}
      </TextButton>
    </Fields>
  );
}
