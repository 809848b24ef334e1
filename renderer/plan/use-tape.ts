import { useCallback } from 'react';
import { cornersInPlace } from '../../shared-core/plan/tape-room.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { dropDraft, keepDraft, useDraft } from '../book/drafts.ts';
import { nowInstant } from '../book/moment.ts';
import { closedSides, readTape, type Tape, tapeOf } from './tape-draft.ts';
import { changePlan } from './told-changes.ts';

/** The sides being typed, and what to do with them. */
export interface TapeAtHand {
  readonly tape: Tape;
  /** They differ from the walls as drawn: not all read, or not closed. */
  readonly isOpen: boolean;
  readonly setTape: (tape: Tape) => void;
  readonly giveUp: () => void;
}

/** The sides of a room: as drawn, or as far as they are typed. They become the walls when they close. */
export function useTape(room: Room): TapeAtHand | undefined {
  const key = `room/${room.id}/sides`;
  const kept = useDraft(key);
  const setTape = useCallback(
    (tape: Tape) => {
      const sides = closedSides(tape);
      if (sides === null) {
        void keepDraft(key, JSON.stringify(tape), nowInstant());
        return;
      }
      const outline = cornersInPlace(sides, tape);
      void changePlan(room.id, `walls of the ${room.name}`, (plan) => ({ ...plan, outline: [...outline] })).then((outcome) =>
        outcome.ok ? dropDraft(key) : undefined,
      );
    },
    [key, room.id, room.name],
  );
  const giveUp = useCallback(() => void dropDraft(key), [key]);
  if (kept === undefined) return undefined;
  const draft = readTape(kept);
  return { tape: draft ?? tapeOf(room.plan.outline), isOpen: draft !== null, setTape, giveUp };
}
