/** Applies the accepted option to the job, so that prep and pour follow it. */
import type { EstimateChoices, Job } from '../book/job.ts';
import { BASE_OPTION_ID } from './quote-state.ts';

type Options = EstimateChoices['options'];

/**
 * The job with the accepted option as its only one, in its rooms. Overrides of that option's lines become the job's own; the other options
 * stay in the issued quote alone.
 * @param optionId as accepted; the job's own option leaves its rooms as they are
 * @param quoted the options as the accepted quote has them, whatever became of the job's since
 */
export function withOptionAccepted(job: Job, optionId: string, quoted: Options): Job {
  const ways = new Map(quoted.find((option) => option.id === optionId)?.rooms.map((room) => [room.roomId, room]));
  const isOther = (lineKey: string): boolean =>
    [...quoted, ...job.estimate.options].some((option) => option.id !== optionId && lineKey.startsWith(`${option.id}/`)) ||
    [...ways.keys()].some((roomId) => lineKey.startsWith(`${roomId}/`));
  const own = `${optionId}/`;
  return {
    ...job,
    rooms: job.rooms.map((room) => {
      const roomWay = ways.get(room.roomId);
      return roomWay === undefined ? room : { ...room, level: roomWay.level, materialId: roomWay.materialId ?? room.materialId };
    }),
    estimate: {
      ...job.estimate,
      options: [],
      suggestedOptionId: BASE_OPTION_ID,
      overrides: job.estimate.overrides.flatMap((override) =>
        isOther(override.lineKey)
          ? []
          : [override.lineKey.startsWith(own) ? { ...override, lineKey: override.lineKey.slice(own.length) } : override],
      ),
    },
  };
}
