/** The takeoff of a room: bags, water, primer, sundries, hours, weight. */
import { isDammed } from '../plan/dammed-openings.ts';
import type { CutWords } from '../survey/cut-words.ts';
import type { Material } from '../book/material.ts';
import type { FastenedAreas } from '../prep/items-fasten.ts';
import { addedWeight, layerMassKg, type AddedWeight, type RoomLayer } from './weight.ts';
import { bagCount, type BagCount, type VolumeRange } from './bag-count.ts';
import { taskHours, typicalPourMinutes, type PlannedMinutes, type TaskHours } from './crew-hours.ts';
import { bagsOfLifts, type DeeperVolumes } from './lift-bags.ts';
import { capOfM, planLifts, type Depths, type LiftPlan } from './lifts.ts';
import { primerNeed, type PrimedSubstrate, type PrimerNeed } from './primer.ts';
import type { TakeoffDoubt, TakeoffProblem } from './takeoff-problem.ts';
import { effectiveSheet, yieldRange, type EffectiveSheet } from './sheet.ts';
import { waterPlan, type WaterPlan } from './water.ts';
import { WATER_KG_PER_L } from './mass-balance.ts';
import { AGGREGATE_PARTICLE_KG_M3 } from './typical-figures.ts';

/** A doorway's share in a takeoff. */
export type OpeningEdge = { readonly name: string; readonly widthM: number; readonly edge: 'dam' | 'feather' | 'stop' };

/** A layer that comes out, by the area that its typical hours are for. */
export type LayerOut = RoomLayer & {
  /** Whether a licensed abatement contractor removes and disposes of it. */
  readonly isAbated: boolean;
  /** Whether a lab result comes first. */
  readonly isLabFirst: boolean;
  /** Paint or sealer that the own crew strips wet, which has no typical hours, m². */
  readonly strippedM2: number;
  /** Paint or sealer that a licensed abatement contractor takes off what stays, m². */
  readonly byContractorM2: number;
};

/** A layer that stays, of which a part comes off, with the thickness of that part. */
type ScrapedLayer = RoomLayer &
  Pick<LayerOut, 'isLabFirst'> & {
    /** Whether it is loose and comes off down to a sound layer. */
    readonly isLoose: boolean;
    /** Whether only a licensed abatement contractor does it. */
    readonly isByContractor: boolean;
  };

/** A room as plain numbers. */
export type RoomAmounts = {
  readonly roomId: string;
  readonly roomName: string;
  /** How high spots are taken down. */
  readonly cut: CutWords;
  readonly areaM2: number;
  readonly perimeterM: number;
  /** Null while there is no survey to calculate from. */
  readonly volume: VolumeRange | null;
  readonly depths: Depths | null;
  readonly grind: { readonly areaM2: number; readonly volumeM3: number };
  readonly openings: readonly OpeningEdge[];
  readonly removed: readonly LayerOut[];
  /** What is scraped or taken off of layers that stay: adhesive, and what is loose. */
  readonly scraped: readonly ScrapedLayer[];
  /** Layers laid new for the pour. */
  readonly laid: readonly RoomLayer[];
  readonly substrate: PrimedSubstrate;
  readonly crackM: number;
  readonly abradeM2: number;
  readonly fasten: FastenedAreas;
  readonly reinforceM2: number;
  readonly sealM2: number;
  /** Moisture mitigation system under the primer; null or absent for none. */
  readonly mitigation?: { readonly materialId: string; readonly areaM2: number } | null;
  readonly allowedExtraPa: number | null;
  /** Slab moisture tests still to be made. */
  readonly moistureTests: number;
  /** Whether lead-safe work practices apply: containment, cleaning and its verification. */
  readonly leadSafe: boolean;
};

/** The choices for the room, and the business's settings. */
export type TakeoffChoices = {
  /** Null when none was chosen or the one chosen is gone. */
  readonly material: Material | null;
  readonly primer: Material | null;
  /** Whether aggregate is asked for. */
  readonly withAggregate: boolean;
  /** Used where the data sheet's waste factor is typical. */
  readonly usualLossShare: number;
  readonly bagPercentile: number;
  readonly bagsPerBatch: number;
  readonly bucketL: number;
  readonly mixers: number;
  readonly helpers: number;
  /** Sections of each lift poured on a day of their own, after the first. */
  readonly laterSections: number;
  /** Whether another room's pour takes this room along: its crew is set up already. */
  readonly isTakenAlong: boolean;
  /** The pour's likely minutes for a number of batches, by its plan; null before there is a plan. */
  readonly plannedMinutes: ((batches: number) => PlannedMinutes) | null;
  /** Volumes of the fill deeper than some depths; null or absent where only its average is known. */
  readonly deeper?: DeeperVolumes | null;
  /** Actual hours per typical hour, by task; empty without own figures. */
  readonly taskFactors?: Readonly<Record<string, number>>;
};

/** The takeoff of one room. Parts that cannot be calculated are null, with the reason in `problems`. */
export type RoomTakeoff = {
  readonly room: RoomAmounts;
  readonly materialId: string | null;
  readonly sheet: EffectiveSheet | null;
  readonly lossShare: number;
  readonly lifts: LiftPlan | null;
  readonly bags: BagCount | null;
  /** Bags of each lift before rounding, the lowest first; null while they are not known. */
  readonly liftBags: readonly number[] | null;
  /** Kilograms at the quoted count. */
  readonly powderKg: number;
  readonly aggregate: (CappedBag & { readonly totalKg: number }) | null;
  readonly water: WaterPlan | null;
  /** The primer of one priming: on the substrate before the first lift, and on new underlayment before each later one. */
  readonly primer: PrimerNeed | null;
  readonly liftPrimer: PrimerNeed | null;
  /** Times the floor is primed: before each lift. */
  readonly primings: number;
  /** Floor that is abraded and vacuumed again between lifts, m². */
  readonly betweenLiftsM2: number;
  readonly damM: number;
  readonly dams: number;
  /** What the crew removes and disposes of, kilograms. */
  readonly disposalKg: number;
  readonly weight: AddedWeight | null;
  readonly hours: readonly TaskHours[];
  /** Times the crew sets up for a pour of the room. */
  readonly setUps: number;
  readonly pourMinutes: number;
  readonly problems: readonly TakeoffProblem[];
};

/**
 * The takeoff of one room.
 * @param room its amounts
 * @param choices materials and the business's settings
 */
export function takeoff(room: RoomAmounts, choices: TakeoffChoices): RoomTakeoff {
  const problems: TakeoffProblem[] = [];
  const report: Report = (doubt, stops) => void problems.push({ ...doubt, stops });
  const sheet = readSheet(choices.material, report);
  const loss = sheet === null || sheet.lossShare.source === 'typical' ? choices.usualLossShare : sheet.lossShare.value;
  if (room.volume === null) report({ kind: 'no-survey' }, true);
  const lifts = sheet === null || room.depths === null ? null : planLifts(room.depths, sheet, choices.withAggregate);
  for (const note of lifts?.notes ?? []) if (note.kind === 'too-thin') report(note, false);
  const bag = sheet === null || room.depths === null || lifts?.extended !== true ? null : cappedBag(sheet, room.depths.meanM);
  const bags = countBags(room, choices, { sheet, bag, loss }, report);
  const quoted = bags?.quotedBags ?? 0;
  const bagM3 = (withAggregate: boolean): number => ((withAggregate ? bag?.mixM3 : undefined) ?? sheet?.yieldM3.value ?? 1) / (1 + loss);
  const aggregate = bag === null ? null : { ...bag, totalKg: bag.aggregateKg * bag.bagShare * quoted };
  const water =
    sheet === null || bags === null
      ? null
      : waterPlan(sheet, {
          ...{ bags: quoted, likelyBags: bags.exactBags, bagsPerBatch: choices.bagsPerBatch },
          ...{ bucketL: choices.bucketL, mixM3: bag?.mixM3 ?? null },
        });
  if (water !== null && water.overfilledBucketL !== null)
    report({ kind: 'bucket', batchM3: water.batchM3, bagsPerBatch: water.bagsPerBatch, bucketL: water.overfilledBucketL }, false);
  const primings = Math.max(1, lifts?.count ?? 1);
  const { primer, liftPrimer } = readPrimers(room, choices.primer, primings, report);
  const betweenLiftsM2 = room.areaM2 * (primings - 1);
  const dammed = room.openings.filter(isDammed);
  const removed = room.removed.filter((layer) => !layer.isAbated);
  const scraped = room.scraped.filter(({ isByContractor }) => !isByContractor);
  const disposalKg = [...removed, ...scraped.filter(({ isLoose }) => isLoose)].reduce((sum, layer) => sum + layerMassKg(layer), 0);
  const weight =
    sheet === null || room.depths === null
      ? null
      : addedWeight({
          depths: room.depths,
          densityKgM3: bag?.densityKgM3 ?? sheet.densityFreshKgM3.value,
          areaM2: room.areaM2,
          removed: room.removed,
          laid: room.laid,
          allowedPa: room.allowedExtraPa,
        });
  if (weight?.within === false) report({ kind: 'weight', weight }, false);
  const batches = water?.batches ?? { likely: 0, all: 0 };
  const pours = choices.isTakenAlong ? 0 : Math.max(quoted > 0 ? 1 : 0, lifts?.count ?? 0);
  const setUps = pours + choices.laterSections * Math.max(1, lifts?.count ?? 1);
  const planned = choices.plannedMinutes?.(batches.all) ?? null;
  const hours = taskHours({
    areaM2: room.areaM2,
    vacuumM2: room.areaM2 + betweenLiftsM2,
    removed: [...removed, ...scraped],
    perimeterM: room.perimeterM,
    dams: dammed.length,
    crackM: room.crackM,
    fastenM2: room.fasten.subfloorM2 + room.fasten.plywoodM2,
    reinforceM2: room.reinforceM2,
    primeCoats: primingCoats({ primer, liftPrimer, primings }),
    sealM2: room.sealM2,
    mitigateM2: room.mitigation?.areaM2 ?? 0,
    moistureTests: room.moistureTests,
    leadSafe: room.leadSafe,
    bags: quoted,
    batches,
    setUps,
    mixers: choices.mixers,
    helpers: choices.helpers,
    planned,
    factors: choices.taskFactors ?? {},
  });
  return {
    room,
    materialId: choices.material?.id ?? null,
    sheet,
    lossShare: loss,
    lifts,
    bags,
    liftBags: bags === null ? null : bagsOfLifts(lifts, bags, choices.deeper ?? null, bagM3),
    powderKg: sheet === null ? 0 : quoted * sheet.bagKg.value,
    aggregate,
    water,
    primer,
    liftPrimer,
    primings,
    betweenLiftsM2,
    damM: dammed.reduce((sum, opening) => sum + opening.widthM, 0),
    dams: dammed.length,
    disposalKg,
    weight,
    hours,
    setUps,
    pourMinutes: planned?.minutes ?? typicalPourMinutes(batches.all, choices),
    problems,
  };
}

type Report = (doubt: TakeoffDoubt, stops: boolean) => void;

function readSheet(material: Material | null, report: Report): EffectiveSheet | null {
  if (material === null) {
    report({ kind: 'no-material' }, true);
    return null;
  }
  const sheet = effectiveSheet(material);
  if (sheet.ok) return sheet.value;
  report({ kind: 'sheet', why: sheet.problem }, true);
  return null;
}

type Primers = Pick<RoomTakeoff, 'primer' | 'liftPrimer'>;

/** The coats of each priming, in order; those without a primer are left out. */
export const primingCoats = ({ primer, liftPrimer, primings }: Primers & Pick<RoomTakeoff, 'primings'>): readonly number[] =>
  primer === null ? [] : [primer.coats, ...(liftPrimer === null ? [] : Array.from({ length: primings - 1 }, () => liftPrimer.coats))];

/** Liters out of the jug for all primings. */
export const primerNeatL = ({ primer, liftPrimer, primings }: Primers & Pick<RoomTakeoff, 'primings'>): number =>
  (primer?.neatL ?? 0) + (liftPrimer?.neatL ?? 0) * (primings - 1);

/** What a later lift is primed on: a fresh lift draws water as a porous substrate does. Common practice, no source. */
const LIFT_SUBSTRATE: PrimedSubstrate = 'porous';

function readPrimers(room: RoomAmounts, primer: Material | null, primings: number, report: Report): Primers {
  if (primer === null) {
    report({ kind: 'no-primer' }, false);
    return { primer: null, liftPrimer: null };
  }
  const first = primerNeed(primer, room.substrate, room.areaM2);
  if (!first.ok) {
    report({ kind: 'primer', why: first.problem }, true);
    return { primer: null, liftPrimer: null };
  }
  if (primings < 2) return { primer: first.value, liftPrimer: null };
  const later = primerNeed(primer, LIFT_SUBSTRATE, room.areaM2);
  if (!later.ok) report({ kind: 'lift-primer', why: later.problem }, true);
  return { primer: first.value, liftPrimer: later.ok ? later.value : null };
}

function countBags(
  room: RoomAmounts,
  choices: TakeoffChoices,
  { sheet, bag, loss }: { readonly sheet: EffectiveSheet | null; readonly bag: CappedBag | null; readonly loss: number },
  report: Report,
): BagCount | null {
  if (sheet === null || room.volume === null) return null;
  const range = bag === null ? yieldRange(sheet) : { likelyM3: bag.yieldM3, sdShare: sheet.yieldM3.sdShare };
  const count = bagCount(room.volume, range, loss, choices.bagPercentile);
  if (count.ok) return count.value;
  report({ kind: 'bags', why: count.problem }, true);
  return null;
}

/** A bag with its aggregate. */
type ExtendedBag = {
  readonly aggregateKg: number;
  readonly mixM3: number;
  /** Fresh density of powder, water and stones together. */
  readonly densityKgM3: number;
};

/** The bags of a fill with aggregate under a cap without. */
type CappedBag = ExtendedBag & {
  /** Mixed volume per bag, averaged over all bags. */
  readonly yieldM3: number;
  /** Share of the bags that are mixed with aggregate. */
  readonly bagShare: number;
};

/** The bags of a fill by its average depth, meters: the cap is mixed without aggregate. */
function cappedBag(sheet: Parameters<typeof extendedBag>[0] & Parameters<typeof capOfM>[0], meanM: number): CappedBag | null {
  const bag = extendedBag(sheet);
  if (bag === null) return null;
  const capShare = Math.min(1, capOfM(sheet) / meanM);
  const mixed = (1 - capShare) / bag.mixM3;
  const yieldM3 = 1 / (mixed + capShare / sheet.yieldM3.value);
  return { ...bag, yieldM3, bagShare: mixed * yieldM3 };
}

/**
 * A bag with the maximum aggregate its data sheet allows. Aggregate adds the volume it displaces. @returns null when the data
 * sheet allows none
 */
export function extendedBag(sheet: Pick<EffectiveSheet, 'bagKg' | 'yieldM3' | 'waterL' | 'aggregateShare'>): ExtendedBag | null {
  if (sheet.aggregateShare === null) return null;
  const aggregateKg = sheet.bagKg.value * sheet.aggregateShare.value;
  const mixM3 = sheet.yieldM3.value + aggregateKg / AGGREGATE_PARTICLE_KG_M3;
  const massKg = sheet.bagKg.value + sheet.waterL.value.least * WATER_KG_PER_L + aggregateKg;
  return { aggregateKg, mixM3, densityKgM3: massKg / mixM3 };
}
