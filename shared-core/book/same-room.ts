/** A room that inherits from another room of its property: materials, flooring, and the layers, tests and answers it lacks. */
import type { JobRoom } from './job.ts';
import type { Circumstances, FloorTest } from './layer.ts';
import type { Room } from './room.ts';

/** A room with the job's record of it. */
export type RoomInJob = { readonly room: Room; readonly jobRoom: JobRoom };

/**
 * Tests that apply to one room only: a lab sample for its own layer, deflection for its own joists. They are never
 * inherited; the others carry the name of the room they were taken in.
 */
const OWN_TESTS: ReadonlySet<FloorTest['kind']> = new Set(['lab', 'floor-deflection']);

const ofAnyRoom = (tests: readonly FloorTest[]): readonly FloorTest[] => tests.filter((test) => !OWN_TESTS.has(test.kind));

/**
 * Whether a room is floored as the other one is: its layers are the same, from the top down, or it has none yet. What is chosen for
 * the other floor's surface then fits it too.
 */
export function sharesFloor(to: Pick<Room, 'layers'>, from: Pick<Room, 'layers'>): boolean {
  const stack = ({ layers }: Pick<Room, 'layers'>): string =>
    JSON.stringify(layers.map(({ material, laid, area }) => [material, laid ?? null, area === null]));
  return to.layers.length === 0 || stack(to) === stack(from);
}

/** True where the other room has data that this one lacks. */
export function canInherit(to: RoomInJob, from: RoomInJob): boolean {
  const lacks = (has: boolean, gives: boolean): boolean => !has && gives;
  return (
    lacks(to.room.layers.length > 0, from.room.layers.length > 0) ||
    lacks(ofAnyRoom(to.room.tests).length > 0, ofAnyRoom(from.room.tests).length > 0) ||
    lacks(to.jobRoom.materialId !== null, from.jobRoom.materialId !== null) ||
    (sharesFloor(to.room, from.room) && lacks(to.jobRoom.primerId !== null, from.jobRoom.primerId !== null)) ||
    lacks(to.jobRoom.flooring !== null, from.jobRoom.flooring !== null)
  );
}

/** The site conditions with those of the other room where none is recorded. Wet use, structure, coating, gas and fixtures are the room's own. */
function inheritedCircumstances(to: Circumstances, from: Circumstances): Circumstances {
  return {
    ...to,
    paintedTrim: to.paintedTrim ?? from.paintedTrim,
    baseboardHeightM: to.baseboardHeightM ?? from.baseboardHeightM,
    radiantHeat: to.radiantHeat ?? from.radiantHeat,
    belowGrade: to.belowGrade ?? from.belowGrade,
    vaporRetarder: to.vaporRetarder ?? from.vaporRetarder,
    slopeToDrain: to.slopeToDrain ?? from.slopeToDrain,
  };
}

/**
 * The room with what it inherits: layers and tests where it has none, and site conditions not recorded. Of layers that are the same,
 * those that come out in the other room come out here too. What else it has stays, and so do its plan, readings, structure and fixtures.
 * @param newId makes ids for the copied layers and tests
 */
export function inheritedRoom(to: Room, from: Room, newId: () => string): Room {
  const isAlike = sharesFloor(to, from);
  // A layer on part of the other room is not inherited.
  const given = to.layers.length > 0 ? [] : from.layers.filter((layer) => layer.area === null);
  const layers = given.map((layer) => ({ was: layer.id, layer: { ...layer, id: newId() } }));
  const layerOf = (id: string | null): string | null => layers.find(({ was }) => was === id)?.layer.id ?? null;
  const note = (was: string): string => `${was === '' ? '' : `${was} `}Same as ${from.name}.`.slice(0, 200);
  const tests = (ofAnyRoom(to.tests).length > 0 ? [] : ofAnyRoom(from.tests)).flatMap((test): FloorTest[] => {
    const own = { ...test, id: newId(), point: null, note: note(test.note) };
    if (own.kind !== 'moisture-dish' || own.overLayerId === null) return [own];
    // A dish over a layer that is not inherited says nothing of this floor.
    const overLayerId = layerOf(own.overLayerId);
    return overLayerId === null ? [] : [{ ...own, overLayerId }];
  });
  return {
    ...to,
    layers: [
      ...to.layers.map((layer, i) => (isAlike ? { ...layer, fate: from.layers[i]?.fate ?? layer.fate } : layer)),
      ...layers.map(({ layer }) => layer),
    ],
    tests: [...to.tests, ...tests],
    circumstances: inheritedCircumstances(to.circumstances, from.circumstances),
  };
}

/**
 * The job's record of the room with what it inherits: the material with its minimum thickness, the flooring, and, where the floors are
 * alike, the primer and a moisture mitigation system. Its finish and dates stay its own.
 */
export function inheritedJobRoom({ room, jobRoom: to }: RoomInJob, { room: other, jobRoom: from }: RoomInJob): JobRoom {
  const { flooring, flooringLimits, flooringThicknessM, materialId, withAggregate, primerId, moistureSystemId } = from;
  const onFloor = (moistureSystemId ?? null) === null ? { primerId } : { primerId, moistureSystemId };
  return {
    ...to,
    ...(sharesFloor(room, other) ? onFloor : {}),
    flooring,
    flooringLimits,
    ...(flooringThicknessM === undefined ? {} : { flooringThicknessM }),
    ...(withAggregate === undefined ? {} : { withAggregate }),
    materialId,
    level: { ...to.level, leastThicknessM: from.level.leastThicknessM },
  };
}
