import type { Material } from '../../shared-core/book/material.ts';

/** Data sheets to choose from: archived ones are left out, except the one that is chosen already. */
export const sheetOptions = (
  materials: readonly Material[],
  chosenId: string | null,
): { readonly value: string; readonly word: string }[] =>
  materials
    .filter((material) => material.deletedAt === null || material.id === chosenId)
    .map(({ id, name, deletedAt }) => ({ value: id, word: deletedAt === null ? name : `${name} (archived)` }));
