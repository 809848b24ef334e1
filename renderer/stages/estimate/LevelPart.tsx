import { cutWords } from '../../../shared-core/substrate/exposed-layers.ts';
import type { CutWords } from '../../../shared-core/survey/cut-words.ts';
import type { Update } from '../../book/write.ts';
import type { ReactNode } from 'react';
import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { LevelChoice, JobRoom } from '../../../shared-core/book/job.ts';
import { curvesDrawing } from '../../../shared-core/drawing/curves.ts';
import { formatDepth, formatLength } from '../../../shared-core/measure/length-format.ts';
import { ChoiceRow } from '../../parts/Choices.tsx';
import { DrawingView, useSize } from '../../parts/DrawingView.tsx';
import { Fields, QuantityField } from '../../parts/Fields.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { firstCorner, placeLetter } from '../../parts/plan-places.ts';
import { useMeasure, useMoney } from '../../parts/use-measure.ts';
import type { SettledLevel } from '../../../shared-core/survey/settle-level.ts';
import { doorwayStep } from './doorway-words.ts';
import { countWords } from '../../../shared-core/measure/count-words.ts';
import type { Room } from '../../../shared-core/book/room.ts';
import { formatArea } from '../../../shared-core/measure/area.ts';
import { HIGH_SPOTS_LISTED } from './high-spots.ts';
import { formatListAnd } from '../../../shared-core/measure/list.ts';
import { openingName, placedOpenings } from '../../../shared-core/plan/openings.ts';
import { rampEnds, type RampHeight } from '../../../shared-core/survey/plane.ts';
import { ASK_FLOORING_THICKNESS, doorwaysToMeet } from '../../../shared-core/survey/ramp.ts';
import { levelOnScale } from '../../../shared-core/survey/scale.ts';
import { TextButton } from '../../parts/Buttons.tsx';

interface LevelPartProps {
  readonly roomReading: RoomReading;
  readonly onChange: (label: string, update: Update<LevelChoice>) => void;
  /** The level following the floor, at a thickness the data sheet allows. */
  readonly following: (level: LevelChoice) => LevelChoice;
  readonly onThickness: (flooringThicknessM: number | null) => void;
  /** Figures of the level, shown below it. */
  readonly children: ReactNode;
}

const MODES = { level: 'Level', follow: 'Follow the floor', ramp: 'Ramp' };

/** Finish, minimum thickness and maximum depth taken off high spots. */
export function LevelPart({ roomReading, onChange, following, onThickness, children }: LevelPartProps) {
  const { level } = roomReading.jobRoom;
  const cut = cutWords(roomReading.room);
  const survey = roomReading.estimate?.survey;
  const settled = survey?.state === 'surveyed' ? survey.level : null;
  const lowest = survey?.state === 'surveyed' ? survey.floor.lowestM : 0;
  return (
    <>
      <BlockPart>
        <ChoiceRow
          label="Finish"
          options={MODES}
          value={level.mode}
          onChange={(mode) => onChange('finish', mode === 'follow' ? following : { mode })}
        />
        <div className="below">
          <Fields>
            {level.mode === 'follow' ? (
              <>
                <QuantityField
                  kind="depth"
                  label="Thickness"
                  value={level.followThicknessM}
                  emptyMessage="Enter a thickness."
                  onChange={(m) => onChange('thickness', { followThicknessM: m })}
                  check={(m) => (m > 0 ? null : 'Enter a value greater than 0.')}
                />
                <QuantityField
                  kind="depth"
                  label="Texture allowance"
                  value={level.textureM}
                  emptyMessage="Enter 0 for none."
                  onChange={(m) => onChange('texture allowance', { textureM: m })}
                />
              </>
            ) : (
              <>
                <QuantityField
                  kind="depth"
                  label="Minimum thickness"
                  value={level.leastThicknessM}
                  emptyMessage="Enter 0 for a feather edge."
                  onChange={(m) => onChange('minimum thickness', { leastThicknessM: m })}
                />
                <QuantityField
                  kind="depth"
                  label={`Max ${cut.noun} depth`}
                  value={level.grindMostM}
                  emptyMessage="Enter 0 for none."
                  onChange={(m) => onChange(`${cut.noun} depth`, { grindMostM: m })}
                />
              </>
            )}
            {level.mode === 'level' && settled !== null && (
              <QuantityField
                kind="depth"
                label="Above the low point"
                value={settled.levelM - lowest}
                {...(level.levelM === null ? {} : { hint: 'Clear it for the lowest elevation.' })}
                onChange={(m) =>
                  onChange('finish elevation', (now) => ({
                    ...levelOnScale(now, roomReading.room.survey).level,
                    levelM: m === null ? null : lowest + m,
                  }))
                }
              />
            )}
          </Fields>
        </div>
        {level.mode === 'ramp' && <RampFields roomReading={roomReading} settled={settled} lowestM={lowest} onChange={onChange} />}
        {settled?.warnings.map((w) => (
          <p key={w.kind} className="below">
            {w.message}
          </p>
        ))}
      </BlockPart>
      {children}
      {settled !== null && settled.grindCurve !== null && <GrindPart settled={settled} cut={cut} />}
      {settled !== null && <HighSpotsPart room={roomReading.room} level={settled} />}
      {settled !== null && <DoorwaysPart jobRoom={roomReading.jobRoom} level={settled} onThickness={onThickness} />}
    </>
  );
}

type Settled = Extract<NonNullable<RoomReading['estimate']>['survey'], { state: 'surveyed' }>['level'];

/** Grinding against pouring: the curve, its lowest cost, and the savings. */
function GrindPart({ settled, cut }: { readonly settled: Settled; readonly cut: CutWords }) {
  const { units } = useMeasure();
  const format = useMoney();
  const { ref, size } = useSize<HTMLDivElement>('grind');
  const curve = settled.grindCurve;
  if (curve === null) return null;
  const money = (minor: number): string => format(Math.round(minor), 'about');
  const most = Math.max(...curve.points.map((p) => p.groundMostM));
  const chosen = curve.points.reduce((near, p) => (Math.abs(p.groundMostM - most) < Math.abs(near.groundMostM - most) ? p : near));
  const saved =
    curve.saving > 0
      ? `The lowest cost is ${money(curve.cheapest.cost)}, at ${formatDepth(curve.cheapest.groundMostM, units)} of ${cut.noun}.`
      : `${cut.nounFirst} costs more than it saves here.`;
  return (
    <BlockPart>
      <p className="small">
        {cut.nounFirst} and filling cost {money(chosen.cost)}. Without {cut.noun}: {money(curve.noGrinding.cost)}. {saved}
      </p>
      <div ref={ref} className="below">
        {size !== null && size.widthPx > 0 && (
          <DrawingView
            label={`Cost of ${cut.noun} and filling by ${cut.noun} depth, 0 to ${formatDepth(most, units)}`}
            drawing={curvesDrawing({
              widthPx: size.widthPx,
              heightPx: 104,
              curves: [
                {
                  points: curve.points.map((p) => ({ x: p.groundMostM, y: p.cost })),
                  pen: 'cut',
                  dash: null,
                  words: 'together',
                  isStrong: true,
                },
              ],
              xLabels: [0, most / 2, most].map((x) => ({ x, text: formatDepth(x, units) })),
              pointerAtX: chosen.groundMostM,
              fromY: 0,
            })}
          />
        )}
      </div>
    </BlockPart>
  );
}

interface DoorwaysPartProps {
  readonly jobRoom: JobRoom;
  readonly level: SettledLevel;
  readonly onThickness: (flooringThicknessM: number | null) => void;
}

/** Each doorway with the new floor and its flooring: fill at the threshold, and the step to the floor beyond. */
function DoorwaysPart({ jobRoom, level, onThickness }: DoorwaysPartProps) {
  const { units, locale } = useMeasure();
  if (level.doorways.length === 0) return null;
  const thicknessM = jobRoom.flooringThicknessM ?? null;
  return (
    <BlockPart heading="Doorways">
      <ul className="estimate-doorways">
        {level.doorways.map((d) => (
          <li key={d.openingId}>
            <span>{d.name}</span>
            <span>{formatDepth(d.depthM, units, locale)} deep</span>
            <span className="caption">{doorwayStep(d, units, locale)}</span>
          </li>
        ))}
      </ul>
      <Fields>
        <QuantityField
          kind="depth"
          label="New flooring with adhesive or mortar"
          value={thicknessM}
          hint={thicknessM === null ? 'Leave empty to show steps to the bare new floor.' : 'Included in the steps.'}
          onChange={onThickness}
        />
      </Fields>
    </BlockPart>
  );
}

interface HighSpotsPartProps {
  readonly room: Room;
  readonly level: SettledLevel;
}

/** High spots above the level, lettered as on the plan, with depth, area and place. */
function HighSpotsPart({ room, level }: HighSpotsPartProps) {
  const { units, locale } = useMeasure();
  const { highSpots, highSpotsAreGround } = level;
  if (highSpots.length === 0) return null;
  const first = firstCorner(room.plan.outline);
  const length = (m: number) => formatLength(m, units, locale);
  const listed = highSpots.slice(0, HIGH_SPOTS_LISTED);
  const rest = highSpots.slice(HIGH_SPOTS_LISTED);
  const restM2 = rest.reduce((sum, spot) => sum + spot.areaM2, 0);
  return (
    <BlockPart heading={highSpotsAreGround ? `${cutWords(room).verbFirst} first` : 'Below minimum thickness'}>
      <ul className="estimate-spots">
        {listed.map((spot, i) => (
          <li key={`${spot.highestAt.xM},${spot.highestAt.yM}`}>
            <b>{placeLetter(i)}</b>
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

interface RampFieldsProps {
  readonly roomReading: RoomReading;
  /** Null while the floor is not read. */
  readonly settled: SettledLevel | null;
  readonly lowestM: number;
  readonly onChange: (label: string, update: Update<LevelChoice>) => void;
}

type Through = LevelChoice['rampThrough'];

/** A point of the ramp this near to a doorway's center means the doorway, m. */
const SAME_PLACE_M = 0.05;

/** A ramp has up to three heights, or two and level across. They start from doorways, or wall to wall. */
function RampFields({ roomReading, settled, lowestM, onChange }: RampFieldsProps) {
  const { room, jobRoom, estimate } = roomReading;
  const heights = settled?.ramp ?? [];
  const through = estimate?.level.rampThrough ?? [];
  const doorways = placedOpenings(room.plan);
  const met = doorwaysToMeet(room.plan).slice(0, 3);
  const ends = rampEnds(room.plan.outline, settled?.lowestWithGrindingM ?? lowestM + jobRoom.level.leastThicknessM);
  const set = (rampThrough: Through) => onChange('ramp', (now) => ({ ...levelOnScale(now, room.survey).level, rampThrough }));
  const nameOf = ({ point }: RampHeight, i: number): string => {
    const doorway = doorways.find(({ middle }) => Math.hypot(middle.xM - point.xM, middle.yM - point.yM) < SAME_PLACE_M);
    return doorway === undefined ? (i === 0 ? 'one end' : 'the other end') : openingName(doorway.opening);
  };
  return (
    <>
      {heights.length > 0 && (
        <div className="below">
          <Fields>
            {heights.map((height, i) => (
              <QuantityField
                key={`${height.point.xM} ${height.point.yM}`}
                kind="depth"
                label={`Above the low point, at ${nameOf(height, i)}`}
                value={height.heightM - lowestM}
                emptyMessage="Enter a height, or 0 for the low point."
                onChange={(m) => set(through.map((other, k) => (k === i ? { point: height.point, heightM: lowestM + m } : other)))}
              />
            ))}
          </Fields>
        </div>
      )}
      <div className="stack-close below">
        {met.length >= 2 && (
          <TextButton disabled={jobRoom.flooringThicknessM == null} onPress={() => set(met.map(({ id }) => ({ openingId: id })))}>
            {`Use the thresholds: ${formatListAnd(met.map(openingName))}`}
          </TextButton>
        )}
        {ends !== null && <TextButton onPress={() => set(ends)}>Span the room lengthwise, wall to wall</TextButton>}
      </div>
      {met.length >= 2 && jobRoom.flooringThicknessM == null && <p className="small">{ASK_FLOORING_THICKNESS}</p>}
      {met.length < 2 && <p className="small">Measure the floor beyond two interior doorways to span from threshold to threshold.</p>}
    </>
  );
}
