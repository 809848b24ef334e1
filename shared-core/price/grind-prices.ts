/** Cost of material and of grinding, for comparison; and whether the floor may be ground. */
import type { Business } from '../book/business.ts';
import type { Material } from '../book/material.ts';
import type { Room } from '../book/room.ts';
import { effectiveSheet } from '../material/sheet.ts';
import { isFlooringPresumed, labAnswer } from '../substrate/asbestos.ts';
import type { GrindPrices } from '../survey/grind-or-fill.ts';
import { priceOnDay } from './price-on-day.ts';

/**
 * Why a floor may not be ground; null when allowed. Removing a layer has its own holds.
 * @param day `2026-05-12`, for lab results
 */
export function whyNotGround(room: Pick<Room, 'layers' | 'tests' | 'circumstances'>, day: string): string | null {
  if (room.circumstances.radiantHeat === 'in-floor') return 'Radiant heat is in this floor. Nothing is ground.';
  const suspect = room.layers.find(
    (layer) => isFlooringPresumed(layer) && labAnswer(room.tests, 'asbestos', layer.id, day) !== 'none-found',
  );
  return suspect === undefined ? null : 'A layer contains asbestos or is presumed to. Nothing is ground.';
}

/**
 * Prices for choosing the finish elevation, minor units at cost. Material: the bags per cubic meter with waste.
 * @returns null where the floor may not be ground or a bag has no price yet
 */
export function grindPrices(
  room: Pick<Room, 'layers' | 'tests' | 'circumstances'>,
  material: Material | null,
  business: Business,
  day: string,
): GrindPrices | null {
  if (whyNotGround(room, day) !== null) return null;
  const sheet = material === null ? null : effectiveSheet(material);
  const price = material === null ? null : priceOnDay(material, day);
  const loss = sheet?.ok === true && sheet.value.lossShare.source !== 'typical' ? sheet.value.lossShare.value : business.usualLossShare;
  const fillM3 = sheet?.ok === true && price !== null ? (price.minor * (1 + loss)) / sheet.value.yieldM3.value : 0;
  return { fillM3, grindM2: business.costs.grindM2Minor, removeM3: business.costs.grindM3Minor };
}
