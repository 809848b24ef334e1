/**
 * Changes to a room that live queries do not show yet. A field edited during a write must start from the change before it, or it would
 * restore the older value.
 */
import { updated, type Update } from '../book/write.ts';
import { useMemo, useSyncExternalStore } from 'react';
import type { Room } from '../../shared-core/book/room.ts';
import { nowInstant, type Outcome } from '../book/command.ts';

interface Ahead {
  /** A bound on its change time: no later than the stored one's. */
  readonly instant: string;
  readonly update: Update<Room>;
}

/** Drops a stored change after this time in case it was undone before a query showed it, ms. */
const LET_GO_MS = 5000;

const NONE: readonly Ahead[] = [];
const byRoom = new Map<string, readonly Ahead[]>();
const listeners = new Set<() => void>();

function setPending(roomId: string, pending: readonly Ahead[]): void {
  if (pending.length === 0) byRoom.delete(roomId);
  else byRoom.set(roomId, pending);
  for (const listener of listeners) listener();
}

const listen = (changed: () => void) => {
  listeners.add(changed);
  return () => listeners.delete(changed);
};

/** Shows a change at once and writes it; a change that cannot be written is dropped. */
export function applyAhead(roomId: string, update: Update<Room>, write: () => Promise<Outcome>): Promise<Outcome> {
  const pending: Ahead = { instant: nowInstant(), update };
  setPending(roomId, [...(byRoom.get(roomId) ?? NONE), pending]);
  const letGo = () =>
    setPending(
      roomId,
      (byRoom.get(roomId) ?? NONE).filter((a) => a !== pending),
    );
  return write().then((outcome) => {
    if (outcome.ok) setTimeout(letGo, LET_GO_MS);
    else letGo();
    return outcome;
  });
}

/** A change that throws leaves the room unchanged; its write reports why. */
function applied(room: Room, update: Update<Room>): Room {
  try {
    return updated(room, update);
  } catch {
    return room;
  }
}

/** The stored room with the changes that are not in it yet. */
export function withAhead(room: Room, changes: readonly { readonly instant: string; readonly update: Update<Room> }[]): Room {
  return changes.filter((a) => a.instant > room.changedAt).reduce((as, { update }) => applied(as, update), room);
}

/** {@link withAhead}, live while the room's screen is open. */
export function useRoomAhead(room: Room | null | undefined): Room | null | undefined {
  const id = room?.id ?? '';
  const changes = useSyncExternalStore(listen, () => byRoom.get(id) ?? NONE);
  return useMemo(() => (room === null || room === undefined || changes.length === 0 ? room : withAhead(room, changes)), [room, changes]);
}
