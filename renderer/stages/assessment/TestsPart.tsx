import { useState } from 'react';
import type { FloorTest, FloorTestKind } from '../../../shared-core/book/layer.ts';
import type { TestNeed } from '../../../shared-core/substrate/test-needs.ts';
import { formatDay } from '../../../shared-core/measure/day.ts';
import { dayOfInstant } from '../../../shared-core/measure/moment.ts';
import { SelectField } from '../../parts/SelectField.tsx';
import { StateShape } from '../../parts/StateShape.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TEST_FORMS, TEST_KINDS } from './test-forms.ts';

interface TestsPartProps {
  readonly tests: readonly FloorTest[];
  readonly needs: readonly TestNeed[];
  readonly says: (test: FloorTest) => string;
  readonly timeZone: string;
  readonly locale: string;
  readonly onEnter: (kind: FloorTestKind) => void;
  readonly onOpen: (test: FloorTest) => void;
  readonly onRemove: (test: FloorTest) => void;
}

const STATE = { enough: 'done', few: 'under-way', stale: 'waiting', missing: 'waiting' } as const;
const NEED_WORDS = { enough: 'enough', few: 'too few', stale: 'too old: read again', missing: 'not tested yet' } as const;

/** What has to be tested, what has been, and another test. */
export function TestsPart({ tests, needs, says, timeZone, locale, onEnter, onOpen, onRemove }: TestsPartProps) {
  const [all, setAll] = useState(false);
  return (
    <section className="tests-part" aria-label="Tests">
      <ul className="tests-needs">
        {needs.map((need) => (
          <li key={need.id}>
            <StateShape state={STATE[need.state]} />
            <span>
              {need.what}{' '}
              <span className="caption">
                {NEED_WORDS[need.state]}, {need.have} of {need.wanted}
              </span>
            </span>
            <TextButton
              label={`Enter ${need.what}`}
              onPress={() => {
                const [kind] = need.accepts;
                if (kind !== undefined) onEnter(kind);
              }}
            >
              Enter
            </TextButton>
          </li>
        ))}
      </ul>
      <div className="tests-other">
        <SelectField
          label="Another test"
          value={null as FloorTestKind | null}
          calls
          none="choose"
          options={TEST_KINDS.map((value) => ({ value, word: TEST_FORMS[value].title.toLowerCase() }))}
          onChange={(kind) => {
            if (kind !== null) onEnter(kind);
          }}
        />
      </div>
      {tests.length > 0 && (
        <>
          <TextButton kind="plain" expanded={all} onPress={() => setAll(!all)}>
            {tests.length === 1 ? 'One reading taken' : `${tests.length} readings taken`}
          </TextButton>
          {all && (
            <ul className="tests-taken">
              {tests.map((test) => (
                <li key={test.id}>
                  <span>
                    {TEST_FORMS[test.kind].title}: {says(test)}{' '}
                    <span className="caption">{formatDay(dayOfInstant(test.takenAt, timeZone), 'short', locale)}</span>
                  </span>
                  <span>
                    <TextButton kind="plain" label={`Change ${TEST_FORMS[test.kind].title}`} onPress={() => onOpen(test)}>
                      Change
                    </TextButton>
                    <TextButton kind="plain" label={`Take out ${TEST_FORMS[test.kind].title}`} onPress={() => onRemove(test)}>
                      Take out
                    </TextButton>
                  </span>
                </li>
              ))}
            </ul>
          )}
        </>
      )}
    </section>
  );
}
