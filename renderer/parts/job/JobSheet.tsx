import { type ComponentProps, useEffect, useRef } from 'react';
import type { JobGlance, JobReading, RoomReading } from '../../../shared-core/standing/read-job.ts';
import { LinkWord } from '../Buttons.tsx';
import { NotFound, Sheet } from '../Sheet.tsx';
import { jobStateWord } from '../../../shared-core/standing/job-money.ts';
import { STAGE_NAMES, type StageOnSheet, stageHref, stageInRoom, stageWord } from './stage-words.ts';
import type { JobStanding } from '../../../shared-core/standing/room-standing.ts';
import { STATE_WORDS, StateShape } from '../StateShape.tsx';
import type { Room } from '../../../shared-core/book/room.ts';
import { keyPlan } from '../../../shared-core/drawing/house.ts';
import type { Drawing } from '../../../shared-core/drawing/marks.ts';
import { Link } from 'wouter';
import { Pointer } from '../Pointer.tsx';
import '../StageWords.css';
import { DrawingView } from '../DrawingView.tsx';
import { joined } from '../../../shared-core/measure/list.ts';
import '../KeyPlan.css';

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
        where: joined([property.address.line, property.address.city]),
        right: (
          <span className="words">
            {`Job ${job.number}${job.state === 'open' ? '' : `, ${jobStateWord(job, whole.quotes)}`}`}
            <LinkWord href={`/properties/${property.id}`}>Property</LinkWord>
            <LinkWord href={`/jobs/${job.id}/money`}>Money</LinkWord>
          </span>
        ),
        short: [room?.name, customer.name].filter(Boolean).join(', '),
      }}
      {...(withoutKeyPlan ? {} : { keyPlan: <KeyPlan whole={whole} standing={standing} roomId={roomId} stage={stage} /> })}
      stages={<StageWords jobId={job.id} roomId={roomId} stages={room?.stages ?? []} current={stage} />}
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

export function NoJob() {
  return (
    <NotFound
      page="Jobs"
      what="Job"
      drawing="jobs"
      heading="This job or room was not found."
      hint="It may be archived, or on another computer."
    />
  );
}

export interface StageProps {
  readonly reading: JobReading;
  readonly roomReading: RoomReading;
}

interface StageWordsProps {
  readonly jobId: string;
  readonly roomId: string;
  readonly stages: JobStanding['rooms'][number]['stages'];
  readonly current: StageOnSheet;
}

/** The stages of a job on a line: the pointer under the current one, the state's shape under the others. */
function StageWords({ jobId, roomId, stages, current }: StageWordsProps) {
  const currentRef = useRef<HTMLAnchorElement>(null);
  useEffect(() => {
    currentRef.current?.scrollIntoView({ block: 'nearest', inline: 'center', behavior: 'instant' });
  }, [current]);
  return (
    <nav aria-label="Stages" className="stage-words">
      <ol>
        {stages.map(({ stage, state }) => {
          const isHere = STAGE_NAMES[stage] === STAGE_NAMES[current];
          return (
            <li key={stage}>
              <Link href={stageHref(jobId, stage, roomId)} ref={isHere ? currentRef : undefined} aria-current={isHere ? 'page' : undefined}>
                {STAGE_NAMES[stage]}
                <span className="hidden-words">, {STATE_WORDS[state]}</span>
                <span className="stage-words-shape" title={STATE_WORDS[state]}>
                  {isHere ? <Pointer /> : state !== 'waiting' && <StateShape state={state} sizePx={9} />}
                </span>
              </Link>
            </li>
          );
        })}
      </ol>
    </nav>
  );
}

interface KeyPlanProps {
  readonly whole: JobGlance['whole'];
  readonly standing: JobStanding;
  readonly roomId: string;
  readonly stage: StageOnSheet;
}

/** The job's rooms in outline, the current one hatched, and as a list with their stages. */
function KeyPlan({ whole, standing, roomId, stage }: KeyPlanProps) {
  const drawing = keyPlanDrawing(whole.rooms, roomId);
  const list = useRef<HTMLUListElement>(null);
  // Many rooms scroll within the list. The page itself stays where it is.
  useEffect(() => {
    const here = list.current?.querySelector('[aria-current]')?.getBoundingClientRect();
    const frame = list.current?.getBoundingClientRect();
    if (list.current === null || here === undefined || frame === undefined) return;
    if (here.top < frame.top || here.bottom > frame.bottom)
      list.current.scrollTop += here.top + here.height / 2 - (frame.top + frame.height / 2);
  }, [roomId]);
  return (
    <div className="key-plan">
      {drawing !== null && (
        <div className="key-plan-drawing">
          <DrawingView drawing={drawing} label={`Key plan: ${standing.rooms.map((r) => r.name).join(', ')}`} />
        </div>
      )}
      <ul className="key-plan-rooms" ref={list}>
        {standing.rooms.map((room) => (
          <li key={room.roomId}>
            <Link
              href={stageHref(whole.job.id, room.roomId === roomId ? stage : stageInRoom(room, stage), room.roomId)}
              aria-current={room.roomId === roomId ? 'true' : undefined}
            >
              <StateShape state={room.state} sizePx={17} />
              <span className="key-plan-name">{room.name}</span>
              <span className="key-plan-words">
                {room.state === 'held' ? `${stageWord(room.stage)}, ${STATE_WORDS.held}` : stageWord(room.stage)}
              </span>
            </Link>
          </li>
        ))}
      </ul>
    </div>
  );
}
