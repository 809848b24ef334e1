import type { Survey } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { formatDepth } from '../../shared-core/measure/length-format.ts';
import type { ReadingProblem } from '../../shared-core/survey/reading-problems.ts';
import type { WhichSurvey } from '../book/plan-commands.ts';
import { StateShape } from '../parts/StateShape.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { changeSurvey } from './reported-changes.ts';

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
  const correct = (id: string, label: string, values: { valueM: number } | { note: string }) =>
    void changeSurvey(room.id, which, `${label} in the ${room.name}`, (now) => ({
      ...now,
      readings: now.readings.map((r) => (r.id === id ? { ...r, ...values } : r)),
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
                {id !== undefined && problem.kind !== 'too-few' && problem.kind !== 'in-line' && (
                  <div className="words">
                    {meantM !== null && (
                      <TextButton onPress={() => correct(id, `reading ${number(id)} corrected`, { valueM: meantM })}>
                        Change to {formatDepth(meantM, units, locale)}
                      </TextButton>
                    )}
                    <TextButton onPress={() => onAgain(id)}>Read again</TextButton>
                    {problem.kind === 'departs' && (
                      <TextButton onPress={() => correct(id, `reading ${number(id)} confirmed`, { note: 'Confirmed' })}>
                        Confirm reading
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
