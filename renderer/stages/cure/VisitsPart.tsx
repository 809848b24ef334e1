import type { Update } from '../../book/write.ts';
import { workCalendar } from '../../../shared-core/cure/stated-date.ts';
import { failedTestAt } from '../../../shared-core/cure/cure-schedule.ts';
import { testDays } from '../../../shared-core/cure/test-days.ts';
import { useState } from 'react';
import type { JobReading } from '../../../shared-core/standing/read-job.ts';
import { offeredVisits } from '../../../shared-core/agenda/visit-entries.ts';
import type { Visit } from '../../../shared-core/book/cure-record.ts';
import { warrantyOf } from '../../../shared-core/standing/warranty-period.ts';
import { formatDay } from '../../../shared-core/measure/day.ts';
import { dayOfInstant, formatInstant, formatInstantDay } from '../../../shared-core/measure/moment.ts';
import { dayStyleFrom } from '../../../shared-core/measure/typed-moment.ts';
import { addVisit, changeVisit } from '../../book/cure-commands.ts';
import { changeJob } from '../../book/job-commands.ts';
import { nowInstant, type Outcome } from '../../book/command.ts';
import { usePhotos } from '../../book/use-photos.ts';
import { CheckRow, SelectField } from '../../parts/Choices.tsx';
import { DateField, Fields, MomentField, TextField } from '../../parts/Fields.tsx';
import { PhotosPart } from '../../parts/PhotosPart.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import type { CuringRoom, Saying } from './cure-room.ts';
import { saveJobCalendar } from '../../book/calendar-files.ts';
import { ResultNotice, type Said } from '../../parts/Dialog.tsx';

interface VisitsPartProps {
  readonly reading: JobReading;
  readonly roomId: string;
  /** Null before the pour. */
  readonly room: CuringRoom | null;
  readonly say: Saying;
  readonly onOutcome: (outcome: Outcome<unknown>) => void;
}

/** Visits: planned ones, suggested ones, callbacks, and the calendar file. */
export function VisitsPart({ reading, roomId, room, say, onOutcome }: VisitsPartProps) {
  const { whole } = reading;
  const { job } = whole;
  const visits = whole.visits
    .filter((v) => v.kind !== 'prep' && v.deletedAt === null && v.cancelledAt === null)
    .sort((a, b) => a.instant.localeCompare(b.instant));
  const { ends: warrantyEnds } = warrantyOf(whole);
  const place = workCalendar(whole.business, say.zone);
  const anchors = {
    pouredAt: room?.schedule.placedAt ?? null,
    testOn: room === null ? null : (testDays(room.schedule, place)?.startOn ?? null),
    failedAt: room === null ? null : failedTestAt(room.schedule),
    warrantyEnds,
  };
  const today = dayOfInstant(say.now, say.zone);
  const planned = visits.filter((v) => v.roomIds.includes(roomId));
  const offered = offeredVisits(anchors, { now: say.now, planned }, { clock: place.from, timeZone: say.zone, week: place.week });
  return (
    <section className="cure-part">
      <h2 className="caption">Visits</h2>
      {visits.length === 0 && <p className="small">No visits planned.</p>}
      <ul className="cure-visits">
        {visits.map((visit) => (
          <VisitLine key={visit.id} visit={visit} roomId={roomId} say={say} onOutcome={onOutcome} />
        ))}
      </ul>
      <div className="words">
        {offered.map(({ template: { kind, title, minutes }, instant }) => (
          <TextButton
            key={kind}
            onPress={() => void addVisit({ jobId: job.id, roomIds: [roomId], kind, title, instant, minutes }).then(onOutcome)}
          >
            {`Add ${title.toLowerCase()}, ${formatInstantDay(instant, say.zone, styleOf(instant, say), say.locale)}`}
          </TextButton>
        ))}
      </div>
      <div className="cure-defects">
        <DateField
          label="Warranty period ends"
          today={today}
          value={job.defectsUntil}
          placeholder={warrantyEnds === null ? '' : formatDay(warrantyEnds, 'dated', say.locale)}
          onChange={(defectsUntil) => void changeJob(job.id, 'end of the warranty period', { defectsUntil }).then(onOutcome)}
        />
      </div>
      <div className="words">
        <OwnVisit jobId={job.id} roomId={roomId} say={say} onOutcome={onOutcome} />
        <CalendarButton reading={reading} />
      </div>
    </section>
  );
}

const styleOf = (instant: string, { now, zone }: Saying) => dayStyleFrom(dayOfInstant(now, zone), dayOfInstant(instant, zone));

type VisitProps = Pick<VisitsPartProps, 'roomId' | 'say' | 'onOutcome'>;

function VisitLine({ visit, roomId, say, onOutcome }: VisitProps & { readonly visit: Visit }) {
  const [open, setOpen] = useState(false);
  const edit = (label: string, update: Update<Visit>): void => void changeVisit(visit.id, label, update).then(onOutcome);
  const isCallback = visit.kind === 'callback';
  return (
    <li>
      <CheckRow
        task
        label={visit.title}
        right={formatInstant(visit.instant, say.zone, styleOf(visit.instant, say), say.locale)}
        checked={visit.doneAt !== null}
        onChange={(done) => {
          setOpen(done);
          edit(done ? `done: ${visit.title}` : `not done: ${visit.title}`, { doneAt: done ? nowInstant() : null });
        }}
      />
      <TextButton kind="plain" expanded={open} label={`${open ? 'Close' : 'Edit'} ${visit.title}`} onPress={() => setOpen(!open)}>
        {open ? 'Close' : visit.notes !== '' || visit.cause !== '' ? 'Notes' : 'Edit'}
      </TextButton>
      {open && (
        <div className="cure-visit-open">
          <MomentField
            label="Date and time"
            zone={say.zone}
            now={say.now}
            value={visit.instant}
            emptyMessage="Enter a day and a time."
            onChange={(instant) => edit('time of a visit', { instant })}
          />
          {isCallback && (
            <>
              <TextField label="Cause" long value={visit.cause} onChange={(cause) => edit('cause of a callback', { cause })} />
              <TextField label="Fix" long value={visit.fix} onChange={(fix) => edit('fix of a callback', { fix })} />
            </>
          )}
          <TextField label="Notes" long value={visit.notes} onChange={(notes) => edit('notes of a visit', { notes })} />
          <VisitPhotos
            visit={visit}
            roomId={roomId}
            zone={say.zone}
            onSaved={(id) => edit('photo of a visit', (v) => ({ ...v, photoIds: [...v.photoIds, id] }))}
          />
          {visit.doneAt === null && (
            <TextButton onPress={() => edit(`cancel visit: ${visit.title}`, { cancelledAt: nowInstant() })}>Cancel visit</TextButton>
          )}
        </div>
      )}
    </li>
  );
}

interface VisitPhotosProps {
  readonly visit: Visit;
  readonly roomId: string;
  readonly zone: string;
  readonly onSaved: (photoId: string) => void;
}

/** Findings of the visit. */
function VisitPhotos({ visit, roomId, zone, onSaved }: VisitPhotosProps) {
  // A visit to several rooms shows the photos of all of them.
  const album = usePhotos(visit.jobId, visit.roomIds[0] ?? roomId);
  return <PhotosPart album={album} zone={zone} label="Photos of the visit" only={visit.photoIds} caption={visit.title} onSaved={onSaved} />;
}

const OWN_MINUTES = 45;

function OwnVisit({ jobId, roomId, say, onOutcome }: VisitProps & { readonly jobId: string }) {
  const [open, setOpen] = useState(false);
  const [kind, setKind] = useState<'own' | 'callback'>('own');
  const [title, setTitle] = useState('');
  const [instant, setInstant] = useState<string | null>(null);
  if (!open) return <TextButton onPress={() => setOpen(true)}>Add visit or callback</TextButton>;
  return (
    <div className="cure-visit-open">
      <Fields>
        <SelectField label="Kind" value={kind} options={{ own: 'Visit', callback: 'Callback' }} onChange={setKind} />
        <MomentField label="Date and time" zone={say.zone} now={say.now} value={instant} placeholder="May 20 9 am" onChange={setInstant} />
      </Fields>
      <TextField
        label="Reason"
        value={title}
        placeholder={kind === 'callback' ? 'Hairline crack by the door' : 'Measure for the tile setter'}
        onChange={setTitle}
      />
      <p className="words">
        <TextButton onPress={() => setOpen(false)}>Cancel</TextButton>
        <TextButton
          kind="outlined"
          disabled={instant === null || title === ''}
          onPress={() => {
            if (instant === null) return;
            void addVisit({ jobId, roomIds: [roomId], kind, title, instant, minutes: OWN_MINUTES }).then((outcome) => {
              onOutcome(outcome);
              if (!outcome.ok) return;
              setOpen(false);
              setTitle('');
              setInstant(null);
            });
          }}
        >
          Save
        </TextButton>
      </p>
    </div>
  );
}

/** Saves the job's dates as a calendar file. */
function CalendarButton({ reading }: { readonly reading: JobReading }) {
  const [message, setMessage] = useState<Said>(null);
  return (
    <>
      <TextButton onPress={() => void saveJobCalendar(reading).then(setMessage)}>Save this job’s dates as a calendar file</TextButton>
      <ResultNotice message={message} onClose={setMessage} />
    </>
  );
}
