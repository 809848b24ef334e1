import { useState } from 'react';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { type LienKind, lienDeadlines } from '../../shared-core/ledger/lien-deadlines.ts';
import { formatDay } from '../../shared-core/measure/day.ts';
import { changeJob } from '../book/job-commands.ts';
import { CheckRow } from '../parts/Choices.tsx';
import { Notice } from '../parts/Notice.tsx';

const WORDS: Readonly<Record<LienKind, string>> = { 'lien-notice': 'Lien notice', 'lien-deadline': 'Lien' };

/** Lien deadlines from the days entered for the state, each checked off once met. */
export function LienPart({ whole }: { readonly whole: WholeJob }) {
  const [problem, setProblem] = useState<string | null>(null);
  const { business, job } = whole;
  const deadlines = lienDeadlines(whole, business.lienRules);
  if (deadlines.length === 0) return null;
  const set = (kind: LienKind, done: boolean): void =>
    void changeJob(job.id, 'lien deadline', (j) => ({
      ...j,
      lienDone: done ? [...new Set([...j.lienDone, kind])] : j.lienDone.filter((one) => one !== kind),
    })).then((saved) => setProblem(saved.ok ? null : saved.message));
  return (
    <section className="money-part">
      <h2 className="speech">Lien deadlines</h2>
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      {deadlines.map(({ kind, onDay, isDone }) => (
        <CheckRow
          key={kind}
          task
          label={`${WORDS[kind]} by ${formatDay(onDay, 'dated', business.locale)}`}
          because="From the days you entered for the state. Check them before you rely on them."
          checked={isDone}
          onChange={(done) => set(kind, done)}
        />
      ))}
    </section>
  );
}
