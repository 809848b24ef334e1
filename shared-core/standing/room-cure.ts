/** The cure of each room of a job: after its last lift, or as planned while it is not poured yet. */
import type { Material } from '../book/material.ts';
import type { CureSchedule } from '../cure/cure-schedule.ts';
import { cureSchedule } from '../cure/cure-schedule.ts';
import { gatherCure } from '../cure/gather-cure.ts';
import { type AgendaBusiness, finishedPours, type JobBundle, type JobRoomFacts } from './job-bundle.ts';
import { minutesLater } from './time-words.ts';

/** How long a pour takes while no crew plan says. Typical. */
export const POUR_MINUTES = 180;

export type RoomCure = {
  /** Poured already, or only planned. */
  readonly poured: boolean;
  readonly schedule: CureSchedule;
};

const materialOf = (bundle: JobBundle, id: string | null): Material | undefined => bundle.materials.find((m) => m.id === id);

/** Minutes a room's pour is planned to take. */
export function pourMinutesOf(facts: JobRoomFacts): number {
  return facts.summary?.pourMinutes ?? POUR_MINUTES;
}

/** The depth reckoned with while no survey gives one: the middle of what the sheet allows. */
function depthOf(facts: JobRoomFacts, material: Material): { meanM: number; deepestM: number } {
  const surveyed = facts.summary?.depth ?? null;
  if (surveyed !== null) return surveyed;
  const least = facts.jobRoom.level.mode === 'follow' ? facts.jobRoom.level.followThicknessM : facts.jobRoom.level.leastThicknessM;
  const guessM = Math.max(least, material.powder?.liftM.value.least ?? 0, 0.003);
  return { meanM: guessM, deepestM: guessM };
}

/**
 * Cure of one room; null when it is neither poured nor has a pour planned, or its material has no sheet.
 */
export function roomCure(bundle: JobBundle, facts: JobRoomFacts, business: AgendaBusiness): RoomCure | null {
  const { jobRoom, room } = facts;
  const done = finishedPours(bundle, room.id);
  const last = done.at(-1);
  const material = materialOf(bundle, last?.materialId ?? jobRoom.materialId);
  if (material === undefined) return null;
  const placedAt = last?.finishedAt ?? (jobRoom.pourAt === null ? null : minutesLater(jobRoom.pourAt, pourMinutesOf(facts)));
  if (placedAt === null) return null;
  const input = gatherCure({
    business,
    jobRoom,
    room,
    material,
    lift: last?.lift ?? 1,
    placedAt,
    depth: depthOf(facts, material),
    wetBelowM: 0,
    logs: bundle.logs,
    pourEvents: bundle.pourEvents.filter((e) => done.some((p) => p.id === e.pourId)),
    promises: bundle.promises,
    tests: bundle.tests,
  });
  return input === null ? null : { poured: last !== undefined, schedule: cureSchedule(input) };
}

export type PrimerWindow = { readonly fromAt: string; readonly untilAt: string };

/**
 * When a primed room may be poured; null when nothing was primed or the primer has no sheet. Of several uses on the
 * sheet the longest drying and the shortest life count: whichever was meant, the window holds.
 */
export function primerWindow(bundle: JobBundle, facts: JobRoomFacts): PrimerWindow | null {
  const { primedAt, primerId } = facts.jobRoom;
  const uses = materialOf(bundle, primerId)?.primer ?? [];
  if (primedAt === null || uses.length === 0) return null;
  return {
    fromAt: minutesLater(primedAt, Math.max(...uses.map((u) => u.dryHoursLeast)) * 60),
    untilAt: minutesLater(primedAt, Math.min(...uses.map((u) => u.dryHoursMost)) * 60),
  };
}
