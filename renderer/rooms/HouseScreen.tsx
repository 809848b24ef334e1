import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import type { Property } from '../../shared-core/book/property.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { houseDrawing } from '../../shared-core/drawing/house.ts';
import { formatDay } from '../../shared-core/measure/day.ts';
import { formatLength } from '../../shared-core/measure/length-format.ts';
import { dayOfInstant, parseTimeZone } from '../../shared-core/measure/moment.ts';
import { nowInstant } from '../book/moment.ts';
import type { Outcome } from '../book/outcome.ts';
import { addRoom, startJob } from '../book/people-commands.ts';
import { useAll, useOne, useWhere } from '../book/use-records.ts';
import { change, putAway } from '../book/write.ts';
import { ActionButton } from '../parts/ActionButton.tsx';
import { AddressFields } from '../parts/AddressFields.tsx';
import { CheckRow } from '../parts/CheckRow.tsx';
import { DrawingRoom } from '../parts/DrawingRoom.tsx';
import { DrawingView } from '../parts/DrawingView.tsx';
import { EmptySheet } from '../parts/EmptySheet.tsx';
import { Field } from '../parts/Field.tsx';
import { Fields } from '../parts/Fields.tsx';
import { LinkWord } from '../parts/LinkWord.tsx';
import { Notice } from '../parts/Notice.tsx';
import { NumberField } from '../parts/NumberField.tsx';
import { YearField } from '../parts/YearField.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { TextField } from '../parts/TextField.tsx';
import { BlockPart, SheetHeading } from '../parts/TitleBlock.tsx';
import { openingStage, roomWords, stageHref } from '../parts/job/stage-words.ts';
import { useMeasure } from '../parts/use-measure.ts';
import { houseInput } from './house-input.ts';
import { AccessNotes } from './AccessNotes.tsx';
import './rooms.css';

/** A house: its rooms to one scale, how to get in, what was done there. */
export function HouseScreen({ propertyId }: { readonly propertyId: string }) {
  const property = useOne('properties', propertyId);
  if (property === undefined) return <p className="app-opening caption">Reading the book…</p>;
  if (property === null) {
    return (
      <Sheet page="People" who={{ name: 'People' }}>
        <SheetHeading>No such house</SheetHeading>
        <EmptySheet what="This house is not in the book." first={<LinkWord href="/people">See everybody</LinkWord>} />
      </Sheet>
    );
  }
  return <House property={property} />;
}

function House({ property }: { readonly property: Property }) {
  const [, go] = useLocation();
  const { units, locale } = useMeasure();
  const client = useOne('clients', property.clientId);
  const rooms = useWhere('rooms', 'propertyId', property.id);
  const jobs = useWhere('jobs', 'propertyId', property.id);
  const pours = useAll('pours');
  const documents = useAll('documents');
  const [name, setName] = useState('');
  const [chosen, setChosen] = useState<readonly string[] | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const say = (outcome: Outcome<unknown>): void => setProblem(outcome.ok ? null : outcome.message);
  const edit = (label: string, how: (p: Property) => Property): void =>
    void change('properties', property.id, label, nowInstant(), how).then(say);
  const all = rooms ?? [];
  const openJobs = (jobs ?? []).filter((j) => j.state === 'open');
  const inJob = new Set(openJobs.flatMap((j) => j.rooms.map((r) => r.roomId)));
  const free = all.filter((room) => !inJob.has(room.id));
  const picked = (chosen ?? free.map((room) => room.id)).filter((id) => free.some((room) => room.id === id));
  const drawn = useMemo(
    () => houseInput({ rooms: rooms ?? [], jobs: jobs ?? [], pours: pours ?? [], lengthText: (m) => formatLength(m, units, locale) }),
    [rooms, jobs, pours, units, locale],
  );
  const newRoom = async (): Promise<void> => {
    if (name.trim() === '') {
      setProblem('Type what the room is called first: hall, kitchen, laundry.');
      return;
    }
    const added = await addRoom(property.id, name);
    if (added.ok) setName('');
    say(added);
  };
  const begin = async (): Promise<void> => {
    const started = await startJob(
      property.id,
      picked,
      free
        .filter((r) => picked.includes(r.id))
        .map((r) => r.name.toLowerCase())
        .join(', '),
    );
    if (started.ok) go(stageHref(started.value, 'assess', picked[0] ?? ''));
    else setProblem(started.message);
  };
  const places = [
    property.yearBuilt === null ? 'age not known' : `built ${property.yearBuilt}`,
    ...(property.yearExtended === null ? [] : [`extended ${property.yearExtended}`]),
  ];
  const made = (documents ?? []).filter((d) => (jobs ?? []).some((j) => j.id === d.jobId));
  return (
    <Sheet
      page="People"
      who={{
        name: client?.name ?? '',
        where: property.address.town,
        right: openJobs.length === 0 ? 'no open job' : openJobs.length === 1 ? 'one open job' : `${openJobs.length} open jobs`,
      }}
      block={
        <>
          {(client?.contacts.length ?? 0) > 0 && (
            <BlockPart>
              <ul className="house-contacts">
                {client?.contacts.map((c) => (
                  <li key={c.name}>
                    <b>{c.name}</b> <span className="caption">{c.role}</span> <span>{c.phone}</span>
                  </li>
                ))}
              </ul>
            </BlockPart>
          )}
          <BlockPart heading="Rooms">
            <ul className="house-rooms">
              {all.map((room) => (
                <RoomRow
                  key={room.id}
                  room={room}
                  job={openJobs.find((j) => j.rooms.some((r) => r.roomId === room.id)) ?? null}
                  onSay={say}
                />
              ))}
            </ul>
            <form
              className="house-new"
              onSubmit={(event) => {
                event.preventDefault();
                void newRoom();
              }}
            >
              <TextField label="Another room" value={name} onChange={setName} placeholder="hall, kitchen, laundry" />
              <TextButton submits kind="outlined">
                Add the room
              </TextButton>
            </form>
          </BlockPart>
          {free.length > 0 && (
            <BlockPart heading="A new job in">
              {free.map((room) => (
                <CheckRow
                  key={room.id}
                  label={room.name}
                  checked={picked.includes(room.id)}
                  onChange={(on) => setChosen(on ? [...picked, room.id] : picked.filter((id) => id !== room.id))}
                />
              ))}
            </BlockPart>
          )}
          <AccessNotes property={property} onEdit={edit} />
          {made.length > 0 && (
            <BlockPart heading="Made for this house">
              <ul className="house-rooms">
                {made.map((d) => (
                  <li key={d.id}>
                    <span>{d.title}</span>
                    <span className="caption">{formatDay(dayOfInstant(d.madeAt, property.timeZone), 'short', locale)}</span>
                  </li>
                ))}
              </ul>
            </BlockPart>
          )}
        </>
      }
      foot={<p className="speech">{footWords(all.length, openJobs.length, free.length)}</p>}
      action={
        free.length > 0 ? (
          <ActionButton onPress={() => void begin()} held={picked.length === 0 ? 'Choose at least one room for the job.' : null}>
            Start a job
          </ActionButton>
        ) : openJobs[0]?.rooms[0] !== undefined ? (
          <ActionButton href={stageHref(openJobs[0].id, openingStage(openJobs[0].rooms[0].stage), openJobs[0].rooms[0].roomId)}>
            Open the job
          </ActionButton>
        ) : (
          <ActionButton onPress={() => void newRoom()}>Add the room</ActionButton>
        )
      }
    >
      <SheetHeading right={places.join(', ')}>{property.address.line}</SheetHeading>
      {problem !== null && (
        <Notice kind="failure" onClose={() => setProblem(null)}>
          {problem}
        </Notice>
      )}
      {drawn === null ? (
        <EmptySheet
          what={all.length === 0 ? 'The house’s rooms go here, drawn to one scale.' : 'No room is drawn yet.'}
          how={all.length === 0 ? 'Add the rooms at the right, the ones to be poured at least.' : 'Draw one from its tape lengths.'}
          first={all[0] === undefined ? undefined : <LinkWord href={`/plan/${all[0].id}`}>Draw the {all[0].name.toLowerCase()}</LinkWord>}
        />
      ) : (
        <DrawingRoom leastPx={300}>
          {({ widthPx, heightPx }) => (
            <DrawingView
              drawing={houseDrawing({ ...drawn, widthPx, heightPx })}
              label={`Plan of ${property.address.line}: ${all.map((r) => r.name).join(', ')}`}
              onPick={(key) => go(`/plan/${key.replace(/^room:/, '')}`)}
            />
          )}
        </DrawingRoom>
      )}
      <details className="house-facts" open={property.yearBuilt === null}>
        <summary>Address, age and distance</summary>
        <div className="house-facts-fields">
          <AddressFields address={property.address} onChange={(address) => edit('address', (p) => ({ ...p, address }))} />
          <Fields>
            <YearField
              label="Built in"
              value={property.yearBuilt}
              placeholder="not known"
              hint="Left empty counts as old wherever age matters."
              onChange={(yearBuilt) => edit('year built', (p) => ({ ...p, yearBuilt }))}
            />
            <YearField
              label="Extended in"
              value={property.yearExtended}
              placeholder="never"
              onChange={(yearExtended) => edit('year extended', (p) => ({ ...p, yearExtended }))}
            />
            <NumberField
              label="Distance"
              unit="km"
              least={0}
              most={5000}
              decimals={0}
              value={property.travelKm}
              onChange={(travelKm) => edit('distance', (p) => ({ ...p, travelKm }))}
            />
            <Field
              label="Time zone"
              value={property.timeZone}
              parse={(text) => parseTimeZone(text)}
              format={(zone) => zone}
              onChange={(timeZone) => {
                if (timeZone !== null) edit('time zone', (p) => ({ ...p, timeZone }));
              }}
            />
          </Fields>
          <TextField label="Notes" long value={property.notes} onChange={(notes) => edit('notes on the house', (p) => ({ ...p, notes }))} />
        </div>
      </details>
    </Sheet>
  );
}

function footWords(rooms: number, openJobs: number, free: number): string {
  if (rooms === 0) return 'Which rooms is it about?';
  if (openJobs === 0) return 'No job is open here.';
  return free === 0 ? 'Every room is in the open job.' : `${free === 1 ? 'One room is' : `${free} rooms are`} in no job.`;
}

type OpenJob = {
  readonly id: string;
  readonly number: string;
  readonly rooms: readonly { readonly roomId: string; readonly stage: Parameters<typeof roomWords>[0] }[];
};

function RoomRow({
  room,
  job,
  onSay,
}: {
  readonly room: Room;
  readonly job: OpenJob | null;
  readonly onSay: (outcome: Outcome<unknown>) => void;
}) {
  const jobRoom = job?.rooms.find((r) => r.roomId === room.id) ?? null;
  const [renaming, setRenaming] = useState(false);
  return (
    <li>
      {renaming ? (
        <TextField
          label={`Name of ${room.name}`}
          bare
          autoFocus
          value={room.name}
          emptyMessage="A room needs a name."
          onChange={(name) => void change('rooms', room.id, `name of ${room.name}`, nowInstant(), (r) => ({ ...r, name })).then(onSay)}
          onEnter={() => setRenaming(false)}
        />
      ) : (
        <LinkWord
          href={job !== null && jobRoom !== null ? stageHref(job.id, openingStage(jobRoom.stage), room.id) : `/plan/${room.id}`}
          tall
        >
          {room.name}
        </LinkWord>
      )}
      <span className="caption">
        {jobRoom !== null ? `${job?.number ?? ''}: ${roomWords(jobRoom.stage)}` : room.plan.outline.length >= 3 ? 'drawn' : 'not drawn yet'}
      </span>
      <span className="house-room-ways">
        <LinkWord href={`/plan/${room.id}`}>Plan</LinkWord>
        <TextButton kind="plain" label={`Rename ${room.name}`} onPress={() => setRenaming(!renaming)}>
          {renaming ? 'Done' : 'Rename'}
        </TextButton>
        {job === null && (
          <TextButton
            kind="plain"
            label={`Put ${room.name} away`}
            onPress={() => void putAway([{ table: 'rooms', id: room.id }], `put away ${room.name}`, nowInstant()).then(onSay)}
          >
            Put away
          </TextButton>
        )}
      </span>
    </li>
  );
}
