/** Rounds a quantity up to whole containers. */
import type { Material } from '../book/material.ts';
import type { Found } from '../measure/parsed.ts';

/** Units in which a need is counted. */
export type NeedUnit = Material['container']['unit'];

/** A material whose sheet does not say what a container covers in the unit of the need. */
export type NoCoverage = { readonly materialId: string; readonly name: string; readonly container: string; readonly unit: NeedUnit };

const DUST = 1e-9;

/**
 * Amount in one container. @param unit the unit of the need @returns in that unit; what the data sheet does not give
 */
export function perContainer(material: Material, unit: NeedUnit): Found<number, NoCoverage> {
  if (material.goes !== null && material.goes.unit === unit) return { ok: true, value: material.goes.perContainer };
  if (material.container.unit === unit) return { ok: true, value: material.container.holds };
  return { ok: false, problem: { materialId: material.id, name: material.name, container: material.container.name, unit } };
}

/**
 * Whole containers for a need. @param need in the unit of the container’s amount @param amountPerContainer amount in one container
 */
export function containersFor(need: number, amountPerContainer: number): number {
  return Math.max(0, Math.ceil(need / amountPerContainer - DUST)) + 0;
}
