import type { ComponentProps } from 'react';
import type { JobGlance } from '../../../shared-core/standing/read-job.ts';
import { LinkWord } from '../Buttons.tsx';
import { Sheet, EmptySheet, SheetHeading } from '../Sheet.tsx';
import { StageWords } from '../StageWords.tsx';
import { JOB_STATE_WORDS, STAGE_NAMES, type StageOnSheet, stageHref, openingStage, stageWord } from './stage-words.ts';
import type { JobStanding } from '../../../shared-core/standing/room-standing.ts';
import { KeyPlan } from '../KeyPlan.tsx';
import { STATE_WORDS } from '../StateShape.tsx';
import type { Room } from '../../../shared-core/book/room.ts';
import { keyPlan } from '../../../shared-core/drawing/house.ts';
import type { Drawing } from '../../../shared-core/drawing/marks.ts';

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

interface JobKeyPlanProps {
  readonly whole: JobGlance['whole'];
  readonly standing: JobStanding;
  readonly roomId: string;
}

/** The job's rooms in outline, the current one hatched, each with its stage. */
function JobKeyPlan({ whole, standing, roomId }: JobKeyPlanProps) {
  return (
    <KeyPlan
      drawing={keyPlanDrawing(whole.rooms, roomId)}
      rooms={standing.rooms.map((room) => ({
        id: room.roomId,
        name: room.name,
        href: stageHref(whole.job.id, openingStage(room.stage), room.roomId),
        state: room.state,
        words: room.state === 'held' ? `${stageWord(room.stage)}, ${STATE_WORDS.held}` : stageWord(room.stage),
        current: room.roomId === roomId,
      }))}
    />
  );
}

const [WIDTH_PX, HEIGHT_PX] = [140, 96];

/** Null until a room of the job is drawn. */
function keyPlanDrawing(rooms: readonly Room[], currentId: string): Drawing | null {
  const drawn = rooms.filter((room) => room.plan.outline.length >= 3);
  if (drawn.length === 0) return null;
  return keyPlan(
    drawn.map((room) => ({ id: room.id, plan: room.plan, isPicked: room.id === currentId, label: room.name })),
    WIDTH_PX,
    HEIGHT_PX,
  );
}

/** Shown when a job or room is not found. */
export function NoJob() {
  return (
    <Sheet page="Jobs" who={{ name: 'Jobs' }}>
      <SheetHeading>Job not found</SheetHeading>
      <EmptySheet
        drawing="jobs"
        heading="This job or room was not found."
        hint="It may be archived, or on another computer."
        first={<LinkWord href="/jobs">Go to Jobs</LinkWord>}
      />
    </Sheet>
  );
}
