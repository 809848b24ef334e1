/** Changes to a lead: its next step, and how it ended. */
import type { Lead, LeadNext } from '../../shared-core/book/lead.ts';
import { nowInstant } from './moment.ts';
import type { Outcome } from './outcome.ts';
import { change } from './write.ts';

/** Changes a lead by a pure function of it. */
export function changeLead(leadId: string, label: string, edit: (lead: Lead) => Lead): Promise<Outcome> {
  return change('leads', leadId, label, nowInstant(), edit);
}

/** Sets the next step of a lead; null for none. */
export function setLeadNext(leadId: string, next: LeadNext | null): Promise<Outcome> {
  return changeLead(leadId, 'next step of the lead', (lead) => ({ ...lead, next }));
}

/** Closes a lead as won or lost, with the reason. Its next step is cleared. */
export function closeLead(leadId: string, state: 'won' | 'lost', reason: string): Promise<Outcome> {
  const now = nowInstant();
  return changeLead(leadId, `lead ${state}`, (lead) => ({ ...lead, state, reason, closedAt: now, next: null }));
}

/** Reopens a lead that was closed. */
export function reopenLead(leadId: string): Promise<Outcome> {
  return changeLead(leadId, 'reopen lead', (lead) => ({ ...lead, state: 'open', reason: '', closedAt: null }));
}
