/** Records dated after a document, which a wrong clock or an import can cause. */
import type { WholeJob } from '../book/whole-job.ts';
import { formatInstant } from '../measure/moment.ts';

type Cited = Pick<WholeJob, 'rooms' | 'pours' | 'clearanceTests' | 'cureLogs' | 'property' | 'business'>;

function latest(subject: string, instants: readonly (string | null | undefined)[]): { subject: string; instant: string } | null {
  const known = instants.filter((instant) => typeof instant === 'string').toSorted((a, b) => Date.parse(a) - Date.parse(b));
  const instant = known.at(-1);
  return instant === undefined ? null : { subject, instant };
}

/**
 * A sentence about a record dated after the document; null when there is none.
 * @param instant when the document is made
 */
export function datedAfter({ rooms, pours, clearanceTests, cureLogs, property, business }: Cited, instant: string): string | null {
  const facts = rooms.flatMap((room) => [
    latest(`the readings of ${room.name} are`, [room.survey.takenAt, room.surveyAfter?.takenAt]),
    latest(`a test of ${room.name} is`, [
      ...room.tests.map((t) => t.takenAt),
      ...clearanceTests.flatMap((t) => (t.roomId === room.id && t.deletedAt === null ? [t.takenAt] : [])),
    ]),
    latest(
      `an air reading of ${room.name} is`,
      cureLogs.flatMap((log) => (log.roomId === room.id && log.deletedAt === null ? log.readings.map((reading) => reading.instant) : [])),
    ),
    latest(
      `a pour of ${room.name} is`,
      pours.flatMap((pour) => (pour.deletedAt === null && pour.roomIds.includes(room.id) ? [pour.startedAt, pour.finishedAt] : [])),
    ),
  ]);
  const late = facts.find((fact) => fact !== null && Date.parse(fact.instant) > Date.parse(instant)) ?? null;
  if (late === null) return null;
  const when = formatInstant(late.instant, property.timeZone, 'long', business.locale);
  return `Nothing was saved: ${late.subject} dated ${when}, later than this document. Correct that date, or the clock of this computer.`;
}
