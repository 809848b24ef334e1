/** Sentences of the assessment sheet. */
import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { FloorTest } from '../../../shared-core/book/layer.ts';
import type { Assessment } from '../../../shared-core/assess/assess-room.ts';
import { formatDay } from '../../../shared-core/measure/day.ts';
import { DISTURBING, type Finding, type Verdict } from '../../../shared-core/substrate/rule.ts';

const COUNTS = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];
const counted = (n: number): string => COUNTS[n] ?? String(n);

/** `Findings: one holds, two want work, one is clear`. */
export function findingsWords(findings: readonly Finding[]): string {
  const count = (verdict: Verdict): number => findings.filter((f) => f.verdict === verdict).length;
  const told = (n: number, one: string, many: string): string => (n === 0 ? '' : `${counted(n)} ${n === 1 ? one : many}`);
  const said = [
    told(count('hold'), 'holds', 'hold'),
    told(count('go-with-work'), 'wants work', 'want work'),
    told(count('go'), 'is clear', 'are clear'),
  ].filter((words) => words !== '');
  return `Findings: ${said.length === 0 ? 'none yet' : said.join(', ')}`;
}

/** What has been seen of the room, in a line. */
export function seenWords({ room }: RoomReading): string {
  if (room.plan.outline.length < 3) return 'Not drawn yet.';
  const read = room.survey.readings.length;
  return `${read === 0 ? 'Drawn, not read yet.' : `${read} readings with the laser.`} Thicknesses are drawn to be read.`;
}

/** The soonest day a laboratory's answer is due. */
function dueOn(tests: readonly FloorTest[]): string | null {
  const due = tests.flatMap((test) => (test.kind === 'laboratory' && test.state === 'sent' && test.dueOn !== null ? [test.dueOn] : []));
  return due.sort()[0] ?? null;
}

/** What the sheet means now: the verdict, and what stands behind it. */
export function footWords(
  holds: readonly Finding[],
  assessment: Assessment,
  tests: readonly FloorTest[],
  locale: string,
): { readonly says: string; readonly under: string } {
  const [hold] = holds;
  if (hold === undefined)
    return {
      says: 'This floor may be poured.',
      under: assessment.verdict === 'go-with-work' ? 'With the work the findings name.' : 'Nothing stands against it.',
    };
  const others = counted(holds.length - 1);
  const told = `${others.charAt(0).toUpperCase()}${others.slice(1)} more ${holds.length === 2 ? 'finding holds' : 'findings hold'}.`;
  const more = holds.length === 1 ? '' : ` ${told}`;
  const disturbs = DISTURBING.every((task) => hold.holds.includes(task));
  const due = disturbs ? dueOn(tests) : null;
  return {
    says: disturbs ? 'Hold. Scrape, sand, grind and drill nothing.' : `Hold: ${hold.title}.`,
    under: `${due === null ? hold.says : `The laboratory’s result is due ${formatDay(due, 'weekday', locale)}.`}${more}`,
  };
}
