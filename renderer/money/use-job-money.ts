import { useMemo } from 'react';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { type JobMoney, jobMoney } from '../../shared-core/standing/job-money.ts';
import { nowInstant } from '../book/now-instant.ts';

export function useJobMoney(whole: WholeJob | null | undefined): JobMoney | null {
  return useMemo(() => (whole === null || whole === undefined ? null : jobMoney(whole, nowInstant())), [whole]);
}
