/** A job once the customer chose a way to do it: that way becomes the job's own, so that prep and pour follow what was accepted. */
import type { EstimateChoices, Job } from '../book/job.ts';
import type { JobEstimate, OptionEstimate } from './estimate-job.ts';
import { BASE_OPTION_ID } from './quote-state.ts';

type Options = EstimateChoices['options'];

/**
 * The job with the chosen option in its rooms. Changes by hand to that option's lines go on as the job's own; the other
 * ways stay in the frozen quote alone.
 * @param optionId as answered; the job's own way changes nothing
 * @param quoted the options as the answered quote holds them, whatever became of the job's since
 */
export function withOptionAccepted(job: Job, optionId: string, quoted: Options): Job {
  const chosen = optionId === BASE_OPTION_ID ? undefined : quoted.find((option) => option.id === optionId);
  if (chosen === undefined) return job;
  const ways = new Map(chosen.rooms.map((room) => [room.roomId, room]));
  const isOther = (lineKey: string): boolean =>
    [...quoted, ...job.estimate.options].some((option) => option.id !== chosen.id && lineKey.startsWith(`${option.id}/`)) ||
    chosen.rooms.some((room) => lineKey.startsWith(`${room.roomId}/`));
  const own = `${chosen.id}/`;
  return {
    ...job,
    rooms: job.rooms.map((room) => {
      const way = ways.get(room.roomId);
      return way === undefined ? room : { ...room, level: way.level, materialId: way.materialId ?? room.materialId };
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

/**
 * An estimate of a quote as it reads once one of its ways is accepted: that way alone, under a name of its own and the keys it has as the
 * job's own, to be set beside the job as it stands.
 */
export function estimateAsAccepted(estimate: JobEstimate, optionId: string): JobEstimate {
  const chosen = estimate.options.find((option) => option.id === optionId) ?? estimate.base;
  const own = `${chosen.id}/`;
  const lines = chosen.price.lines.map((line) => (line.key.startsWith(own) ? { ...line, key: line.key.slice(own.length) } : line));
  const only: OptionEstimate = { ...chosen, id: BASE_OPTION_ID, name: 'As accepted', price: { ...chosen.price, lines } };
  return { ...estimate, base: only, options: [only], suggested: only };
}
