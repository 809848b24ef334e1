/** A room's record and its survey as plain amounts for a takeoff. */
import type { JobRoom } from '../book/job.ts';
import type { Layer } from '../book/layer.ts';
import type { Mark } from '../book/plan-fields.ts';
import type { Room } from '../book/room.ts';
import { areaInRoomM2 } from '../plan/overlap.ts';
import { cutWords, exposedLayers, partAreaM2 } from '../substrate/exposed-layers.ts';
import { isAsbestosSuspect } from '../substrate/floor-facts.ts';
import { limitsInForce } from '../substrate/flooring-demands.ts';
import { isCementitious, isDense, isNeverGround, isSlab, isSmooth, isWood } from '../substrate/layer-words.ts';
import { baseboardAreaM2, isLeadFinish, isLeadPresumed, isMinorRepair } from '../substrate/lead-paint.ts';
import { lastAbsorption } from '../substrate/test-kinds.ts';
import { slabTestCount } from '../substrate/test-counts.ts';
import { testsOf } from '../book/tests-of.ts';
import type { VolumeRange } from './bag-count.ts';
import type { Depths } from './lifts.ts';
import type { PrimedSubstrate } from './primer.ts';
import type { RoomAmounts } from './takeoff.ts';

/** What a survey gives an estimate. Null volume and depths while the room cannot be calculated. */
export type FillNumbers = {
  readonly areaM2: number;
  readonly perimeterM: number;
  readonly volume: VolumeRange | null;
  readonly depths: Depths | null;
  readonly grind: { readonly areaM2: number; readonly volumeM3: number };
};

/** The primed substrate, and whether it was tested or presumed. */
export type SubstrateClass = { readonly substrate: PrimedSubstrate; readonly tested: boolean };

/** A surface with one of these conditions is abraded first. Common practice; the sheet's own profile replaces it. */
const TO_ABRADE = ['glossy', 'painted', 'waxed', 'curing-compound'] as const;

/**
 * The substrate for the primer: by the layer poured on over most of the room, and for mineral floors by the water drop test.
 * An untested mineral floor counts as porous and is marked untested.
 */
export function substrateClass(room: Pick<Room, 'layers' | 'tests' | 'plan'>): SubstrateClass {
  const bySize = exposedLayers(room.layers, room.plan).toSorted((a, b) => (b.areaM2 ?? Infinity) - (a.areaM2 ?? Infinity));
  const top = bySize[0]?.layer ?? null;
  if (top !== null && isWood(top.material)) return { substrate: 'wood', tested: true };
  if (top?.material === 'metal') return { substrate: 'metal', tested: true };
  if (top !== null && ['ceramic-tile', 'stone-tile', 'terrazzo'].includes(top.material)) return { substrate: 'tile', tested: true };
  const absorbs = lastAbsorption(room.tests);
  if (absorbs !== null) return { substrate: absorbs, tested: true };
  const closed = top !== null && !isCementitious(top.material) && isSmooth(top.material);
  return { substrate: closed ? 'non-porous' : 'porous', tested: false };
}

/**
 * The amounts of one room. @param room its record @param jobRoom its choices in the job @param fill the result of its survey
 * @param yearBuilt of the property; null is unknown and counts as old @param day `2026-05-12`, for lab results
 */
export function roomAmounts(
  room: Room,
  jobRoom: Pick<JobRoom, 'flooring' | 'flooringLimits' | 'moistureSystemId'>,
  fill: FillNumbers,
  yearBuilt: number | null,
  day: string,
): RoomAmounts {
  const exposed = exposedLayers(room.layers, room.plan);
  const looks = testsOf(room.tests, 'surface-look').at(-1)?.is ?? [];
  const toAbrade = TO_ABRADE.some((look) => looks.includes(look));
  const areaWhereM2 = (applies: (material: Layer['material']) => boolean): number =>
    partAreaM2(exposed, fill.areaM2, ({ layer }) => applies(layer.material)) ?? fill.areaM2;
  const mayAbrade = !exposed.some(({ layer }) => isAsbestosSuspect(layer, room.tests, day));
  const systemId = jobRoom.moistureSystemId ?? null;
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
    removed: room.layers
      .filter((layer) => layer.fate === 'remove')
      .map(({ material, thicknessM, area }) => ({
        material,
        thicknessM,
        areaM2: area === null ? fill.areaM2 : Math.min(fill.areaM2, areaInRoomM2(room.plan, area)),
      })),
    // A moisture mitigation system is non-porous, whatever is under it.
    substrate: systemId === null ? substrateClass(room).substrate : 'non-porous',
    crackM: room.marks.filter(isFilled).reduce((sum, mark) => sum + lineLengthM(mark), 0),
    // Cement-based substrates get a surface profile. Where a part of the surface may hold asbestos, none of it is abraded.
    abradeM2: areaWhereM2(
      (material) => mayAbrade && !isNeverGround(material) && (toAbrade || isDense(material) || isCementitious(material)),
    ),
    mitigation: systemId === null ? null : { materialId: systemId, areaM2: fill.areaM2 },
    reinforceM2: areaWhereM2(isWood),
    sealM2: jobRoom.flooring === 'bare-sealed' ? fill.areaM2 : 0,
    allowedExtraPa: room.circumstances.allowedExtraLoadPa,
    moistureTests: testsToMake(room, jobRoom, fill.areaM2),
    leadSafe: disturbsLeadPaint(room, yearBuilt, fill.perimeterM),
  };
}

/** Slab moisture tests that are still missing. */
function testsToMake(room: Room, jobRoom: Pick<JobRoom, 'flooring' | 'flooringLimits'>, areaM2: number): number {
  const limits = limitsInForce(jobRoom.flooring, jobRoom.flooringLimits);
  const isTested = limits.slabHumidity !== null || limits.emissionLb !== null;
  if (!isTested || !room.layers.some((layer) => layer.fate === 'keep' && isSlab(layer.material))) return 0;
  const testCount = testsOf(room.tests, 'slab-humidity').length + testsOf(room.tests, 'moisture-dish').length;
  return Math.max(0, slabTestCount(areaM2) - testCount);
}

/** Whether the work disturbs paint or varnish that counts as lead: trim that comes off, or a painted or varnished floor that is removed or abraded. */
function disturbsLeadPaint(room: Room, yearBuilt: number | null, perimeterM: number): boolean {
  const isOpen = (layerId: string | null): boolean =>
    !testsOf(room.tests, 'lab').some((test) => test.question === 'lead-paint' && test.layerId === layerId && test.state === 'none-found');
  const isMinor = isMinorRepair(baseboardAreaM2(perimeterM > 0 ? perimeterM : null, room.circumstances.baseboardHeightM));
  const trim = room.circumstances.paintedTrim === 'to-be-disturbed' && isLeadPresumed(yearBuilt) && !isMinor && isOpen(null);
  return trim || room.layers.some((layer) => isLeadFinish(layer, yearBuilt) && isOpen(layer.id));
}

/** Dormant cracks and joints, and gaps, are filled; active ones are carried through. */
function isFilled(mark: Mark): boolean {
  return mark.shape === 'line' && (mark.kind === 'gap' || ((mark.kind === 'crack' || mark.kind === 'joint') && mark.moves !== 'moving'));
}

function lineLengthM(mark: Mark): number {
  return mark.points.slice(1).reduce((sum, point, index) => {
    const before = mark.points[index];
    return before === undefined ? sum : sum + Math.hypot(point.xM - before.xM, point.yM - before.yM);
  }, 0);
}
