/** The prep sheet saved as a PDF and stored with the job. */
import type { JobReading, RoomReading } from '../../../shared-core/standing/read-job.ts';
import { prepSheet } from '../../../shared-core/documents/prep-sheet.ts';
import { nowInstant } from '../../book/moment.ts';
import { nextRevision, saveDocument } from '../../book/document-commands.ts';
import { paperPhotos } from '../../book/record-commands.ts';

/** Saves the prep sheet of one room and opens it. */
export async function makePrepSheet(
  reading: JobReading,
  roomReading: RoomReading,
): Promise<{ readonly ok: boolean; readonly text: string }> {
  const { job, documents } = reading.whole;
  const photos = await paperPhotos(job.id);
  const tree = prepSheet({ reading, roomReading, madeAt: nowInstant(), photos });
  return saveDocument({ jobId: job.id, kind: 'prep-sheet', revision: nextRevision(documents, 'prep-sheet'), tree, photos });
}
