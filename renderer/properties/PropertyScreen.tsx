import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import { nextStep } from '../../shared-core/standing/next-step.ts';
import type { JobReading } from '../../shared-core/standing/read-job.ts';
import type { Job } from '../../shared-core/book/job.ts';
import type { Property } from '../../shared-core/book/property.ts';
import { houseDrawing } from '../../shared-core/drawing/house.ts';
import { formatLength } from '../../shared-core/measure/length-format.ts';
import { nowInstant, type Outcome } from '../book/command.ts';
import { addRoom, startJob } from '../book/customer-commands.ts';
import { useJobReading, useNow } from '../book/use-job-reading.ts';
import { useOfJobs, useOne, useArchive, useWhere } from '../book/use-records.ts';
import { change, unarchive, archive, type Update } from '../book/write.ts';
import { ActionButton, LinkWord, TextButton } from '../parts/Buttons.tsx';
import { countWords } from '../../shared-core/measure/count-words.ts';
import { DatumDrawing, DrawingRoom, DrawingView } from '../parts/DrawingView.tsx';
import { EmptySheet, Sheet, BlockPart, SheetHeading, NotFound } from '../parts/Sheet.tsx';
import { roomHref, stageHref } from '../parts/job/stage-words.ts';
import { ResultNotice, type Said } from '../parts/Dialog.tsx';
import { propertyName, titleOfRooms } from '../../shared-core/standing/names.ts';
import { useMeasure } from '../parts/use-measure.ts';
import { useSmall } from '../parts/use-small.ts';
import { callAddress } from '../parts/mail-address.ts';
import { AccessNotes } from './AccessNotes.tsx';
import { propertyInput, pickableRooms } from './property-input.ts';
import { YEARS_DATUM_Y, propertyYears, yearsInWords } from './property-years.ts';
import { PropertyFacts } from './PropertyFacts.tsx';
import { JobPart, RoomsPart } from './RoomsPart.tsx';
import { PlacePart } from './PlacePart.tsx';
import type { MadeDocument } from '../../shared-core/book/papers.ts';
import { formatInstantDay } from '../../shared-core/measure/moment.ts';
import { reprintDocument } from '../book/document-commands.ts';
import './rooms.css';

export function PropertyScreen({ propertyId }: { readonly propertyId: string }) {
  const property = useOne('properties', propertyId);
  if (property === undefined) return <p className="app-opening caption">Loading…</p>;
  if (property === null)
    return (
      <NotFound page="Customers" what="Property" drawing="properties" heading="This property was deleted or is on another computer." />
    );
  return <OneProperty property={property} />;
}

/** Height above and below the plan, px, so that the plan ends above the years. */
const AROUND_PLAN_PX = 400;
const [LEAST_PLAN_PX, MOST_PLAN_PX] = [300, 560];
/** A phone has space for the plan only; its legend is in words below. */
const SMALL_PLAN = { scale: null, key: null, hasDimensions: false };

function usePropertyRecords(property: Property) {
  const customer = useOne('customers', property.customerId);
  const rooms = useWhere('rooms', 'propertyId', property.id);
  const archivedRooms = useArchive('rooms');
  const jobs = useWhere('jobs', 'propertyId', property.id);
  const ids = (jobs ?? []).map((job) => job.id);
  const pours = useOfJobs('pours', ids);
  const visits = useOfJobs('visits', ids);
  const quotes = useOfJobs('quotes', ids);
  const documents = useOfJobs('documents', ids);
  return useMemo(() => {
    return {
      isRead: rooms !== undefined && jobs !== undefined,
      customer: customer ?? null,
      rooms: rooms ?? [],
      away: (archivedRooms ?? []).filter((room) => room.propertyId === property.id),
      jobs: jobs ?? [],
      pours,
      visits,
      quotes,
      documents,
    };
  }, [property.id, customer, rooms, archivedRooms, jobs, pours, visits, quotes, documents]);
}

function OneProperty({ property }: { readonly property: Property }) {
  const [, go] = useLocation();
  const { units, locale } = useMeasure();
  const small = useSmall();
  const now = useNow();
  const { isRead, customer, rooms, away: archivedRooms, jobs, pours, visits, quotes, documents } = usePropertyRecords(property);
  const [name, setName] = useState('');
  const [nameProblem, setNameProblem] = useState<string | null>(null);
  const [chosen, setChosen] = useState<readonly string[] | null>(null);
  const [problem, say] = useState<Said>(null);
  const edit = (label: string, update: Update<Property>): void =>
    void change('properties', property.id, label, nowInstant(), update).then(say);
  const openJobs = jobs.filter((j) => j.state === 'open');
  const reading = useJobReading(openJobs[0]?.id ?? '') ?? null;
  const inJob = new Set(openJobs.flatMap((j) => j.rooms.map((r) => r.roomId)));
  const free = rooms.filter((room) => !inJob.has(room.id));
  // A first job usually covers every room; with an open job, rooms are chosen one by one.
  const picked = (chosen ?? (openJobs.length === 0 ? free.map((room) => room.id) : [])).filter((id) => free.some((room) => room.id === id));
  const drawn = useMemo(
    () => propertyInput({ property, rooms, jobs, pours, units, locale, lengthText: (m) => formatLength(m, units, locale) }),
    [property, rooms, jobs, pours, units, locale],
  );
  const planPx = Math.max(LEAST_PLAN_PX, Math.min(MOST_PLAN_PX, window.innerHeight - AROUND_PLAN_PX));
  const years = { jobs, rooms, pours, visits, quotes, zone: property.timeZone, locale, now };
  const newRoom = async (): Promise<void> => {
    if (name.trim() === '') {
      setNameProblem('Enter a room name, such as hall, kitchen, or laundry.');
      return;
    }
    setNameProblem(null);
    const added = await addRoom(property.id, name);
    if (added.ok) setName('');
    say(added);
  };
  const addJob = async (): Promise<void> => {
    const started = await startJob(property.id, picked, titleOfRooms(free.filter((r) => picked.includes(r.id))));
    if (started.ok) go(stageHref(started.value, 'assess', picked[0] ?? ''));
    else say(started);
  };
  const places = [
    property.yearBuilt === null ? 'Year built unknown' : `Built ${property.yearBuilt}`,
    ...(property.yearExtended === null ? [] : [`addition built ${property.yearExtended}`]),
  ];
  const step = openJobs[0] === undefined ? null : stepOf(openJobs[0], reading, now);
  return (
    <Sheet
      page="Customers"
      who={{
        name: customer?.name ?? '',
        where: property.address.city,
        right: countWords(openJobs.length, 'open job', locale),
      }}
      block={
        <>
          {customer !== null && (
            <BlockPart>
              <ul className="property-contacts">
                {customer.contacts.map((c, i) => (
                  <li key={`${i}-${c.name}`}>
                    <b>{c.name}</b>
                    <span className="caption">{c.role}</span>
                    <span>
                      {c.phone !== '' && (
                        <a className="link-word link-word-tall" href={callAddress(c.phone)}>
                          {c.phone}
                        </a>
                      )}
                    </span>
                  </li>
                ))}
              </ul>
              <LinkWord href={`/customers/${customer.id}`} tall>
                Go to customer
              </LinkWord>
            </BlockPart>
          )}
          <AccessNotes property={property} rooms={rooms} onEdit={edit} />
          <RoomsPart
            rooms={rooms}
            archived={archivedRooms}
            openJobs={openJobs}
            name={name}
            onName={setName}
            onAdd={() => void newRoom()}
            problem={nameProblem}
            onSay={say}
          />
          {isRead && free.length > 0 && (
            <JobPart free={free} picked={picked} onPick={setChosen} openJobs={openJobs} onStart={() => void addJob()} onSay={say} />
          )}
          {documents.length > 0 && <PropertyDocuments documents={documents} zone={property.timeZone} />}
          <PropertyArchive property={property} openJobs={openJobs.length} onSay={say} />
        </>
      }
      datumSticks="on a desk"
      datum={<DatumDrawing label={yearsInWords(years)} linePx={YEARS_DATUM_Y} draw={(widthPx) => propertyYears(years, widthPx, small)} />}
      foot={<p className="speech">{step?.sentence ?? footWords(rooms.length, free.length)}</p>}
      action={
        step !== null ? (
          <ActionButton href={step.href}>{step.word}</ActionButton>
        ) : free.length > 0 ? (
          <ActionButton onPress={() => void addJob()} held={picked.length === 0 ? 'Choose at least one room for the job.' : null}>
            Start job
          </ActionButton>
        ) : (
          <ActionButton onPress={() => void newRoom()}>Add room</ActionButton>
        )
      }
    >
      <SheetHeading right={places.join(', ')} under={property.deletedAt === null ? undefined : 'Archived: kept, but hidden from lists.'}>
        {propertyName(property)}
      </SheetHeading>
      <ResultNotice message={problem} onClose={say} />
      {drawn === null ? (
        <EmptySheet
          drawing="properties"
          heading={rooms.length === 0 ? 'The rooms of this property appear here, drawn to one scale.' : 'No room is drawn yet.'}
          hint={rooms.length === 0 ? 'Add the rooms to be poured.' : 'Draw a room from its tape measurements.'}
          first={rooms[0] && <LinkWord href={`/plan/${rooms[0].id}`}>{`Draw ${rooms[0].name}`}</LinkWord>}
        />
      ) : (
        <div className="property-plan">
          <DrawingRoom leastPx={planPx} mostPx={planPx} smallRatio={0.9}>
            {({ widthPx, heightPx }) => (
              <DrawingView
                drawing={pickableRooms(houseDrawing({ ...drawn, widthPx, heightPx, ...(small ? SMALL_PLAN : {}) }))}
                label={`Plan of ${propertyName(property)}: ${rooms.map((r) => r.name).join(', ')}`}
                onPick={(key) => {
                  if (key.startsWith('room:')) go(`/plan/${key.slice('room:'.length)}`);
                }}
              />
            )}
          </DrawingRoom>
        </div>
      )}
      {drawn !== null && small && <p className="caption">Stippled: poured by us. Wide hatching: in an open job.</p>}
      <div className="words property-more">
        {drawn !== null && <PlacePart property={property} rooms={rooms.filter((room) => room.plan.outline.length >= 3)} onSay={say} />}
        <PropertyFacts property={property} onEdit={edit} onSay={say} />
      </div>
    </Sheet>
  );
}

interface Step {
  readonly sentence: string;
  readonly word: string;
  readonly href: string;
}

/** The next step of the open job: its first room that can proceed, else its first room. */
function stepOf(job: Job, reading: JobReading | null, now: string): Step | null {
  const first = job.rooms[0];
  if (first === undefined) return null;
  const plain = {
    sentence: `Job ${job.number} is open.`,
    word: 'Go to job',
    href: roomHref(job.id, first.roomId),
  };
  if (reading === null || reading.whole.job.id !== job.id) return plain;
  for (const { roomId } of job.rooms) {
    const step = nextStep(reading.bundle, roomId, reading.whole.business, now);
    if (!step?.action) continue;
    const name = reading.whole.rooms.find((r) => r.id === roomId)?.name ?? '';
    const sentence = step.sentence.toLowerCase().includes(name.toLowerCase()) ? step.sentence : `${name}: ${step.sentence}`;
    return { sentence, word: step.action.label, href: stageHref(job.id, step.action.opens, roomId) };
  }
  return plain;
}

function footWords(rooms: number, free: number): string {
  if (rooms === 0) return 'Add the rooms to be poured.';
  return free === 0 ? 'Every room has a job.' : 'No open job.';
}

interface PropertyArchiveProps {
  readonly property: Property;
  readonly openJobs: number;
  readonly onSay: (outcome: Outcome<unknown>) => void;
}

function PropertyArchive({ property, openJobs, onSay }: PropertyArchiveProps) {
  const one = [{ table: 'properties' as const, id: property.id }];
  const { line } = property.address;
  if (property.deletedAt !== null) {
    return (
      <BlockPart>
        <TextButton onPress={() => void unarchive(one, `unarchive ${line}`, nowInstant()).then(onSay)}>Unarchive property</TextButton>
      </BlockPart>
    );
  }
  if (openJobs > 0) return null;
  return (
    <BlockPart>
      <TextButton kind="delete" onPress={() => void archive(one, `archive ${line}`, nowInstant()).then(onSay)}>
        Archive property
      </TextButton>
    </BlockPart>
  );
}

interface PropertyDocumentsProps {
  readonly documents: readonly MadeDocument[];
  readonly zone: string;
}

/** Documents of this property, newest first, each opened as it was issued. */
function PropertyDocuments({ documents, zone }: PropertyDocumentsProps) {
  const { locale } = useMeasure();
  const [result, setResult] = useState<string | null>(null);
  const again = async (document: MadeDocument): Promise<void> => {
    setResult((await reprintDocument(document)).text);
  };
  return (
    <BlockPart heading="Documents">
      <ul className="ends">
        {[...documents]
          .sort((a, b) => b.madeAt.localeCompare(a.madeAt))
          .map((document) => (
            <li key={document.id}>
              {document.kind === 'calendar' ? (
                <span>{document.title}</span>
              ) : (
                <TextButton kind="plain" label={`Open ${document.title}`} onPress={() => void again(document)}>
                  {document.title}
                </TextButton>
              )}
              <span className="caption">{formatInstantDay(document.madeAt, zone, 'dated', locale)}</span>
            </li>
          ))}
      </ul>
      {result !== null && (
        <p className="small" role="status">
          {result}
        </p>
      )}
    </BlockPart>
  );
}
