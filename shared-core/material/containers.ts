/** What one container holds, and quantities rounded up to whole containers. */
import type { Container, Material } from '../book/material.ts';
import type { Found } from '../measure/parsed.ts';

/** Units in which a need is counted. */
export type NeedUnit = Container['unit'];

/** A material whose sheet does not say what a container covers in the unit of the need. */
export type NoCoverage = { readonly materialId: string; readonly name: string; readonly container: string; readonly unit: NeedUnit };

const DUST = 1e-9;

/** How a material is sold: its container, or the bag of a powder's data sheet. @throws where the record has neither, which its schema refuses */
export function containerOf({ container, powder }: Pick<Material, 'container' | 'powder'>): Container {
  if (powder !== null) return { name: 'bag', unit: 'kg', holds: powder.bagKg.value };
  if (container !== null) return container;
  throw new Error('A material has neither a container nor a bag.');
}

/** The name of a material's container; empty where the material is not known. */
export function containerName(materials: readonly Material[], id: string | null): string {
  const material = materials.find((one) => one.id === id);
  return material === undefined ? '' : containerOf(material).name;
}

/**
 * Amount in one container. @param unit the unit of the need @returns in that unit; what the data sheet does not give
 */
export function perContainer(material: Material, unit: NeedUnit): Found<number, NoCoverage> {
  if (material.goes !== null && material.goes.unit === unit) return { ok: true, value: material.goes.perContainer };
  const container = containerOf(material);
  if (container.unit === unit) return { ok: true, value: container.holds };
  return { ok: false, problem: { materialId: material.id, name: material.name, container: container.name, unit } };
}

/**
 * Whole containers for a need. @param need in the unit of the container’s amount @param amountPerContainer amount in one container
 */
export function containersFor(need: number, amountPerContainer: number): number {
  return Math.max(0, Math.ceil(need / amountPerContainer - DUST)) + 0;
}
