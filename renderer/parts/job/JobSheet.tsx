import type { ComponentProps } from 'react';
import type { JobGlance } from '../../../shared-core/standing/read-job.ts';
import { LinkWord } from '../Buttons.tsx';
import { Sheet } from '../Sheet.tsx';
import { StageWords } from '../StageWords.tsx';
import { JobKeyPlan } from './JobKeyPlan.tsx';
import { JOB_STATE_WORDS, STAGE_NAMES, type StageOnSheet, stageHref } from './stage-words.ts';

type SheetProps = ComponentProps<typeof Sheet>;

interface JobSheetProps extends Omit<SheetProps, 'page' | 'who' | 'keyPlan' | 'stages'> {
  readonly reading: Pick<JobGlance, 'whole' | 'standing'>;
  readonly roomId: string;
  readonly stage: StageOnSheet;
  /** Left out where the drawing already shows the rooms. */
  readonly withoutKeyPlan?: boolean;
}

/** The frame of a stage screen: customer and property, rooms as a key plan, stages with their states. */
export function JobSheet({ reading, roomId, stage, withoutKeyPlan = false, ...sheet }: JobSheetProps) {
  const { whole, standing } = reading;
  const { customer, property, job } = whole;
  const room = standing.rooms.find((r) => r.roomId === roomId);
  return (
    <Sheet
      {...sheet}
      page="Jobs"
      who={{
        name: customer.name,
        where: [property.address.line, property.address.city].filter((part) => part !== '').join(', '),
        right: (
          <>
            {`Job ${job.number}${job.state === 'open' ? '' : `, ${JOB_STATE_WORDS[job.state]}`} `}
            <LinkWord href={`/properties/${property.id}`}>Property</LinkWord> <LinkWord href={`/jobs/${job.id}/money`}>Money</LinkWord>
          </>
        ),
        short: `${customer.name}: ${room?.name ?? ''}`,
      }}
      {...(withoutKeyPlan ? {} : { keyPlan: <JobKeyPlan whole={whole} standing={standing} roomId={roomId} /> })}
      stages={
        <StageWords
          current={STAGE_NAMES[stage]}
          stages={(room?.stages ?? []).map((state) => ({
            name: STAGE_NAMES[state.stage],
            href: stageHref(job.id, state.stage, roomId),
            state: state.state,
          }))}
        />
      }
    />
  );
}
