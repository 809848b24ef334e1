<<<<<<< HEAD
/** The prep sheet saved as a PDF and stored with the job. */
=======
/** Saves the prep sheet as a document and records it in the job. */
>>>>>>> ab10b6f (Judge floors by US practice and clear hazard holds with documents)
import type { JobReading, RoomReading } from '../../../shared-core/standing/read-job.ts';
import { prepSheet } from '../../../shared-core/documents/prep-sheet.ts';
import { nowInstant } from '../../book/moment.ts';
import { nextRevision, saveDocument } from '../../book/document-commands.ts';
import { paperPhotos } from '../../book/record-commands.ts';

<<<<<<< HEAD
/** Saves the prep sheet of one room and opens it. */
export async function makePrepSheet(reading: JobReading, at: RoomReading): Promise<{ readonly ok: boolean; readonly says: string }> {
  const { job, documents } = reading.whole;
  const photos = await paperPhotos(job.id);
  const tree = prepSheet({ reading, at, madeAt: nowInstant(), photos });
  return saveDocument({ jobId: job.id, kind: 'prep-sheet', revision: nextRevision(documents, 'prep-sheet'), tree, photos });
=======
/** Saves the prep sheet of one room, opens it and records it; returns where it is, or what failed. */
export async function makePrepSheet(reading: JobReading, at: RoomReading): Promise<{ readonly ok: boolean; readonly says: string }> {
  const madeAt = nowInstant();
  const paper = await makePaper(prepSheet({ reading, at, madeAt, photos: await paperPhotos(reading.whole.job.id) }));
  if (!paper.ok) return paper;
  // The tree is stored without the photos, which are stored already.
  const tree = prepSheet({ reading, at, madeAt });
  const noted = await notePaper(reading.whole, { kind: 'prep-sheet', tree, sha256: paper.sha256 });
  return noted.ok ? paper : { ok: false, says: `${paper.says} It was not recorded in the job: ${noted.message}` };
>>>>>>> ab10b6f (Judge floors by US practice and clear hazard holds with documents)
}
