import type { FloorTest } from '../../../shared-core/book/layer.ts';
import type { Finding } from '../../../shared-core/substrate/rule.ts';
import { ChoiceRow } from '../../parts/ChoiceRow.tsx';
import { StateShape } from '../../parts/StateShape.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { LAB_STATES, type LabTest } from './LabDialog.tsx';
import { type Lift, liftOf } from './lifting.ts';

interface FindingsProps {
  readonly findings: readonly Finding[];
  readonly tests: readonly FloorTest[];
  /** Keys gone past in writing, with the reason. */
  readonly past: ReadonlyMap<string, string>;
  readonly onLift: (lift: Lift) => void;
  readonly onAnswer: (lift: Extract<Lift, { to: 'laboratory' }>, state: LabTest['state']) => void;
  readonly onGoPast: (finding: Finding) => void;
}

const SHAPE = { go: 'done', 'go-with-work': 'under-way', hold: 'held' } as const;
const WORDS = { go: 'Go', 'go-with-work': 'Go with work', hold: 'Hold' } as const;
const ORDER = ['hold', 'go-with-work', 'go'] as const;

/** The laboratory's answer a finding is about, if one was asked for. */
export function labAnswerTo(tests: readonly FloorTest[], lift: Extract<Lift, { to: 'laboratory' }>): LabTest | null {
  const asked = tests.filter(
    (test): test is LabTest => test.kind === 'laboratory' && test.question === lift.question && test.layerId === lift.layerId,
  );
  return asked.at(-1) ?? null;
}

/** What was found: the verdict, the reason, the source, and the way to the field that lifts it. */
export function Findings({ findings, tests, past, onLift, onAnswer, onGoPast }: FindingsProps) {
  const sorted = [...findings].sort((a, b) => ORDER.indexOf(a.verdict) - ORDER.indexOf(b.verdict));
  if (sorted.length === 0) return <p className="findings-none">Nothing is known about this floor yet.</p>;
  return (
    <ul className="findings">
      {sorted.map((finding) => {
        const why = past.get(finding.key);
        const lift = liftOf(finding);
        return (
          <li key={finding.key}>
            <StateShape state={SHAPE[finding.verdict]} />
            <div>
              <h3>
                {WORDS[finding.verdict]}: {finding.title}
              </h3>
              <p>
                {finding.says} <cite>{finding.source}</cite>
              </p>
              {why !== undefined && <p className="caption">Gone past: {why}</p>}
              {finding.verdict === 'hold' && lift.to === 'laboratory' && (
                <ChoiceRow
                  label={`The laboratory about ${finding.title}`}
                  options={LAB_STATES}
                  value={labAnswerTo(tests, lift)?.state ?? null}
                  onChange={(state) => onAnswer(lift, state)}
                />
              )}
              {finding.verdict !== 'go' && (
                <p className="finding-ways">
                  {!(finding.verdict === 'hold' && lift.to === 'laboratory') && (
                    <TextButton label={`${lift.word}: ${finding.title}`} onPress={() => onLift(lift)}>
                      {lift.word}
                    </TextButton>
                  )}
                  {finding.verdict === 'hold' && finding.holds.includes('pour') && why === undefined && (
                    <TextButton kind="plain" label={`Go on all the same: ${finding.title}`} onPress={() => onGoPast(finding)}>
                      Go on all the same
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
