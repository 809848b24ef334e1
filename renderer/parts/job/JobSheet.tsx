import type { ComponentProps } from 'react';
import type { Stage } from '../../../shared-core/book/job.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { Sheet } from '../Sheet.tsx';
import { StageWords } from '../StageWords.tsx';
import { JobKeyPlan } from './JobKeyPlan.tsx';
import { JOB_STATE_WORDS, STAGE_NAMES, type StageOnSheet, stageHref, stageState } from './stage-words.ts';

type SheetProps = ComponentProps<typeof Sheet>;

interface JobSheetProps extends Omit<SheetProps, 'page' | 'who' | 'keyPlan' | 'stages'> {
  readonly whole: WholeJob;
  readonly roomId: string;
  readonly stage: StageOnSheet;
  /** The stage that is held for this room, if any; drawn as the bar. */
  readonly heldAt?: Stage | null;
  /** Left out where the rooms stand in the drawing anyway. */
  readonly withoutKeyPlan?: boolean;
}

/** A sheet of a job: who and where, the rooms as a key plan, the stages as words. Every stage of the work is one. */
export function JobSheet({ whole, roomId, stage, heldAt = null, withoutKeyPlan = false, ...sheet }: JobSheetProps) {
  const { customer, property, job } = whole;
  const jobRoom = job.rooms.find((r) => r.roomId === roomId);
  const room = whole.rooms.find((r) => r.id === roomId);
  const at = jobRoom?.stage ?? 'assess';
  return (
    <Sheet
      {...sheet}
      page="Jobs"
      who={{
        name: customer.name,
        where: [property.address.line, property.address.city].filter((part) => part !== '').join(', '),
        right: `Job ${job.number}${job.state === 'open' ? '' : `, ${JOB_STATE_WORDS[job.state]}`}`,
        short: `${customer.name}: ${room?.name ?? ''}`,
      }}
      {...(withoutKeyPlan ? {} : { keyPlan: <JobKeyPlan whole={whole} roomId={roomId} stage={stage} heldAt={heldAt} /> })}
      stages={
        <StageWords
          current={STAGE_NAMES[stage]}
          stages={(Object.keys(STAGE_NAMES) as StageOnSheet[]).map((s) => ({
            name: STAGE_NAMES[s],
            href: stageHref(job.id, s, roomId),
            state: s === heldAt ? 'held' : stageState(s, at),
          }))}
        />
      }
    />
  );
}
