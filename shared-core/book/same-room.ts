/** A room that inherits from another room of its property: material, primer, layers, tests and answers. */
import type { JobRoom } from './job.ts';
import type { FloorTest } from './layer.ts';
import type { Room } from './room.ts';

/** A room with the job's record of it. */
export type RoomInJob = { readonly room: Room; readonly jobRoom: JobRoom };

/**
 * Tests that apply to one room only: a lab sample for its own layer, deflection for its own joists. They are never
 * inherited; the others carry the name of the room they were taken in.
 */
const OWN_TESTS: ReadonlySet<FloorTest['kind']> = new Set(['lab', 'floor-deflection']);

/** True where the other room has data that this one lacks. */
export function canInherit(to: RoomInJob, from: RoomInJob): boolean {
  const lacks = (has: boolean, gives: boolean): boolean => !has && gives;
  return (
    lacks(to.room.layers.length > 0, from.room.layers.length > 0) ||
    lacks(
      to.room.tests.length > 0,
      from.room.tests.some((test) => !OWN_TESTS.has(test.kind)),
    ) ||
    lacks(to.jobRoom.materialId !== null, from.jobRoom.materialId !== null) ||
    lacks(to.jobRoom.primerId !== null, from.jobRoom.primerId !== null) ||
    lacks(to.jobRoom.flooring !== null, from.jobRoom.flooring !== null)
  );
}

/**
 * The room with what it inherits. Its plan, readings, structure and fixtures stay its own.
 * @param newId makes ids for the copied layers and tests
 */
export function inheritedRoom(to: Room, from: Room, newId: () => string): Room {
  // A layer on part of the other room is not inherited.
  const layers = from.layers.filter((layer) => layer.area === null).map((layer) => ({ was: layer.id, layer: { ...layer, id: newId() } }));
  const layerOf = (id: string | null): string | null => layers.find(({ was }) => was === id)?.layer.id ?? null;
  const note = (was: string): string => `${was === '' ? '' : `${was} `}Same as ${from.name}.`.slice(0, 200);
  const tests = from.tests
    .filter((test) => !OWN_TESTS.has(test.kind))
    .map((test): FloorTest => {
      const own = { ...test, id: newId(), point: null, note: note(test.note) };
      return own.kind === 'moisture-dish' ? { ...own, overLayerId: layerOf(own.overLayerId) } : own;
    });
  const { allowedExtraLoadPa, loadStatedBy, structureSigns, fixtures, notes } = to.circumstances;
  return {
    ...to,
    layers: layers.map(({ layer }) => layer),
    tests: [...to.tests.filter((test) => OWN_TESTS.has(test.kind)), ...tests],
    circumstances: { ...from.circumstances, allowedExtraLoadPa, loadStatedBy, structureSigns, fixtures, notes },
  };
}

/** The job's record of the room with what it inherits. Its finish elevation and dates stay its own. */
export function inheritedJobRoom(to: JobRoom, from: JobRoom): JobRoom {
  const { flooring, flooringLimits, flooringThicknessM, materialId, withAggregate, primerId, moistureSystemId } = from;
  return {
    ...to,
    flooring,
    flooringLimits,
    ...(flooringThicknessM === undefined ? {} : { flooringThicknessM }),
    ...(moistureSystemId === undefined ? {} : { moistureSystemId }),
    ...(withAggregate === undefined ? {} : { withAggregate }),
    materialId,
    primerId,
    level: {
      ...from.level,
      levelM: to.level.levelM,
      rampThrough: to.level.rampThrough,
      mode: from.level.mode === 'ramp' ? to.level.mode : from.level.mode,
    },
  };
}
