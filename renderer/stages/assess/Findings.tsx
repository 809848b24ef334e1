import type { Override } from '../../../shared-core/book/job.ts';
import type { FloorTest } from '../../../shared-core/book/layer.ts';
import { DOCUMENT_WORDS, findingWords, overriddenWords } from '../../../shared-core/assess/overrides.ts';
import type { Finding } from '../../../shared-core/substrate/rule.ts';
import { ChoiceRow } from '../../parts/Choices.tsx';
import { StateShape } from '../../parts/StateShape.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { LAB_STATES, type LabTest } from './LabDialog.tsx';
import { type Lift, liftOf } from './clearing.ts';

interface FindingsProps {
  readonly findings: readonly Finding[];
  readonly tests: readonly FloorTest[];
  /** Overrides by reason that apply, by the key of their hold. */
  readonly past: ReadonlyMap<string, Override>;
  readonly onLift: (lift: Lift) => void;
  readonly onAnswer: (lift: Extract<Lift, { to: 'lab' }>, state: LabTest['state']) => void;
  readonly onOverride: (finding: Finding) => void;
}

const SHAPE = { go: 'done', 'go-with-work': 'under-way', hold: 'held' } as const;
const WORDS = { go: 'Go', 'go-with-work': 'Prep needed', hold: 'Hold' } as const;
const ORDER = ['hold', 'go-with-work', 'go'] as const;

/** The requested lab result that a finding is about. */
function labAnswerTo(tests: readonly FloorTest[], lift: Extract<Lift, { to: 'lab' }>): LabTest | null {
  const asked = tests.filter(
    (test): test is LabTest => test.kind === 'lab' && test.question === lift.question && test.layerId === lift.layerId,
  );
  return asked.at(-1) ?? null;
}

/** Clears a hold on the pour by a reason or a document. Lab results have their own row. */
function clearWord({ verdict, holds, clearedBy }: Finding): string | null {
  if (clearedBy === 'reason') return verdict === 'hold' && holds.includes('pour') ? 'Override hold…' : null;
  if (clearedBy === 'lab-result' || verdict === 'go') return null;
  return holds.length === 0 ? null : `Record ${DOCUMENT_WORDS[clearedBy]}…`;
}

/** Findings: verdict, reason, source, and a link to the field that clears each. */
export function Findings({ findings, tests, past, onLift, onAnswer, onOverride }: FindingsProps) {
  const sorted = [...findings].sort((a, b) => ORDER.indexOf(a.verdict) - ORDER.indexOf(b.verdict));
  if (sorted.length === 0) return <p>No findings yet.</p>;
  return (
    <ul className="findings">
      {sorted.map((finding) => {
        const override = past.get(finding.key);
        const lift = liftOf(finding);
        const isLab = lift.to === 'lab' && finding.verdict === 'hold';
        const word = clearWord(finding);
        return (
          <li key={finding.key}>
            <StateShape state={SHAPE[finding.verdict]} />
            <div>
              <h3>
                {WORDS[finding.verdict]}: {finding.title}
              </h3>
              <p>
                {finding.text} <cite>{finding.source}</cite>
              </p>
              {override !== undefined && <p className="caption">{overriddenWords(override, findingWords(finding))}</p>}
              {isLab && (
                <ChoiceRow
                  label={`Lab result for ${finding.title}`}
                  options={LAB_STATES}
                  value={labAnswerTo(tests, lift)?.state ?? null}
                  onChange={(state) => onAnswer(lift, state)}
                />
              )}
              {finding.verdict !== 'go' && (
                <p className="words">
                  {!isLab && (
                    <TextButton label={`${lift.word}: ${finding.title}`} onPress={() => onLift(lift)}>
                      {lift.word}
                    </TextButton>
                  )}
                  {word !== null && override === undefined && (
                    <TextButton kind="plain" label={`${word} ${finding.title}`} onPress={() => onOverride(finding)}>
                      {word}
                    </TextButton>
                  )}
                </p>
              )}
            </div>
          </li>
        );
      })}
    </ul>
  );
}
