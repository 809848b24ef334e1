/** Rooms of a new job start with the company's usual material and primer, or the typical underlayment before any was chosen. */
import type { Business } from '../../shared-core/book/business.ts';
import type { JobRoom } from '../../shared-core/book/job.ts';
import { FIRST_MATERIAL_ID, startingRoom } from '../../shared-core/material/usual-material.ts';
import { book } from './database.ts';
import { readable } from './integrity.ts';

export async function startingRooms(business: Business | undefined, roomIds: readonly string[]): Promise<JobRoom[]> {
  const { usualMaterialId = null, usualPrimerId = null } = business ?? {};
  const ids = [usualMaterialId ?? FIRST_MATERIAL_ID, usualPrimerId].filter((id) => id !== null);
  const rows = await book().rowsOf('materials').bulkGet(ids);
  const materials = readable(
    'materials',
    rows.filter((row) => row !== undefined),
  );
  return roomIds.map((id) => startingRoom(id, { usualMaterialId, usualPrimerId }, materials));
}
