/** Documents and practices of lead-safe work, where a line disturbs paint that counts as lead. EPA's 40 CFR 745.84 to .86. */
import { PAINT_DISTURBING } from '../substrate/rule.ts';
import type { PrepItem } from './prep-item.ts';
import { findingsOfRules, type PrepDraft, type PrepInput } from './prep-input.ts';
import { hoursFor } from './task-hours.ts';

/** The line of a checklist that is there where lead-safe work practices apply. */
const CONTAINMENT = 'lead-contain';

/**
 * How far the floor is covered around the surfaces worked on. 40 CFR 745.85(a)(2)(i)(D), as EPA answers question 23002-19908; that it gives
 * way where the floor itself is sanded is from there too. Objects (A), ducts (B), windows and doors (C): from memory.
 */
const CONTAINED = { us: '6 ft', metric: '1.8 m' } as const;

/** Whether lead-safe work practices apply to a checklist: containment, cleaning and its verification. */
export const isLeadSafe = (items: readonly Pick<PrepItem, 'key'>[]): boolean => items.some(({ key }) => key === CONTAINMENT);

/** Lines before and after the work, none where no line disturbs paint that counts as lead. */
export function leadItems(
  input: PrepInput,
  work: readonly PrepItem[],
): { readonly before: readonly PrepDraft[]; readonly after: readonly PrepDraft[] } {
  const trim = findingsOfRules(input, 'lead-paint', 'lead-found').length > 0;
  const floor = findingsOfRules(input, 'lead-floor', 'lead-floor-found').length > 0;
  const disturbs = work.some(
    ({ key, tasks }) => (trim && key === 'baseboard') || (floor && tasks.some((task) => PAINT_DISTURBING.includes(task))),
  );
  if (!disturbs) return { before: [], after: [] };
  const reach = input.units === 'us' ? CONTAINED.us : CONTAINED.metric;
  return {
    before: [
      {
        key: 'lead-pamphlet',
        phase: 'protect',
        what: 'Give the owner and any adult tenant EPA’s lead pamphlet and get each receipt signed',
        why: 'no more than 60 days before the work: 40 CFR 745.84(a)',
        cautions: ['lead'],
      },
      {
        key: CONTAINMENT,
        phase: 'protect',
        what: `Post signs. In the work area, remove or cover furniture, rugs and other objects, tape plastic over ducts, doors and the floor ${reach} around the surfaces worked on, farther if dust goes farther, and close windows`,
        why: 'a certified renovator directs the containment: 40 CFR 745.85(a)',
        who: 'licensed-only',
        cautions: ['lead'],
        hours: hoursFor('leadContain', 1),
      },
    ],
    after: [
      {
        key: 'lead-verify',
        phase: 'surface',
        afterLift: 'stays',
        what: 'Clean, do the cleaning verification, and keep the records 3 years',
        why: '40 CFR 745.85(b), .86; waste leaves in closed bags',
        who: 'licensed-only',
        cautions: ['lead'],
        hours: hoursFor('leadVerify', 1),
      },
    ],
  };
}
