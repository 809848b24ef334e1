import { useCallback, useLayoutEffect, useRef, useState } from 'react';
import { cornersInPlace } from '../../shared-core/plan/tape-room.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { dropDraft, useDraft } from '../book/drafts.ts';
import { closedSides, readTape, type Tape, tapeOf } from './tape-draft.ts';
import { changePlan, keepTyped } from './told-changes.ts';

/** The sides being typed, and what to do with them. */
export interface TapeAtHand {
  readonly tape: Tape;
  /** They differ from the walls as drawn: not all read, or not closed. */
  readonly isOpen: boolean;
  /** Changes the sides as they stand by then, which may be ahead of those last shown. */
  readonly changeTape: (how: (tape: Tape) => Tape) => void;
  readonly giveUp: () => void;
}

/** Sides changed here, shown until the book's own view has them; `drawn` once they are the walls. */
interface Typed {
  readonly tape: Tape;
  readonly drawn: boolean;
}

/** The sides of a room: as drawn, or as far as they are typed. They become the walls when they close. */
export function useTape(room: Room): TapeAtHand | undefined {
  const key = `room/${room.id}/sides`;
  const kept = useDraft(key);
  const [typed, setTyped] = useState<Typed | null>(null);
  if (typed !== null && kept === (typed.drawn ? null : JSON.stringify(typed.tape))) setTyped(null);
  const draft = readTape(kept);
  const tape = typed?.tape ?? draft ?? tapeOf(room.plan.outline);
  const latest = useRef(tape);
  useLayoutEffect(() => {
    latest.current = tape;
  });
  const changeTape = useCallback(
    (how: (tape: Tape) => Tape) => {
      const next = how(latest.current);
      latest.current = next;
      setTyped({ tape: next, drawn: false });
      const then = (after: Typed | null) => setTyped((now) => (now?.tape === next ? after : now));
      const sides = closedSides(next);
      if (sides === null) {
        void keepTyped(key, JSON.stringify(next));
        return;
      }
      const outline = cornersInPlace(sides, next);
      void changePlan(room.id, `walls of the ${room.name}`, (plan) => ({ ...plan, outline: [...outline] })).then(async (outcome) => {
        if (outcome.ok) await dropDraft(key);
        then(outcome.ok ? { tape: next, drawn: true } : null);
      });
    },
    [key, room.id, room.name],
  );
  const giveUp = useCallback(() => {
    setTyped(null);
    void dropDraft(key);
  }, [key]);
  if (kept === undefined) return undefined;
  return { tape, isOpen: typed === null ? draft !== null : closedSides(typed.tape) === null, changeTape, giveUp };
}
