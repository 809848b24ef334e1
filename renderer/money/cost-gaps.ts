import type { LeftOut } from '../../shared-core/learn/job-review.ts';
import { formatWork } from '../../shared-core/measure/duration.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';

/** What a job took that is not in its cost: hours only in the logs, and bags that none of its purchases names. */
export function costGaps({ minutes, bags }: LeftOut, locale: string): string[] {
  const time = formatWork(minutes / 60, locale);
  return [
    ...(minutes > 0 ? [`${time} in the logs are not recorded and not in the cost.`] : []),
    ...(bags > 0
      ? [`No purchase of this job names ${formatNumber(bags, { most: 1 }, locale)} of the bags it used. Their cost may be missing.`]
      : []),
  ];
}
