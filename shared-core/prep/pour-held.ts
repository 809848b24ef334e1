/** Holds on the pour, and holds on a single line of the checklist. */
import type { Override } from '../book/job.ts';
import { findingWords, PRIMER_HOLD } from '../assess/overrides.ts';
import type { ClearedBy, Finding } from '../substrate/rule.ts';
import { holdsOn } from '../substrate/rules.ts';
import { PRIMER_SAYS, type PrimerClock } from './primer-clock.ts';
import type { SignedLine } from './signed-lines.ts';

/** One hold on the pour. `key` identifies its override. */
export type PourHold = {
  readonly key: string;
  readonly by: 'finding' | 'line' | 'primer' | 'lift' | 'quote' | 'change-order' | 'deposit';
  readonly text: string;
  /** Whether a reason, a document, or a signature clears it. */
  readonly clearedBy: ClearedBy | 'signature';
  /** The override in force; null while there is none. */
  readonly overridden: Override | null;
};

/** Key of the hold on a pour without an issued or accepted quote. */
export const QUOTE_HOLD = 'quote';

/** Key of the hold on a lift while the one below is too fresh. */
export const LIFT_HOLD = 'lift-wait';

/** Key of the hold of an unsigned change order, before its number. */
export const ORDER_HOLD = 'change-order-';

/** Key of the hold on a pour whose deposit is not received. */
export const DEPOSIT_HOLD = 'deposit';

/** Input for the holds of a pour. */
export type PourHoldInput = {
  readonly findings: readonly Finding[];
  readonly lines: readonly SignedLine[];
  /** Overrides by reason that are in force. */
  readonly overrides: readonly Override[];
  /** Null when no primer is chosen: the checklist's line for priming then holds. */
  readonly clock: PrimerClock | null;
  /** That the lift below is too fresh for the next one, as a sentence; null where it is not. */
  readonly freshLift: string | null;
  /** Whether a quote for the room is issued or accepted. */
  readonly isQuoted: boolean;
  /** Numbers of the change orders that touch the room and wait for a signature. */
  readonly waitingOrders: readonly number[];
  /** The missing payment due before the pour, as a sentence; null without one. */
  readonly deposit: string | null;
};

/** All holds on the pour, overridden or not, findings first. An overridden hold stays in the list with its reason. */
export function pourHeldBy(input: PourHoldInput): readonly PourHold[] {
  const { findings, lines, overrides, clock, freshLift, isQuoted, waitingOrders, deposit } = input;
  const byReason = (key: string): Override | null => overrides.filter((override) => override.key === key).at(-1) ?? null;
  const byFinding = holdsOn(findings, 'pour').map(
    (finding): PourHold => ({
      key: finding.key,
      by: 'finding',
      text: findingWords(finding),
      clearedBy: finding.clearedBy,
      overridden: finding.clearedBy === 'reason' ? byReason(finding.key) : null,
    }),
  );
  const reasoned = (key: string, by: PourHold['by'], text: string): readonly PourHold[] => [
    { key, by, text, clearedBy: 'reason', overridden: byReason(key) },
  ];
  const byLine = lines.flatMap(({ key, item, state }) => {
    if (item === null || !item.holdsPour || state === 'signed') return [];
    return reasoned(key, 'line', `${item.what}: ${state === 'changed' ? 'changed since it was signed' : 'not signed'}.`);
  });
  const isReady = clock === null || clock.state === 'ready';
  const byPrimer = isReady ? [] : reasoned(PRIMER_HOLD, 'primer', PRIMER_SAYS[clock.state]);
  const byLift = freshLift === null ? [] : reasoned(LIFT_HOLD, 'lift', freshLift);
  const byQuote = isQuoted ? [] : reasoned(QUOTE_HOLD, 'quote', 'No quote for this room is issued or accepted.');
  const byOrder = waitingOrders.map(
    (number): PourHold => ({
      key: `${ORDER_HOLD}${number}`,
      by: 'change-order',
      text: `Change order ${number} is not signed.`,
      clearedBy: 'signature',
      overridden: null,
    }),
  );
  const byDeposit = deposit === null ? [] : reasoned(DEPOSIT_HOLD, 'deposit', deposit);
  return [...byOrder, ...byFinding, ...byLine, ...byLift, ...byPrimer, ...byQuote, ...byDeposit];
}

/** The findings that hold a line, for the kind of work it is; none when it may be done. */
export function lineHeldBy(line: SignedLine, findings: readonly Finding[]): readonly Finding[] {
  const { item } = line;
  if (item === null) return [];
  return findings.filter((finding) => item.tasks.some((task) => finding.holds.includes(task)));
}
