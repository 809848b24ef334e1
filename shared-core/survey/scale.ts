/**
 * The scale of a survey's heights: the instrument where it stood. A finish elevation set by hand and the floors beyond the doorways are
 * heights on it, so they hold as long as it does.
 */
import type { LevelChoice } from '../book/job.ts';
import type { Opening, Survey } from '../book/plan-fields.ts';

/** Where heights are counted from: the day and time of the first reading, or the point at which runs without a laser begin. */
function originOf({ runs, takenAt }: Survey): string {
  const from = runs?.find(({ valuesM }) => valuesM.length > 0)?.from;
  return from === undefined ? (takenAt ?? '') : `${from.xM} ${from.yM}`;
}

/** Names the scale of a survey. It changes when all readings are deleted and taken again, and with the reading type. */
export function scaleOf(survey: Survey): string {
  return `${survey.method} ${originOf(survey)}`.trim();
}

/**
 * A choice of level for a survey. Heights that were set on another scale are left out, so that they have to be entered again: a level is
 * then the lowest permitted one, and a ramp has no heights. Heights of older records name no scale and are used as they are.
 */
export function levelOnScale(choice: LevelChoice, survey: Survey): { readonly level: LevelChoice; readonly isOffScale: boolean } {
  const scale = scaleOf(survey);
  const isRampByHand = choice.rampThrough.some((end) => !('openingId' in end));
  if (choice.scale === scale) return { level: choice, isOffScale: false };
  if (choice.scale === undefined) return { level: { ...choice, scale }, isOffScale: false };
  return {
    level: { ...choice, levelM: null, rampThrough: isRampByHand ? [] : choice.rampThrough, scale },
    isOffScale: choice.mode === 'level' ? choice.levelM !== null : choice.mode === 'ramp' && isRampByHand,
  };
}

/**
 * The openings of a room after a change of its survey. The other reading type reads the same numbers the other way up. Where the readings
 * are of another setup, the floors beyond have to be measured again.
 */
export function openingsOnScale(openings: readonly Opening[], before: Survey, after: Survey): Opening[] {
  const [from, to] = [originOf(before), originOf(after)];
  const isFirst = from === '' && after.runs === undefined;
  const isFlipped = before.method !== after.method && from === to && isSameReadings(before, after);
  if (isFlipped) return openings.map((o) => ({ ...o, adjoiningM: o.adjoiningM === null ? null : -o.adjoiningM }));
  if (before.method === after.method && (from === to || isFirst)) return [...openings];
  return openings.map((o) => ({ ...o, adjoiningM: null }));
}

/** The openings at which a change left out the height that was entered, so that it has to be measured again. */
export const openingsCleared = (before: readonly Opening[], after: readonly Opening[]): Opening[] =>
  before.filter(({ id, adjoiningM }) => adjoiningM !== null && after.some((o) => o.id === id && o.adjoiningM === null));

const isSameReadings = (a: Survey, b: Survey): boolean =>
  a.readings.length === b.readings.length && a.readings.every(({ id }, i) => id === b.readings[i]?.id);
