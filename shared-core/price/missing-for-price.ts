/** Figures missing for a total: without a volume and its bags, a price would be a guess. */
import type { JobEstimate } from './estimate-job.ts';

/** A sentence for each room without bags; empty where every room is priced. Screens show no total while this is not empty. */
export function missingForPrice({ base }: Pick<JobEstimate, 'base'>): string[] {
  if (base.rooms.length === 0) return ['This job has no room. Add one under Jobs.'];
  return base.rooms.flatMap((room) => {
    if (room.takeoff.bags !== null) return [];
    const reason =
      room.survey.state === 'waiting'
        ? room.survey.message
        : room.takeoff.materialId === null
          ? 'Choose a material under Estimate.'
          : 'The bag count is unknown. Check the material’s data sheet.';
    return [`${room.name}: ${reason}`];
  });
}
