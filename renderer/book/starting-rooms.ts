/** Rooms of a new job start with the company's usual material and primer, or the typical ones before any was chosen. */
import type { Business } from '../../shared-core/book/business.ts';
import type { JobRoom } from '../../shared-core/book/job.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { withRoomTold } from '../../shared-core/lead/lead-records.ts';
import { startingIds, startingRoom } from '../../shared-core/material/usual-material.ts';
import { book } from './database.ts';
import { readable } from './integrity.ts';

const found = <R>(rows: readonly (R | undefined)[]): R[] => rows.filter((row) => row !== undefined);

/** @param told rooms of the same edit: new ones, and what was told of those on record */
export async function startingRooms(
  business: Business | undefined,
  roomIds: readonly string[],
  told: readonly Room[] = [],
): Promise<JobRoom[]> {
  const { usualMaterialId = null, usualPrimerId = null } = business ?? {};
  const usual = { usualMaterialId, usualPrimerId };
  const materials = readable('materials', found(await book().rowsOf('materials').bulkGet(startingIds(usual))));
  const stored = readable(
    'rooms',
    found(
      await book()
        .rowsOf('rooms')
        .bulkGet([...roomIds]),
    ),
  );
  const roomOf = (id: string): Room | null => {
    const [was, now] = [stored, told].map((rooms) => rooms.find((room) => room.id === id));
    return (was === undefined || now === undefined ? (was ?? now) : withRoomTold(was, now)) ?? null;
  };
  return roomIds.map((id) => startingRoom(id, roomOf(id), usual, materials));
}
