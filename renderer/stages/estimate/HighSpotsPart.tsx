import { countWords } from '../../../shared-core/measure/count-words.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { formatArea } from '../../../shared-core/measure/area.ts';
import { formatDepth, formatLength } from '../../../shared-core/measure/length-format.ts';
import type { SettledLevel } from '../../../shared-core/survey/settle-level.ts';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { HIGH_SPOTS_LISTED, highSpotLetter } from './high-spots.ts';

interface HighSpotsPartProps {
  readonly room: Room;
  readonly level: SettledLevel;
}

/** High spots above the level, lettered as on the plan, with depth, area and place. */
export function HighSpotsPart({ room, level }: HighSpotsPartProps) {
  const { units, locale } = useMeasure();
  const { highSpots, highSpotsAreGround } = level;
  if (highSpots.length === 0) return null;
  const first = room.plan.outline[0] ?? { xM: 0, yM: 0 };
  const length = (m: number) => formatLength(m, units, locale);
  const listed = highSpots.slice(0, HIGH_SPOTS_LISTED);
  const rest = highSpots.slice(HIGH_SPOTS_LISTED);
  const restM2 = rest.reduce((sum, spot) => sum + spot.areaM2, 0);
  return (
    <BlockPart heading={highSpotsAreGround ? 'Grind first' : 'Below minimum thickness'}>
      <ul className="estimate-spots">
        {listed.map((spot, i) => (
          <li key={`${spot.highestAt.xM},${spot.highestAt.yM}`}>
            <b>{highSpotLetter(i)}</b>
            <span>
              {formatDepth(spot.depthM, units, locale)} {highSpotsAreGround ? 'off the top' : 'below the minimum thickness'},{' '}
              {length(spot.lengthM)} by {length(spot.widthM)}, {formatArea(spot.areaM2, units, locale)}
              <span className="caption">
                {`Top: ${length(spot.highestAt.xM - first.xM)} across, ${length(spot.highestAt.yM - first.yM)} down from corner 1`}
              </span>
            </span>
          </li>
        ))}
      </ul>
      {rest.length > 0 && (
        <p className="small">{`${countWords(rest.length, 'smaller high spot', locale)}, ${formatArea(restM2, units, locale)} in total.`}</p>
      )}
    </BlockPart>
  );
}
