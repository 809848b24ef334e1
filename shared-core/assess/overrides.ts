/** Which overrides are in force, and which holds a recorded document clears. */
import { type HoldDocument, MOST_HOLD, type Override } from '../book/job.ts';
import { capital } from '../measure/first-letter.ts';
import { formatDay } from '../measure/day.ts';
import { HOUR_S } from '../measure/duration.ts';
import type { FloorFacts } from '../substrate/floor-facts.ts';
import type { ClearedBy, Finding } from '../substrate/rule.ts';
import { TEST_KINDS } from '../substrate/test-kinds.ts';
import type { Wording } from '../substrate/wording.ts';

/** Key of the hold that the primer's clock puts on a pour. */
export const PRIMER_HOLD = 'primer-clock';

/** Holds about the conditions of one day. Their override expires when an ambient reading does. */
const OF_THE_DAY: ReadonlySet<string> = new Set([
  'dew-close',
  'too-cold',
  'too-hot',
  'dries-too-fast',
  'water-settles',
  'air-on-the-day',
  PRIMER_HOLD,
]);

/** A finding as one text: `Moisture. The slab is at 92% RH.` */
export const findingWords = ({ title, text }: Pick<Finding, 'title' | 'text'>): string => `${capital(title)}. ${text}`;

/** A reason or a document, as entered for a hold. */
export type Overriding = { readonly why: string; readonly document: HoldDocument | null; readonly initials: string };

/** An override of a hold as it reads now. @param instant when, ISO UTC */
export function overrideOf(
  { key, text }: { readonly key: string; readonly text: string },
  { why, document, initials }: Overriding,
  instant: string,
): Override {
  return { key, hold: capital(text).slice(0, MOST_HOLD), why, instant, initials, ...(document === null ? {} : { document }) };
}

/** How a hold read when it was overridden, where it reads differently now; empty where it does not. @param text the hold now */
export const readThen = ({ hold }: Pick<Override, 'hold'>, text: string): string =>
  hold === undefined || hold === capital(text).slice(0, MOST_HOLD) ? '' : ` The hold read then: ${hold}`;

/** An override beside its hold: who and why. @param text the hold now */
export const overriddenWords = (override: Pick<Override, 'hold' | 'why' | 'initials'>, text: string): string =>
  `Overridden by ${override.initials}: ${override.why}${readThen(override, text)}`;

/** When an override counts. */
export type OverrideContext = {
  /** When the last pour in the room finished, ISO UTC; null before the first lift. */
  readonly lastPouredAt: string | null;
  readonly now: string;
};

/** Whether what was seen at an instant still counts for the conditions of the day: as long as an ambient reading does, 12 hours. */
export function isOfTheDay(instant: string, now: string): boolean {
  return Date.parse(now) - Date.parse(instant) <= (TEST_KINDS.air.goodForHours ?? 12) * HOUR_S * 1000;
}

/**
 * The overrides by reason that are in force, by the key of their hold. One given for an earlier lift does not count for the next;
 * one about the day's conditions counts for 12 hours.
 */
export function overridesInForce(overrides: readonly Override[], { lastPouredAt, now }: OverrideContext): readonly Override[] {
  return overrides.filter((override) => {
    if (override.document !== undefined) return false;
    if (lastPouredAt !== null && Date.parse(override.instant) <= Date.parse(lastPouredAt)) return false;
    return !OF_THE_DAY.has(override.key) || isOfTheDay(override.instant, now);
  });
}

/** Whether a hold needs a document: holds on asbestos, lead, load or structure cannot be overridden with a reason. */
export const isDocument = (clearedBy: ClearedBy | 'signature'): clearedBy is HoldDocument['kind'] =>
  clearedBy !== 'reason' && clearedBy !== 'lab-result' && clearedBy !== 'signature';

/** How far a load may be over the one of the letter: rounding of the figures, 0.1 psf. */
const LOAD_SLACK_PA = 5;

type LoadFacts = Pick<FloorFacts, 'isSuspended' | 'addedLoadPa'>;

/** What a document is recorded with, besides what it says itself. */
export type DocumentAsked = Pick<HoldDocument, 'kind' | 'loadPa'> & { readonly today: string };

/** The document that clears a hold, for its dialog; null where a reason is enough. An engineer's letter is for the load of now. */
export function documentAsked(clearedBy: ClearedBy | 'signature', facts: LoadFacts, today: string): DocumentAsked | null {
  if (!isDocument(clearedBy)) return null;
  return { kind: clearedBy, today, ...(clearedBy === 'engineer-letter' && facts.isSuspended && { loadPa: facts.addedLoadPa }) };
}

/** Name of a document within a sentence. */
export const DOCUMENT_WORDS: Readonly<Record<HoldDocument['kind'], string>> = {
  clearance: 'clearance',
  'lead-firm': 'EPA firm certification',
  'engineer-letter': 'structural engineer’s letter',
};

/** The last document recorded for a finding, of the kind that clears it; null while there is none. */
export function documentFor(finding: Pick<Finding, 'key' | 'clearedBy'>, overrides: readonly Override[]): Override | null {
  return overrides.filter(({ key, document }) => key === finding.key && document?.kind === finding.clearedBy).at(-1) ?? null;
}

/** What a letter says of the load on a suspended floor; null where load does not matter or is not known. */
function loadWords(letter: HoldDocument, facts: LoadFacts, wording: Wording): { readonly isOver: boolean; readonly text: string } | null {
  if (letter.kind !== 'engineer-letter' || !facts.isSuspended || facts.addedLoadPa === null) return null;
  const loadPa = letter.loadPa ?? null;
  if (facts.addedLoadPa > (loadPa ?? 0) + LOAD_SLACK_PA) {
    const was = loadPa === null ? 'before the load was known' : `for ${wording.load(loadPa)}`;
    return {
      isOver: true,
      text: `was recorded ${was}, and the pour adds ${wording.load(facts.addedLoadPa)}. Record a letter for this load.`,
    };
  }
  const upTo = loadPa === null || loadPa <= 0 ? '' : ` up to ${wording.load(loadPa)}`;
  const adds = facts.addedLoadPa <= 0 ? 'no weight' : wording.load(facts.addedLoadPa);
  return { isOver: false, text: `It clears this hold${upTo}. At its deepest the pour adds ${adds}.` };
}

/**
 * The findings with their documents: a hold is cleared by its recorded document and names it. A certified firm still follows
 * lead-safe practice, so that finding stays as prep. An engineer's letter does not clear a hold for more load than it was
 * recorded for.
 */
export function withDocuments(
  findings: readonly Finding[],
  overrides: readonly Override[],
  facts: LoadFacts,
  { wording, locale }: { readonly wording: Wording; readonly locale: string },
): readonly Finding[] {
  return findings.map((finding) => {
    const document = documentFor(finding, overrides)?.document;
    if (document === undefined) return finding;
    const name = DOCUMENT_WORDS[document.kind];
    const named = `${capital(name)} ${document.number} by ${document.issuedBy}, ${formatDay(document.datedOn, 'dated', locale)}.`;
    const isLead = document.kind === 'lead-firm';
    const load = loadWords(document, facts, wording);
    if (load?.isOver === true) return { ...finding, text: `${finding.text} The ${name} ${document.number} ${load.text}` };
    return {
      ...finding,
      verdict: isLead ? 'go-with-work' : 'go',
      text: isLead ? `${named} Follow the lead-safe lines of Prep.` : `${named} ${load?.text ?? 'It clears this hold.'}`,
      holds: [],
      does: [],
    };
  });
}
