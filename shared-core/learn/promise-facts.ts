/** Days by which promised flooring dates were missed, measured by the test that cleared the floor. */
import type { ClearanceTest, Promised } from '../book/cure-record.ts';
import { standingPromises } from '../cure/promise-verdict.ts';

/**
 * Days from each promise to the test that passed; negative when the floor was dry before. A promise without a passed test is left
 * out. @param passed whether a test cleared the floor under the flooring's limit
 */
export function promiseMisses(
  promises: readonly Promised[],
  tests: readonly ClearanceTest[],
  passed: (test: ClearanceTest) => boolean,
): readonly number[] {
  const byRoom = new Map<string, Promised[]>();
  for (const p of promises) byRoom.set(p.roomId, [...(byRoom.get(p.roomId) ?? []), p]);
  return [...byRoom].flatMap(([roomId, own]) =>
    standingPromises(own).flatMap((p) => {
      if (p.milestone !== 'cover') return [];
      const good = tests.filter(
        (t) => t.deletedAt === null && t.roomId === roomId && (p.flooring === null || t.flooring === p.flooring) && passed(t),
      );
      const first = Math.min(...good.map((t) => Date.parse(t.takenAt)));
      return Number.isFinite(first) ? [(first - Date.parse(p.promisedFor)) / 86_400_000] : [];
    }),
  );
}
