import { Redirect } from 'wouter';
import { useJobReading } from '../book/use-job-reading.ts';
import { NoJob } from '../parts/job/JobSheet.tsx';
import { openingStage, stageHref } from '../parts/job/stage-words.ts';

/** Opens a room at its current stage. */
export function CurrentStage({ jobId, roomId }: { readonly jobId: string; readonly roomId: string }) {
  const reading = useJobReading(jobId);
  if (reading === undefined) return <p className="app-opening caption">Loading…</p>;
  const rooms = reading?.standing.rooms ?? [];
  const found = rooms.find((room) => room.roomId === roomId) ?? rooms[0];
  return found === undefined ? <NoJob /> : <Redirect to={stageHref(jobId, openingStage(found.stage), found.roomId)} replace />;
}
