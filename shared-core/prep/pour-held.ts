/** What holds the pour, and what holds a single line of the checklist. */
import type { Override } from '../book/job.ts';
import type { Finding } from '../substrate/rule.ts';
import { holdsOn } from '../substrate/rules.ts';
import type { PrimerClock } from './primer-clock.ts';
import type { SignedLine } from './signed-lines.ts';

/** One thing the pour waits for. `key` is what an override names. */
export type PourHold = {
  readonly key: string;
  readonly by: 'finding' | 'line' | 'primer';
  readonly says: string;
  /** Path to the field that lifts it. */
  readonly lifts: string;
  /** Why the person went on all the same; null while nobody did. */
  readonly overridden: Override | null;
};

/** Key of the hold that the primer's clock puts on a pour. */
export const PRIMER_HOLD = 'primer-clock';

const PRIMER_SAYS: Readonly<Record<Exclude<PrimerClock['state'], 'ready'>, string>> = {
  'not-primed': 'The floor is not primed.',
  'coats-wanting': 'A coat of primer is still wanting.',
  drying: 'The primer is not dry.',
  'too-old': 'The primer is too old: prime again.',
};

/**
 * Everything the pour waits for, overridden or not, findings first. A hold gone past with a written reason stays in
 * the list and shows its reason.
 * @param clock null when no primer is chosen: the checklist's line for priming then holds
 */
export function pourHeldBy(
  findings: readonly Finding[],
  lines: readonly SignedLine[],
  overrides: readonly Override[],
  clock: PrimerClock | null,
): readonly PourHold[] {
  const why = (key: string): Override | null => overrides.filter((override) => override.key === key).at(-1) ?? null;
  const byFinding = holdsOn(findings, 'pour').map(
    (finding): PourHold => ({
      key: finding.key,
      by: 'finding',
      says: `${finding.title}. ${finding.says}`,
      lifts: finding.lifts,
      overridden: why(finding.key),
    }),
  );
  const byLine = lines.flatMap((line): readonly PourHold[] =>
    line.item === null || !line.item.holdsPour || line.state === 'signed'
      ? []
      : [
          {
            key: line.key,
            by: 'line',
            says: line.state === 'changed' ? `${line.item.what}: it has changed since it was signed.` : `${line.item.what}: not signed.`,
            lifts: `jobRoom.signed.${line.key}`,
            overridden: why(line.key),
          },
        ],
  );
  const byPrimer: readonly PourHold[] =
    clock === null || clock.state === 'ready'
      ? []
      : [{ key: PRIMER_HOLD, by: 'primer', says: PRIMER_SAYS[clock.state], lifts: 'jobRoom.primedAt', overridden: why(PRIMER_HOLD) }];
  return [...byFinding, ...byLine, ...byPrimer];
}

/** Whether the pour may start: everything that holds it was answered, or gone past in writing. */
export function mayPour(holds: readonly PourHold[]): boolean {
  return holds.every((hold) => hold.overridden !== null);
}

/** The findings that hold a line, for the kind of work it is; none when it may be done. */
export function lineHeldBy(line: SignedLine, findings: readonly Finding[]): readonly Finding[] {
  const { item } = line;
  if (item === null) return [];
  return findings.filter((finding) => item.tasks.some((task) => finding.holds.includes(task)));
}
