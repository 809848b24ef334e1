import { updated, type Update } from '../book/write.ts';
import type { Point } from '../../shared-core/book/fields.ts';
import type { Hole } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { formatArea } from '../../shared-core/measure/area.ts';
import { boxCorners, boxOf } from '../../shared-core/plan/edit-plan.ts';
import { centroidOf, ringAreaM2 } from '../../shared-core/plan/polygon.ts';
import { newId } from '../book/command.ts';
import { ChoiceList, SelectField } from '../parts/Choices.tsx';
import { QuantityField, TextField } from '../parts/Fields.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { firstCorner } from '../parts/plan-places.ts';
import { LengthEitherWay, PointList } from '../parts/PointFields.tsx';
import { changePlan } from './reported-changes.ts';
import { theRoom } from '../../shared-core/standing/names.ts';

const KINDS = { column: 'column', hearth: 'hearth', island: 'island', stair: 'stair', drain: 'drain', other: 'other' };

/** Starting size of a cutout: 18 in. square, to be edited. */
const FIRST_SIDE_M = 0.4572;

export function newHole(point: Point): Hole {
  return {
    id: newId(),
    kind: 'column',
    name: '',
    corners: boxCorners(point.xM - FIRST_SIDE_M / 2, point.yM - FIRST_SIDE_M / 2, FIRST_SIDE_M, FIRST_SIDE_M),
  };
}

export function holeName(hole: Hole): string {
  return hole.name === '' ? (hole.kind === 'other' ? 'cutout' : hole.kind) : hole.name;
}

interface HolesPanelProps {
  readonly room: Room;
  readonly picked: string | null;
  readonly onPick: (id: string | null) => void;
}

/** Areas that are not poured: columns, hearths, islands. */
export function HolesPanel({ room, picked, onPick }: HolesPanelProps) {
  const { units, locale } = useMeasure();
  const { plan } = room;
  const hole = plan.holes.find((h) => h.id === picked) ?? null;
  const add = () => {
    const middle = centroidOf(plan.outline);
    if (middle === null) return;
    const hole = newHole(middle);
    void changePlan(room.id, `new cutout of ${theRoom(room.name)}`, (now) => ({ ...now, holes: [...now.holes, hole] }));
    onPick(hole.id);
  };
  return (
    <BlockPart>
      <p className="caption">Click or tap the plan where the cutout is, or drag it.</p>
      {plan.holes.length > 0 && (
        <ChoiceList
          label="Cutouts"
          value={picked}
          onChange={onPick}
          options={plan.holes.map((h) => ({ id: h.id, word: holeName(h), right: formatArea(ringAreaM2(h.corners), units, locale) }))}
        />
      )}
      <div className="words">
        <TextButton onPress={add} disabled={plan.outline.length < 3}>
          Add cutout
        </TextButton>
      </div>
      {hole !== null && <HoleFields key={hole.id} room={room} hole={hole} onGone={() => onPick(null)} />}
    </BlockPart>
  );
}

function HoleFields({ room, hole, onGone }: { readonly room: Room; readonly hole: Hole; readonly onGone: () => void }) {
  const origin = firstCorner(room.plan.outline);
  const box = boxOf(hole.corners);
  const change = (label: string, update: Update<Hole>) =>
    void changePlan(room.id, `${label} of the ${holeName(hole)}`, (now) => ({
      ...now,
      holes: now.holes.map((h) => (h.id === hole.id ? updated(h, update) : h)),
    }));
  const toBox = (to: Partial<NonNullable<typeof box>>) => {
    if (box === null) return;
    const next = { ...box, ...to };
    change('size', { corners: boxCorners(next.leftM, next.topM, next.widthM, next.heightM) });
  };
  return (
    <div className="stack plan-part">
      <div className="fields">
        <SelectField label="Kind" value={hole.kind} options={KINDS} onChange={(kind) => change('kind', { kind })} />
        <TextField label="Name (optional)" value={hole.name} onChange={(name) => change('name', { name })} />
      </div>
      {box !== null ? (
        <div className="fields">
          <LengthEitherWay
            bare={false}
            label="Across from corner 1"
            value={box.leftM - origin.xM}
            onChange={(m) => toBox({ leftM: m + origin.xM })}
          />
          <LengthEitherWay
            bare={false}
            label="Down from corner 1"
            value={box.topM - origin.yM}
            onChange={(m) => toBox({ topM: m + origin.yM })}
          />
          <QuantityField
            kind="wall"
            label="Width"
            value={box.widthM}
            check={(m) => (m > 0 ? null : 'Enter a width greater than 0.')}
            onChange={(widthM) => widthM !== null && toBox({ widthM })}
          />
          <QuantityField
            kind="wall"
            label="Length"
            value={box.heightM}
            check={(m) => (m > 0 ? null : 'Enter a length greater than 0.')}
            onChange={(heightM) => heightM !== null && toBox({ heightM })}
          />
        </div>
      ) : (
        <PointList
          points={hole.corners}
          origin={origin}
          label={(number) => `Corner ${number} of the ${holeName(hole)}`}
          onPoint={(i, point) => change('corner', (h) => ({ ...h, corners: h.corners.map((c, k) => (k === i ? point : c)) }))}
        />
      )}
      <div className="words">
        <TextButton
          onPress={() => {
            onGone();
            void changePlan(room.id, `delete ${holeName(hole)}`, (now) => ({
              ...now,
              holes: now.holes.filter((h) => h.id !== hole.id),
            }));
          }}
        >
          Delete cutout
        </TextButton>
        {box !== null && (
          <TextButton
            onPress={() =>
              change('corner', (h) => {
                const [a, b] = [h.corners[0], h.corners[1]];
                if (a === undefined || b === undefined) return h;
                return { ...h, corners: [a, { xM: (a.xM + b.xM) / 2, yM: (a.yM + b.yM) / 2 }, ...h.corners.slice(1)] };
              })
            }
          >
            Add corner
          </TextButton>
        )}
      </div>
    </div>
  );
}
