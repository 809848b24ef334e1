import { useState } from 'react';
import type { FloorTest, FloorTestKind } from '../../../shared-core/book/layer.ts';
import { formatDay } from '../../../shared-core/measure/day.ts';
import { dayOfInstant } from '../../../shared-core/measure/moment.ts';
import type { TestNeed } from '../../../shared-core/substrate/test-needs.ts';
import { SelectField } from '../../parts/Choices.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { kindOf, TEST_KINDS, testKinds } from '../../../shared-core/substrate/test-kinds.ts';

interface TestsTakenProps {
  readonly tests: readonly FloorTest[];
  readonly needs: readonly TestNeed[];
  readonly wordsOf: (test: FloorTest) => string;
  readonly zone: string;
  readonly locale: string;
  readonly onEnter: (kind: FloorTestKind) => void;
  readonly onOpen: (test: FloorTest) => void;
  readonly onDelete: (test: FloorTest) => void;
}

/** All tests, with why some do not count, and a menu to add others. */
export function TestsTaken({ tests, needs, wordsOf, zone, locale, onEnter, onOpen, onDelete }: TestsTakenProps) {
  const refused = new Map(needs.flatMap((need) => need.refused.map(({ testId, why }) => [testId, why] as const)));
  const [all, setAll] = useState(false);
  const shown = all || refused.size > 0;
  return (
    <section className="assess-part" aria-label="Tests made">
      <div className="tests-line">
        {tests.length > 0 && (
          <TextButton kind="plain" expanded={shown} onPress={() => setAll(!all)}>
            {tests.length === 1 ? '1 test' : `${tests.length} tests`}
          </TextButton>
        )}
        <div className="tests-other">
          <SelectField
            label="Add test"
            calls
            value={null as FloorTestKind | null}
            none="choose"
            options={testKinds().map((value) => ({ value, word: TEST_KINDS[value].form.title }))}
            onChange={(kind) => {
              if (kind !== null) onEnter(kind);
            }}
          />
        </div>
      </div>
      {shown && (
        <ul className="ends">
          {tests.map((test) => {
            const why = refused.get(test.id);
            return (
              <li key={test.id}>
                <span>
                  {kindOf(test).form.title}: {wordsOf(test)}{' '}
                  <span className="caption">
                    {formatDay(dayOfInstant(test.takenAt, zone), 'short', locale)}
                    {test.by === '' ? '' : `, ${test.by}`}
                    {test.note === '' ? '' : `. ${test.note}`}
                  </span>
                  {why !== undefined && <span className="tests-refused">Does not count. {why}</span>}
                </span>
                <span className="words">
                  <TextButton kind="plain" label={`Edit ${kindOf(test).form.title}: ${wordsOf(test)}`} onPress={() => onOpen(test)}>
                    Edit
                  </TextButton>
                  <TextButton kind="plain" label={`Delete ${kindOf(test).form.title}: ${wordsOf(test)}`} onPress={() => onDelete(test)}>
                    Delete
                  </TextButton>
                </span>
              </li>
            );
          })}
        </ul>
      )}
    </section>
  );
}
