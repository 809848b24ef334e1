/** Asbestos that stays in a room, as the owner, the crew and the installer are told of it. */
import type { JobRoom } from '../book/job.ts';
import type { Room } from '../book/room.ts';
import { isCoatingLeft, labAnswer } from '../substrate/asbestos.ts';
import { LAYER_WORDS } from '../substrate/layer-words.ts';
import { listed } from '../standing/names.ts';

/** The heading over {@link asbestosLeftLines}. */
export const ASBESTOS_LEFT = 'Asbestos that stays';

type RoomOfJob = { readonly room: Room; readonly jobRoom: Pick<JobRoom, 'overrides'> };

const ASK = 'Ask a licensed abatement contractor first.';

/**
 * A line for each room with a kept layer in which a lab found asbestos, and one for a textured coating in which it did; none without.
 * 29 CFR 1926.1101(k) asks to tell the owner what remains: from memory.
 */
export const asbestosLeftLines = (rooms: readonly RoomOfJob[]): string[] =>
  rooms.flatMap(({ room, jobRoom }) => {
    // A result that found asbestos counts whatever its day.
    const left = room.layers.filter(({ id, fate }) => fate === 'keep' && labAnswer(room.tests, 'asbestos', id, '') === 'found');
    const names = listed([...new Set(left.map(({ material }) => LAYER_WORDS[material]))]);
    return [
      ...(left.length === 0
        ? []
        : [`${room.name}: there is asbestos in the ${names} under this floor. Do not drill, cut, or remove the floor. ${ASK}`]),
      ...(isCoatingLeft(room, jobRoom.overrides)
        ? [`${room.name}: there is asbestos in the textured coating. Do not touch, drill, scrape, or sand it. ${ASK}`]
        : []),
    ];
  });
