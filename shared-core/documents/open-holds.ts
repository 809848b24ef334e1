/** Open holds on a job's rooms and known defects the pour leaves, printed in the quote. */
import type { Quote } from '../book/quote.ts';
import type { PourHold } from '../prep/pour-held.ts';
import { finishedPours } from '../standing/job-bundle.ts';
import { capital } from '../measure/first-letter.ts';
import type { JobReading } from '../standing/read-job.ts';

/** Before a hold that was overridden with a reason. The customer reads it. */
export const OVERRIDDEN_HOLD = 'We go ahead despite this: ';

/** What decides which papers print an override. */
export type OverrideOf = {
  /** What holds the pour; null for a hold on other work only. */
  readonly by: PourHold['by'] | null;
  /** Whether a document clears the hold, so that it is a hold no more. */
  readonly isDocument: boolean;
  /** Whether the quote is accepted: then there is no next one. */
  readonly isAccepted: boolean;
};

/** The papers that print an override, within a sentence. */
export function overridePapers({ by, isDocument, isAccepted }: OverrideOf): string {
  if (by === null || isDocument) return 'in the job record';
  return by === 'finding' && !isAccepted
    ? 'on the next quote, on the prep sheet, and in the job record'
    : 'on the prep sheet and in the job record';
}

/** Open holds and defects of every room that is not poured; a hold that was overridden is printed with its reason. */
export function openHolds({ rooms, estimate, bundle }: Pick<JobReading, 'rooms' | 'estimate' | 'bundle'>): Quote['holds'] {
  return rooms.flatMap(({ room, assessment }) => {
    if (finishedPours(bundle, room.id).length > 0) return [];
    const overridden = new Map(assessment.overrides.map((override) => [override.key, override]));
    const holds = assessment.holdsPour
      .filter((finding) => finding.verdict === 'hold')
      .map((finding) => {
        const why = overridden.get(finding.key)?.why;
        return why === undefined ? `${capital(finding.title)}. ${finding.text}` : `${OVERRIDDEN_HOLD}${finding.title}. Our reason: ${why}`;
      });
    const defects = estimate.suggested.problems
      .filter((problem) => problem.roomId === room.id && !problem.stops && problem.key.startsWith('level:'))
      .map((problem) => problem.message.replace(`${room.name}: `, ''));
    return [...new Set([...holds, ...defects])].map((text) => ({ roomId: room.id, text: text.slice(0, 2000) }));
  });
}
