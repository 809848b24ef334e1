import { useLayoutEffect, useRef } from 'react';
import { cornersInPlace } from '../../shared-core/plan/tape-room.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { useDraft } from '../book/drafts.ts';
import { closedSides, readTape, type Tape, tapeOf } from './tape-draft.ts';
import { changePlan, reported } from './reported-changes.ts';

/** The sides being typed, and what to do with them. */
export interface TapeAtHand {
  readonly tape: Tape;
  /** They differ from the walls as drawn: not all read, or not closed. */
  readonly isOpen: boolean;
  /** Changes the sides as they stand by then, which may be ahead of those last shown. */
  readonly changeTape: (update: (tape: Tape) => Tape) => void;
  readonly giveUp: () => void;
}

/** The sides of a room: as drawn, or as far as they are typed. They become the walls when they close. */
export function useTape(room: Room): TapeAtHand | undefined {
  const { text, put } = useDraft(`room/${room.id}/sides`);
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
      void reported(put(JSON.stringify(next)));
      return;
    }
    const outline = cornersInPlace(sides, next);
    void put(
      null,
      changePlan(room.id, `walls of the ${room.name}`, (plan) => ({ ...plan, outline: [...outline] })),
    );
  };
  return { tape, isOpen: draft !== null, changeTape, giveUp: () => void put(null) };
}
