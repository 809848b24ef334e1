import type { Opening, Survey } from '../../shared-core/book/plan-fields.ts';
import { formatListAnd } from '../../shared-core/measure/list.ts';
import { openingName } from '../../shared-core/plan/openings.ts';
import type { WhichSurvey } from '../book/plan-commands.ts';

export const NOUNS: Readonly<Record<WhichSurvey, string>> = {
  before: 'existing floor',
  rest: 'floor still to pour',
  after: 'floor after the pour',
};

/** Counts stored readings only. */
export function readWords(written: Survey | null, survey: Survey, unreadWords: string): string {
  const storedCount = written?.readings.length ?? 0;
  const writing = survey.readings.length - storedCount;
  return `${storedCount} read, ${writing > 0 ? `${writing} saving, ` : ''}${unreadWords}.`;
}

/** Says which heights at openings a change of the readings cleared, and why; empty for none. */
export function clearedWords(openings: readonly Opening[]): string {
  if (openings.length === 0) return '';
  const [height, them, they] = openings.length === 1 ? ['height', 'it', 'it belongs'] : ['heights', 'them', 'they belong'];
  const names = formatListAnd(openings.map((opening) => `the ${openingName(opening)}`));
  return `The ${height} measured at ${names} ${openings.length === 1 ? 'was' : 'were'} deleted, because the readings ${they} to are gone or of another type. Measure ${them} again under Plan, or undo.`;
}
