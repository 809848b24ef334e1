import type { Room } from '../../shared-core/book/room.ts';
import { keyPlan } from '../../shared-core/drawing/house.ts';
import { DrawingView } from '../parts/DrawingView.tsx';

const [WIDTH_PX, HEIGHT_PX] = [72, 44];

/** The rooms of a customer’s first property in outline. The row beside it says whose they are. */
export function SmallPlan({ rooms }: { readonly rooms: readonly Room[] }) {
  const drawing = keyPlan(
    rooms
      .filter((room) => room.propertyId === rooms[0]?.propertyId)
      .map((room) => ({ id: room.id, plan: room.plan, isPicked: false, label: '' })),
    WIDTH_PX,
    HEIGHT_PX,
  );
  return (
    <span className="customers-plan" aria-hidden="true">
      {drawing.marks.length > 0 && <DrawingView drawing={drawing} label="" />}
    </span>
  );
}
