import { useLayoutEffect, useRef } from 'react';
import { cornersInPlace } from '../../shared-core/plan/tape-room.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { useDraft } from '../book/drafts.ts';
import { closedSides, readTape, type Tape, tapeOf } from './tape-draft.ts';
import { changePlan, reported } from './reported-changes.ts';
import { theRoom } from '../../shared-core/standing/names.ts';

/** The sides being entered, with their commands. */
export interface TapeAtHand {
  readonly tape: Tape;
  /** True when they are incomplete or do not close, so that the walls differ. */
  readonly isOpen: boolean;
  /** Changes the newest sides, which may be newer than those on the screen. */
  readonly changeTape: (update: (tape: Tape) => Tape) => void;
  readonly giveUp: () => void;
}

/** The sides of a room, as drawn or being entered. They become the walls when they close. */
export function useTape(room: Room): TapeAtHand | undefined {
  const { text, save: saveDraft } = useDraft(`room/${room.id}/sides`);
  const draft = readTape(text);
  const tape = draft ?? tapeOf(room.plan.outline);
  const latest = useRef(tape);
  useLayoutEffect(() => {
    latest.current = tape;
  });
  if (text === undefined) return undefined;
  const changeTape = (update: (tape: Tape) => Tape) => {
    const next = update(latest.current);
    latest.current = next;
    const sides = closedSides(next);
    if (sides === null) {
      void reported(saveDraft(JSON.stringify(next)));
      return;
    }
    const outline = cornersInPlace(sides, next);
    void saveDraft(null, changePlan(room.id, `walls of ${theRoom(room.name)}`, { outline: [...outline] }));
  };
  return { tape, isOpen: draft !== null, changeTape, giveUp: () => void saveDraft(null) };
}
