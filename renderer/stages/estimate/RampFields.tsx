import type { Update } from '../../book/write.ts';
import { formatListAnd } from '../../../shared-core/measure/list.ts';
import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { LevelChoice } from '../../../shared-core/book/job.ts';
import { rampEnds } from '../../../shared-core/survey/plane.ts';
import { Fields, QuantityField } from '../../parts/Fields.tsx';
import { TextButton } from '../../parts/Buttons.tsx';

interface RampFieldsProps {
  readonly roomReading: RoomReading;
  readonly lowestM: number;
  /** The lowest level that covers the floor with the permitted grinding, where a ramp starts. */
  readonly coversM: number;
  readonly onChange: (label: string, update: Update<LevelChoice>) => void;
}

type Through = LevelChoice['rampThrough'];

/** A point of the ramp this near to a doorway's center means the doorway, m. */
const SAME_PLACE_M = 0.05;

/** A ramp has up to three heights, or two and level across. They start from thresholds, or wall to wall. */
export function RampFields({ roomReading, lowestM, coversM, onChange }: RampFieldsProps) {
  const { rampThrough } = roomReading.jobRoom.level;
  const thresholds = thresholdsOf(roomReading);
  const ends = rampEnds(roomReading.room.plan.outline, coversM);
  const set = (through: Through) => onChange('ramp', { rampThrough: through });
  const nameOf = (point: Through[number], i: number): string =>
    thresholds.find((t) => Math.hypot(t.point.xM - point.point.xM, t.point.yM - point.point.yM) < SAME_PLACE_M)?.name ??
    (i === 0 ? 'one end' : 'the other end');
  return (
    <>
      {rampThrough.length > 0 && (
        <div className="below">
          <Fields>
            {rampThrough.map((point, i) => (
              <QuantityField
                key={`${point.point.xM} ${point.point.yM}`}
                kind="depth"
                label={`Above the low point, at ${nameOf(point, i)}`}
                value={point.heightM - lowestM}
                emptyMessage="Enter a height, or 0 for the low point."
                onChange={(m) => set(rampThrough.map((other, k) => (k === i ? { ...other, heightM: lowestM + m } : other)))}
              />
            ))}
          </Fields>
        </div>
      )}
      <div className="stack-close below">
        {thresholds.length >= 2 && (
          <TextButton onPress={() => set(thresholds.slice(0, 3).map(({ point: place, heightM }) => ({ point: place, heightM })))}>
            {`Use the thresholds: ${formatListAnd(thresholds.slice(0, 3).map((t) => t.name))}`}
          </TextButton>
        )}
        {ends !== null && <TextButton onPress={() => set(ends)}>Span the room lengthwise, wall to wall</TextButton>}
      </div>
      {thresholds.length < 2 && <p className="small">Measure the floor beyond two doorways to span from threshold to threshold.</p>}
    </>
  );
}

/** Centers of the doorways with a measured floor beyond. */
function thresholdsOf(roomReading: RoomReading): (Through[number] & { readonly name: string })[] {
  const doorways = roomReading.estimate?.survey.state === 'surveyed' ? roomReading.estimate.survey.level.doorways : [];
  const { outline, openings } = roomReading.room.plan;
  return doorways.flatMap((d) => {
    const opening = openings.find((o) => o.id === d.openingId);
    const from = opening === undefined ? undefined : outline[opening.wall];
    const to = opening === undefined ? undefined : outline[(opening.wall + 1) % outline.length];
    if (opening === undefined || from === undefined || to === undefined || d.adjoiningM === null) return [];
    const share = (opening.fromM + opening.widthM / 2) / Math.hypot(to.xM - from.xM, to.yM - from.yM);
    return [
      {
        name: d.name,
        point: { xM: from.xM + (to.xM - from.xM) * share, yM: from.yM + (to.yM - from.yM) * share },
        heightM: d.adjoiningM,
      },
    ];
  });
}
