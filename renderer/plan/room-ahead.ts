/**
 * Changes to a room that its screens have made and the book's own view does not show yet. A field typed into while the
 * book still writes must start from the change before it, or it would put the older state back.
 */
import { useMemo, useSyncExternalStore } from 'react';
import type { Room } from '../../shared-core/book/room.ts';
import { nowInstant } from '../book/moment.ts';
import type { Outcome } from '../book/outcome.ts';

interface Ahead {
  /** No later than the change the book writes for it. */
  readonly instant: string;
  readonly update: (room: Room) => Room;
}

/** A change that was written but taken back before any view showed it is let go after this. */
const LET_GO_MS = 5000;

const NONE: readonly Ahead[] = [];
const byRoom = new Map<string, readonly Ahead[]>();
const listeners = new Set<() => void>();

function put(roomId: string, pending: readonly Ahead[]): void {
  if (pending.length === 0) byRoom.delete(roomId);
  else byRoom.set(roomId, pending);
  for (const listener of listeners) listener();
}

const listen = (changed: () => void) => {
  listeners.add(changed);
  return () => listeners.delete(changed);
};

/** Shows a change from now on, and begins to write it; one that cannot be written is shown no longer. */
export function applyAhead(roomId: string, update: (room: Room) => Room, write: () => Promise<Outcome>): Promise<Outcome> {
  const pending: Ahead = { instant: nowInstant(), update };
  put(roomId, [...(byRoom.get(roomId) ?? NONE), pending]);
  const letGo = () =>
    put(
      roomId,
      (byRoom.get(roomId) ?? NONE).filter((a) => a !== pending),
    );
  return write().then((outcome) => {
    if (outcome.ok) setTimeout(letGo, LET_GO_MS);
    else letGo();
    return outcome;
  });
}

/** A change that cannot be made leaves the room as it is: the writing of it says why. */
function applied(room: Room, update: (room: Room) => Room): Room {
  try {
    return update(room);
  } catch {
    return room;
  }
}

/** The room as the book shows it, with the changes that are still on their way to it. */
export function withAhead(room: Room, changes: readonly { readonly instant: string; readonly update: (room: Room) => Room }[]): Room {
  return changes.filter((a) => a.instant > room.changedAt).reduce((as, { update }) => applied(as, update), room);
}

/** {@link withAhead} for the room at hand, as long as its screen is open. */
export function useRoomAhead(room: Room | null | undefined): Room | null | undefined {
  const id = room?.id ?? '';
  const changes = useSyncExternalStore(listen, () => byRoom.get(id) ?? NONE);
  return useMemo(() => (room === null || room === undefined || changes.length === 0 ? room : withAhead(room, changes)), [room, changes]);
}
