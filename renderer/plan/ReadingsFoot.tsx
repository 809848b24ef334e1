import type { LevelChoice } from '../../shared-core/book/job.ts';
import type { Survey } from '../../shared-core/book/plan-fields.ts';
import { formatDepth, formatLength } from '../../shared-core/measure/length-format.ts';
import { formatVolume } from '../../shared-core/measure/volume.ts';
import { isMostlyUnread } from '../../shared-core/survey/read-floor.ts';
import type { VolumeRange } from '../../shared-core/survey/volume-range.ts';
import type { SurveyedRoom } from '../../shared-core/survey/survey-room.ts';
import type { WhichSurvey } from '../book/plan-commands.ts';
import { Answer } from '../parts/Answer.tsx';
import { RangeMark } from '../parts/RangeMark.tsx';
import { Reason } from '../parts/Reason.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { figureOf, unitOf } from './plan-picture.ts';
import type { RoomAtHand } from './use-room.ts';
import { theRoom } from '../../shared-core/standing/names.ts';

interface ReadingsFootProps {
  readonly roomAtHand: RoomAtHand;
  readonly which: WhichSurvey;
  readonly survey: Survey;
  readonly answer: SurveyedRoom | null;
  readonly isBehind: boolean;
  readonly choice: LevelChoice;
  /** The plan circles the next point to read. */
  readonly isWalking: boolean;
}

/** What the range includes, and what happens where a high spot forces the finish elevation up. */
function rangeWords(range: VolumeRange, depth: (m: number) => string, volume: (m3: number) => string): string {
  const set =
    'Volume with the plane set at the finish elevation, 90% likely. It follows from the readings: how rough the floor is and how many there are.';
  const most = range.highestM?.most ?? 0;
  if (most <= 0) return set;
  return `${set} The true high point is at most ${depth(most)} above the highest reading, 90% likely. Raising the plane that much adds ${volume(most * range.areaFilledM2)}.`;
}

/** The pour volume from the readings, or the flatness reached. */
export function ReadingsFoot({ roomAtHand, which, survey, answer, isBehind, choice, isWalking }: ReadingsFootProps) {
  const { units, locale } = useMeasure();
  if (answer === null) return <Answer>Calculating…</Answer>;
  if (answer.state === 'waiting') {
    const isBlank = survey.readings.length === 0;
    return <Answer>{isBlank && isWalking ? 'Set the rod at the circled point and enter the reading.' : answer.message}</Answer>;
  }
  const { level, flatness, floor } = answer;
  const depth = (m: number) => formatDepth(m, units, locale);
  const volume = (m3: number) => formatVolume(m3, units, locale);
  const { least, likely, most } = level.range.rangeM3;
  const share = most > least ? (likely - least) / (most - least) : null;
  const uneven = (
    <Answer
      wideOnly={which === 'before'}
      under={`max gap ${depth(flatness.worst.gapM)} under ${formatLength(flatness.worst.spanM, units, locale)}`}
    >
      {depth(flatness.highToLowM)} high to low
    </Answer>
  );
  if (which !== 'before') return uneven;
  return (
    <>
      <Answer
        figure={
          <Reason
            why={{
              figureName: `Volume for ${theRoom(roomAtHand.room.name)}`,
              inputs: [
                { name: 'Readings', value: String(survey.readings.length) },
                {
                  name: 'Minimum thickness',
                  value: depth(choice.leastThicknessM),
                  source: roomAtHand.job === null ? 'typical' : `job ${roomAtHand.job.number}`,
                },
                { name: 'Average depth', value: depth(level.fill.meanDepthM) },
                { name: 'Maximum depth', value: depth(level.fill.greatestDepthM) },
              ],
              formula:
                'The space between the floor and the finish elevation, summed over the triangles between readings. The finish elevation is the one chosen for the job, or the lowest that keeps the minimum thickness over the highest spot.',
              source: 'Exact integral of the depth over the triangulated readings',
              range: {
                leastText: volume(least),
                mostText: volume(most),
                value: share,
                words: rangeWords(level.range, depth, volume),
              },
            }}
          >
            {figureOf(volume(level.fill.volumeM3))}
          </Reason>
        }
        note={isBehind ? 'updating…' : `${depth(level.fill.leastDepthM)} to ${depth(level.fill.greatestDepthM)} deep`}
        under={<RangeMark leastText={volume(least)} mostText={volume(most)} value={share} />}
      >
        {unitOf(volume(level.fill.volumeM3))} volume
      </Answer>
      {uneven}
      {isMostlyUnread(floor) && (
        <Answer wideOnly under="Take readings closer to the walls.">
          Large area without readings
        </Answer>
      )}
    </>
  );
}
