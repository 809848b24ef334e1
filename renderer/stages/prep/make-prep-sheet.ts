/** The prep sheet made as a paper and noted in the job. */
import type { JobReading, RoomReading } from '../../../shared-core/agenda/read-job.ts';
import { prepSheet } from '../../../shared-core/documents/prep-sheet.ts';
import { noteDocument } from '../../book/quote-commands.ts';
import { nowInstant } from '../../book/moment.ts';
import { makePaper } from '../../parts/make-paper.ts';

/** Makes the sheet of one room, opens it and notes it; says where it is, or what went wrong. */
export async function makePrepSheet(reading: JobReading, at: RoomReading): Promise<{ readonly ok: boolean; readonly says: string }> {
  const tree = prepSheet({ reading, at, madeAt: nowInstant() });
  const paper = await makePaper(tree);
  if (!paper.ok) return paper;
  const { whole } = reading;
  const noted = await noteDocument({
    jobId: whole.job.id,
    kind: 'prep-sheet',
    revision: whole.documents.filter((d) => d.kind === 'prep-sheet').length + 1,
    title: tree.title,
    madeAt: tree.madeAt,
    changes: [],
    content: JSON.stringify(tree),
    quoteId: null,
    sha256: paper.sha256,
  });
  return noted.ok ? paper : { ok: false, says: `${paper.says} It could not be noted in the job: ${noted.message}` };
}
