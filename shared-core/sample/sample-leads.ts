/** The sample's leads: one to call back, one lost. Invented. */
import type { Lead } from '../book/lead.ts';
import { newLead } from '../book/new-records.ts';
import { finishedLeads } from './finished-jobs.ts';
import type { SampleClock } from './sample-time.ts';

/** The invented leads around the sample's day. */
export function sampleLeads(clock: SampleClock): Lead[] {
  const leadOn = (id: string, customerId: string, days: number): Lead => newLead({ id, now: clock.instantAt(days, '10:15') }, customerId);
  return [
    {
      ...leadOn('sample-lead-haldane', 'sample-haldane', -2),
      source: 'referral',
      next: { step: 'call-back', day: clock.day(0), clock: '16:00' },
      notes: 'Utility room and hall, about 150 sq ft. Sheet flooring over a slab. Wants plank by the end of next month.',
    },
    {
      ...leadOn('sample-lead-brandt', 'sample-brandt', -30),
      source: 'website',
      state: 'lost',
      closedAt: clock.instantAt(-9, '11:30'),
      reason: 'Chose to replace the subfloor instead.',
    },
    ...finishedLeads(clock),
  ];
}
