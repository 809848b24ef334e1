/** Asbestos that stays under a floor, as the owner and the installer are told of it. */
import type { Room } from '../book/room.ts';
import { labAnswer } from '../substrate/asbestos.ts';
import { LAYER_WORDS } from '../substrate/layer-words.ts';
import { listed } from '../standing/names.ts';

/** The heading over {@link asbestosLeftLines}. */
export const ASBESTOS_LEFT = 'Asbestos under the floor';

/**
 * A line for each room with a kept layer in which a lab found asbestos; none without one.
 * 29 CFR 1926.1101(k) asks to tell the owner what remains: from memory.
 */
export const asbestosLeftLines = (rooms: readonly Room[]): string[] =>
  rooms.flatMap(({ name, layers, tests }) => {
    // A result that found asbestos counts whatever its day.
    const left = layers.filter(({ id, fate }) => fate === 'keep' && labAnswer(tests, 'asbestos', id, '') === 'found');
    if (left.length === 0) return [];
    const names = listed([...new Set(left.map(({ material }) => LAYER_WORDS[material]))]);
    return `${name}: there is asbestos in the ${names} under this floor. Do not drill, cut, or remove the floor. Ask a licensed abatement contractor first.`;
  });
