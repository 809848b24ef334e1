/** A lab's answer to a sample that was sent. */
import type { FloorTest } from '../book/layer.ts';
import type { TestOf } from '../book/tests-of.ts';

/** The record that answers `asked`: the same question about the same layer, not sent before it; null while none does. */
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
