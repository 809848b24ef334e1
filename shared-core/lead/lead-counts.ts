/** Leads won and lost, with how often each reason was given. */
import type { Lead } from '../book/lead.ts';

/** How often a reason was given. */
export type ReasonCount = { readonly reason: string; readonly count: number };

export type LeadCounts = {
  readonly open: number;
  readonly won: number;
  readonly lost: number;
  /** Reasons of the lost ones, the most frequent first. */
  readonly lostFor: readonly ReasonCount[];
};

/**
 * Counts leads; those won or lost count from a moment on.
 * @param since instant; earlier ones are left out
 */
export function leadCounts(leads: readonly Lead[], since: string): LeadCounts {
  const live = leads.filter((lead) => lead.deletedAt === null);
  const closed = (state: 'won' | 'lost'): Lead[] =>
    live.filter((lead) => lead.state === state && lead.closedAt !== null && lead.closedAt >= since);
  const reasons = new Map<string, ReasonCount>();
  for (const { reason } of closed('lost')) {
    const trimmed = reason.trim().replace(/\.$/, '');
    const key = trimmed.toLowerCase();
    const before = reasons.get(key);
    reasons.set(key, { reason: before?.reason ?? (trimmed === '' ? 'No reason given' : trimmed), count: (before?.count ?? 0) + 1 });
  }
  return {
    open: live.filter((lead) => lead.state === 'open').length,
    won: closed('won').length,
    lost: closed('lost').length,
    lostFor: [...reasons.values()].sort((a, b) => b.count - a.count || a.reason.localeCompare(b.reason)),
  };
}
