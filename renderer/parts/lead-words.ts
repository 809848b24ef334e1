import type { LeadStep } from '../../shared-core/book/lead.ts';

export const LEAD_STEP_WORDS: Readonly<Record<LeadStep, string>> = {
  'call-back': 'Call back',
  visit: 'Visit',
  'quote-by': 'Send quote',
};
