/** Compares diagonals measured in the room with the drawn plan, to show corners that are out of square. */
import type { Plan } from '../book/plan-fields.ts';
import { formatLength } from '../measure/length-format.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { distanceM } from './point.ts';

/** A diagonal may differ from the drawing by this much plus 0.1 % of its length, the accuracy of a tape across a room. Common practice. */
export const DIAGONAL_WITHIN_M = 0.006;
export const DIAGONAL_WITHIN_SHARE = 0.001;

/** One diagonal. `message` is null when the room and the drawing agree. */
export type DiagonalCheck = {
  readonly from: number;
  readonly to: number;
  readonly message: string | null;
};

/** Checks every measured diagonal. Those with a missing corner are skipped, since `planProblems` reports them. */
export function checkDiagonals(plan: Pick<Plan, 'outline' | 'diagonals'>, units: UnitSystem, locale?: string): readonly DiagonalCheck[] {
  return plan.diagonals.flatMap(({ from, to, lengthM }) => {
    const [a, b] = [plan.outline[from], plan.outline[to]];
    if (a === undefined || b === undefined || from === to) return [];
    const drawnM = distanceM(a, b);
    const differenceM = lengthM - drawnM;
    const agrees = Math.abs(differenceM) <= DIAGONAL_WITHIN_M + DIAGONAL_WITHIN_SHARE * drawnM;
    const amount = formatLength(Math.abs(differenceM), units, locale);
    const way = differenceM > 0 ? 'longer' : 'shorter';
    const message = `The diagonal from corner ${from + 1} to corner ${to + 1} is ${amount} ${way} than drawn. A corner is not square, or a side was misread.`;
    return [{ from, to, message: agrees ? null : message }];
  });
}
