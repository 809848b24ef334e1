import { useState } from 'react';
import type { FloorTest, FloorTestKind } from '../../../shared-core/book/layer.ts';
import { formatDay } from '../../../shared-core/measure/day.ts';
import { dayOfInstant } from '../../../shared-core/measure/moment.ts';
import type { TestNeed } from '../../../shared-core/substrate/test-needs.ts';
import { SelectField } from '../../parts/SelectField.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TEST_FORMS, TEST_KINDS } from './test-forms.ts';

interface TestsTakenProps {
  readonly tests: readonly FloorTest[];
  readonly needs: readonly TestNeed[];
  readonly says: (test: FloorTest) => string;
  readonly zone: string;
  readonly locale: string;
  readonly onEnter: (kind: FloorTestKind) => void;
  readonly onOpen: (test: FloorTest) => void;
  readonly onDelete: (test: FloorTest) => void;
}

/** Every reading taken, those that do not count with why; and the way to any other test. */
export function TestsTaken({ tests, needs, says, zone, locale, onEnter, onOpen, onDelete }: TestsTakenProps) {
  const refused = new Map(needs.flatMap((need) => need.refused.map(({ testId, why }) => [testId, why] as const)));
  const [all, setAll] = useState(false);
  const shown = all || refused.size > 0;
  return (
    <section className="assess-part" aria-label="Readings taken">
      <div className="tests-line">
        {tests.length > 0 && (
          <TextButton kind="plain" expanded={shown} onPress={() => setAll(!all)}>
            {tests.length === 1 ? 'One reading taken' : `${tests.length} readings taken`}
          </TextButton>
        )}
        <div className="tests-other">
          <SelectField
            label="Another test"
            calls
            value={null as FloorTestKind | null}
            none="choose"
            options={TEST_KINDS.map((value) => ({ value, word: TEST_FORMS[value].title.toLowerCase() }))}
            onChange={(kind) => {
              if (kind !== null) onEnter(kind);
            }}
          />
        </div>
      </div>
      {shown && (
        <ul className="tests-taken">
          {tests.map((test) => {
            const why = refused.get(test.id);
            return (
              <li key={test.id}>
                <span>
                  {TEST_FORMS[test.kind].title}: {says(test)}{' '}
                  <span className="caption">
                    {formatDay(dayOfInstant(test.takenAt, zone), 'short', locale)}
                    {test.by === '' ? '' : `, ${test.by}`}
                    {test.note === '' ? '' : `. ${test.note}`}
                  </span>
                  {why !== undefined && <span className="tests-refused">Does not count. {why}</span>}
                </span>
                <span className="tests-ways">
                  <TextButton kind="plain" label={`Change ${TEST_FORMS[test.kind].title}: ${says(test)}`} onPress={() => onOpen(test)}>
                    Change
                  </TextButton>
                  <TextButton kind="plain" label={`Take out ${TEST_FORMS[test.kind].title}: ${says(test)}`} onPress={() => onDelete(test)}>
                    Take out
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
