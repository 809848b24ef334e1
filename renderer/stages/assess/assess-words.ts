import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { FloorTest } from '../../../shared-core/book/layer.ts';
import type { Assessment } from '../../../shared-core/assess/assess-room.ts';
import type { Material } from '../../../shared-core/book/material.ts';
import { countWords } from '../../../shared-core/measure/count-words.ts';
import { overridePapers } from '../../../shared-core/documents/open-holds.ts';
import { formatDay } from '../../../shared-core/measure/day.ts';
import { formatListAnd } from '../../../shared-core/measure/list.ts';
import type { Wording } from '../../../shared-core/substrate/wording.ts';
import type { ChosenAgain } from '../../book/assessment-commands.ts';
import { DISTURBING_FOUND, type Finding, type Verdict } from '../../../shared-core/substrate/rule.ts';

/** Example: `Findings: 1 hold, 2 prep needed, 1 go`. */
export function findingsWords(findings: readonly Finding[]): string {
  const count = (verdict: Verdict): number => findings.filter((f) => f.verdict === verdict).length;
  const holds = count('hold');
  const parts = [
    holds === 0 ? '' : holds === 1 ? '1 hold' : `${holds} holds`,
    count('go-with-work') === 0 ? '' : `${count('go-with-work')} prep needed`,
    count('go') === 0 ? '' : `${count('go')} go`,
  ].filter((words) => words !== '');
  return `Findings: ${parts.length === 0 ? 'none yet' : parts.join(', ')}`;
}

/** What was chosen again for a floor that changed, in a sentence; '' for nothing. */
export function chosenWords({ primerId, leastThicknessM }: ChosenAgain, materials: readonly Material[], wording: Wording): string {
  const primer = materials.find(({ id }) => id === primerId)?.name;
  const parts = [
    ...(primer === undefined ? [] : [primer]),
    ...(leastThicknessM === null ? [] : [`a minimum thickness of ${wording.depth(leastThicknessM)}`]),
  ];
  return parts.length === 0 ? '' : `Chosen for this floor: ${formatListAnd(parts)}. Change it under Estimate.`;
}

/** What is recorded of the room, in one line. */
export function seenWords({ room }: Pick<RoomReading, 'room'>, locale: string): string {
  if (room.plan.outline.length < 3) return 'Not drawn yet.';
  const { readings, runs } = room.survey;
  const noun = runs === undefined ? 'laser reading' : 'reading';
  const shots = readings.length === 0 ? 'Drawn. No readings yet.' : `${countWords(readings.length, noun, locale)}.`;
  return room.layers.length === 0 ? shots : `${shots} Layer thicknesses are not to scale.`;
}

/** The earliest date a lab result is due. */
function dueOn(tests: readonly FloorTest[]): string | null {
  const due = tests.flatMap((test) => (test.kind === 'lab' && test.state === 'sent' && test.dueOn !== null ? [test.dueOn] : []));
  return due.sort()[0] ?? null;
}

/** Findings named in the foot; the list above has all. */
const NAMED = 3;

function waitingWords(waiting: readonly Finding[]): string {
  const more = waiting.length - NAMED;
  const names = [...waiting.slice(0, NAMED).map(({ title }) => title), ...(more > 0 ? [`${more} more`] : [])].join('; ');
  return `${waiting.length === 1 ? '1 finding' : `${waiting.length} findings`} must be cleared before the pour: ${names}.`;
}

/** The verdict and its reason. Overridden holds, and holds on other work only, keep a floor from being called clear. */
export function footWords(
  holds: readonly Finding[],
  assessment: Assessment,
  { tests, isAccepted, locale }: { readonly tests: readonly FloorTest[]; readonly isAccepted: boolean; readonly locale: string },
): { readonly text: string; readonly under: string } {
  const [hold] = holds;
  if (hold === undefined) {
    const waiting = assessment.holdsPour.filter((finding) => !assessment.overrides.some(({ key }) => key === finding.key));
    if (waiting.length > 0) return { text: 'Not ready to pour.', under: waitingWords(waiting) };
    if (assessment.holdsPour.length > 0)
      return {
        text: 'Pour with an overridden hold.',
        under: `The reason is printed ${overridePapers({ by: 'finding', isDocument: false, isAccepted })}.`,
      };
    return assessment.verdict === 'go-with-work'
      ? { text: 'Ready to pour after prep.', under: 'The findings name the prep.' }
      : { text: 'Ready to pour.', under: 'No finding is open.' };
  }
  const others = holds.length - 1;
  const more = others === 0 ? '' : others === 1 ? ' 1 more hold.' : ` ${others} more holds.`;
  const disturbs = DISTURBING_FOUND.every((task) => hold.holds.includes(task));
  const removal = holds.some((one) => one.holds.includes('pull-up')) ? 'remove' : 'lift out';
  // Without a result nothing is pulled up either.
  const due = disturbs && hold.holds.includes('pull-up') ? dueOn(tests) : null;
  return {
    text: disturbs ? `Hold. Do not scrape, sand, grind, drill or ${removal} anything.` : `Hold: ${hold.title}.`,
    under: `${due === null ? hold.text : `The lab result is due ${formatDay(due, 'weekday', locale)}.`}${more}`,
  };
}
