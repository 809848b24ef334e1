import type { Finding } from '../../../shared-core/substrate/rule.ts';
import { StateShape } from '../../parts/StateShape.tsx';
import { TextButton } from '../../parts/TextButton.tsx';

interface FindingsProps {
  readonly findings: readonly Finding[];
  /** Keys gone past in writing, with the reason. */
  readonly past: ReadonlyMap<string, string>;
  readonly onLift: (path: string) => void;
  readonly onGoPast: (finding: Finding) => void;
}

const SHAPE = { go: 'done', 'go-with-work': 'under-way', hold: 'held' } as const;
const WORDS = { go: 'Go', 'go-with-work': 'Go with work', hold: 'Hold' } as const;
const ORDER = ['hold', 'go-with-work', 'go'] as const;

/** What was found: the verdict, the reason, the source, and the way to the field that lifts it. */
export function Findings({ findings, past, onLift, onGoPast }: FindingsProps) {
  const sorted = [...findings].sort((a, b) => ORDER.indexOf(a.verdict) - ORDER.indexOf(b.verdict));
  if (sorted.length === 0) return <p>Nothing is known about this floor yet.</p>;
  return (
    <ul className="findings">
      {sorted.map((finding) => {
        const why = past.get(finding.key);
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
              {finding.verdict !== 'go' && (
                <p className="finding-ways">
                  <TextButton label={`Answer: ${finding.title}`} onPress={() => onLift(finding.lifts)}>
                    Answer it
                  </TextButton>
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
