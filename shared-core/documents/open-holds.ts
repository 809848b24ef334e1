/** What still keeps a job's rooms from being poured, and known defects the pour leaves: printed in the quote. */
import type { Quote } from '../book/quote.ts';
import type { JobReading } from '../standing/read-job.ts';

/** Open holds and defects of every room that is not poured, overridden ones left out. */
export function openHolds({ rooms, estimate, bundle }: Pick<JobReading, 'rooms' | 'estimate' | 'bundle'>): Quote['holds'] {
  return rooms.flatMap(({ room, jobRoom, assessment }) => {
    const isPoured = bundle.pours.some((p) => p.finishedAt !== null && p.deletedAt === null && p.roomIds.includes(room.id));
    if (isPoured) return [];
    const overridden = new Set(jobRoom.overrides.map((o) => o.key));
    const holds = assessment.holdsPour
      .filter((finding) => finding.verdict === 'hold' && !overridden.has(finding.key))
      .map((finding) => `${finding.title}. ${finding.text}`);
    const defects = estimate.suggested.problems
      .filter((problem) => problem.roomId === room.id && !problem.stops && problem.key.startsWith('level:'))
      .map((problem) => problem.message.replace(`${room.name}: `, ''));
    return [...new Set([...holds, ...defects])].map((text) => ({ roomId: room.id, text: text.slice(0, 2000) }));
  });
}
