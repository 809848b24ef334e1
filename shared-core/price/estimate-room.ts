/** One room of an estimate: its survey at the chosen finish elevation, and its takeoff. */
import type { Business } from '../book/business.ts';
import type { Job, JobRoom, LevelChoice } from '../book/job.ts';
import type { Layer } from '../book/layer.ts';
import type { Material } from '../book/material.ts';
import type { Property } from '../book/property.ts';
import type { Room } from '../book/room.ts';
import { formatDepth } from '../measure/length-format.ts';
import { formatPercent } from '../measure/percent.ts';
import type { UnitSystem } from '../measure/unit-system.ts';
import { crewPourMinutes, type PlannedMinutes, usualMixers } from '../material/crew-hours.ts';
import type { Problem } from './problem.ts';
import { doubtWords } from './takeoff-words.ts';
import { type FillNumbers, roomAmounts } from '../material/room-amounts.ts';
import { perContainer } from '../material/containers.ts';
import { takesAggregate } from '../material/lifts.ts';
import { inUse } from '../material/shopping.ts';
import { extendedBag, type RoomTakeoff, takeoff } from '../material/takeoff.ts';
import type { TakeoffProblem } from '../material/takeoff-problem.ts';
import { helperCount } from '../pour/crew-names.ts';
import { type FillShares, laterSections } from '../pour/fill-shares.ts';
import { likelyMinutes } from '../pour/likely-minutes.ts';
import { roomAreaM2, roomPerimeterM } from '../plan/region.ts';
import { cutWords, exposedLayers, type LayeredRoom } from '../substrate/exposed-layers.ts';
import { asbestosIn, mayHoldAsbestos } from '../substrate/floor-facts.ts';
import { formatListAnd } from '../measure/list.ts';
import { isNeverGround, LAYER_WORDS } from '../substrate/layer-words.ts';
import { substrateClass } from '../substrate/primed-substrate.ts';
import { isHeatInFloor, isHeatLaid } from '../substrate/radiant.ts';
import { type Ballpark, ballpark } from '../survey/ballpark.ts';
import { doubtEffect, isDoubt } from '../survey/doubt-effect.ts';
import { expectedFlatness, type ExpectedFlatness } from '../survey/expected-flatness.ts';
import { USUAL_STRAIGHTEDGE_M } from '../survey/floor-flatness.ts';
import { heatOnTop } from '../survey/heat-on-top.ts';
import { isMostlyUnread } from '../survey/read-floor.ts';
import { surveyOnceOut } from '../survey/once-out.ts';
import { levelOnScale } from '../survey/scale.ts';
import { deeperVolumesM3, type SettledLevel } from '../survey/settle-level.ts';
import { type SurveyedRoom, surveyRoom, type SurveyOptions } from '../survey/survey-room.ts';
import { effectiveSheet } from '../material/sheet.ts';
import { bagShares } from './lift-depth.ts';
import { priceOnDay } from './price-on-day.ts';

/** Finish elevation and materials of a room. */
export type RoomWay = { readonly level: LevelChoice; readonly materialId: string | null };

/** One room of one option. */
export type RoomEstimate = {
  readonly roomId: string;
  readonly name: string;
  readonly level: LevelChoice;
  /** The survey at this level, as the screens draw it. */
  readonly survey: SurveyedRoom;
  /** Expected flatness of the poured floor; null without a survey, or where most of the floor is beyond the readings. */
  readonly flatness: ExpectedFlatness | null;
  readonly takeoff: RoomTakeoff;
  /** How its bags, and the minutes of its pours, are divided among them. */
  readonly fillShares: FillShares;
  /** Set where the volume is only a ballpark: nothing was measured. */
  readonly ballpark: Ballpark | null;
  readonly problems: readonly Problem[];
};

/** Input shared by all rooms of an estimate. */
export type RoomContext = {
  readonly business: Business;
  /** The year built decides whether paint counts as lead. */
  readonly property: Pick<Property, 'yearBuilt' | 'timeZone'>;
  readonly job: Job;
  /** The rooms of the job, of which those on one slab share their tests. */
  readonly rooms: readonly Room[];
  readonly materials: readonly Material[];
  /** The day of the prices, and of what is too old, `2026-05-12`. */
  readonly day: string;
  /** The latest day of a test or a lab result, `2026-05-12`. */
  readonly resultsDay: string;
};

/** The result of a level being dragged, without the floor, which the screen has. */
export type LevelEstimate = Pick<RoomEstimate, 'takeoff'> & { readonly level: SettledLevel };

/** A room at another finish elevation; null while its floor is not read. */
export function estimateLevel(room: Room, jobRoom: JobRoom, level: LevelChoice, context: RoomContext): LevelEstimate | null {
  const { survey, takeoff: taken } = estimateRoom(room, jobRoom, { level, materialId: jobRoom.materialId }, context);
  return survey.state === 'surveyed' ? { level: survey.level, takeoff: taken } : null;
}

/** Estimates one room. */
export function estimateRoom(room: Room, jobRoom: JobRoom, chosen: RoomWay, context: RoomContext): RoomEstimate {
  const { level, isOffScale } = levelOnScale(chosen.level, room.survey);
  const roomWay: RoomWay = { ...chosen, level };
  const { business, job, materials, day, resultsDay } = context;
  const { units, locale } = business;
  const find = (id: string | null) => (id === null ? null : (materials.find((material) => material.id === id) ?? null));
  const material = find(roomWay.materialId);
  const notGround = whyNotGround({ ...room, yearBuilt: context.property.yearBuilt }, jobRoom.overrides, resultsDay);
  const options: SurveyOptions = {
    units,
    grindPrices: notGround === null ? grindPrices(material, business, day, aggregateFor(roomWay, jobRoom, material, materials)) : null,
    cut: cutWords(room),
    flooringThicknessM: jobRoom.flooringThicknessM ?? null,
    flooring: jobRoom.flooring,
    flooringLimits: jobRoom.flooringLimits,
    country: business.address.country,
    straightedgeM: null,
  };
  const settled = surveyRoom(room.plan, surveyOnceOut(room.survey, room.layers), level, options);
  const survey = isOffScale ? askedForLevel(settled, level.mode) : settled;
  const plan = jobRoom.pourPlan;
  const helpers = helperCount(plan, job.crewNames, business);
  const rough = roughPour(room, roomWay, survey);
  const amounts = roomAmounts(room, jobRoom, fillNumbers(room, roomWay, survey, rough), { ...context, material });
  const sheets = { material: roomWay.materialId, primer: jobRoom.primerId, 'moisture mitigation system': jobRoom.moistureSystemId ?? null };
  // A sheet that is chosen and cannot be found has a problem of its own.
  const isUnchosen = ({ kind }: TakeoffProblem): boolean =>
    !(kind === 'no-material' && sheets.material !== null) && !(kind === 'no-primer' && sheets.primer !== null);
  const taken = takeoff(amounts, {
    material,
    primer: find(jobRoom.primerId),
    withAggregate: jobRoom.withAggregate === true,
    usualLossShare: business.usualLossShare,
    taskFactors: business.taskFactors,
    bagPercentile: business.bagPercentile,
    bagsPerBatch: plan?.crew.bagsPerBatch ?? 1,
    bucketL: business.bucketL,
    mixers: plan?.crew.mixers ?? usualMixers(helpers),
    helpers,
    laterSections: laterSections({ plan: room.plan, pourPlan: plan }),
    deeper: survey.state === 'waiting' ? null : (depthsM) => deeperVolumesM3(survey.floor, survey.level, level, depthsM),
    isTakenAlong: takenAlong(job).has(room.id),
    plannedMinutes: plan === null ? null : (batches) => plannedMinutes(plan, batches, amounts.volume?.likelyM3 ?? null),
  });
  return {
    roomId: room.id,
    name: room.name,
    level: roomWay.level,
    survey,
    flatness:
      survey.state === 'surveyed' && !isMostlyUnread(survey.floor)
        ? expectedFlatness(
            survey.floor,
            survey.level,
            options.grindPrices === null ? 0 : roomWay.level.grindMostM,
            USUAL_STRAIGHTEDGE_M,
            options,
          )
        : null,
    takeoff: taken,
    fillShares: bagShares(room, jobRoom, { survey, level, takeoff: taken }),
    ballpark: rough,
    problems: [
      ...surveyProblems(room, roomWay, survey, { notGround, rough, locale }),
      ...doubtProblems(room, roomWay, survey, taken, units),
      ...takenOutProblems(room),
      ...untested(room, jobRoom, context.property.yearBuilt),
      ...sheetProblems(room, sheets, materials),
      ...taken.problems.filter(isUnchosen).map((doubt) => ({
        key: doubt.kind,
        roomId: room.id,
        message: `${room.name}: ${doubtWords(doubt, units, locale)}`,
        stops: doubt.stops,
      })),
    ],
  };
}

/** A survey whose finish elevation or ramp has to be entered again: until then it is the lowest permitted level. */
function askedForLevel(survey: SurveyedRoom, mode: LevelChoice['mode']): SurveyedRoom {
  if (survey.state === 'waiting') return survey;
  const [what, how] = mode === 'ramp' ? ['ramp', 'Set it again.'] : ['elevation', 'Enter it again, or clear it for the lowest one.'];
  const message = `The readings are new or of another type, so the ${what} set by hand no longer fits them. ${how}`;
  return { ...survey, level: { ...survey.level, warnings: [{ kind: 'off-scale', message }, ...survey.level.warnings] } };
}

/** The pour guessed from the room's ballpark while no reading is taken; null without a guess or an area. */
function roughPour(room: Room, roomWay: RoomWay, survey: SurveyedRoom): Ballpark | null {
  if (survey.state === 'surveyed' || room.ballpark === null || room.survey.readings.length > 0 || room.plan.outline.length < 3) return null;
  const rough = ballpark(roomAreaM2(room.plan), room.ballpark, {
    minimumThicknessM: roomWay.level.leastThicknessM,
    wasteShare: 0,
    yieldM3: null,
  });
  return rough.ok ? rough.value : null;
}

/** Area and walls from the plan alone while the readings are missing; volume and depths from a ballpark where there is one. */
function fillNumbers(room: Room, { level }: RoomWay, survey: SurveyedRoom, rough: Ballpark | null): FillNumbers {
  const perimeter = room.plan.outline.length < 3 ? { wallsM: 0, holesM: 0 } : roomPerimeterM(room.plan);
  const perimeterM = perimeter.wallsM + perimeter.holesM;
  if (survey.state === 'waiting') {
    const areaM2 = room.plan.outline.length < 3 ? 0 : roomAreaM2(room.plan);
    const { volumeM3, averageDepthM, deepestM } = rough ?? {};
    return {
      areaM2,
      perimeterM,
      volume: volumeM3 === undefined ? null : { leastM3: volumeM3.least, likelyM3: volumeM3.likely, mostM3: volumeM3.most },
      depths:
        averageDepthM === undefined || deepestM === undefined
          ? null
          : {
              // The high spots get the minimum thickness: the average says nothing of them.
              leastM: Math.min(level.leastThicknessM, averageDepthM.least),
              meanM: averageDepthM.likely,
              mostM: deepestM,
            },
      grind: { areaM2: 0, volumeM3: 0 },
    };
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

/** Rooms poured with another room, whose plan takes them along. */
function takenAlong({ rooms }: Pick<Job, 'rooms'>): ReadonlySet<string> {
  const joinedIds = new Set<string>();
  for (const { roomId, pourPlan } of rooms)
    if (!joinedIds.has(roomId)) for (const id of pourPlan?.withRoomIds ?? []) if (id !== roomId) joinedIds.add(id);
  return joinedIds;
}

/** Total pour minutes of a room. */
function plannedMinutes(plan: NonNullable<JobRoom['pourPlan']>, batches: number, fillM3: number | null): PlannedMinutes {
  const simulated = likelyMinutes(plan, fillM3);
  return simulated === null
    ? { minutes: crewPourMinutes(plan.crew, batches), source: 'planned' }
    : { minutes: simulated, source: 'simulated' };
}

/** The data sheets chosen for a room that are archived, which it keeps using, or that cannot be found. */
function sheetProblems(room: Room, chosen: Readonly<Record<string, string | null>>, materials: readonly Material[]): Problem[] {
  return Object.entries(chosen).flatMap(([what, id]): Problem[] => {
    const sheet = materials.find((material) => material.id === id);
    const problem = (key: string, message: string, stops: boolean): Problem => ({
      ...{ key: `${key}:${what}`, roomId: room.id, stops },
      message: `${room.name}: ${message}`,
    });
    if (id === null || sheet?.deletedAt === null) return [];
    return sheet === undefined
      ? [problem('lost-sheet', `the data sheet of the ${what} cannot be found. Choose another.`, true)]
      : [problem('archived-sheet', `${sheet.name} is archived. This job keeps using it until you choose another.`, false)];
  });
}

/** Whether a price of the room is only a ballpark: nothing was measured, or most of the floor is beyond the readings. */
export const isRoughlyKnown = ({ ballpark, survey }: Pick<RoomEstimate, 'ballpark' | 'survey'>): boolean =>
  ballpark !== null || (survey.state === 'surveyed' && isMostlyUnread(survey.floor));

type SurveyFacts = { readonly notGround: string | null; readonly rough: Ballpark | null; readonly locale: string };

function surveyProblems(room: Room, roomWay: RoomWay, survey: SurveyedRoom, { notGround, rough, locale }: SurveyFacts): Problem[] {
  const problem = (key: string, message: string, stops: boolean): Problem => ({
    key,
    roomId: room.id,
    message: `${room.name}: ${message}`,
    stops,
  });
  if (survey.state === 'waiting') {
    const message = rough === null ? survey.message : 'Ballpark only. Take readings before you issue a quote.';
    return [problem('survey', message, true)];
  }
  const share = formatPercent(survey.floor.extrapolatedShare, 0, locale);
  const warnings = [
    ...(isMostlyUnread(survey.floor)
      ? [problem('beyond-readings', `${share} of the floor is beyond the readings. Take readings closer to the walls.`, true)]
      : []),
    ...survey.level.warnings.map((warning) => problem(`level:${warning.kind}`, warning.message, warning.kind === 'off-scale')),
  ];
  const forbidden = roomWay.level.grindMostM > 0 ? notGround : null;
  return forbidden === null ? warnings : [...warnings, problem('grind', forbidden, false)];
}

/** Begins the key of a problem about a doubtful reading. */
export const DOUBT_KEY = 'doubt:';

/** A doubtful reading that moves the finish elevation or the bags holds the estimate until it is confirmed or deleted. */
function doubtProblems(room: Room, roomWay: RoomWay, survey: SurveyedRoom, taken: RoomTakeoff, units: UnitSystem): Problem[] {
  if (survey.state === 'waiting' || roomWay.level.mode === 'follow') return [];
  return survey.problems.filter(isDoubt).flatMap(({ readingIds }) => {
    const effect = doubtEffect(survey.floor, readingIds, roomWay.level.leastThicknessM);
    if (effect === null) return [];
    const numbers = readingIds.map((id) => room.survey.readings.findIndex((reading) => reading.id === id) + 1);
    const readingWords = numbers.length === 1 ? `Reading ${numbers.join()} is` : `Readings ${numbers.join(' and ')} are`;
    const bags = (m3: number): number =>
      Math.ceil((m3 * (1 + taken.lossShare)) / (taken.aggregate?.mixM3 ?? taken.sheet?.yieldM3.value ?? 1) - 1e-9);
    // A difference: the estimate's own count allows for the range of the volume as well.
    const more = Math.sign(effect.volumeM3) * bags(Math.abs(effect.volumeM3));
    const moves =
      Math.abs(effect.levelM) < 1e-6
        ? 'changes the volume'
        : `${effect.levelM > 0 ? 'raises' : 'lowers'} the finish elevation by ${formatDepth(Math.abs(effect.levelM), units)}`;
    const count = `${Math.abs(more)} ${Math.abs(more) === 1 ? 'bag' : 'bags'}`;
    const inBags = taken.sheet === null || more === 0 ? '' : ` and ${more > 0 ? 'adds' : 'saves'} about ${count}`;
    const pronoun = numbers.length === 1 ? 'it' : 'them';
    const message = `${room.name}: ${readingWords} in doubt. This ${moves}${inBags}. Confirm or delete ${pronoun} under Readings.`;
    return [{ key: `${DOUBT_KEY}${readingIds.join()}`, roomId: room.id, message, stops: true }];
  });
}

/** Removed and new layers that leave the volume uncertain. */
function takenOutProblems(room: Room): Problem[] {
  if (room.survey.readings.length === 0) return [];
  const removedLayers = room.layers.filter((layer) => layer.fate === 'remove');
  const heat = heatOnTop(room.layers);
  const unknown = room.layers.filter(
    (layer) => layer.fate === 'keep' && layer.laid !== undefined && layer.thicknessM === null && !heat.includes(layer),
  );
  const names = (layers: readonly Layer[]): string => formatListAnd(layers.map((layer) => LAYER_WORDS[layer.material]));
  const problem = (message: string): Problem[] => [
    { key: 'taken-out', roomId: room.id, message: `${room.name}: ${message}`, stops: false },
  ];
  if (unknown.length > 0)
    return problem(`The thickness of the new ${names(unknown)} is unknown. Measure it: its height is not counted yet.`);
  if (removedLayers.length === 0) return [];
  if (room.survey.over === undefined)
    return problem(
      `${names(removedLayers)} ${removedLayers.length === 1 ? 'comes' : 'come'} out. Under Readings, choose whether the readings were taken on top. Until then they count as taken below.`,
    );
  const unmeasured = removedLayers.filter((layer) => layer.thicknessM === null);
  if (room.survey.over === 'once-out' || unmeasured.length === 0) return [];
  return problem(`The thickness of ${names(unmeasured)} is unknown. Measure it: its volume is not counted yet.`);
}

function untested(room: Room, jobRoom: JobRoom, yearBuilt: number | null): Problem[] {
  const { by } = substrateClass({ ...room, yearBuilt });
  if (jobRoom.primerId === null || (by !== 'presumed' && by !== 'expected')) return [];
  const message =
    by === 'presumed'
      ? `${room.name}: porosity not tested. Primer is calculated for a porous substrate. Do a water drop test.`
      : `${room.name}: a water drop stays on the floor as it is. Primer is calculated for a porous substrate, as abraded concrete usually is. The water drop test after that decides.`;
  return [{ key: 'untested', roomId: room.id, message, stops: false }];
}

/** What of a room decides whether it may be ground. */
type GroundRoom = LayeredRoom & Pick<Room, 'circumstances'> & { readonly yearBuilt?: number | null };

/**
 * Why a floor may not be ground; null when allowed. Removing a layer has its own holds. High spots of metal stay: common practice, no source.
 * @param room the year built is its building's; null or left out while unknown
 * @param overrides the documents recorded for the room in its job
 * @param day `2026-05-12`, for lab results
 */
export function whyNotGround(room: GroundRoom, overrides: JobRoom['overrides'], day: string): string | null {
  const kept = room.layers.filter((layer) => layer.fate === 'keep');
  const nothing = `Nothing is ${cutWords(room).done}.`;
  if (isHeatLaid(kept)) return `Radiant heat is on top of this floor. ${nothing}`;
  if (isHeatInFloor(room)) return `Radiant heat is in this floor. ${nothing}`;
  if (room.layers.some((layer) => mayHoldAsbestos(asbestosIn(layer, room, overrides, day))))
    return `A layer may contain asbestos. ${nothing}`;
  const exposed = exposedLayers(room).map(({ layer }) => layer.material);
  const whole = exposed.find((material) => isNeverGround(material) || material === 'metal');
  return whole === undefined ? null : `Never grind ${whole === 'metal' ? 'down the high spots of metal' : LAYER_WORDS[whole]}. ${nothing}`;
}

/** Whether the data sheet of a room's material allows aggregate at the least depth that was chosen for the room. */
export function mayTakeAggregate(level: LevelChoice, material: Material | null): boolean {
  const sheet = material === null ? null : effectiveSheet(material);
  return sheet?.ok === true && takesAggregate(sheet.value, level.mode === 'follow' ? level.followThicknessM : level.leastThicknessM);
}

/** The aggregate that a room's fill is mixed with; null without. */
const aggregateFor = (
  { level }: RoomWay,
  { withAggregate }: JobRoom,
  material: Material | null,
  materials: readonly Material[],
): Material | null => (withAggregate === true && mayTakeAggregate(level, material) ? inUse(materials, 'aggregate') : null);

/**
 * Prices for choosing the finish elevation, minor units at cost. Material: the bags per cubic meter with waste.
 * @param day of the prices, `2026-05-12`
 * @param aggregate that is mixed in; null for none
 * @returns a price of null for the fill while a bag has none
 */
export function grindPrices(
  material: Material | null,
  business: Business,
  day: string,
  aggregate: Material | null,
): NonNullable<SurveyOptions['grindPrices']> {
  const sheet = material === null ? null : effectiveSheet(material);
  const price = material === null ? null : priceOnDay(material, day);
  const loss = sheet?.ok === true && sheet.value.lossShare.source !== 'typical' ? sheet.value.lossShare.value : business.usualLossShare;
  const mixed = sheet?.ok === true && aggregate !== null ? extendedBag(sheet.value) : null;
  const each = aggregate === null ? null : perContainer(aggregate, 'kg');
  const aggregateMinor =
    mixed === null || aggregate === null || each?.ok !== true
      ? 0
      : ((priceOnDay(aggregate, day)?.minor ?? 0) * mixed.aggregateKg) / each.value;
  const fillM3 =
    sheet?.ok === true && price !== null
      ? ((price.minor + aggregateMinor) * (1 + loss)) / (mixed?.mixM3 ?? sheet.value.yieldM3.value)
      : null;
  return { fillM3, grindM2: business.costs.grindM2Minor, removeM3: business.costs.grindM3Minor };
}
