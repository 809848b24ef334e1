import type { Update } from '../book/write.ts';
import { useLayoutEffect, useRef, useState } from 'react';
import type { Plan } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { formatLength } from '../../shared-core/measure/length-format.ts';
import { checkDiagonals } from '../../shared-core/plan/diagonals.ts';
import { closingSentence, mendOneSide, sidesThatMend, spreadOverSides, walkSides, type Side } from '../../shared-core/plan/tape.ts';
import { missingLengths } from '../../shared-core/plan/tape-room.ts';
import { ChoiceRow, SelectField } from '../parts/Choices.tsx';
import { NumberField, QuantityField } from '../parts/Fields.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { firstCorner } from '../parts/plan-places.ts';
import { useMeasure } from '../parts/use-measure.ts';
import { BayFields, DiagonalFields } from './OutlineFields.tsx';
import { withCornerAt, withoutCorner } from '../../shared-core/plan/edit-plan.ts';
import { PointList } from '../parts/PointFields.tsx';
import { blankTape, knownSides, type TapeShape, type Tape } from './tape-draft.ts';
import type { TapeAtHand } from './use-tape.ts';
import { unlikelySize } from '../../shared-core/plan/unlikely-size.ts';
import { changePlan } from './reported-changes.ts';
import { theRoom } from '../../shared-core/standing/names.ts';

const SHAPES = { rectangle: 'Rectangle', l: 'L', t: 'T', u: 'U', free: 'By corners' };

const TURNS = [
  { value: '90', word: 'right' },
  { value: '-90', word: 'left' },
  { value: '45', word: 'half right (45°)' },
  { value: '-45', word: 'half left (45°)' },
  { value: '0', word: 'straight' },
  { value: 'other', word: 'other angle' },
] as const;
type TurnWord = (typeof TURNS)[number]['value'];

interface WallsPanelProps {
  readonly room: Room;
  readonly tapeAtHand: TapeAtHand;
  /** The side whose field has the focus; null when none has. */
  readonly onSide: (side: number | null) => void;
}

/** Walls by their sides in walking order, or by their corners. */
export function WallsPanel({ room, tapeAtHand, onSide }: WallsPanelProps) {
  const { tape, isOpen, changeTape, giveUp } = tapeAtHand;
  const [by, setBy] = useState<'sides' | 'corners'>('sides');
  const { plan } = room;
  const isDrawn = plan.outline.length > 0;
  const { units, locale } = useMeasure();
  const size = unlikelySize(plan.outline, units, locale);
  return (
    <BlockPart>
      <ChoiceRow<TapeShape>
        label="Shape of the room"
        captioned
        options={SHAPES}
        value={tape.shape}
        onChange={(shape) => {
          if (shape !== tape.shape)
            changeTape((now) => (shape === 'free' && now.sides.length > 0 && isDrawn ? { ...now, shape } : blankTape(shape, now)));
        }}
      />
      {isDrawn && !isOpen && (
        <div className="plan-part">
          <ChoiceRow label="Enter by" options={{ sides: 'Sides', corners: 'Corners' }} value={by} onChange={setBy} />
        </div>
      )}
      <div className="plan-part">
        {by === 'corners' && isDrawn && !isOpen ? (
          <CornerFields room={room} />
        ) : (
          <SideFields tape={tape} changeTape={changeTape} canAdd={isOpen || !isDrawn} onSide={onSide} />
        )}
      </div>
      {isOpen && <Closing tape={tape} changeTape={changeTape} />}
      {isOpen && (
        <div className="words">
          <TextButton onPress={giveUp}>{isDrawn ? 'Discard changes' : 'Start over'}</TextButton>
        </div>
      )}
      {size !== null && (
        <p className="field-problem" role="status">
          {size}
        </p>
      )}
      {isDrawn && !isOpen && <WallsExtras room={room} plan={plan} />}
    </BlockPart>
  );
}

/** Every corner by its distances across and down from the first. */
function CornerFields({ room: { id, name, plan } }: { readonly room: Room }) {
  return (
    <div className="stack">
      <PointList
        points={plan.outline}
        origin={firstCorner(plan.outline)}
        label={(number) => `Corner ${number}`}
        onPoint={(i, to) => void changePlan(id, `corner ${i + 1} of ${theRoom(name)}`, (now) => withCornerAt(now, i, to))}
        after={(i) => (
          <TextButton
            kind="plain"
            label={`Delete corner ${i + 1}`}
            disabled={plan.outline.length <= 3}
            onPress={() => void changePlan(id, `delete corner ${i + 1} of ${theRoom(name)}`, (now) => withoutCorner(now, i))}
          >
            Delete
          </TextButton>
        )}
      />
    </div>
  );
}

function WallsExtras({ room, plan }: { readonly room: Room; readonly plan: Plan }) {
  const [open, setOpen] = useState<'diagonal' | 'bay' | null>(null);
  const change = (label: string, update: Update<Plan>) => void changePlan(room.id, `${label} of ${theRoom(room.name)}`, update);
  const isOff = checkDiagonals(plan, 'metric').some((check) => check.message !== null);
  return (
    <>
      <div className="words">
        <TextButton expanded={open === 'diagonal' || isOff} onPress={() => setOpen(open === 'diagonal' ? null : 'diagonal')}>
          Add diagonal
        </TextButton>
        <TextButton expanded={open === 'bay'} onPress={() => setOpen(open === 'bay' ? null : 'bay')}>
          Edit one wall
        </TextButton>
      </div>
      {(open === 'diagonal' || isOff) && <DiagonalFields plan={plan} change={change} />}
      {open === 'bay' && <BayFields plan={plan} change={change} />}
    </>
  );
}

interface SideFieldsProps {
  readonly tape: Tape;
  readonly changeTape: TapeAtHand['changeTape'];
}

function SideFields({
  tape,
  changeTape,
  canAdd,
  onSide,
}: SideFieldsProps & Pick<WallsPanelProps, 'onSide'> & { readonly canAdd: boolean }) {
  const { units, locale } = useMeasure();
  const list = useRef<HTMLOListElement>(null);
  const isFree = tape.shape === 'free';
  const lengths = tape.sides.map((side) => side.lengthM);
  const missing = missingLengths(
    tape.sides.map((side) => side.turnDeg),
    lengths,
  );
  const changeSide = (i: number, change: Partial<Tape['sides'][number]>) =>
    changeTape((now) => ({ ...now, sides: now.sides.map((side, k) => (k === i ? { ...side, ...change } : side)) }));
  const goTo = (i: number): boolean => {
    const input = list.current?.querySelectorAll<HTMLInputElement>('.plan-side-length input')[i];
    input?.focus();
    input?.select();
    return input !== undefined;
  };
  // The next field exists only after the new side is drawn.
  const awaited = useRef<number | null>(null);
  useLayoutEffect(() => {
    if (awaited.current !== null && goTo(awaited.current)) awaited.current = null;
  });
  return (
    <ol className={`stack${isFree ? '' : ' plan-rows-two'}`} ref={list} aria-label="Sides in order, clockwise from the upper left">
      {tape.sides.map((side, i) => {
        const meant = missing[i] ?? null;
        return (
          <li key={i} className={`plan-side${isFree ? '' : ' plan-side-plain'}`} onFocus={() => onSide(i)} onBlur={() => onSide(null)}>
            <span className="plan-side-figure" aria-hidden="true">
              {i + 1}
            </span>
            <div className="plan-side-length">
              <QuantityField
                kind="wall"
                bare
                label={`Side ${i + 1}`}
                value={side.lengthM}
                placeholder={units === 'us' ? 'such as 12\' 4 1/2"' : 'such as 3.76 m'}
                check={(lengthM) => (lengthM > 0 ? null : 'Enter a length greater than 0.')}
                onChange={(lengthM) => changeSide(i, { lengthM })}
                onEnter={() => goTo(i + 1)}
                suggestion={meant === null ? null : { value: meant, text: formatLength(meant, units, locale), why: 'closes the room' }}
              />
            </div>
            {isFree && <TurnField side={side} index={i} onChange={(turnDeg) => changeSide(i, { turnDeg })} />}
          </li>
        );
      })}
      {isFree && canAdd && (
        <li className="plan-side plan-side-plain">
          <span className="plan-side-figure" aria-hidden="true">
            {tape.sides.length + 1}
          </span>
          <NextSide
            key={tape.sides.length}
            count={tape.sides.length}
            onAdd={(lengthM) => {
              changeTape((now) => ({ ...now, sides: [...now.sides, { lengthM, turnDeg: 90 }] }));
              awaited.current = tape.sides.length + 1;
            }}
          />
        </li>
      )}
    </ol>
  );
}

function NextSide({ count, onAdd }: { readonly count: number; readonly onAdd: (lengthM: number) => void }) {
  const [lengthM, setLength] = useState<number | null>(null);
  const read = useRef<number | null>(null);
  return (
    <div className="plan-side-length">
      <QuantityField
        kind="wall"
        bare
        label={`Side ${count + 1}, new`}
        value={lengthM}
        placeholder="next side"
        hint={count === 0 ? 'Enter the first side, or click or tap the plan where the next corner is.' : undefined}
        check={(m) => (m > 0 ? null : 'Enter a length greater than 0.')}
        onChange={(m) => {
          read.current = m;
          setLength(m);
        }}
        onEnter={() => {
          if (read.current !== null) onAdd(read.current);
        }}
      />
      {lengthM !== null && <TextButton onPress={() => onAdd(lengthM)}>Add side</TextButton>}
    </div>
  );
}

interface TurnFieldProps {
  readonly side: Tape['sides'][number];
  readonly index: number;
  readonly onChange: (turnDeg: number) => void;
}

function TurnField({ side, index, onChange }: TurnFieldProps) {
  const named = TURNS.find((turn) => turn.value === String(side.turnDeg))?.value ?? 'other';
  const [isOther, setOther] = useState(false);
  const word: TurnWord = isOther ? 'other' : named;
  return (
    <div>
      <SelectField
        bare
        label={`Turn after side ${index + 1}`}
        value={word}
        options={TURNS}
        onChange={(turn) => {
          setOther(turn === 'other');
          if (turn !== 'other') onChange(Number(turn));
        }}
      />
      {word === 'other' && (
        <NumberField
          label="Degrees to the right"
          hint="Enter a minus for left."
          value={side.turnDeg}
          least={-179}
          most={179}
          onChange={(deg) => {
            if (deg !== null) onChange(deg);
          }}
        />
      )}
    </div>
  );
}

function Closing({ tape, changeTape }: SideFieldsProps) {
  const { units, locale } = useMeasure();
  const sides = knownSides(tape);
  if (sides === null || sides.length < 3) {
    const unreadCount = tape.sides.filter((side) => side.lengthM === null).length;
    return (
      <p className="plan-part small second" role="status">
        {tape.shape === 'free'
          ? 'Continue around the room to the first corner.'
          : `${unreadCount === tape.sides.length ? 'Enter the sides in order, clockwise from the upper left corner.' : unreadCount === 1 ? '1 side left.' : `${unreadCount} sides left.`} Press Enter for the next side.`}
      </p>
    );
  }
  const closing = closingSentence(walkSides(sides), units, locale);
  if (closing === null) return null;
  const take = (mended: readonly Side[]) => changeTape((now) => ({ ...now, sides: [...mended] }));
  const spread = spreadOverSides(sides);
  return (
    <div className="plan-part">
      <p className="field-problem" role="alert">
        {closing}
      </p>
      <div className="words">
        {spread.ok ? (
          <TextButton onPress={() => take(spread.value)}>Spread error over all sides</TextButton>
        ) : (
          <p className="small">{spread.message}</p>
        )}
        {sidesThatMend(sides).map((index) => {
          const mended = mendOneSide(sides, index, units, locale);
          const lengthM = mended.ok ? (mended.value[index]?.lengthM ?? 0) : 0;
          return mended.ok ? (
            <TextButton key={index} onPress={() => take(mended.value)}>
              Side {index + 1} is {formatLength(lengthM, units, locale)}
            </TextButton>
          ) : null;
        })}
        {tape.shape === 'free' && <CloseFree sides={sides} changeTape={changeTape} />}
      </div>
    </div>
  );
}

function CloseFree({ sides, changeTape }: Pick<SideFieldsProps, 'changeTape'> & { readonly sides: readonly Side[] }) {
  const turns = [...sides.map((side) => side.turnDeg), 90];
  const lengthM = missingLengths(turns, [...sides.map((side) => side.lengthM), null])[sides.length] ?? null;
  const { units, locale } = useMeasure();
  if (lengthM === null) return null;
  return (
    <TextButton onPress={() => changeTape((now) => ({ ...now, sides: [...sides, { lengthM, turnDeg: 90 }] }))}>
      Add closing side, {formatLength(lengthM, units, locale)}
    </TextButton>
  );
}
