/** Open holds on a job's rooms and known defects the pour leaves, printed in the quote. */
import type { Quote } from '../book/quote.ts';
import { capital } from '../standing/names.ts';
import type { JobReading } from '../standing/read-job.ts';

/** Before a hold that goes ahead with a recorded reason. */
export const ACCEPTED_HOLD = 'Accepted in writing: ';

/** Open holds and defects of every room that is not poured; a hold that was overridden is printed with its reason. */
export function openHolds({ rooms, estimate, bundle }: Pick<JobReading, 'rooms' | 'estimate' | 'bundle'>): Quote['holds'] {
  return rooms.flatMap(({ room, jobRoom, assessment }) => {
    const isPoured = bundle.pours.some((p) => p.finishedAt !== null && p.deletedAt === null && p.roomIds.includes(room.id));
    if (isPoured) return [];
    const overridden = new Map(jobRoom.overrides.map((override) => [override.key, override]));
    const holds = assessment.holdsPour
      .filter((finding) => finding.verdict === 'hold')
      .map((finding) => {
        const why = overridden.get(finding.key)?.why;
        return why === undefined ? `${capital(finding.title)}. ${finding.text}` : `${ACCEPTED_HOLD}${finding.title}. ${why}`;
      });
    const defects = estimate.suggested.problems
      .filter((problem) => problem.roomId === room.id && !problem.stops && problem.key.startsWith('level:'))
      .map((problem) => problem.message.replace(`${room.name}: `, ''));
    return [...new Set([...holds, ...defects])].map((text) => ({ roomId: room.id, text: text.slice(0, 2000) }));
  });
}
