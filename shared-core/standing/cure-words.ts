/** Milestones, promised dates and moisture tests of a cure, as screens and documents name them. */
import type { ClearanceTest } from '../book/cure-record.ts';
import { type Flooring, isSealed } from '../book/flooring.ts';
import type { MilestoneKind } from '../book/material.ts';
import { type Clearance, type ClearanceMethod, type FlooringRequirement, ROUND_HOURS } from '../cure/clearance-tests.ts';
import type { DatedMilestone } from '../cure/cure-input.ts';
import { HEAT_RUNS_DAYS } from '../cure/heat-back.ts';
import type { PromiseVerdict } from '../cure/promise-verdict.ts';
import { plural } from '../measure/count-words.ts';
import { capital } from '../measure/first-letter.ts';
import { formatInstantDay } from '../measure/moment.ts';
import { formatNumber } from '../measure/number.ts';
import { formatPercent } from '../measure/percent.ts';

const DAY_MS = 86_400_000;

/** Name of each flooring in sentences and lists. */
export const FLOORING_NAME: Readonly<Record<Flooring, string>> = {
  'bare-sealed': 'sealer',
  resilient: 'resilient flooring',
  'tile-small': 'tile',
  'tile-large': 'large tile',
  'stone-tile': 'stone tile',
  'wood-glued': 'glued wood',
  'wood-nailed': 'nailed wood',
  floating: 'floating floor',
  carpet: 'carpet',
};

/** Names of the milestones without those of the flooring. */
export const MILESTONE_NAME: Readonly<Record<Exclude<MilestoneKind, 'cover'>, string>> = {
  'walk-on': 'foot traffic',
  cart: 'rolling loads',
  'next-lift': 'next lift',
  furniture: 'furniture',
  full: 'normal use',
};

/** Name of a milestone: `foot traffic`, `glued wood`. */
export function milestoneName({ kind, flooring }: Pick<DatedMilestone, 'kind' | 'flooring'>): string {
  if (kind !== 'cover') return MILESTONE_NAME[kind];
  return flooring === null ? 'flooring' : FLOORING_NAME[flooring];
}

const counted = (n: number, unit: string): string => `${n} ${n === 1 ? unit : plural(unit)}`;

/** A lateness in words: hours under 2 days, days above, rounded up so that it is never understated. */
function latenessWords(ms: number): string {
  const hours = Math.ceil(ms / 3_600_000);
  return hours < 48 ? counted(hours, 'hour') : counted(Math.ceil(ms / DAY_MS), 'day');
}

/** `On track`, `At risk`, `Likely 3 days late`. */
export function promiseWords({ state, lateByMs }: Pick<PromiseVerdict, 'state' | 'lateByMs'>): string {
  switch (state) {
    case 'on-track':
      return 'On track';
    case 'at-risk':
      return 'At risk';
    case 'late':
      return `Likely ${latenessWords(lateByMs ?? 0)} late`;
    case 'on-hold':
      return 'On hold: no date';
  }
}

/** The name of each method of a clearance test. */
export const METHOD_NAMES: Readonly<Record<ClearanceTest['method'], string>> = {
  'slab-humidity': 'In-slab RH (ASTM F2170)',
  'without-holes': 'Test without holes',
  'vapor-emission': 'Calcium chloride (ASTM F1869)',
  meter: 'Moisture meter (ASTM F2659)',
  'wood-moisture': 'Wood moisture content',
  'humidity-hood': 'Surface humidity hood',
  carbide: 'Carbide method (full depth)',
  'manufacturer-method': 'Sealer data sheet method',
};

/** The name of each test, inside a sentence. */
const TEST_NAMES: Readonly<Record<ClearanceMethod['method'], string>> = {
  'slab-humidity': 'in-slab relative humidity (RH) test',
  'without-holes': 'test without holes, by a method the flooring manufacturer accepts',
  meter: 'moisture meter test',
  'wood-moisture': 'wood moisture content (MC) reading',
  'humidity-hood': 'surface humidity hood, sealed until the reading is stable',
  carbide: 'carbide test on a sample from the full depth',
  'manufacturer-method': 'test named on the sealer data sheet',
};

/** The rooms that share the count of a test: ` over the 2 rooms poured together`; empty where each has its own. */
const overRooms = ({ rooms }: ClearanceMethod): string => (rooms === 1 ? '' : ` over the ${rooms} rooms poured together`);

/** The same on papers, which have less room: ` over 2 rooms`. */
export const overRoomsBrief = ({ rooms }: ClearanceMethod): string => (rooms === 1 ? '' : ` over ${rooms} rooms`);

/** What follows the words that a floor is not tested yet: `, 3 needed over 2 rooms`; empty where one test is enough. */
export const neededWords = (method: ClearanceMethod | undefined): string =>
  method === undefined || method.wanted === 1 ? '' : `, ${method.wanted} needed${overRoomsBrief(method)}`;

/** A test with the number it takes: `3 in-slab relative humidity (RH) tests over the 2 rooms poured together, at least 1 in each`. */
function testsNamed(method: ClearanceMethod): string {
  if (method.wanted === 1) return TEST_NAMES[method.method];
  const each = method.rooms === 1 ? '' : ', at least 1 in each';
  return `${counted(method.wanted, TEST_NAMES[method.method])}${overRooms(method)}${each}`;
}

/** What follows a limit in percent. The manufacturer says what its own test measures. */
const SHARE_OF: Readonly<Record<ClearanceMethod['method'], string>> = {
  'slab-humidity': ' RH',
  'without-holes': '',
  meter: ' MC',
  'wood-moisture': ' MC',
  'humidity-hood': ' RH',
  carbide: '',
  'manufacturer-method': ' RH',
};

/** What a floor needs that must not be drilled; null where the usual test may make holes, or makes none anyway. */
export function withoutHolesWords({ methods, drilling }: FlooringRequirement): string | null {
  if (methods[0]?.method !== 'without-holes') return null;
  return drilling === 'over-system'
    ? 'Do not drill through the moisture mitigation system: its data sheet and the flooring’s say what clears the floor.'
    : 'Do not drill: ask the flooring manufacturer for a test without holes.';
}

/** The data sheet that states a limit. */
const sheetOf = ({ method }: Pick<ClearanceMethod, 'method'>): string =>
  method === 'manufacturer-method' ? 'sealer data sheet' : 'flooring data sheet';

/** A limit as shown: `75% RH`, `3 lb`, `2.0 CM-%`. */
export function limitText({ limit, unit, method }: Pick<ClearanceMethod, 'limit' | 'unit' | 'method'>): string {
  if (limit === null) return `the limit on the ${sheetOf({ method })}`;
  if (unit === 'share') return `${formatPercent(limit)}${SHARE_OF[method]}`;
  return unit === 'lb' ? `${formatNumber(limit, { most: 1 })} lb` : `${formatNumber(limit, { least: 1, most: 1 })} CM-%`;
}

/** What is said before the result that decides, where several are needed. */
const highestOf = ({ wanted }: ClearanceMethod): string => (wanted === 1 ? '' : 'highest ');

/** A limit as it is asked: `Max 75% RH`. */
const askedLimit = (method: ClearanceMethod): string =>
  method.limit === null ? `Limit on the ${sheetOf(method)}` : `Max ${limitText(method)}`;

/** The limit and the number beside the field for results: `Max 75% RH, typical. 3 needed, separated by spaces.` */
export function resultHint(method: ClearanceMethod): string {
  const limit = `${askedLimit(method)}${method.typical && method.limit !== null ? ', typical' : ''}`;
  if (!method.clears) return `${limit}. A first check: it cannot clear the floor.`;
  return method.wanted === 1 ? limit : `${limit}. ${method.wanted} needed${overRooms(method)}, separated by spaces.`;
}

/** A result as shown: `71%`, `75.4%`, `1.6 CM-%`. */
export function valueText(test: Pick<ClearanceTest, 'unit' | 'value'>): string {
  if (test.unit === 'share') return formatPercent(test.value, 1);
  return `${formatNumber(test.value, { most: 2 })} ${test.unit === 'lb' ? 'lb' : 'CM-%'}`;
}

/** Whose limit it is: a typical one, or where it is stated. */
export const whoseLimit = ({ typical, standard, limitStatedIn, method }: ClearanceMethod): string =>
  typical ? 'typical' : (limitStatedIn ?? standard ?? `the ${sheetOf({ method })}`);

/** The standard of a test, and where its limit is stated. */
function sourceWords({ standard, limitStatedIn, method }: ClearanceMethod): string {
  if (standard === null) return limitStatedIn ?? `the ${sheetOf({ method })}`;
  return limitStatedIn === null ? standard : `${standard}; limit: ${limitStatedIn}`;
}

/** What comes before a test that may make holes. The other methods make none: a pin meter reads the wood below, a hood lies on the surface. */
const HOLE_WORDS: Readonly<Record<FlooringRequirement['drilling'], string>> = {
  allowed: '',
  'heat-located': ' Locate any radiant heat before any hole.',
  never: ' Do not drill this floor.',
  'over-system':
    ' Do not drill: a hole goes through the moisture mitigation system, and the slab under it stays damp. Its data sheet must allow the test too.',
};
const WITHOUT_A_HOLE: readonly ClearanceMethod['method'][] = ['wood-moisture', 'humidity-hood', 'meter'];

/** The usual test of a flooring and its limit, or that the data sheet's hours decide. */
export function requirementWords(requirement: FlooringRequirement): string {
  const { flooring, methods, drilling } = requirement;
  const usual = methods[0];
  const name = FLOORING_NAME[flooring];
  if (usual === undefined) return `No moisture test is required for ${name}. The data sheet’s hours decide.`;
  const limit = `${askedLimit(usual)}${usual.typical ? ', typical: the flooring manufacturer’s limit applies' : ''}`;
  const isNamed = usual.method === 'manufacturer-method' || usual.method === 'without-holes';
  const test = isNamed ? testsNamed(usual) : `${testsNamed(usual)}, ${sourceWords(usual)}`;
  return `Required before ${name}: ${test}. ${limit}.${WITHOUT_A_HOLE.includes(usual.method) ? '' : HOLE_WORDS[drilling]}`;
}

/** What wood flooring over radiant heat waits for. */
export const AFTER_HEAT = `Wood flooring goes down only after the heat has run ${HEAT_RUNS_DAYS.least} to ${HEAT_RUNS_DAYS.most} days, or as its manufacturer says.`;

/** The next step of a floor that failed the test for its flooring: `The hall failed its test on May 22. …`; null for any other. */
export function failedTestStep(clearance: Clearance | null, theRoom: string, zone: string, locale: string): string | null {
  if (clearance?.finding.kind !== 'over') return null;
  const day = formatInstantDay(clearance.finding.test.takenAt, zone, 'short', locale);
  return `${capital(theRoom)} failed its test on ${day}. Test again after it dries.`;
}

/** How far the tests of a floor have come: `2 of 3 in-slab relative humidity (RH) tests are within the limit. …`; null where none or all count. */
export function fewTestsWords({ finding }: Clearance): string | null {
  if (finding.kind !== 'few') return null;
  const { method, have } = finding;
  const tests = `${have} of ${counted(method.wanted, TEST_NAMES[method.method])}${overRooms(method)}`;
  return `${tests} ${have === 1 ? 'is' : 'are'} within the limit. The tests of a room count together when they are read within ${ROUND_HOURS} hours.`;
}

/** Whether a floor is cleared for its flooring, and why or why not. */
export function clearanceWords(clearance: Clearance): string {
  const { finding, requirement } = clearance;
  const refused = (why: string): string => `Not cleared for ${isSealed(requirement.flooring) ? 'its sealer' : 'flooring'}. ${why}`;
  switch (finding.kind) {
    case 'by-hours':
      return requirementWords(requirement);
    case 'untested':
      return refused(requirementWords(requirement));
    case 'vapor-emission':
      return refused(
        `A calcium chloride test does not apply over an underlayment or gypsum (ASTM F1869). ${requirementWords(requirement)}`,
      );
    case 'other-method':
      return refused(`The test on record is not one this flooring takes. ${requirementWords(requirement)}`);
    case 'too-soon':
      return refused(
        `The test was taken ${formatNumber(finding.hours, { most: 0 })} hours after the pour. It counts from ${finding.hoursNeeded} hours on.`,
      );
    case 'first-check':
      return refused(`A reading of ${valueText(finding.test)} by moisture meter is a first check only. ${requirementWords(requirement)}`);
    case 'no-limit':
      return refused(
        `Enter the limit from the ${isSealed(requirement.flooring) ? 'sealer' : 'flooring'} data sheet to judge the result of ${valueText(finding.test)}.`,
      );
    case 'few':
      return refused(fewTestsWords(clearance) ?? '');
    case 'over':
    case 'passed': {
      const { test, method } = finding;
      // Initials may end in a period of their own.
      const by = test.by.replace(/\.$/, '');
      const limit = `${askedLimit(method)}${method.typical ? ' (typical)' : ''}`;
      const result = `${finding.kind === 'passed' ? highestOf(method) : ''}${valueText(test)} by ${by}. ${limit}, ${sourceWords(method)}.`;
      return finding.kind === 'over'
        ? refused(`${result} Wait, then test again by the same method.`)
        : `Cleared for ${FLOORING_NAME[requirement.flooring]}: ${result}`;
    }
  }
}
