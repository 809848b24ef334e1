import type { Property } from '../../shared-core/book/property.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { formatLength } from '../../shared-core/measure/length-format.ts';
import { parseSignedLength } from '../../shared-core/measure/length.ts';
import { placeRoom } from '../book/job-rooms.ts';
import type { Outcome } from '../book/command.ts';
import { Field } from '../parts/Field.tsx';
import { Fields } from '../parts/Fields.tsx';
import { SelectField } from '../parts/Choices.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { movedLetters } from './letter-places.ts';

interface PlacePartProps {
  readonly property: Property;
  readonly rooms: readonly Room[];
  readonly onSay: (outcome: Outcome<unknown>) => void;
}

const TURNS = [0, 90, 180, 270] as const;
const EXACT = 1e-9;

/** Each room's position and rotation on the property plan. */
export function PlacePart({ property, rooms, onSay }: PlacePartProps) {
  const { units, locale } = useMeasure();
  const length = {
    parse: (text: string) => parseSignedLength(text, units, 'wall', locale),
    format: (valueM: number) => formatLength(valueM, units, locale),
    same: (a: number, b: number) => Math.abs(a - b) < EXACT,
  };
  return (
    <details className="below property-facts">
      <summary>Room positions on the property plan</summary>
      <div className="stack-wide">
        {rooms.map((room) => {
          const { placedAt } = room.plan;
          const changePlace = (change: Partial<typeof placedAt>): void =>
            void placeRoom(property, room, { ...placedAt, ...change }, movedLetters).then(onSay);
          const turns = TURNS.map((deg): { value: string; word: string } => ({
            value: String(deg),
            word: deg === 0 ? 'As drawn' : `Rotated ${deg}°`,
          }));
          const turn = String(placedAt.turnDeg);
          return (
            <fieldset key={room.id} className="property-place">
              <legend>{room.name}</legend>
              <Fields>
                <Field
                  {...length}
                  label="Distance from left"
                  value={placedAt.xM}
                  emptyMessage="Enter a distance, or 0."
                  onChange={(xM) => changePlace({ xM })}
                />
                <Field
                  {...length}
                  label="Distance from top"
                  value={placedAt.yM}
                  emptyMessage="Enter a distance, or 0."
                  onChange={(yM) => changePlace({ yM })}
                />
                <SelectField
                  label="Rotation"
                  value={turn}
                  options={turns.some((t) => t.value === turn) ? turns : [{ value: turn, word: `Rotated ${turn}°` }, ...turns]}
                  onChange={(deg) => changePlace({ turnDeg: Number(deg) })}
                />
              </Fields>
            </fieldset>
          );
        })}
      </div>
    </details>
  );
}
