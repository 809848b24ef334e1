/** The prep lines of a floor, and which findings hold one. */
import { prepChecklist } from '../../../shared-core/prep/checklist.ts';
import { lineHeldBy } from '../../../shared-core/prep/pour-held.ts';
import type { PrepInput } from '../../../shared-core/prep/prep-input.ts';
import type { PrepItem } from '../../../shared-core/prep/prep-item.ts';
import { signedLines } from '../../../shared-core/prep/signed-lines.ts';
import type { FloorInput } from '../../../shared-core/substrate/floor-facts.ts';
import { findingsOf } from '../../../shared-core/substrate/rules.ts';
import { wordingFor } from '../../../shared-core/substrate/wording.ts';
import { factsOf } from '../substrate/a-floor.ts';

export function inputOf(floor: FloorInput, change: Partial<PrepInput> = {}): PrepInput {
  const facts = factsOf(floor);
  return {
    facts,
    findings: findingsOf(facts, wordingFor('us', 'en-US')),
    units: 'us',
    perimeterM: 14,
    grind: null,
    primer: { coats: 2, liters: 1.4, waterParts: 3, dryHoursLeast: 2, dryHoursMost: 24 },
    areasM2: {},
    lengthsM: {},
    bags: 12,
    waterL: 60,
    helpers: 1,
    byCart: false,
    ...change,
  };
}
export const listOf = (floor: FloorInput, change: Partial<PrepInput> = {}): readonly PrepItem[] => prepChecklist(inputOf(floor, change));
export const line = (items: readonly PrepItem[], key: string): PrepItem | undefined => items.find((item) => item.key === key);

/** The rules that hold a line; a line that is not there throws. */
export function heldBy(floor: FloorInput, key: string, change: Partial<PrepInput> = {}): readonly string[] {
  const input = inputOf(floor, change);
  const found = signedLines(prepChecklist(input), [], { isAsSigned: ({ what }, text) => what === text, againAfter: null }).find(
    (one) => one.key === key,
  );
  if (found === undefined) throw new Error(`no line ${key}`);
  return lineHeldBy(found, input.findings).map(({ ruleId }) => ruleId);
}
