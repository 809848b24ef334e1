import type { FloorFacts } from '../../../shared-core/substrate/floor-facts.ts';
import { needStanding, needWords } from '../../../shared-core/substrate/need-words.ts';
import type { Finding } from '../../../shared-core/substrate/rule.ts';
import type { TestNeed } from '../../../shared-core/substrate/test-needs.ts';
import type { Wording } from '../../../shared-core/substrate/wording.ts';
import { FieldSlashes } from '../../parts/Field.tsx';
import { StateShape, STATE_WORDS } from '../../parts/StateShape.tsx';

interface NeedFieldsProps {
  readonly facts: FloorFacts;
  readonly findings: readonly Finding[];
  readonly wording: Wording;
  readonly zone: string;
  readonly locale: string;
  readonly columns: number;
  readonly onEnter: (need: TestNeed) => void;
}

const COUNT_WORDS = { enough: '', few: 'too few', stale: 'too old, test again', missing: 'not tested' } as const;

/** The required tests with result, limit and state. A click opens the entry. */
export function NeedFields({ facts, findings, wording, zone, locale, columns, onEnter }: NeedFieldsProps) {
  if (facts.needs.length === 0) return null;
  return (
    <ul className="need-fields" style={{ ['--columns' as string]: columns }} aria-label="Tests this floor needs">
      {facts.needs.map((need) => {
        const words = needWords(need, facts, { wording, zone, locale });
        const needState = needStanding(need, facts, findings);
        const count = need.wanted > 1 ? `${need.have} of ${need.wanted}` : '';
        const state = [COUNT_WORDS[need.state], need.state === 'enough' ? '' : count].filter((part) => part !== '').join(', ');
        return (
          <li key={need.id} className="need-field">
            <span className="caption need-field-name">{need.what}</span>
            <button
              type="button"
              className="need-field-slot"
              aria-label={`${need.what}: ${words.value ?? 'not tested'}. ${needState === 'done' ? 'Add reading' : 'Enter reading'}`}
              onClick={() => onEnter(need)}
            >
              <span className="need-field-value">{words.value ?? <span className="need-field-empty">Enter</span>}</span>
              <FieldSlashes />
            </button>
            <span className="need-field-state">
              <StateShape state={needState} label={STATE_WORDS[needState]} />
              <span>
                {state === '' ? words.limit : state}
                <span className="need-field-detail">{state === '' ? words.detail : words.limit}</span>
              </span>
            </span>
          </li>
        );
      })}
    </ul>
  );
}
