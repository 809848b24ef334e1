import type { Customer } from '../../shared-core/book/customer.ts';
import type { Job, JobRoom } from '../../shared-core/book/job.ts';
import type { Property } from '../../shared-core/book/property.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { useOne, useWhere } from '../book/use-records.ts';
import { useRoomAhead } from './pending-room.ts';

/** A room with its property, its customer, and its open job. */
export interface RoomAtHand {
  readonly room: Room;
  /** The stored room; `room` also has changes still being written. */
  readonly written: Room;
  readonly property: Property | null;
  readonly customer: Customer | null;
  readonly houseRooms: readonly Room[];
  /** The newest open job with this room; null for none. */
  readonly job: Job | null;
  readonly jobRoom: JobRoom | null;
}

/** Null when the room does not exist, undefined while loading. */
export function useRoom(roomId: string): RoomAtHand | null | undefined {
  const written = useOne('rooms', roomId);
  const room = useRoomAhead(written);
  const property = useOne('properties', room?.propertyId ?? null);
  const customer = useOne('customers', property?.customerId ?? null);
  const houseRooms = useWhere('rooms', 'propertyId', room?.propertyId ?? null);
  const jobs = useWhere('jobs', 'propertyId', room?.propertyId ?? null);
  if (room === null || written === null) return null;
  if (
    room === undefined ||
    written === undefined ||
    property === undefined ||
    customer === undefined ||
    houseRooms === undefined ||
    jobs === undefined
  )
    return undefined;
  const job = jobs
    .filter((j) => j.state === 'open' && j.rooms.some((r) => r.roomId === roomId))
    .sort((a, b) => b.createdAt.localeCompare(a.createdAt))[0];
  return {
    room,
    written,
    property,
    customer,
    houseRooms,
    job: job ?? null,
    jobRoom: job?.rooms.find((r) => r.roomId === roomId) ?? null,
  };
}
