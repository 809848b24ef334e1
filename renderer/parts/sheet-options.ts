import type { Material } from '../../shared-core/book/material.ts';
import { SAMPLE_PREFIX } from '../../shared-core/book/sample-company.ts';

/** Whether a data sheet is of the sample data: its name may repeat that of the user's own. */
export const isSampleSheet = ({ id }: Pick<Material, 'id'>): boolean => id.startsWith(SAMPLE_PREFIX);

/** Data sheets to choose from: archived ones are left out, except the one that is chosen already. */
export const sheetOptions = (
  materials: readonly Material[],
  chosenId: string | null,
): { readonly value: string; readonly word: string }[] =>
  materials
    .filter((material) => material.deletedAt === null || material.id === chosenId)
    .map((material) => {
      const notes = [...(isSampleSheet(material) ? ['sample'] : []), ...(material.deletedAt === null ? [] : ['archived'])];
      return { value: material.id, word: notes.length === 0 ? material.name : `${material.name} (${notes.join(', ')})` };
    });
