/** The prep sheet made as a paper and noted in the job. */
import type { JobReading, RoomReading } from '../../../shared-core/standing/read-job.ts';
import { prepSheet } from '../../../shared-core/documents/prep-sheet.ts';
import { nowInstant } from '../../book/moment.ts';
import { notePaper } from '../../book/paper-commands.ts';
import { paperPhotos } from '../../book/record-commands.ts';
import { makePaper } from '../../parts/make-paper.ts';

/** Makes the sheet of one room, opens it and notes it; says where it is, or what went wrong. */
export async function makePrepSheet(reading: JobReading, at: RoomReading): Promise<{ readonly ok: boolean; readonly says: string }> {
  const madeAt = nowInstant();
  const paper = await makePaper(prepSheet({ reading, at, madeAt, photos: await paperPhotos(reading.whole.job.id) }));
  if (!paper.ok) return paper;
  // Its content is kept without the photos, which the book holds already.
  const tree = prepSheet({ reading, at, madeAt });
  const noted = await notePaper(reading.whole, { kind: 'prep-sheet', tree, sha256: paper.sha256 });
  return noted.ok ? paper : { ok: false, says: `${paper.says} It could not be noted in the job: ${noted.message}` };
}
