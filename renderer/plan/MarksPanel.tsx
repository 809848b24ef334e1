import { updated, type Update } from '../book/write.ts';
import type { Point } from '../../shared-core/book/fields.ts';
import type { Mark } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { newId } from '../book/command.ts';
import { ChoiceRow, ChoiceList, SelectField } from '../parts/Choices.tsx';
import { QuantityField, TextField } from '../parts/Fields.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { firstCorner } from '../parts/plan-places.ts';
import { hasMovement } from '../../shared-core/plan/honored-marks.ts';
import { PointList } from '../parts/PointFields.tsx';
import { markDetail, MOVEMENT } from './mark-words.ts';
import { changeMarks } from './reported-changes.ts';
import { theRoom } from '../../shared-core/standing/names.ts';

export type MarkKind = Mark['kind'];

export const MARK_KINDS: readonly { readonly value: MarkKind; readonly word: string; readonly shape: Mark['shape'] }[] = [
  { value: 'crack', word: 'crack', shape: 'line' },
  { value: 'joint', word: 'joint', shape: 'line' },
  { value: 'hollow', word: 'hollow area', shape: 'area' },
  { value: 'contaminated', word: 'contaminated area', shape: 'area' },
  { value: 'loose', word: 'loose area', shape: 'area' },
  { value: 'gap', word: 'gap', shape: 'line' },
  { value: 'pipe', word: 'pipe', shape: 'spot' },
  { value: 'drain', word: 'drain', shape: 'spot' },
];

export function shapeOfMark(kind: MarkKind): Mark['shape'] {
  return MARK_KINDS.find((k) => k.value === kind)?.shape ?? 'spot';
}

export function markName(mark: Mark): string {
  return MARK_KINDS.find((k) => k.value === mark.kind)?.word ?? mark.kind;
}

export const LEAST_POINTS: Readonly<Record<Mark['shape'], number>> = { spot: 1, line: 2, area: 3 };

/** A new mark with its shape only. */
export function newMark(kind: MarkKind, points: readonly Point[]): Mark {
  return { id: newId(), kind, moves: 'unknown', shape: shapeOfMark(kind), points: [...points], widthM: null, note: '' };
}

interface MarksPanelProps {
  readonly room: Room;
  readonly picked: string | null;
  readonly onPick: (id: string | null) => void;
  /** The kind of mark being drawn, and its points so far. */
  readonly drawn: { readonly kind: MarkKind; readonly points: readonly Point[] };
  readonly onDraw: (kind: MarkKind, points: readonly Point[]) => void;
}

/** Defects found on the floor: cracks, joints, hollow areas. */
export function MarksPanel({ room, picked, onPick, drawn, onDraw }: MarksPanelProps) {
  const mark = room.marks.find((m) => m.id === picked) ?? null;
  const shape = shapeOfMark(drawn.kind);
  const origin = firstCorner(room.plan.outline);
  const finish = (points: readonly Point[]) => {
    const mark = newMark(drawn.kind, points);
    void changeMarks(room.id, `${markName(mark)} of ${theRoom(room.name)}`, (marks) => [...marks, mark]);
    onDraw(drawn.kind, []);
    onPick(mark.id);
  };
  const isEnough = drawn.points.length >= LEAST_POINTS[shape];
  return (
    <BlockPart>
      <SelectField
        label="Mark to add"
        value={drawn.kind}
        options={MARK_KINDS}
        onChange={(kind) => onDraw(kind, [])}
        hint={
          shape === 'spot'
            ? 'Click or tap the plan where it is, or add a point and enter its position.'
            : `Click or tap at least ${LEAST_POINTS[shape]} points along it on the plan, or add points and enter their positions.`
        }
      />
      <PointList
        points={drawn.points}
        origin={origin}
        label={(number) => `Point ${number}`}
        onPoint={(i, point) => onDraw(drawn.kind, drawn.points.with(i, point))}
      />
      <div className="words">
        <TextButton onPress={() => onDraw(drawn.kind, [...drawn.points, drawn.points.at(-1) ?? origin])}>Add point</TextButton>
        {isEnough && <TextButton onPress={() => finish(drawn.points)}>Save</TextButton>}
        {drawn.points.length > 0 && <TextButton onPress={() => onDraw(drawn.kind, [])}>Cancel</TextButton>}
      </div>
      {room.marks.length > 0 && (
        <div className="plan-part">
          <ChoiceList
            label="Marks on the plan"
            value={picked}
            onChange={onPick}
            options={room.marks.map((m) => ({ id: m.id, word: markName(m), right: markDetail(m) }))}
          />
        </div>
      )}
      {mark !== null && <MarkFields key={mark.id} room={room} mark={mark} origin={origin} onGone={() => onPick(null)} />}
    </BlockPart>
  );
}

interface MarkFieldsProps {
  readonly room: Room;
  readonly mark: Mark;
  readonly origin: Point;
  readonly onGone: () => void;
}

function MarkFields({ room, mark, origin, onGone }: MarkFieldsProps) {
  const change = (label: string, update: Update<Mark>) =>
    void changeMarks(room.id, `${label} of the ${markName(mark)}`, (marks) =>
      marks.map((m) => (m.id === mark.id ? updated(m, update) : m)),
    );
  return (
    <div className="stack plan-part">
      {hasMovement(mark) && (
        <ChoiceRow label="Movement" captioned options={MOVEMENT} value={mark.moves} onChange={(moves) => change('movement', { moves })} />
      )}
      <div className="fields">
        <QuantityField kind="depth" label="Width" value={mark.widthM} onChange={(widthM) => change('width', { widthM })} />
        <TextField label="Note" value={mark.note} onChange={(note) => change('note', { note })} />
      </div>
      <PointList
        points={mark.points}
        origin={origin}
        label={(number) => `Point ${number} of the ${markName(mark)}`}
        onPoint={(i, point) => change('place', (m) => ({ ...m, points: m.points.map((p, k) => (k === i ? point : p)) }))}
      />
      <div className="words">
        <TextButton
          onPress={() => {
            onGone();
            void changeMarks(room.id, `delete ${markName(mark)}`, (marks) => marks.filter((m) => m.id !== mark.id));
          }}
        >
          Delete mark
        </TextButton>
      </div>
    </div>
  );
}
