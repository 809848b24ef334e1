import type { Survey } from '../../shared-core/book/plan-fields.ts';
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
