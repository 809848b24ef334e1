/** One room of an estimate: its survey at the level chosen, and what that takes. */
import type { Business } from '../book/business.ts';
import type { Job, JobRoom, LevelChoice } from '../book/job.ts';
import type { Layer } from '../book/layer.ts';
import type { Material } from '../book/material.ts';
import type { Room } from '../book/room.ts';
import { crewPourMinutes, USUAL_HANDS } from '../material/crew-hours.ts';
import type { Problem } from '../material/problem.ts';
import { type FillNumbers, roomAmounts, substrateClass } from '../material/room-amounts.ts';
import { type RoomTakeoff, takeoff } from '../material/takeoff.ts';
import { helpersOf } from '../pour/crew-names.ts';
import { likelyMinutes } from '../pour/likely-minutes.ts';
import { roomAreaM2, roomPerimeterM } from '../plan/region.ts';
import { LAYER_WORDS } from '../substrate/layer-words.ts';
import { expectedFlatness, type ExpectedFlatness } from '../survey/expected-flatness.ts';
import { USUAL_STRAIGHTEDGE_M } from '../survey/floor-flatness.ts';
import { surveyOnceOut } from '../survey/once-out.ts';
import { settleLevel } from '../survey/settle-level.ts';
import { type SurveyedRoom, surveyRoom, type SurveyOptions } from '../survey/survey-room.ts';
import { grindPrices, whyNotGround } from './grind-prices.ts';

/** What a room is poured to and with. */
export type RoomWay = { readonly level: LevelChoice; readonly materialId: string | null };

/** One room of one option. */
export type RoomEstimate = {
  readonly roomId: string;
  readonly name: string;
  readonly level: LevelChoice;
  /** The survey at this level, as the screens draw it. */
  readonly survey: SurveyedRoom;
  /** How flat the poured floor is to be expected; null without a survey. */
  readonly flatness: ExpectedFlatness | null;
  readonly takeoff: RoomTakeoff;
  readonly problems: readonly Problem[];
};

/** What every room of an estimate shares. */
export type RoomContext = { readonly business: Business; readonly job: Job; readonly materials: readonly Material[]; readonly day: string };

/**
 * Estimates one room.
 * @param before the same room at another level: its floor is read once and only the level settled anew
 */
export function estimateRoom(room: Room, jobRoom: JobRoom, way: RoomWay, context: RoomContext, before: SurveyedRoom | null): RoomEstimate {
  const { business, job, materials, day } = context;
  const { units, locale } = business;
  const find = (id: string | null) => (id === null ? null : (materials.find((material) => material.id === id) ?? null));
  const material = find(way.materialId);
  const options: SurveyOptions = {
    units,
    grindPrices: grindPrices(room, material, business, day),
    flooringThicknessM: jobRoom.flooringThicknessM ?? 0,
    contourStepM: null,
    flooring: jobRoom.flooring,
    flooringLimits: jobRoom.flooringLimits,
    straightedgeM: null,
  };
  const survey: SurveyedRoom =
    before?.state === 'surveyed'
      ? { ...before, level: settleLevel(before.floor, room.plan, way.level, options) }
      : surveyRoom(room.plan, surveyOnceOut(room.survey, room.layers), way.level, options);
  const plan = jobRoom.pourPlan;
  const helpers =
    plan === null ? usualHelpers(job, business.ownerName) : Math.max(0, plan.crew.mixers + plan.crew.carriers + plan.crew.spreaders - 1);
  const amounts = roomAmounts(room, jobRoom, fillNumbers(room, survey));
  const taken = takeoff(amounts, {
    material,
    primer: find(jobRoom.primerId),
    extend: 'auto',
    usualLossShare: business.usualLossShare,
    bagPercentile: business.bagPercentile,
    bagsPerBatch: plan?.crew.bagsPerBatch ?? 1,
    bucketL: business.bucketL,
    mixers: plan?.crew.mixers ?? Math.min(USUAL_HANDS.mixers, helpers + 1),
    helpers,
    plannedMinutes: plan === null ? null : (batches) => plannedMinutes(plan, batches, amounts.volume?.likelyM3 ?? null),
    units,
    locale,
  });
  return {
    roomId: room.id,
    name: room.name,
    level: way.level,
    survey,
    flatness:
      survey.state === 'surveyed'
        ? expectedFlatness(
            survey.floor,
            survey.level,
            way.level,
            options.grindPrices !== null,
            USUAL_STRAIGHTEDGE_M,
            jobRoom.flooring,
            jobRoom.flooringLimits,
          )
        : null,
    takeoff: taken,
    problems: [...surveyProblems(room, way, survey, day), ...takenOutProblems(room), ...untested(room, jobRoom), ...taken.problems],
  };
}

/** Area and walls from the plan alone while the readings are missing, so that what does not hang on them is still there. */
function fillNumbers(room: Room, survey: SurveyedRoom): FillNumbers {
  const perimeter = room.plan.outline.length < 3 ? { wallsM: 0, holesM: 0 } : roomPerimeterM(room.plan);
  const perimeterM = perimeter.wallsM + perimeter.holesM;
  if (survey.state === 'waiting') {
    const areaM2 = room.plan.outline.length < 3 ? 0 : roomAreaM2(room.plan);
    return { areaM2, perimeterM, volume: null, depths: null, grind: { areaM2: 0, volumeM3: 0 } };
  }
  const { fill, range } = survey.level;
  return {
    areaM2: survey.floor.areaM2,
    perimeterM,
    volume: { likelyM3: fill.volumeM3, sdM3: range.sdM3 },
    depths: { leastM: fill.leastDepthM, meanM: fill.meanDepthM, mostM: fill.greatestDepthM },
    grind: { areaM2: fill.groundM2, volumeM3: fill.removedM3 },
  };
}

/** Minutes of all of a room's pouring. */
function plannedMinutes(
  plan: NonNullable<JobRoom['pourPlan']>,
  batches: number,
  fillM3: number | null,
): { minutes: number; source: 'planned' | 'simulated' } {
  const simulated = likelyMinutes(plan, fillM3);
  return simulated === null
    ? { minutes: crewPourMinutes(plan.crew, batches), source: 'planned' }
    : { minutes: simulated, source: 'simulated' };
}

/** The names written down, less the owner's; the usual crew when none are. */
function usualHelpers(job: Job, ownerName: string): number {
  return job.crewNames.length === 0 ? USUAL_HANDS.helpers : helpersOf(job.crewNames, ownerName).length;
}

function surveyProblems(room: Room, way: RoomWay, survey: SurveyedRoom, day: string): Problem[] {
  const said = (key: string, message: string, stops: boolean): Problem => ({
    key,
    roomId: room.id,
    message: `${room.name}: ${message}`,
    stops,
  });
  if (survey.state === 'waiting') return [said('survey', survey.message, true)];
  const warnings = survey.level.warnings.map((warning) => said(`level:${warning.kind}`, warning.message, false));
  const forbidden = way.level.grindMostM > 0 ? whyNotGround(room, day) : null;
  return forbidden === null ? warnings : [...warnings, said('grind', forbidden, false)];
}

/** Where what comes out leaves the fill in doubt. */
function takenOutProblems(room: Room): Problem[] {
  const out = room.layers.filter((layer) => layer.fate === 'remove');
  if (out.length === 0 || room.survey.readings.length === 0) return [];
  const names = (layers: readonly Layer[]): string => layers.map((layer) => LAYER_WORDS[layer.material]).join(', ');
  const said = (message: string): Problem[] => [{ key: 'taken-out', roomId: room.id, message: `${room.name}: ${message}`, stops: false }];
  if (room.survey.over === undefined)
    return said(`${names(out)} comes out. Say under Readings whether they were taken on top of it; until then they count as taken below.`);
  const unmeasured = out.filter((layer) => layer.thicknessM === null);
  if (room.survey.over === 'once-out' || unmeasured.length === 0) return [];
  return said(`${names(unmeasured)} comes out and nobody measured how thick it is: the fill it makes room for is not counted.`);
}

function untested(room: Room, jobRoom: JobRoom): Problem[] {
  if (jobRoom.primerId === null || substrateClass(room).tested) return [];
  const message = `${room.name}: nobody tested how the floor drinks; primer is reckoned for ${substrateClass(room).substrate === 'porous' ? 'a porous' : 'a closed'} floor. Try drops of water.`;
  return [{ key: 'untested', roomId: room.id, message, stops: false }];
}
