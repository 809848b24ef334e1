import { useCallback, useEffect, useMemo, useRef, useState } from 'react';
import type { JobRoom, LevelChoice } from '../../shared-core/book/job.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { estimateLevel, type LevelEstimate, type RoomContext } from '../../shared-core/price/estimate-room.ts';
import type { SurveyedRoom } from '../../shared-core/survey/survey-room.ts';
import { AT_ONCE, surveyWorker } from './use-survey.ts';

export interface LevelAsked {
  readonly room: Room;
  readonly jobRoom: JobRoom;
  readonly context: RoomContext;
  /** The floor from the readings. */
  readonly survey: Extract<SurveyedRoom, { state: 'surveyed' }>;
}

/**
 * The estimate for a finish elevation being dragged. Small floors are calculated at once, large ones in the worker, newest first, so that
 * the line never waits. Null without an elevation and before the first result.
 */
export function useLevelEstimate(asked: LevelAsked, level: LevelChoice | null): LevelEstimate | null {
  const isSmall = asked.survey.floor.spots.length <= AT_ONCE;
  const atLevel = useCallback((of: LevelChoice) => estimateLevel(asked.room, asked.jobRoom, of, asked.context), [asked]);
  const atOnce = useMemo(() => (level !== null && isSmall ? atLevel(level) : null), [atLevel, level, isSmall]);
  const [sent, setSent] = useState<{ readonly of: LevelChoice; readonly estimate: LevelEstimate | null } | null>(null);
  const wanted = useRef<LevelChoice | null>(null);
  const isBusy = useRef(false);
  useEffect(() => {
    wanted.current = isSmall ? null : level;
    const next = (): void => {
      const of = wanted.current;
      if (of === null || isBusy.current) return;
      isBusy.current = true;
      wanted.current = null;
      const { room, jobRoom, context } = asked;
      const done = (estimate: LevelEstimate | null): void => {
        isBusy.current = false;
        setSent({ of, estimate });
        next();
      };
      surveyWorker()
        .estimateLevel(room, jobRoom, of, context)
        .then(done, () => done(atLevel(of)));
    };
    next();
  }, [asked, atLevel, level, isSmall]);
  if (level === null) return null;
  return isSmall ? atOnce : (sent?.estimate ?? null);
}
