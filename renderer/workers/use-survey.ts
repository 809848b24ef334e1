import { type Remote, wrap } from 'comlink';
import { useEffect, useMemo, useState } from 'react';
import type { LevelChoice } from '../../shared-core/book/job.ts';
import type { Plan, Survey } from '../../shared-core/book/plan-fields.ts';
import { type SurveyedRoom, type SurveyOptions, surveyRoom } from '../../shared-core/survey/survey-room.ts';
import type { SurveyWork } from './survey.worker.ts';
import { useSame } from './use-same.ts';

/** Smaller surveys are calculated in the page, readings: that is faster than sending them. */
export const AT_ONCE = 260;

export interface SurveyAsked {
  readonly plan: Plan;
  readonly survey: Survey;
  readonly choice: LevelChoice;
  readonly options: SurveyOptions;
}

/** A survey, and whether a newer one is being calculated; the last one is shown meanwhile. */
export interface SurveyHad {
  /** Null before the first result, and when none is requested. */
  readonly surveyed: SurveyedRoom | null;
  readonly isBehind: boolean;
}

let worker: Remote<SurveyWork> | null = null;

export const startSurveyWorker = (): Worker => new Worker(new URL('./survey.worker.ts', import.meta.url), { type: 'module' });

/** One worker for all floors. */
export function surveyWorker(): Remote<SurveyWork> {
  worker ??= wrap<SurveyWork>(startSurveyWorker());
  return worker;
}

/** The survey of a room, calculated again when an input changes; null requests none. */
export function useSurvey(asked: SurveyAsked | null): SurveyHad {
  const same = useSame(asked);
  const isSmall = same !== null && same.survey.readings.length <= AT_ONCE;
  const atOnce = useMemo(
    () => (same !== null && isSmall ? surveyRoom(same.plan, same.survey, same.choice, same.options) : null),
    [same, isSmall],
  );
  const [sent, setSent] = useState<{ readonly of: SurveyAsked; readonly surveyed: SurveyedRoom } | null>(null);
  useEffect(() => {
    if (same === null || isSmall) return undefined;
    let isGone = false;
    const done = (surveyed: SurveyedRoom) => {
      if (!isGone) setSent({ of: same, surveyed });
    };
    surveyWorker()
      .surveyRoom(same.plan, same.survey, same.choice, same.options)
      // Where no worker can start, the page calculates it.
      .then(done, () => done(surveyRoom(same.plan, same.survey, same.choice, same.options)));
    return () => {
      isGone = true;
    };
  }, [same, isSmall]);
  if (same === null) return { surveyed: null, isBehind: false };
  if (atOnce !== null) return { surveyed: atOnce, isBehind: false };
  return { surveyed: sent?.surveyed ?? null, isBehind: sent?.of !== same };
}
