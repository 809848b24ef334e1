/** A lab's result for a sample. */
import type { FloorTest } from '../book/layer.ts';
import type { TestOf } from '../book/tests-of.ts';

/** The lab result for `asked`: the same hazard and layer, not sent before it; null while pending. */
export function labAnswer(tests: readonly FloorTest[], asked: TestOf<'lab'>): TestOf<'lab'> | null {
  for (const t of tests)
    if (
      t.kind === 'lab' &&
      t.state !== 'sent' &&
      t.question === asked.question &&
      t.layerId === asked.layerId &&
      t.takenAt >= asked.takenAt
    )
      return t;
  return null;
}
