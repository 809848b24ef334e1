/** Rounds a quantity up to whole containers. */
import type { Material } from '../book/material.ts';
import type { Parsed } from '../measure/parsed.ts';

/** Units in which a need is counted. */
export type NeedUnit = Material['container']['unit'];

const DUST = 1e-9;

/**
 * Amount in one container. @param unit the unit of the need @returns in that unit; a sentence when the data sheet does not give it
 */
export function perContainer(material: Material, unit: NeedUnit): Parsed<number> {
  if (material.goes !== null && material.goes.unit === unit) return { ok: true, value: material.goes.perContainer };
  if (material.container.unit === unit) return { ok: true, value: material.container.holds };
  const words = { kg: 'weight', L: 'volume', m: 'length', m2: 'area', piece: 'piece' }[unit];
  return {
    ok: false,
    message: `${material.name} has no coverage per ${material.container.name} by ${words}. Add it to the data sheet.`,
  };
}

/**
 * Whole containers for a need. @param need in the unit of the container’s amount @param amountPerContainer amount in one container
 */
export function containersFor(need: number, amountPerContainer: number): number {
  return Math.max(0, Math.ceil(need / amountPerContainer - DUST)) + 0;
}
