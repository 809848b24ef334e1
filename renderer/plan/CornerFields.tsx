import type { Room } from '../../shared-core/book/room.ts';
import { withCornerAt, withoutCorner } from '../../shared-core/plan/edit-plan.ts';
import { TextButton } from '../parts/Buttons.tsx';
import { PointFields } from '../parts/PointFields.tsx';
import { changePlan } from './reported-changes.ts';

/** Every corner by its distances across and down from the first. */
export function CornerFields({ room }: { readonly room: Room }) {
  const { plan, id, name } = room;
  const first = plan.outline[0] ?? { xM: 0, yM: 0 };
  return (
    <ol className="stack" aria-label="Corners, measured across and down from corner 1">
      {plan.outline.map((corner, i) => (
        <li key={i}>
          <PointFields
            figure={String(i + 1)}
            label={`Corner ${i + 1}`}
            point={{ xM: corner.xM - first.xM, yM: corner.yM - first.yM }}
            onChange={(point) =>
              void changePlan(id, `corner ${i + 1} of the ${name}`, (now) =>
                withCornerAt(now, i, { xM: point.xM + first.xM, yM: point.yM + first.yM }),
              )
            }
          >
            <TextButton
              kind="plain"
              label={`Delete corner ${i + 1}`}
              disabled={plan.outline.length <= 3}
              onPress={() => void changePlan(id, `corner ${i + 1} of the ${name} deleted`, (now) => withoutCorner(now, i))}
            >
              Delete
            </TextButton>
          </PointFields>
        </li>
      ))}
    </ol>
  );
}
