import { type KeyboardEvent, useRef, useState } from 'react';
import type { Point } from '../../shared-core/book/fields.ts';
import type { Reading, Survey } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { formatDepth, formatLength } from '../../shared-core/measure/length-format.ts';
import { changedReading, parseReading, type TypedIn } from '../../shared-core/survey/reading-entry.ts';
import { newId } from '../book/command.ts';
import type { WhichSurvey } from '../book/plan-commands.ts';
import { ChoiceRow } from '../parts/Choices.tsx';
import { Field } from '../parts/Field.tsx';
import { QuantityField, TextField } from '../parts/Fields.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { firstCorner, placeWords } from '../parts/plan-places.ts';
import { LengthEitherWay } from '../parts/PointFields.tsx';
import type { Surveyed } from './readings-picture.ts';
import { changeSurvey } from './reported-changes.ts';
import { WorthPlaces } from './WorthPlaces.tsx';
import { theRoom } from '../../shared-core/standing/names.ts';

export type WalkBy = 'grid' | 'lines';

/** The target of the next reading: a suggested place, a chosen place, or a reading to take again. */
export type Aim =
  | { readonly kind: 'next'; readonly point: Point; readonly count: number; readonly of: number }
  | { readonly kind: 'extra'; readonly point: Point }
  | { readonly kind: 'again'; readonly reading: Reading }
  | { readonly kind: 'done' };

interface WalkPanelProps {
  readonly room: Room;
  readonly which: WhichSurvey;
  readonly survey: Survey;
  readonly aim: Aim;
  readonly typedIn: TypedIn;
  readonly onTypedIn: (typedIn: TypedIn) => void;
  readonly spacingM: number;
  readonly onSpacing: (spacingM: number | null) => void;
  /** All over the room, or along lines for F-numbers. */
  readonly walkBy: WalkBy;
  readonly onWalkBy: (walkBy: WalkBy) => void;
  /** Whether the room is long enough for such a line. */
  readonly hasLines: boolean;
  readonly onSkip: () => void;
  /** Where another reading would reduce the uncertainty most. */
  readonly worth: Surveyed['floor']['worthReading'];
  readonly onAim: (point: Point | null) => void;
  /** Called when a reading is taken, before it is stored. */
  readonly onTaken: () => void;
}

/** Taking readings with a rod: one large entry, its place, and the last reading to repeat. */
export function WalkPanel(props: WalkPanelProps) {
  const { room, which, survey, aim, typedIn, spacingM, onAim } = props;
  const isDown = survey.method === 'distance-down';
  const [isExtra, setExtra] = useState(false);
  const first = firstCorner(room.plan.outline);
  return (
    <>
      <BlockPart>
        <Entry key={entryKey(aim)} {...props} first={first} />
      </BlockPart>
      <BlockPart>
        <ChoiceRow
          label="Reading type"
          captioned
          value={survey.method}
          options={{ 'distance-down': 'Down from the laser', height: 'Elevation' }}
          onChange={(method) => void changeSurvey(room.id, which, `reading type of ${theRoom(room.name)}`, { method })}
          problem={
            survey.readings.length > 0 && isDown && survey.readings.some((r) => r.valueM < 0)
              ? 'Some readings are negative: they are elevations.'
              : null
          }
        />
        <div className="plan-part">
          <ChoiceRow
            label="Unit of plain numbers"
            captioned
            value={typedIn}
            options={{ inch: 'Inches', sixteenth: '1/16 in.', mm: 'mm' }}
            onChange={props.onTypedIn}
          />
        </div>
        <div className="plan-part">
          <ChoiceRow<WalkBy>
            label="Suggested points"
            captioned
            value={props.walkBy}
            options={[
              { value: 'grid', word: 'Grid' },
              { value: 'lines', word: 'Lines for F-numbers', disabled: !props.hasLines },
            ]}
            onChange={props.onWalkBy}
          />
          {!props.hasLines && (
            <p className="small">F-numbers need 12 readings in a line at 12 in., 2 ft off the walls. No such line fits in this room.</p>
          )}
        </div>
        <div className="fields plan-part">
          <QuantityField
            kind="length"
            label="Spacing"
            value={spacingM}
            disabled={props.walkBy === 'lines'}
            check={(m) => (m >= 0.15 ? null : 'Enter a spacing of at least 6 in. (0.15 m).')}
            onChange={props.onSpacing}
          />
          <div>
            <TextButton expanded={isExtra} onPress={() => setExtra(!isExtra)}>
              Add point
            </TextButton>
          </div>
        </div>
        {isExtra && (
          <div className="fields">
            <LengthEitherWay
              bare={false}
              label="Across from corner 1"
              value={aim.kind === 'extra' ? aim.point.xM - first.xM : 0}
              onChange={(m) => onAim({ xM: m + first.xM, yM: aim.kind === 'extra' ? aim.point.yM : first.yM })}
            />
            <LengthEitherWay
              bare={false}
              label="Down from corner 1"
              value={aim.kind === 'extra' ? aim.point.yM - first.yM : 0}
              onChange={(m) => onAim({ xM: aim.kind === 'extra' ? aim.point.xM : first.xM, yM: m + first.yM })}
            />
          </div>
        )}
      </BlockPart>
    </>
  );
}

function entryKey(aim: Aim): string {
  if (aim.kind === 'again') return aim.reading.id;
  return aim.kind === 'done' ? 'done' : `${aim.kind}${aim.point.xM},${aim.point.yM}`;
}

function Entry(props: WalkPanelProps & { readonly first: Point }) {
  const { room, which, survey, aim, typedIn, first, worth, onSkip, onAim, onTaken } = props;
  const { units, locale } = useMeasure();
  const [valueM, setValue] = useState<number | null>(aim.kind === 'again' ? aim.reading.valueM : null);
  const read = useRef<number | null>(valueM);
  const [note, setNote] = useState('');
  const last = survey.readings.at(-1);
  if (aim.kind === 'done') {
    return (
      <>
        <p role="status">
          All suggested points are read. Click or tap the plan to add readings at the high and low spots.
          {worth.length > 0 && ' These would help most:'}
        </p>
        <WorthPlaces worth={worth} onAim={onAim} />
      </>
    );
  }
  const point = aim.kind === 'again' ? { xM: aim.reading.xM, yM: aim.reading.yM } : aim.point;
  const take = (valueM: number) => {
    if (aim.kind === 'again') {
      void changeSurvey(room.id, which, `retake reading in ${theRoom(room.name)}`, (now) => ({
        ...now,
        readings: now.readings.map((r) => (r.id === aim.reading.id ? changedReading(r, { valueM }) : r)),
      }));
    } else {
      const reading: Reading = { id: newId(), ...point, valueM, note: note === '' ? null : note, confirmed: false };
      void changeSurvey(room.id, which, `reading in ${theRoom(room.name)}`, (now) => ({
        ...now,
        readings: [...now.readings, reading],
      }));
    }
    onTaken();
  };
  const repeats = (event: KeyboardEvent) => {
    if (event.key !== '=' || last === undefined) return;
    event.preventDefault();
    take(last.valueM);
  };
  return (
    <div className="walk-entry" onKeyDownCapture={repeats}>
      <p className="caption">
        {aim.kind === 'next' ? `Point ${aim.count} of ${aim.of}: ` : aim.kind === 'extra' ? 'Added point: ' : 'Read again: '}
        {placeWords(room.plan.outline, point, units, locale)}
      </p>
      <Field
        label={survey.method === 'height' ? 'Elevation' : 'Reading down from laser'}
        value={valueM}
        autoFocus
        inputMode={typedIn === 'inch' ? 'text' : 'decimal'}
        parse={(text) => parseReading(text, typedIn, survey.method, locale)}
        format={(m) => formatDepth(m, units, locale)}
        onChange={(m) => {
          read.current = m;
          setValue(m);
        }}
        onEnter={() => {
          if (read.current !== null) take(read.current);
        }}
      />
      <div className="words">
        <TextButton disabled={valueM === null} onPress={() => valueM !== null && take(valueM)} keys="Enter">
          Save
        </TextButton>
        {last !== undefined && (
          <TextButton onPress={() => take(last.valueM)} keys="=">
            {`Repeat ${formatDepth(last.valueM, units, locale)}`}
          </TextButton>
        )}
        {aim.kind === 'next' ? <TextButton onPress={onSkip}>Skip</TextButton> : <TextButton onPress={() => onAim(null)}>Cancel</TextButton>}
      </div>
      {aim.kind === 'extra' && (
        <TextField
          label="Note (optional)"
          value={note}
          placeholder="low spot"
          onChange={setNote}
          hint={`At ${formatLength(point.xM - first.xM, units, locale)} across.`}
        />
      )}
    </div>
  );
}
