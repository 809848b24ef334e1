import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import { nextStep } from '../../shared-core/standing/next-step.ts';
import type { JobReading } from '../../shared-core/standing/read-job.ts';
import type { Job } from '../../shared-core/book/job.ts';
import type { Property } from '../../shared-core/book/property.ts';
import { houseDrawing } from '../../shared-core/drawing/house.ts';
import { formatLength } from '../../shared-core/measure/length-format.ts';
import { nowInstant } from '../book/moment.ts';
import type { Outcome } from '../book/outcome.ts';
import { addRoom, startJob } from '../book/people-commands.ts';
import { useJobReading, useNow } from '../book/use-job-reading.ts';
import { useOfJobs, useOne, useArchive, useWhere } from '../book/use-records.ts';
import { change } from '../book/write.ts';
import { ActionButton } from '../parts/ActionButton.tsx';
import { DatumDrawing } from '../parts/DatumDrawing.tsx';
import { DrawingRoom } from '../parts/DrawingRoom.tsx';
import { DrawingView } from '../parts/DrawingView.tsx';
import { EmptySheet } from '../parts/EmptySheet.tsx';
import { roomHref, stageHref } from '../parts/job/stage-words.ts';
import { LinkWord } from '../parts/LinkWord.tsx';
import { Notice } from '../parts/Notice.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { BlockPart, SheetHeading } from '../parts/TitleBlock.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { useSmall } from '../parts/use-small.ts';
import { callAddress } from '../parts/mail-address.ts';
import { AccessNotes } from './AccessNotes.tsx';
import { houseInput, pickableRooms } from './house-input.ts';
import { HOUSE_DATUM_Y, houseYears, yearsInWords } from './house-years.ts';
import { HouseAway } from './HouseAway.tsx';
import { HouseFacts } from './HouseFacts.tsx';
import { JobPart } from './JobPart.tsx';
import { MadePart } from './MadePart.tsx';
import { PlacePart } from './PlacePart.tsx';
import { RoomsPart } from './RoomsPart.tsx';
import './rooms.css';

/** A house: its rooms to one scale, how to get in, what was done there. */
export function HouseScreen({ propertyId }: { readonly propertyId: string }) {
  const property = useOne('properties', propertyId);
  if (property === undefined) return <p className="app-opening caption">Reading the book…</p>;
  if (property === null) {
    return (
      <Sheet page="People" who={{ name: 'People' }}>
        <SheetHeading>No such house</SheetHeading>
        <EmptySheet what="This house is not in the book." first={<LinkWord href="/customers">See everybody</LinkWord>} />
      </Sheet>
    );
  }
  return <House property={property} />;
}

/** What stands over and under the plan on a sheet: it keeps to the room between, so that none of it hides behind the years. */
const AROUND_PLAN_PX = 400;
const [LEAST_PLAN_PX, MOST_PLAN_PX] = [300, 560];
/** On a phone the plan is all that the drawing has room for; its key stands under it in words. */
const SMALL_PLAN = { scale: null, key: null, hasDimensions: false };

/** Everything of the book that hangs on the house. */
function useHouse(property: Property) {
  const customer = useOne('customers', property.customerId);
  const rooms = useWhere('rooms', 'propertyId', property.id);
  const away = useArchive('rooms');
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
      away: (away ?? []).filter((room) => room.propertyId === property.id),
      jobs: jobs ?? [],
      pours,
      visits,
      quotes,
      documents,
    };
  }, [property.id, customer, rooms, away, jobs, pours, visits, quotes, documents]);
}

function House({ property }: { readonly property: Property }) {
  const [, go] = useLocation();
  const { units, locale } = useMeasure();
  const small = useSmall();
  const now = useNow();
  const { isRead, customer, rooms, away, jobs, pours, visits, quotes, documents } = useHouse(property);
  const [name, setName] = useState('');
  const [nameProblem, setNameProblem] = useState<string | null>(null);
  const [chosen, setChosen] = useState<readonly string[] | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const say = (outcome: Outcome<unknown>): void => setProblem(outcome.ok ? null : outcome.message);
  const edit = (label: string, how: (p: Property) => Property): void =>
    void change('properties', property.id, label, nowInstant(), how).then(say);
  const openJobs = jobs.filter((j) => j.state === 'open');
  const reading = useJobReading(openJobs[0]?.id ?? '') ?? null;
  const inJob = new Set(openJobs.flatMap((j) => j.rooms.map((r) => r.roomId)));
  const free = rooms.filter((room) => !inJob.has(room.id));
  // A first job is mostly over every room; beside an open one each is chosen on purpose.
  const picked = (chosen ?? (openJobs.length === 0 ? free.map((room) => room.id) : [])).filter((id) => free.some((room) => room.id === id));
  const drawn = useMemo(
    () => houseInput({ property, rooms, jobs, pours, units, lengthText: (m) => formatLength(m, units, locale) }),
    [property, rooms, jobs, pours, units, locale],
  );
  const planPx = Math.max(LEAST_PLAN_PX, Math.min(MOST_PLAN_PX, window.innerHeight - AROUND_PLAN_PX));
  const years = { jobs, rooms, pours, visits, quotes, zone: property.timeZone, locale, now };
  const newRoom = async (): Promise<void> => {
    if (name.trim() === '') {
      setNameProblem('Type what the room is called first: hall, kitchen, laundry.');
      return;
    }
    setNameProblem(null);
    const added = await addRoom(property.id, name);
    if (added.ok) setName('');
    say(added);
  };
  const begin = async (): Promise<void> => {
    const names = free.filter((r) => picked.includes(r.id)).map((r) => r.name.toLowerCase());
    const started = await startJob(property.id, picked, names.join(', '));
    if (started.ok) go(stageHref(started.value, 'assess', picked[0] ?? ''));
    else setProblem(started.message);
  };
  const places = [
    property.yearBuilt === null ? 'Age not known' : `Built ${property.yearBuilt}`,
    ...(property.yearExtended === null ? [] : [`extended ${property.yearExtended}`]),
  ];
  const step = openJobs[0] === undefined ? null : stepOf(openJobs[0], reading, now);
  return (
    <Sheet
      page="People"
      who={{
        name: customer?.name ?? '',
        where: property.address.city,
        right: openJobs.length === 0 ? 'no open job' : openJobs.length === 1 ? 'one open job' : `${openJobs.length} open jobs`,
      }}
      block={
        <>
          {customer !== null && (
            <BlockPart>
              <ul className="house-contacts">
                {customer.contacts.map((c, i) => (
                  <li key={`${i}-${c.name}`}>
                    <b>{c.name}</b>
                    <span className="caption">{c.role}</span>
                    <span>{c.phone !== '' && <a href={callAddress(c.phone)}>{c.phone}</a>}</span>
                  </li>
                ))}
              </ul>
              <LinkWord href={`/customers/${customer.id}`} tall>
                Open the customer
              </LinkWord>
            </BlockPart>
          )}
          <RoomsPart
            rooms={rooms}
            away={away}
            openJobs={openJobs}
            name={name}
            onName={setName}
            onAdd={() => void newRoom()}
            problem={nameProblem}
            onSay={say}
          />
          {isRead && free.length > 0 && (
            <JobPart free={free} picked={picked} onPick={setChosen} openJobs={openJobs} onStart={() => void begin()} onSay={say} />
          )}
          <AccessNotes property={property} rooms={rooms} onEdit={edit} />
          {documents.length > 0 && <MadePart documents={documents} zone={property.timeZone} />}
          <HouseAway property={property} openJobs={openJobs.length} onSay={say} />
        </>
      }
      datumSticks
      datum={<DatumDrawing label={yearsInWords(years)} linePx={HOUSE_DATUM_Y} draw={(widthPx) => houseYears(years, widthPx, small)} />}
      foot={<p className="speech house-foot">{step?.sentence ?? footWords(rooms.length, free.length)}</p>}
      action={
        step !== null ? (
          <ActionButton href={step.href}>{step.word}</ActionButton>
        ) : free.length > 0 ? (
          <ActionButton onPress={() => void begin()} held={picked.length === 0 ? 'Choose at least one room for the job.' : null}>
            Start a job
          </ActionButton>
        ) : (
          <ActionButton onPress={() => void newRoom()}>Add the room</ActionButton>
        )
      }
    >
      <SheetHeading
        right={places.join(', ')}
        under={property.deletedAt === null ? undefined : 'Put away: kept, but left out of the lists.'}
      >
        {property.address.line}
      </SheetHeading>
      {problem !== null && (
        <Notice kind="failure" onClose={() => setProblem(null)}>
          {problem}
        </Notice>
      )}
      {drawn === null ? (
        <EmptySheet
          what={rooms.length === 0 ? 'The house’s rooms go here, drawn to one scale.' : 'No room is drawn yet.'}
          how={rooms.length === 0 ? 'Add the rooms at the right, the ones to be poured at least.' : 'Draw one from its tape lengths.'}
          first={rooms[0] && <LinkWord href={`/plan/${rooms[0].id}`}>Draw the {rooms[0].name.toLowerCase()}</LinkWord>}
        />
      ) : (
        <div className="house-plan">
          <DrawingRoom leastPx={planPx} mostPx={planPx} smallRatio={0.9}>
            {({ widthPx, heightPx }) => (
              <DrawingView
                drawing={pickableRooms(houseDrawing({ ...drawn, widthPx, heightPx, ...(small ? SMALL_PLAN : {}) }))}
                label={`Plan of ${property.address.line}: ${rooms.map((r) => r.name).join(', ')}`}
                onPick={(key) => {
                  if (key.startsWith('room:')) go(`/plan/${key.slice('room:'.length)}`);
                }}
              />
            )}
          </DrawingRoom>
        </div>
      )}
      {drawn !== null && small && <p className="caption">Stippled: poured by us. Wide-hatched: in the job now.</p>}
      <div className="house-more">
        {drawn !== null && <PlacePart property={property} rooms={rooms.filter((room) => room.plan.outline.length >= 3)} onSay={say} />}
        <HouseFacts property={property} onEdit={edit} />
      </div>
    </Sheet>
  );
}

interface Step {
  readonly sentence: string;
  readonly word: string;
  readonly href: string;
}

/** What the open job asks for: its first room that can be moved on, or the first of all. */
function stepOf(job: Job, reading: JobReading | null, now: string): Step | null {
  const first = job.rooms[0];
  if (first === undefined) return null;
  const plain = {
    sentence: `Job ${job.number} is open here.`,
    word: 'Open the job',
    href: roomHref(job.id, first.roomId),
  };
  if (reading === null || reading.whole.job.id !== job.id) return plain;
  for (const { roomId } of job.rooms) {
    const step = nextStep(reading.bundle, roomId, reading.whole.business, now);
    if (!step?.action) continue;
    const name = reading.whole.rooms.find((r) => r.id === roomId)?.name ?? '';
    // Among several rooms a sentence has to say which one it is about.
    const sentence = step.sentence.toLowerCase().includes(name.toLowerCase()) ? step.sentence : `${name}: ${step.sentence}`;
    return { sentence, word: step.action.label, href: stageHref(job.id, step.action.opens, roomId) };
  }
  return plain;
}

function footWords(rooms: number, free: number): string {
  if (rooms === 0) return 'Which rooms is it about?';
  return free === 0 ? 'Every room is in a job.' : 'No job is open here.';
}
