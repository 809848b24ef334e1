/** Draws the room with its lanes and batches for the pour screens. */
import type { PourReading } from '../../../shared-core/standing/read-pour.ts';
import { planDrawing, type PlanDrawing } from '../../../shared-core/drawing/plan.ts';
import { edgeFigures, joinLetter, joinWatched, laneWays } from '../../../shared-core/drawing/pour-edges.ts';
import { pourOnPlan, regionsOnPlan, type PourProgress } from '../../../shared-core/drawing/pour-plan.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatLength } from '../../../shared-core/measure/length-format.ts';
import type { UnitSystem } from '../../../shared-core/measure/unit-system.ts';
import { pourModel, withoutChance } from '../../../shared-core/pour/crew-model.ts';
import { floorRest } from '../../../shared-core/pour/floor-rest.ts';
import type { RoomFloor } from '../../../shared-core/pour/placed-floor.ts';
import type { FloorRegion } from '../../../shared-core/pour/pour-regions.ts';
import { type DamLine, damsInRoom } from '../../../shared-core/pour/stop-plan.ts';
import type { PourState } from '../../../shared-core/pour/pour-state.ts';
import type { ColdJoint } from '../../../shared-core/pour/cold-joints.ts';
import type { JoinAge } from '../../../shared-core/pour/joins.ts';
import { timelineOf } from '../../../shared-core/pour/simulate.ts';

interface PictureChoice {
  readonly read: PourReading;
  readonly roomId: string;
  readonly progress: PourProgress | null;
  readonly isPourMode: boolean;
  readonly units: UnitSystem;
  readonly locale: string;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Maximum age of each edge, drawn with lane directions; absent for none. */
  readonly edges?: { readonly ages: readonly JoinAge[]; readonly healingMin: number } | null;
  /** Regions of a finished pour, drawn instead of planned batches. */
  readonly regions?: readonly FloorRegion[];
  /** The state of the room before this pour: the placed part is drawn, with the joint that the rest meets. */
  readonly before?: RoomFloor;
  /** False where a dam closed every edge; absent draws the edges of the placed batches. */
  readonly hasWetEdge?: boolean;
  /** Dams to set where the pour stops. */
  readonly dams?: readonly DamLine[];
  /** Joints of a finished pour to watch, in all rooms, in the order of their letters. */
  readonly toWatch?: readonly ColdJoint[];
}

/** The plan with lanes; null without a layout. */
export function pourPicture(choice: PictureChoice): PlanDrawing | null {
  const { read, roomId, isPourMode } = choice;
  const roomReading = read.rooms.find((r) => r.room.id === roomId);
  if (roomReading === undefined || !read.layout.ok) return null;
  const { plan } = roomReading.room;
  const layout = read.layout.value;
  const { edges = null, toWatch = [], dams = [], locale } = choice;
  const figures =
    edges === null
      ? {}
      : {
          ways: laneWays(layout, roomId),
          figures: edgeFigures(layout, roomId, edges.ages, edges.healingMin, (min) => formatDuration(min * 60, locale)),
        };
  const watched = toWatch.flatMap((joint, i) => (joint.roomId === roomId ? [joinWatched(joint, joinLetter(i))] : []));
  const damsHere = damsInRoom(dams, roomId).map(({ from, to }, i) => ({ id: `dam-${i}`, from, to }));
  const placed = choice.before?.lift?.regions.filter(({ state }) => state === 'placed' || state === 'suspect') ?? [];
  const met = (choice.before === undefined ? null : floorRest(choice.before))?.joints ?? [];
  const lanes = pourOnPlan(layout, roomId, choice.progress, isPourMode);
  const joints = [
    ...met.map((line, i) => ({ id: `met-${i}`, ...line })),
    ...(read.plans[read.rooms.indexOf(roomReading)]?.joints ?? []),
    ...damsHere,
  ];
  return planDrawing({
    plan,
    widthPx: choice.widthPx,
    heightPx: choice.heightPx,
    shows: 'lanes',
    lengthText: (lengthM) => formatLength(lengthM, choice.units, choice.locale),
    pour: {
      ...lanes,
      // A finished pour has no wet edge.
      ...(choice.regions === undefined
        ? { batches: [...unnumbered(placed), ...lanes.batches], ...(choice.hasWetEdge === false ? { wetEdges: [] } : {}) }
        : { batches: regionsOnPlan(choice.regions), wetEdges: [] }),
      joints,
      ...figures,
      watched,
    },
    mayTurn: choice.widthPx < 480,
    hasDimensions: !isPourMode,
    openingWords: (opening) =>
      read.first.openDoorways?.some((d) => d.openingId === opening.id || d.toOpeningId === opening.id) === true
        ? ['open doorway']
        : opening.isWayOut || plan.openings.length === 1
          ? ['exit']
          : isPourMode
            ? []
            : [opening.name],
    ...(isPourMode
      ? { marginPx: choice.widthPx < 480 ? { left: 3, top: 3, right: 60, bottom: 30 } : { left: 3, top: 3, right: 112, bottom: 40 } }
      : {}),
  });
}

/** Placed floor of an earlier pour, drawn without numbers. */
const unnumbered = (regions: readonly FloorRegion[]) =>
  regionsOnPlan(regions).map((piece) => ({ ...piece, id: `before-${piece.id}`, text: '', state: 'placed' as const }));

/** Planned placing time of each batch, minutes from the start, at the usual pace; null when the crew cannot be simulated. */
export function plannedPlacement(read: PourReading): number[] | null {
  if (!read.layout.ok) return null;
  const model = pourModel(read.layout.value, read.first.crew, read.clocks);
  return model.ok ? [...timelineOf(withoutChance(model.value), 1, 0).laid.endMin] : null;
}

/** The planned floor that the placed batches cover, whatever their numbers. */
export function progressOf(read: PourReading, state: Pick<PourState, 'covered' | 'lanesDone' | 'nextToLand'>): PourProgress {
  const lanes = read.layout.ok ? read.layout.value.lanes : [];
  const batches = read.layout.ok ? read.layout.value.batches : [];
  return {
    placed: state.covered,
    nextToLand: state.nextToLand,
    next: batches.find((batch) => !state.covered.has(batch.number))?.number ?? null,
    lanesDone: new Set(state.lanesDone.flatMap((d) => lanes.find((s) => s.roomId === d.roomId && s.inRoom === d.lane)?.number ?? [])),
  };
}
