import type { DataProblem } from '../../shared-core/book/data-check.ts';
import { fixProblem, fixWord } from '../book/fix-problem.ts';
import { nowInstant } from '../book/command.ts';
import { TextButton } from '../parts/Buttons.tsx';

interface ProblemsPartProps {
  readonly problems: readonly DataProblem[] | null;
  readonly onSay: (good: boolean, words: string) => void;
}

const SHOWN = 50;

/** Data problems, each with what it means and a way to fix it. Nothing is fixed automatically. */
export function ProblemsPart({ problems, onSay }: ProblemsPartProps) {
  const fix = async (problem: DataProblem): Promise<void> => {
    const outcome = await fixProblem(problem, nowInstant());
    onSay(outcome.ok, outcome.ok ? 'Fixed. You can undo this.' : outcome.message);
  };
  return (
    <section className="backup-problems">
      <h2 className="speech">Data problems</h2>
      {problems === null && <p className="caption">Checking…</p>}
      {problems?.length === 0 && <p>No problems found.</p>}
      {problems !== null && problems.length > 0 && (
        <ul>
          {problems.slice(0, SHOWN).map((problem, i) => {
            const word = fixWord(problem);
            return (
              <li key={`${problem.table}/${problem.id}/${i}`}>
                <span>
                  {problem.message} <span className="caption">{problem.id}</span>
                </span>
                {word !== null && (
                  <TextButton kind="plain" onPress={() => void fix(problem)}>
                    {word}
                  </TextButton>
                )}
              </li>
            );
          })}
        </ul>
      )}
      {problems !== null && problems.length > SHOWN && <p className="small">{problems.length - SHOWN} more not shown.</p>}
    </section>
  );
}
