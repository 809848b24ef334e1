/** Words of the readings screen: which floor is read, and how far it is read. */
import type { Survey } from '../../shared-core/book/plan-fields.ts';
import type { WhichSurvey } from '../book/plan-commands.ts';

/** The floor a survey is of. */
export const NOUNS: Readonly<Record<WhichSurvey, string>> = {
  before: 'existing floor',
  rest: 'floor still to pour',
  after: 'floor after the pour',
};

/** Only what the book holds counts as read. */
export function readWords(written: Survey | null, survey: Survey, left: string): string {
  const kept = written?.readings.length ?? 0;
  const writing = survey.readings.length - kept;
  return `${kept} read, ${writing > 0 ? `${writing} saving, ` : ''}${left}.`;
}
