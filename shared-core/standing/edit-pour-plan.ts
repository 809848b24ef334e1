/** Changes to the plan of a pour, as a screen offers them. */
import type { PourPlan } from '../book/job.ts';
import type { Triangular } from '../book/task-times.ts';
import type { RoomReading } from './read-job.ts';

/** A dammed joint across the middle of a room and of its lanes, to begin with; null while the room has no outline. */
export function middleJoint(roomReading: RoomReading, plan: Pick<PourPlan, 'angleDeg'>, id: string): PourPlan['joints'][number] | null {
  const { outline } = roomReading.room.plan;
  if (outline.length < 3) return null;
  const xs = outline.map((p) => p.xM);
  const ys = outline.map((p) => p.yM);
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const isAlongX = Math.abs(Math.cos((plan.angleDeg * Math.PI) / 180)) >= Math.SQRT1_2;
  const [x, y] = [(left + right) / 2, (top + bottom) / 2];
  return isAlongX
    ? { id, from: { xM: x, yM: top }, to: { xM: x, yM: bottom } }
    : { id, from: { xM: left, yM: y }, to: { xM: right, yM: y } };
}

/** A range of task times with one of its three changed; the others give way, so that least, usual and most stay in order. */
export function withTaskTime(time: Triangular, part: keyof Triangular, min: number): Triangular {
  if (part === 'least') return { least: min, usual: Math.max(min, time.usual), most: Math.max(min, time.most) };
  if (part === 'most') return { least: Math.min(min, time.least), usual: Math.min(min, time.usual), most: min };
  return { least: Math.min(min, time.least), usual: min, most: Math.max(min, time.most) };
}
