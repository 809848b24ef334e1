/** Rooms of a new job start with the company's usual material and primer. */
import type { Business } from '../../shared-core/book/business.ts';
import type { JobRoom } from '../../shared-core/book/job.ts';
import { startingRoom } from '../../shared-core/material/usual-material.ts';
import { book } from './database.ts';
import { readable } from './integrity.ts';

export async function startingRooms(business: Business | undefined, roomIds: readonly string[]): Promise<JobRoom[]> {
  const { usualMaterialId = null, usualPrimerId = null } = business ?? {};
  const ids = [usualMaterialId, usualPrimerId].filter((id) => id !== null);
  const rows = ids.length === 0 ? [] : await book().rowsOf('materials').bulkGet(ids);
  const materials = readable(
    'materials',
    rows.filter((row) => row !== undefined),
  );
  return roomIds.map((id) => startingRoom(id, { usualMaterialId, usualPrimerId }, materials));
}
