/** What is read from a job, figure by figure. */
import { quotedPrice } from '../../../shared-core/price/quoted-price.ts';
import { roomsOf } from '../../../shared-core/standing/job-bundle.ts';
import { jobMoney } from '../../../shared-core/standing/job-money.ts';
import { nextStep } from '../../../shared-core/standing/next-step.ts';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { readPour } from '../../../shared-core/standing/read-pour.ts';
import { restOfRoom } from '../../../shared-core/standing/rest-of-room.ts';
import { roomCure } from '../../../shared-core/standing/room-cure.ts';
import { jobNeeds, shoppingFor } from '../../../shared-core/standing/shopping-for.ts';
import { factLines } from '../fact-lines.ts';

export const named = (name: string, lines: readonly string[]): readonly string[] => lines.map((line) => `${name} ${line}`);

/** Of each room. */
export function roomFacts(reading: JobReading, now: string): readonly string[] {
  const { bundle, whole } = reading;
  return reading.rooms.flatMap(({ room, assessment, preparation, estimate }) => {
    const facts = roomsOf(bundle).find((one) => one.room.id === room.id);
    const cure = facts === undefined ? null : roomCure(bundle, facts, whole.business);
    const survey = estimate?.survey.state === 'surveyed' ? estimate.survey : null;
    return named(room.name, [
      ...factLines({
        ...Object.fromEntries(assessment.findings.map((finding, i) => [`finding ${i + 1}`, finding])),
        needs: assessment.needs,
        questions: assessment.questions,
        verdict: assessment.verdict,
        ...Object.fromEntries(preparation.lines.map((line, i) => [`prep ${i + 1}`, line])),
        clock: preparation.clock,
        holds: preparation.holds,
        hours: preparation.hours,
        level: survey?.level,
        spots: survey?.floor.spots,
        flatness: estimate?.flatness,
        ballpark: estimate?.ballpark,
        problems: estimate?.problems,
        ...estimate?.takeoff,
        milestones: cure?.schedule.milestones,
        drying: cure?.schedule,
        next: nextStep(bundle, room.id, whole.business, now),
        rest: restOfRoom(reading, room.id),
      }),
      ...pourFacts(reading, room.id),
    ]);
  });
}

function pourFacts(reading: JobReading, roomId: string): readonly string[] {
  const read = readPour(reading, [roomId]);
  if (!read.ok) return factLines({ pour: read.problem.kind });
  const { layout, first, clocks, lift, lifts, bagYieldM3, bagsNeeded, bagsToBring, later, leastM } = read.value;
  return factLines({ pour: { first, clocks, lift, lifts, bagYieldM3, bagsNeeded, bagsToBring, later, leastM }, layout });
}

/** Of the job as a whole. */
export const jobFacts = (reading: JobReading, now: string): readonly string[] => {
  const { estimate, whole } = reading;
  const options = quotedPrice(estimate, whole.materials).options;
  return factLines({
    standing: reading.standing,
    ...Object.fromEntries(options.map((option, i) => [`option ${i + 1}`, option])),
    lines: estimate.suggested.price,
    money: jobMoney(whole, now),
    buy: shoppingFor(reading, estimate.suggested),
    needs: jobNeeds(reading),
  });
};
