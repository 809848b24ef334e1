import { useEffect, useMemo, useRef, useState } from 'react';
import type { JobRoom, LevelChoice } from '../../shared-core/book/job.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { estimateRoom, type RoomContext } from '../../shared-core/price/estimate-room.ts';
import type { SurveyedRoom } from '../../shared-core/survey/survey-room.ts';
import type { LevelEstimate } from './survey.worker.ts';
import { AT_ONCE, surveyWorker } from './use-survey.ts';

/** What a level is estimated from. */
export interface LevelAsked {
  readonly room: Room;
  readonly jobRoom: JobRoom;
  readonly context: RoomContext;
  /** The room's floor as read. */
  readonly survey: Extract<SurveyedRoom, { state: 'surveyed' }>;
}

function atLevel({ room, jobRoom, context, survey }: LevelAsked, level: LevelChoice): LevelEstimate | null {
  const estimate = estimateRoom(room, jobRoom, { level, materialId: jobRoom.materialId }, context, survey);
  return estimate.survey.state === 'surveyed' ? { level: estimate.survey.level, takeoff: estimate.takeoff } : null;
}

/**
 * What a level under the hand takes. Few readings are worked out at once; many in the worker, the newest level first, so
 * that the line never waits for its figures. Null while no level is asked for and before the first answer.
 */
export function useLevelEstimate(asked: LevelAsked, level: LevelChoice | null): LevelEstimate | null {
  const isSmall = asked.survey.floor.spots.length <= AT_ONCE;
  const atOnce = useMemo(() => (level !== null && isSmall ? atLevel(asked, level) : null), [asked, level, isSmall]);
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
        .estimateLevel(room, jobRoom, { level: of, materialId: jobRoom.materialId }, context)
        .then(done, () => done(atLevel(asked, of)));
    };
    next();
  }, [asked, level, isSmall]);
  if (level === null) return null;
  return isSmall ? atOnce : (sent?.estimate ?? null);
}
