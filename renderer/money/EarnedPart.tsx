import { useEffect, useState } from 'react';
import type { Business } from '../../shared-core/book/business.ts';
import { type EarnedGroup, earnedBy, type FloorKind, type PastJob, pastJob, taskProposals } from '../../shared-core/learn/job-lessons.ts';
import type { Proposal } from '../../shared-core/learn/proposals.ts';
import { shrink } from '../../shared-core/learn/shrink.ts';
import type { TaskKey } from '../../shared-core/material/crew-hours.ts';
import { TASK_NAMES } from '../../shared-core/price/hours-words.ts';
import { formatArea } from '../../shared-core/measure/area.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';
import { useMeasure, useMoney } from '../parts/use-measure.ts';
import { changeBusiness } from '../book/business-commands.ts';
import { nowInstant } from '../book/command.ts';
import { useAll } from '../book/use-records.ts';
import { useWholeJobs } from '../book/use-whole-job.ts';
import { countWords } from '../../shared-core/measure/count-words.ts';
import { Notice } from '../parts/Dialog.tsx';
import { TextButton } from '../parts/Buttons.tsx';

/** Older jobs are ignored, because crews and their pace change. */
const LAST_JOBS = 40;
/** Limits of the size groups, m²: 200 and 500 sq ft. */
const SIZES_M2 = [18.580608, 46.45152] as const;

const FLOOR_NAMES: Readonly<Record<FloorKind, string>> = {
  concrete: 'Over concrete',
  wood: 'Over wood',
  mixed: 'Concrete and wood',
  other: 'Other floors',
};

function usePastJobs(): readonly PastJob[] | null {
  const wholes = useWholeJobs('finished', LAST_JOBS);
  const leads = useAll('leads');
  const [jobs, setJobs] = useState<readonly PastJob[] | null>(null);
  useEffect(() => {
    if (wholes === undefined || leads === undefined) return;
    const now = nowInstant();
    setJobs(wholes.map((whole) => pastJob(whole, leads, now)));
  }, [wholes, leads]);
  return jobs;
}

/** What finished jobs earned by kind of floor, size and customer source, and what they suggest for the next estimate. */
export function EarnedPart({ business }: { readonly business: Business }) {
  const jobs = usePastJobs();
  const [problem, setProblem] = useState<string | null>(null);
  const { units, locale, taskFactors } = business;
  if (jobs === null || jobs.length === 0) return null;
  const area = (m2: number): string => formatArea(m2, units, locale);
  const size = ({ areaM2 }: PastJob): string => {
    const [small, large] = SIZES_M2;
    if (areaM2 <= small) return `Up to ${area(small)}`;
    return areaM2 <= large ? `${area(small)} to ${area(large)}` : `Over ${area(large)}`;
  };
  const suggestions = taskProposals(jobs, taskFactors, locale).filter(({ worthAsking }) => worthAsking);
  const accept = ({ task, learned }: Proposal): void =>
    void changeBusiness(`hours for ${taskName(task).toLowerCase()}`, (b) => ({
      ...b,
      taskFactors: { ...b.taskFactors, [task ?? '']: Math.round(learned.value * 100) / 100 },
    })).then((saved) => setProblem(saved.ok ? null : saved.message));
  const missed = shrink(
    0,
    jobs.flatMap((job) => job.missedDays),
    0,
  );
  return (
    <section className="money-part">
      <h2 className="speech">Earned per owner hour</h2>
      <p className="small">{`Each dot is one of the last ${countWords(jobs.length, 'finished job', locale)}. The bar is the median.`}</p>
      <div className="words below">
        <EarnedDrawing title="Kind of floor" groups={earnedBy(jobs, (job) => FLOOR_NAMES[job.floor])} />
        <EarnedDrawing title="Size" groups={earnedBy(jobs, size)} />
        <EarnedDrawing title="Customer source" groups={earnedBy(jobs, ({ source }) => (source === '' ? 'Not recorded' : source))} />
      </div>
      {missed.mean !== null && (
        <p className="below">
          {`Floors passed their test ${daysText(Math.abs(missed.mean), locale)} ${missed.mean > 0 ? 'after' : 'before'} the promised date on average, over ${countWords(missed.jobs, 'promised date', locale)}${missed.spread === null ? '' : `, ± ${daysText(missed.spread, locale)}`}.`}
        </p>
      )}
      {(suggestions.length > 0 || Object.keys(taskFactors).length > 0) && (
        <>
          <h3 className="caption below">Hours by task</h3>
          {problem !== null && <Notice kind="failure">{problem}</Notice>}
          <ul className="money-lessons">
            {suggestions.map((proposal) => (
              <li key={proposal.key}>
                <span>{lessonWords(proposal, locale)}</span>{' '}
                <TextButton
                  label={`Use ${formatNumber(proposal.learned.value, { most: 2 }, locale)} for ${taskName(proposal.task)}`}
                  onPress={() => accept(proposal)}
                >
                  {`Use ${formatNumber(proposal.learned.value, { most: 2 }, locale)}`}
                </TextButton>
              </li>
            ))}
          </ul>
          {Object.keys(taskFactors).length > 0 && (
            <TextButton
              kind="plain"
              onPress={() =>
                void changeBusiness('typical hours by task', { taskFactors: {} }).then((saved) =>
                  setProblem(saved.ok ? null : saved.message),
                )
              }
            >
              Use typical hours
            </TextButton>
          )}
        </>
      )}
    </section>
  );
}

function daysText(days: number, locale: string): string {
  const text = formatNumber(days, { most: 1 }, locale);
  return `${text} ${text === '1' ? 'day' : 'days'}`;
}

const taskName = (task: string | null): string => TASK_NAMES[(task ?? 'protect') as TaskKey];

/** Example: `Remove old flooring takes you 1.4 times the typical hours, 5 jobs, ± 0.2. Your figure: 1. Suggested: 1.2.` */
function lessonWords({ task, learned }: Proposal, locale: string): string {
  const say = (value: number): string => formatNumber(value, { most: 2 }, locale);
  const spread = learned.spread === null ? '' : `, ± ${say(learned.spread)} from job to job`;
  const jobs = countWords(learned.jobs, 'job', locale);
  return `${taskName(task)} takes you ${say(learned.mean ?? learned.before)} times the typical hours (${jobs}${spread}). Your figure: ${say(learned.before)}. Suggested: ${say(learned.value)}.`;
}

interface EarnedDrawingProps {
  readonly title: string;
  readonly groups: readonly EarnedGroup[];
}

const [WIDTH_PX, ROW_PX, INSET_PX, LINE_PX] = [300, 46, 8, 32];

/** One line per group on a common scale from zero to the best job: a dot per job, a bar at the median. */
function EarnedDrawing({ title, groups }: EarnedDrawingProps) {
  const { locale } = useMeasure();
  const money = useMoney();
  if (groups.length === 0) return null;
  const all = groups.flatMap(({ perHourMinor }) => perHourMinor);
  const [low, high] = [Math.min(0, ...all), Math.max(1, ...all)];
  const x = (minor: number): number => INSET_PX + ((minor - low) / (high - low)) * (WIDTH_PX - 2 * INSET_PX);
  const label = groups
    .map(
      ({ name, perHourMinor, medianMinor }) => `${name}: ${money(medianMinor, 'about')}, ${countWords(perHourMinor.length, 'job', locale)}`,
    )
    .join('. ');
  return (
    <figure className="money-figure">
      <figcaption className="caption">{title}</figcaption>
      <svg
        viewBox={`0 0 ${WIDTH_PX} ${groups.length * ROW_PX}`}
        width={WIDTH_PX}
        height={groups.length * ROW_PX}
        role="img"
        aria-label={label}
      >
        {groups.map(({ name, perHourMinor, medianMinor }, i) => (
          <g key={name} transform={`translate(0 ${i * ROW_PX})`}>
            <text x={INSET_PX} y="16">
              {name}
            </text>
            <text x={WIDTH_PX - INSET_PX} y="16" textAnchor="end">
              {money(medianMinor, 'about')}
            </text>
            <line x1={INSET_PX} x2={WIDTH_PX - INSET_PX} y1={LINE_PX} y2={LINE_PX} className="money-line-thin" />
            {perHourMinor.map((minor, index) => (
              <circle key={`${minor}/${index}`} cx={x(minor)} cy={LINE_PX} r="3.5" className="money-dot" />
            ))}
            <line x1={x(medianMinor)} x2={x(medianMinor)} y1={LINE_PX - 8} y2={LINE_PX + 8} className="money-line-heavy" />
          </g>
        ))}
      </svg>
    </figure>
  );
}
