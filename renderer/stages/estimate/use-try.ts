import { updated, type Update } from '../../book/write.ts';
import { useLayoutEffect, useMemo, useRef } from 'react';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { type JobTry, optionOfTry, tryOfText, tryRoom, withTry } from '../../../shared-core/standing/what-if.ts';
import type { JobRoom } from '../../../shared-core/book/job.ts';
import { useDraft } from '../../book/drafts.ts';
import { changeJob } from '../../book/job-commands.ts';
import { newId, done, type Outcome } from '../../book/command.ts';
import { useTried } from '../../workers/use-tried.ts';

const NOTHING: JobTry = [];

/** The what-if of an estimate, stored as a draft and in no record until it is applied. */
export interface Trying {
  readonly tries: JobTry;
  /** The what-if job with its figures; null without one. */
  readonly reading: JobReading | null;
  /** The job's rooms with the what-if applied, before figures are calculated. */
  readonly rooms: readonly JobRoom[];
  readonly set: (tries: JobTry) => void;
  readonly change: (roomId: string, update: Update<JobRoom>) => void;
  /** Applies it to the job in one step of undo. */
  readonly save: () => Promise<Outcome>;
  /** Adds its levels and materials to the quote as an option. */
  readonly offer: () => Promise<Outcome>;
  readonly letGo: () => void;
}

/** `isOn` false calculates nothing. */
export function useTry(planned: JobReading, now: string, isOn: boolean): Trying {
  const { whole } = planned;
  const { text, save: saveDraft } = useDraft(`what-if/${whole.job.id}`);
  const tries = useMemo(() => tryOfText(text) ?? NOTHING, [text]);
  const { tried, whenRead } = useTried(whole, tries, now, isOn);
  // The next change starts from the last one, even before that is shown.
  const latest = useRef(tries);
  useLayoutEffect(() => {
    latest.current = tries;
  });
  const set = (next: JobTry): void => {
    latest.current = next;
    void saveDraft(next.length === 0 ? null : JSON.stringify(next));
  };
  const letGo = (): void => set(NOTHING);
  const finish = async (writing: Promise<Outcome>): Promise<Outcome> => {
    const outcome = await writing;
    if (outcome.ok) letGo();
    return outcome;
  };
  return {
    tries,
    reading: tried?.reading ?? null,
    set,
    rooms: useMemo(() => withTry(whole.job, tries).rooms, [whole.job, tries]),
    change: (roomId, update) => set(tryRoom(whole.job, latest.current, roomId, (room) => updated(room, update))),
    save: async () => {
      if (tries.length === 0) return done(undefined);
      const read = await whenRead();
      return finish(changeJob(whole.job.id, 'what-if changes', (job) => withTry(job, read.tries)));
    },
    offer: () =>
      finish(
        changeJob(whole.job.id, 'option', (job) => ({
          ...job,
          estimate: {
            ...job.estimate,
            options: [...job.estimate.options, optionOfTry(job, tries, newId(), 'What-if')],
          },
        })),
      ),
    letGo,
  };
}
