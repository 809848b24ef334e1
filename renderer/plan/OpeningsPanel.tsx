import { updated, type Update } from '../book/write.ts';
import type { Opening, Plan, Survey } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { formatLength } from '../../shared-core/measure/length-format.ts';
import { isExterior, movedToWall, openingName, wallOf } from '../../shared-core/plan/openings.ts';
import { heightOfM, valueOfHeightM } from '../../shared-core/survey/heights.ts';
import { newId } from '../book/command.ts';
import { CheckRow, ChoiceRow, ChoiceList, SelectField } from '../parts/Choices.tsx';
import { QuantityField, TextField } from '../parts/Fields.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { wallOptions } from './OutlineFields.tsx';
import { changePlan } from './reported-changes.ts';
import { theRoom } from '../../shared-core/standing/names.ts';

const KINDS: Readonly<Record<Opening['kind'], string>> = {
  doorway: 'doorway',
  'exterior-door': 'exterior door',
  'sliding-door': 'sliding door',
  'open-side': 'open side',
};

/** A common interior door, 32 in., to be replaced by the measured width. Common practice. */
const USUAL_DOOR_M = 0.8128;

/** A new doorway at a place, with the floor beyond it unknown. */
export function newOpening(wall: number, middleM: number, wallLengthM: number): Opening {
  const widthM = Math.min(USUAL_DOOR_M, wallLengthM);
  const fromM = Math.min(Math.max(0, middleM - widthM / 2), wallLengthM - widthM);
  return {
    id: newId(),
    kind: 'doorway',
    name: '',
    wall,
    fromM,
    widthM,
    adjoiningM: null,
    adjoiningFlooring: '',
    edge: 'dam',
    isWayOut: false,
  };
}

interface OpeningsPanelProps {
  readonly room: Room;
  readonly picked: string | null;
  readonly onPick: (id: string | null) => void;
}

/** Doorways and other openings: where they are, and the floor beyond. */
export function OpeningsPanel({ room, picked, onPick }: OpeningsPanelProps) {
  const { units, locale } = useMeasure();
  const { plan } = room;
  const opening = plan.openings.find((o) => o.id === picked) ?? null;
  const add = () => {
    const longest = plan.outline.map((_, i) => ({ i, lengthM: wallOf(plan, i)?.lengthM ?? 0 })).sort((a, b) => b.lengthM - a.lengthM)[0];
    if (longest === undefined) return;
    const opening = newOpening(longest.i, longest.lengthM / 2, longest.lengthM);
    void changePlan(room.id, `new opening of ${theRoom(room.name)}`, (now) => ({ ...now, openings: [...now.openings, opening] }));
    onPick(opening.id);
  };
  return (
    <BlockPart>
      <p className="caption">Click or tap a wall on the plan to add an opening, or drag one along its wall.</p>
      {plan.openings.length > 0 && (
        <ChoiceList
          label="Openings"
          value={picked}
          onChange={onPick}
          options={plan.openings.map((o) => ({
            id: o.id,
            word: openingName(o),
            right: `wall ${o.wall + 1}, ${formatLength(o.widthM, units, locale)}`,
          }))}
        />
      )}
      <div className="words">
        <TextButton onPress={add} disabled={plan.outline.length < 3}>
          Add opening
        </TextButton>
      </div>
      {opening !== null && <OpeningFields key={opening.id} room={room} opening={opening} onGone={() => onPick(null)} />}
    </BlockPart>
  );
}

interface OpeningFieldsProps {
  readonly room: Room;
  readonly opening: Opening;
  readonly onGone: () => void;
}

function OpeningFields({ room, opening, onGone }: OpeningFieldsProps) {
  const { units, locale } = useMeasure();
  const { plan } = room;
  const change = (label: string, update: Update<Opening>) =>
    void changePlan(room.id, `${label} of the ${openingName(opening)}`, (now) => withOpening(now, opening.id, update));
  return (
    <div className="stack plan-part">
      <div className="fields">
        <TextField label="Leads to" value={opening.name} placeholder="dining room" onChange={(name) => change('name', { name })} />
        <SelectField label="Kind" value={opening.kind} options={KINDS} onChange={(kind) => change('kind', { kind })} />
      </div>
      <div className="fields">
        <SelectField
          label="Wall"
          value={String(opening.wall)}
          options={wallOptions(plan, units, locale)}
          onChange={(wall) =>
            void changePlan(room.id, `wall of the ${openingName(opening)}`, (now) =>
              withOpening(now, opening.id, (was) => movedToWall(now, was, Number(wall))),
            )
          }
        />
        <QuantityField
          kind="wall"
          label={`From corner ${opening.wall + 1}`}
          value={opening.fromM}
          emptyMessage="Enter the distance from the corner."
          onChange={(fromM) => change('place', { fromM })}
        />
        <QuantityField
          kind="length"
          label="Width"
          value={opening.widthM}
          emptyMessage="Enter the width."
          check={(m) => (m > 0 ? null : 'Enter a width greater than 0.')}
          onChange={(widthM) => change('width', { widthM })}
        />
      </div>
      <div className="fields">
        <Adjoining
          survey={room.survey}
          opening={opening}
          onChange={(adjoiningM) => change(isExterior(opening) ? 'top of sill' : 'floor beyond', { adjoiningM })}
        />
        <TextField
          label={isExterior(opening) ? 'Sill or track' : 'Flooring beyond'}
          value={opening.adjoiningFlooring}
          placeholder={isExterior(opening) ? 'stone sill' : 'oak, tile'}
          onChange={(adjoiningFlooring) => change(isExterior(opening) ? 'sill or track' : 'flooring beyond', { adjoiningFlooring })}
        />
      </div>
      <ChoiceRow
        label="Edge at this opening"
        captioned
        options={{ dam: 'Dam', feather: 'Feather', stop: 'End here' }}
        value={opening.edge}
        onChange={(edge) => change('edge', { edge })}
      />
      <CheckRow
        label="Exit during the pour"
        checked={opening.isWayOut}
        onChange={(isWayOut) =>
          void changePlan(room.id, `exit of ${theRoom(room.name)}`, (now) => ({
            ...now,
            openings: now.openings.map((o) => ({ ...o, isWayOut: o.id === opening.id ? isWayOut : isWayOut ? false : o.isWayOut })),
          }))
        }
      />
      <div className="words">
        <TextButton
          onPress={() => {
            onGone();
            void changePlan(room.id, `delete ${openingName(opening)}`, (now) => ({
              ...now,
              openings: now.openings.filter((o) => o.id !== opening.id),
            }));
          }}
        >
          Delete opening
        </TextButton>
      </div>
    </div>
  );
}

interface AdjoiningProps {
  readonly survey: Survey;
  readonly opening: Opening;
  readonly onChange: (adjoiningM: number | null) => void;
}

/** The finished floor beyond, or the sill of an exterior door, measured like the room's readings. */
function Adjoining({ survey, opening, onChange }: AdjoiningProps) {
  const isDown = survey.method === 'distance-down';
  const scale = isDown ? 'Reading down from the same laser line as the other readings.' : 'Elevation on the same scale as the readings.';
  return (
    <QuantityField
      kind={isDown ? 'depth' : 'signed-depth'}
      label={isExterior(opening) ? 'Top of sill or track' : 'Finished floor beyond'}
      hint={isExterior(opening) ? `${scale} The new floor has to stay below it. Do not measure the ground outside.` : scale}
      value={opening.adjoiningM === null ? null : valueOfHeightM(survey.method, opening.adjoiningM)}
      onChange={(valueM) => onChange(valueM === null ? null : heightOfM(survey.method, valueM))}
    />
  );
}

function withOpening(plan: Plan, id: string, update: Update<Opening>): Plan {
  return { ...plan, openings: plan.openings.map((o) => (o.id === id ? updated(o, update) : o)) };
}
