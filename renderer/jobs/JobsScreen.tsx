import type { Update } from '../book/write.ts';
import { useMemo, useState } from 'react';
import { propertyName, titleOfRooms } from '../../shared-core/standing/names.ts';
import { nextStep } from '../../shared-core/standing/next-step.ts';
import type { JobGlance } from '../../shared-core/standing/read-job.ts';
import type { Job } from '../../shared-core/book/job.ts';
import type { Stage } from '../../shared-core/standing/stage.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { useLocation } from 'wouter';
import { agenda } from '../../shared-core/agenda/agenda.ts';
import { jobConflicts } from '../../shared-core/agenda/move-date.ts';
import { ribbonView } from '../../shared-core/agenda/today.ts';
import { todayRibbon } from '../../shared-core/drawing/ribbon.ts';
import { putJob, changeJob } from '../book/job-commands.ts';
import { useGlances } from '../book/use-glances.ts';
import { useOpenLeads } from '../book/use-leads.ts';
import { useBusiness } from '../book/use-records.ts';
import { type ListedJob, useJobCount, useListedJobs, useWholeJobs } from '../book/use-whole-job.ts';
import { DatumDrawing } from '../parts/DrawingView.tsx';
import { useSmall } from '../parts/use-small.ts';
import { ribbonInput } from '../parts/job/ribbon-input.ts';
import { ActionButton, LinkWord, TextButton } from '../parts/Buttons.tsx';
import { ChoiceRow } from '../parts/Choices.tsx';
import { companyWho, EmptySheet, Sheet, BlockPart, SheetHeading } from '../parts/Sheet.tsx';
import { Dialog, ResultNotice, type Said } from '../parts/Dialog.tsx';
import { type StateName, StateShape } from '../parts/StateShape.tsx';
import { roomHref, stageWord } from '../parts/job/stage-words.ts';
import './jobs.css';
import { dayOfInstant } from '../../shared-core/measure/moment.ts';
import type { Outcome } from '../book/command.ts';
import { DateField, Fields, MomentField } from '../parts/Fields.tsx';

type Shown = Job['state'];
const SHOWN: Readonly<Record<Shown, string>> = { open: 'Open', finished: 'Finished', declined: 'Declined', 'set-aside': 'Archived' };

/** Jobs shown at a time. */
const AT_ONCE = 40;

/** All jobs, newest first: each room with its stage, and its next step while the job is open. */
export function JobsScreen() {
  const business = useBusiness();
  const [shown, setShown] = useState<Shown>('open');
  const [most, setMost] = useState(AT_ONCE);
  const [problem, say] = useState<Said>(null);
  const isOpen = shown === 'open';
  const glanced = useGlances(useWholeJobs('open', isOpen ? most : 0));
  const listed = useListedJobs(shown, isOpen ? 0 : most);
  const open = useJobCount('open') ?? 0;
  const all = useJobCount(shown) ?? 0;
  const rows = useMemo(() => {
    if (isOpen) return glanced?.glances.map((glance) => openRow(glance, glanced.now));
    return listed?.filter(({ job }) => job.state === shown).map(pastRow);
  }, [isOpen, shown, glanced, listed]);
  const small = useSmall();
  const [, go] = useLocation();
  const [dated, setDated] = useState<string | null>(null);
  const leads = useOpenLeads();
  const planned = useMemo(
    () =>
      business === undefined || glanced === undefined
        ? null
        : agenda(
            glanced.glances.map((g) => g.bundle),
            business,
            null,
            leads,
          ),
    [business, glanced, leads],
  );
  if (business === undefined) return <p className="today-reading caption">Loading…</p>;
  const now = glanced?.now ?? '';
  const view =
    planned === null || !isOpen || planned.jobs.length === 0 ? null : ribbonView(planned, [], now, business.timeZone, small ? 14 : 42);
  const datedRow = rows?.find(({ job }) => job.id === dated);
  const openRoom = (name: string): void => {
    const [kind, id] = name.split(':');
    const row = rows?.find(({ job, rooms }) => (kind === 'job' ? job.id === id : rooms.some(({ room }) => room.id === id)));
    const roomId = kind === 'job' ? row?.rooms[0]?.room.id : id;
    if (row !== undefined && roomId !== undefined) go(roomHref(row.job.id, roomId));
  };
  return (
    <Sheet
      page="Jobs"
      who={companyWho(business)}
      block={
        <BlockPart>
          <p>{open === 0 ? 'No open jobs.' : open === 1 ? '1 open job.' : `${open} open jobs.`} To start a job, open its property.</p>
        </BlockPart>
      }
      datum={
        view === null ? undefined : (
          <DatumDrawing
            label="Open jobs: rooms by stage and day"
            linePx={30}
            draw={(widthPx) => todayRibbon(ribbonInput(view, widthPx, small, business.locale))}
            onPick={openRoom}
          />
        )
      }
      foot={<p className="speech">A job starts with its property and rooms.</p>}
      action={<ActionButton href="/customers">Go to Customers</ActionButton>}
    >
      <SheetHeading>Jobs</SheetHeading>
      <div className="jobs-choice">
        <ChoiceRow
          label="Jobs shown"
          value={shown}
          onChange={(state) => {
            setShown(state);
            setMost(AT_ONCE);
          }}
          options={SHOWN}
        />
      </div>
      <ResultNotice message={problem} onClose={say} />
      {rows === undefined ? (
        <p className="caption">Loading…</p>
      ) : rows.length === 0 ? (
        <EmptySheet
          drawing="jobs"
          heading={shown === 'open' ? 'Open jobs appear here.' : 'No jobs.'}
          hint="Each job keeps its rooms, documents, and dates."
        />
      ) : (
        <ul className="jobs-list">
          {rows.map((row) => (
            <JobRow
              key={row.job.id}
              row={row}
              onDates={() => setDated(row.job.id)}
              onPut={(state) => void putJob(row.job, state).then(say)}
            />
          ))}
        </ul>
      )}
      {rows !== undefined && all > rows.length && rows.length > 0 && (
        <p className="small">
          {`${rows.length} of ${all} shown. `}
          <TextButton onPress={() => setMost(most + AT_ONCE)}>{`Show ${Math.min(AT_ONCE, all - rows.length)} more`}</TextButton>
        </p>
      )}
      {datedRow !== undefined && (
        <JobDatesDialog
          job={datedRow.job}
          title={`Dates of job ${datedRow.job.number}`}
          zone={datedRow.property.timeZone}
          now={now}
          conflicts={planned === null ? [] : jobConflicts(planned, datedRow.job.id, now)}
          onSaved={say}
          onClose={() => setDated(null)}
        />
      )}
    </Sheet>
  );
}

type RoomRow = {
  readonly room: Room;
  /** Null for a job that is no longer open. */
  readonly stage: Stage | null;
  readonly state: StateName;
  readonly step: string;
};
type Row = Pick<ListedJob, 'job' | 'customer' | 'property'> & { readonly rooms: readonly RoomRow[]; readonly canFinish: boolean };

function openRow({ whole, rooms, bundle, standing }: JobGlance, now: string): Row {
  const { job, customer, property, business } = whole;
  return {
    job,
    customer,
    property,
    canFinish: standing.canFinish,
    rooms: rooms.flatMap(({ room }) => {
      const step = nextStep(bundle, room.id, business, now);
      return step === null ? [] : [{ room, stage: step.standing.stage, state: step.standing.state, step: step.sentence }];
    }),
  };
}

function pastRow({ job, customer, property, rooms }: ListedJob): Row {
  return {
    job,
    customer,
    property,
    canFinish: false,
    rooms: rooms.flatMap((room) => {
      const jobRoom = job.rooms.find((r) => r.roomId === room.id);
      return jobRoom === undefined ? [] : [{ room, stage: null, state: jobRoom.handedOverAt === null ? 'waiting' : 'done', step: '' }];
    }),
  };
}

interface JobRowProps {
  readonly row: Row;
  readonly onDates: () => void;
  readonly onPut: (state: Job['state']) => void;
}

function JobRow({ row: { job, customer, property, rooms, canFinish }, onDates, onPut }: JobRowProps) {
  const stateButton = (state: Job['state'], word: string) => (
    <TextButton kind="plain" label={`${word}: job ${job.number}`} onPress={() => onPut(state)}>
      {word}
    </TextButton>
  );
  const isDone = job.rooms.every((room) => room.handedOverAt !== null);
  return (
    <li className="jobs-job">
      <div className="jobs-customer">
        <h2>
          <LinkWord href={`/customers/${customer.id}`} quiet>
            {customer.name}
          </LinkWord>
        </h2>
        <p className="caption">
          <LinkWord href={`/properties/${property.id}`} quiet>
            {propertyName(property)}
          </LinkWord>
        </p>
        <p className="small">
          Job {job.number}
          {`, ${titleOfRooms(rooms.map(({ room }) => room))}`}
        </p>
        <p className="words">
          {job.state === 'open' && (
            <TextButton kind="plain" label={`Dates of job ${job.number}`} onPress={onDates}>
              Dates
            </TextButton>
          )}
          {job.state !== 'open' && stateButton('open', 'Reopen')}
          {canFinish && stateButton('finished', 'Finish job')}
          {job.state === 'open' && isDone && !canFinish && <LinkWord href={`/jobs/${job.id}/money`}>Go to Money</LinkWord>}
          {(job.state === 'declined' || (job.state === 'open' && !isDone)) && stateButton('set-aside', 'Archive')}
        </p>
      </div>
      <ul className="jobs-rooms">
        {rooms.map(({ room, stage, state, step }) => (
          <li key={room.id}>
            <StateShape state={state} />
            <LinkWord href={roomHref(job.id, room.id)} quiet>
              {room.name}
            </LinkWord>
            <span className="caption">{stage === null ? '' : stageWord(stage)}</span>
            <span className="jobs-step">{step}</span>
          </li>
        ))}
      </ul>
    </li>
  );
}

interface JobDatesDialogProps {
  readonly job: Job;
  readonly title: string;
  readonly zone: string;
  readonly now: string;
  readonly conflicts: readonly string[];
  readonly onSaved: (outcome: Outcome) => void;
  readonly onClose: () => void;
}

/** The dates set by hand: quote due, prep, handover. The pour date is set on Pour, visits on Cure. */
function JobDatesDialog({ job, title, zone, now, conflicts, onSaved, onClose }: JobDatesDialogProps) {
  const edit = (label: string, change: Update<Job>): void => void changeJob(job.id, label, change).then(onSaved);
  return (
    <Dialog onClose={onClose} title={title} actions={<TextButton onPress={onClose}>Close</TextButton>}>
      <Fields>
        <DateField
          label="Quote due"
          today={dayOfInstant(now, zone)}
          value={job.quotePromisedOn}
          onChange={(quotePromisedOn) => edit('quote due date', { quotePromisedOn })}
        />
        <MomentField
          label="Prep visit"
          zone={zone}
          now={now}
          value={job.prepVisitAt}
          placeholder="Day and time"
          onChange={(prepVisitAt) => edit('prep visit', { prepVisitAt })}
        />
        <MomentField
          label="Handover"
          zone={zone}
          now={now}
          value={job.handoverAt}
          placeholder="Day and time"
          onChange={(handoverAt) => edit('handover date', { handoverAt })}
        />
      </Fields>
      {conflicts.length > 0 && (
        <>
          <h3 className="caption">Conflicts</h3>
          <ul>
            {conflicts.map((sentence) => (
              <li key={sentence} className="late">
                {sentence}
              </li>
            ))}
          </ul>
        </>
      )}
    </Dialog>
  );
}
