/** A room's record and its survey as plain amounts for a takeoff. */
import { type Assessment, assessRoom } from '../assess/assess-room.ts';
import type { Business } from '../book/business.ts';
import type { Job, JobRoom } from '../book/job.ts';
import type { Layer } from '../book/layer.ts';
import type { Material } from '../book/material.ts';
import type { Mark } from '../book/plan-fields.ts';
import type { Property } from '../book/property.ts';
import type { Room } from '../book/room.ts';
import { instantAt } from '../measure/moment.ts';
import { isHonored } from '../plan/honored-marks.ts';
import { areaInRoomM2 } from '../plan/overlap.ts';
import { isLeadSafe } from '../prep/items-lead.ts';
import { prepChecklist } from '../prep/checklist.ts';
import { removalKey, scrapingKey } from '../prep/prep-item.ts';
import { isRemovedLoose } from '../prep/removal-items.ts';
import { isHeatFoundLaid } from '../substrate/radiant.ts';
import { fastenedAreas } from '../prep/items-fasten.ts';
import { machinedM2, paintAreasM2 } from '../prep/items-surface.ts';
import { checklistInput } from '../prep/prepare-room.ts';
import { cutWords, partAreaM2 } from '../substrate/exposed-layers.ts';
import { abatedWith, isAbated, isLabFirst, isPouredWood, removedLayers } from '../substrate/floor-facts.ts';
import { isCarrying, isWood } from '../substrate/layer-words.ts';
import { substrateClass } from '../substrate/primed-substrate.ts';
import { roomsOnSlab } from '../substrate/test-counts.ts';
import { heatOnTop } from '../survey/heat-on-top.ts';
import type { RoomAmounts } from './takeoff.ts';

/** What a survey gives an estimate. Null volume and depths while the room cannot be calculated. */
export type FillNumbers = Pick<RoomAmounts, 'areaM2' | 'perimeterM' | 'volume' | 'depths' | 'grind'>;

/** What a room's floor is judged by. */
export type JudgedBy = {
  readonly business: Pick<Business, 'units' | 'locale'>;
  readonly property: Pick<Property, 'yearBuilt' | 'timeZone'>;
  /** The job and its rooms, of which those on one slab share its tests; left out for a room alone. */
  readonly job?: Pick<Job, 'rooms'>;
  readonly rooms?: readonly Room[];
  /** The day that decides whether a test is too old, `2026-05-12`. */
  readonly day: string;
  /** The latest day of a test or a lab result, `2026-05-12`. */
  readonly resultsDay: string;
  /** The underlayment, whose moisture limit a slab may be tested for; null while none is chosen. */
  readonly material: Material | null;
};

/** The end of a day at the property: every test of the day counts. */
function endOfDay(day: string, zone: string): string {
  const read = instantAt(day, '23:59', zone);
  return read.ok ? read.value.instant : `${day}T23:59:00.000Z`;
}

type Known = Pick<JudgedBy, 'material'> & {
  readonly jobRoom: JobRoom;
  readonly key: string;
  readonly onSlab: readonly Room[];
  readonly assessment: Assessment;
};
/** The last assessment by the room: the levels tried share it. */
const assessmentOf = new WeakMap<Room, Known>();

/** Assesses a room without the figures of its estimate. */
function assessBare(
  room: Room,
  jobRoom: JobRoom,
  { business, property, job, rooms = [], day, resultsDay, material }: JudgedBy,
): Assessment {
  const onSlab = roomsOnSlab(room, rooms, job?.rooms ?? []);
  const { units, locale } = business;
  const { timeZone, yearBuilt } = property;
  const key = [day, resultsDay, timeZone, yearBuilt, units, locale].join(' ');
  const known = assessmentOf.get(room);
  const isSame = known?.onSlab.length === onSlab.length && onSlab.every((one, i) => one === known.onSlab[i]);
  if (isSame && known.jobRoom === jobRoom && known.material === material && known.key === key) return known.assessment;
  const assessment = assessRoom({
    ...{ room, onSlab, jobRoom, property, units, locale, material, hasMoistureSystem: (jobRoom.moistureSystemId ?? null) !== null },
    ...{ addedLoadPa: null, depth: null, cutMostM: null, lifts: null, isPouredOver: false, lastPouredAt: null, doorSteps: {} },
    now: endOfDay(resultsDay, timeZone),
    agedAt: endOfDay(day, timeZone),
  });
  assessmentOf.set(room, { onSlab, jobRoom, material, key, assessment });
  return assessment;
}

/**
 * The amounts of one room, as Assess and Prep judge its floor.
 * @param jobRoom its choices in the job
 * @param fill the result of its survey
 */
export function roomAmounts(room: Room, jobRoom: JobRoom, fill: FillNumbers, by: JudgedBy): RoomAmounts {
  const systemId = jobRoom.moistureSystemId ?? null;
  const assessment = assessBare(room, jobRoom, by);
  const { exposed } = assessment.facts;
  // The pour's depth counts the space of the heat it covers.
  const heat = heatOnTop(room.layers);
  const slabTests = assessment.needs.find(({ id }) => id === 'slab-moisture');
  const prep = checklistInput({
    // One area for all amounts: that of the survey.
    ...{
      room,
      jobRoom,
      units: by.business.units,
      assessment: { ...assessment, facts: { ...assessment.facts, areaM2: fill.areaM2 } },
      primer: null,
      bags: null,
      waterL: null,
      helpers: 0,
    },
    grind: fill.grind.areaM2 > 0 ? { areaM2: fill.grind.areaM2, spots: 1, deepestM: 0 } : null,
  });
  const checklist = prepChecklist(prep);
  const removed = removedLayers(assessment.facts);
  const areaOfM2 = ({ area }: Layer): number => (area === null ? fill.areaM2 : Math.min(fill.areaM2, areaInRoomM2(room.plan, area)));
  return {
    roomId: room.id,
    roomName: room.name,
    cut: cutWords(room),
    areaM2: fill.areaM2,
    perimeterM: fill.perimeterM,
    volume: fill.volume,
    depths: fill.depths,
    grind: fill.grind,
    openings: room.plan.openings.map(({ name, widthM, edge }) => ({ name, widthM, edge })),
    removed: removed.map((facts) => {
      const { material, thicknessM } = facts.layer;
      const ownM2 = areaOfM2(facts.layer);
      const hazards = {
        isAbated: isAbated(facts) || abatedWith(assessment.facts, facts.layer).length > 0,
        isLabFirst: isLabFirst(facts, assessment.facts),
      };
      if (hazards.isAbated) return { material, thicknessM, areaM2: ownM2, strippedM2: 0, byContractorM2: 0, ...hazards };
      const { machined, stripped, byContractor } = paintAreasM2(checklist, facts.layer);
      const areaM2 = Math.min(ownM2, machined ?? ownM2);
      return { material, thicknessM, areaM2, strippedM2: stripped, byContractorM2: byContractor, ...hazards };
    }),
    scraped: assessment.facts.layerFacts.flatMap((facts) => {
      const line = removed.includes(facts) ? undefined : checklist.find(({ key }) => keptLineKeys(facts.layer).includes(key));
      if (line === undefined) return [];
      return [
        {
          material: facts.layer.material,
          thicknessM: offThicknessM(facts.layer),
          areaM2: line.amount?.value ?? 0,
          isLabFirst: isLabFirst(facts, assessment.facts),
          isLoose: isRemovedLoose(facts.layer, assessment.facts),
          isByContractor: line.who === 'licensed-only',
        },
      ];
    }),
    laid: room.layers
      .filter((layer) => layer.fate === 'keep' && layer.laid !== undefined && !heat.includes(layer))
      .map((layer) => ({ material: layer.material, thicknessM: layer.thicknessM, areaM2: areaOfM2(layer) })),
    // A moisture mitigation system is non-porous, whatever is under it.
    substrate: systemId === null ? substrateClass(assessment.facts).substrate : 'non-porous',
    crackM: room.marks.filter(isFilled).reduce((sum, mark) => sum + lineLengthM(mark), 0),
    abradeM2: machinedM2(checklist, fill.areaM2),
    fasten: fastenedAreas(prep),
    mitigation: systemId === null ? null : { materialId: systemId, areaM2: fill.areaM2 },
    reinforceM2: isHeatFoundLaid(room.layers)
      ? 0
      : (partAreaM2(exposed, fill.areaM2, ({ layer }) => isPouredWood(layer, assessment.facts)) ?? fill.areaM2),
    sealM2: jobRoom.flooring === 'bare-sealed' ? fill.areaM2 : 0,
    allowedExtraPa: room.circumstances.allowedExtraLoadPa,
    moistureTests: slabTests?.toMake ?? 0,
    leadSafe: isLeadSafe(checklist),
  };
}

/**
 * The thickness of what comes off a layer that stays: of a slab only its skin, which nobody measures, and of any other layer all of it.
 * Common practice, no source.
 */
const offThicknessM = ({ material, thicknessM }: Layer): number | null => (isCarrying(material) && !isWood(material) ? null : thicknessM);

/** The lines that a layer that stays may have: scraped down, or taken off where it is loose. */
const keptLineKeys = (layer: Layer): readonly string[] => [scrapingKey(layer), removalKey(layer)];

/** Dormant cracks and joints, and gaps, are filled; active ones are carried through. */
function isFilled(mark: Mark): boolean {
  return mark.shape === 'line' && ['gap', 'crack', 'joint'].includes(mark.kind) && !isHonored(mark);
}

function lineLengthM(mark: Mark): number {
  return mark.points.slice(1).reduce((sum, point, index) => {
    const before = mark.points[index];
    return before === undefined ? sum : sum + Math.hypot(point.xM - before.xM, point.yM - before.yM);
  }, 0);
}
