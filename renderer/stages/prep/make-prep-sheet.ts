import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { datedAfter } from '../../../shared-core/documents/dated-after.ts';
import { prepSheet } from '../../../shared-core/documents/prep-sheet.ts';
import { nowInstant } from '../../book/now-instant.ts';
import { nextRevision, latestReading, saveDocument } from '../../book/document-commands.ts';
import { paperPhotos } from '../../book/record-commands.ts';

/** Saves and stores the prep sheet of one room, and opens it. */
export async function makePrepSheet(shown: JobReading, roomId: string): Promise<{ readonly ok: boolean; readonly text: string }> {
  const reading = await latestReading(shown);
  const roomReading = reading.rooms.find((r) => r.room.id === roomId);
  if (roomReading === undefined) return { ok: false, text: 'This room is no longer in the job.' };
  const late = datedAfter(reading.whole, nowInstant());
  if (late !== null) return { ok: false, text: late };
  const { job, documents } = reading.whole;
  const photos = await paperPhotos(job.id);
  const tree = prepSheet({ reading, roomReading, madeAt: nowInstant(), photos });
  return saveDocument({ jobId: job.id, kind: 'prep-sheet', revision: nextRevision(documents, 'prep-sheet'), tree, photos });
}
