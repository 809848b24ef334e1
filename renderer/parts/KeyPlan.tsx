import { Link } from 'wouter';
import type { Drawing } from '../../shared-core/drawing/marks.ts';
import { DrawingView } from './DrawingView.tsx';
import { type StateName, StateShape } from './StateShape.tsx';
import './KeyPlan.css';

export interface KeyPlanRoom {
  readonly id: string;
  readonly name: string;
  readonly href: string;
  readonly state: StateName;
  /** The state in words: `estimate done`. */
  readonly words: string;
  readonly current: boolean;
}

interface KeyPlanProps {
  /** The rooms in outline, the current one hatched; null when none is drawn. */
  readonly drawing: Drawing | null;
  readonly rooms: readonly KeyPlanRoom[];
  /** Called with the group's name when a room on the plan is pressed. */
  readonly onPick?: (name: string) => void;
}

/** The rooms of a job as a small plan, and as a list with their states. */
export function KeyPlan({ drawing, rooms, onPick }: KeyPlanProps) {
  return (
    <div className="key-plan">
      {drawing !== null && (
        <div className="key-plan-drawing">
          <DrawingView drawing={drawing} label={`Key plan: ${rooms.map((r) => r.name).join(', ')}`} {...(onPick ? { onPick } : {})} />
        </div>
      )}
      <ul className="key-plan-rooms">
        {rooms.map((room) => (
          <li key={room.id}>
            <Link href={room.href} aria-current={room.current ? 'true' : undefined}>
              <StateShape state={room.state} sizePx={17} />
              <span className="key-plan-name">{room.name}</span>
              <span className="key-plan-words">{room.words}</span>
            </Link>
          </li>
        ))}
      </ul>
    </div>
  );
}
