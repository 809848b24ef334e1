import { type KeyboardEvent, useId, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { useLocation } from 'wouter';
import type { Business } from '../../shared-core/book/business.ts';
import { ownAddress } from '../../shared-core/book/sample-company.ts';
import { knownCustomer, leadRecords } from '../../shared-core/lead/lead-records.ts';
import { changedNext } from '../../shared-core/lead/read-step.ts';
import { readFloor } from '../../shared-core/lead/line-floor.ts';
import { type LeadRead, numberedRooms, readLeadLine, type RoomRead } from '../../shared-core/lead/read-line.ts';
import { saveLead } from '../book/customer-commands.ts';
import { newId, nowInstant } from '../book/command.ts';
import { useDraft } from '../book/drafts.ts';
import { useAll, useBusiness, useWhere } from '../book/use-records.ts';
import { AddressFields } from '../parts/AddressFields.tsx';
import { Dialog, Notice } from '../parts/Dialog.tsx';
import { FieldProblem, FieldShell } from '../parts/Field.tsx';
import { stageHref } from '../parts/job/stage-words.ts';
import { TextButton } from '../parts/Buttons.tsx';
import type { Customer } from '../../shared-core/book/customer.ts';
import type { Property } from '../../shared-core/book/property.ts';
import { CheckRow, SelectField } from '../parts/Choices.tsx';
import { propertyName, theRoom } from '../../shared-core/standing/names.ts';
import { dayOfInstant } from '../../shared-core/measure/moment.ts';
import { ClockField, DateField, Fields, QuantityField, TextField, YearField } from '../parts/Fields.tsx';
import { LEAD_STEP_WORDS } from '../parts/lead-words.ts';
import { useBusy } from '../parts/use-busy.ts';
import { useMeasure } from '../parts/use-measure.ts';
import { unlikelySides } from '../../shared-core/plan/unlikely-size.ts';
import { joined } from '../../shared-core/measure/list.ts';

const EXAMPLE = {
  us: 'Name 555-0142, kitchen 12x14, tile over slab, about 3/8 out, referred, visit Thu 4pm',
  metric: 'Name 555-0142, kitchen 3.6 x 4.2, tile over slab, about 10 mm out, referred, visit Thu 4pm',
} as const;

/** A call that is not saved as a lead yet: its line, and the fields corrected by hand. */
type Call = { readonly text: string; readonly corrected: Partial<LeadRead> };

const readCall = (draft: string | null | undefined): Call | null => (typeof draft === 'string' ? (JSON.parse(draft) as Call) : null);

/** Reads a call typed in one line into fields to correct. Only a name is required. A call that was not saved is there the next time. */
export function NewLeadDialog({ onClose }: { readonly onClose: () => void }) {
  const business = useBusiness();
  return business === undefined ? null : <NewLead business={business} onClose={onClose} />;
}

function NewLead({ business, onClose }: { readonly business: Business; readonly onClose: () => void }) {
  const id = useId();
  const [, go] = useLocation();
  const [now] = useState(nowInstant);
  const { text: draft, save: keep } = useDraft('lead');
  const [typed, setTyped] = useState<Call | null>(null);
  const left = readCall(draft);
  const call = typed ?? left ?? { text: '', corrected: {} };
  const { text, corrected } = call;
  // Two fields may change in one step.
  const latest = useRef(call);
  useLayoutEffect(() => {
    latest.current = call;
  });
  const type = (update: (now: Call) => Partial<Call>): void => {
    latest.current = { ...latest.current, ...update(latest.current) };
    setTyped(latest.current);
    void keep(JSON.stringify(latest.current));
  };
  const discard = (): void => {
    void keep(null);
    onClose();
  };
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, run] = useBusy();
  const save = useRef<HTMLDivElement>(null);
  const { timeZone: zone, units, locale } = business;
  const address = ownAddress(business);
  const { country } = address;
  const read = useMemo(
    (): LeadRead => ({ ...readLeadLine(text, { now, zone, units, locale, country }), ...corrected }),
    [text, corrected, now, zone, units, locale, country],
  );
  const customers = useAll('customers');
  const match = useMemo(() => knownCustomer(read, customers ?? []), [read, customers]);
  const [isApart, setApart] = useState(false);
  const known = isApart ? null : match;
  const properties = useWhere('properties', 'customerId', known?.id ?? null) ?? [];
  const [chosen, setChosen] = useState<string | null>(null);
  const guess = properties.find((p) => p.address.line.toLowerCase() === read.address.toLowerCase()) ?? null;
  const fallback = read.address === '' && properties.length === 1 ? (properties[0] ?? null) : guess;
  const property = chosen === null ? fallback : (properties.find((p) => p.id === chosen) ?? null);
  const knownRooms = useWhere('rooms', 'propertyId', property?.id ?? null) ?? [];
  const isSized = read.rooms.some((room) => room.widthM !== null && room.lengthM !== null);
  const finish = async (hasJob: boolean): Promise<void> => {
    if (read.name.trim() === '' && known === null) {
      setProblem('Enter the customer’s name. Everything else can wait.');
      return;
    }
    const around = { now: nowInstant(), newId, zone, address, units, locale, known, knownProperty: property, knownRooms };
    const saved = await saveLead(leadRecords(read, around), hasJob);
    if (!saved.ok) {
      setProblem(saved.message);
      return;
    }
    discard();
    const { customerId, jobId, roomId } = saved.value;
    go(jobId === null || roomId === null ? `/customers/${customerId}` : stageHref(jobId, 'estimate', roomId));
  };
  const press = (event: KeyboardEvent): void => {
    if (event.key !== 'Enter' || text.trim() === '') return;
    event.preventDefault();
    save.current?.querySelector<HTMLButtonElement>('button:last-of-type')?.focus();
  };
  return (
    <Dialog
      wide
      firm
      onClose={onClose}
      title="New lead"
      actions={
        <div className="words" ref={save}>
          <TextButton onPress={discard}>Cancel</TextButton>
          {isSized && (
            <TextButton kind="outlined" saves disabled={busy} onPress={() => run(() => finish(true))}>
              Save and price
            </TextButton>
          )}
          <TextButton kind="outlined" saves disabled={busy} onPress={() => run(() => finish(false))}>
            Save lead
          </TextButton>
        </div>
      }
    >
      <FieldShell
        id={id}
        label="Name, phone, room and size, floor, how far out, source, next step"
        problem={null}
        hint={`For example: ${EXAMPLE[units]}`}
      >
        <input
          id={id}
          value={text}
          autoFocus
          autoComplete="off"
          spellCheck={false}
          onChange={(event) => {
            const { value } = event.target;
            type(() => ({ text: value }));
            setProblem(null);
          }}
          onKeyDown={press}
        />
      </FieldShell>
      {typed === null && left !== null && <Notice>This call was not saved. Save it, or press Cancel to discard it.</Notice>}
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      {match !== null && (
        <KnownCustomer
          match={match}
          properties={properties}
          property={property}
          isApart={isApart}
          onApart={setApart}
          onProperty={(propertyId) => setChosen(propertyId ?? '')}
        />
      )}
      {(text.trim() !== '' || Object.keys(corrected).length > 0) && (
        <LeadFields
          read={read}
          now={now}
          zone={zone}
          hasProperty={property !== null}
          onChange={(change) => type((was) => ({ corrected: { ...was.corrected, ...change } }))}
        />
      )}
    </Dialog>
  );
}

interface KnownCustomerProps {
  readonly match: Customer;
  readonly properties: readonly Property[];
  /** The property for the rooms; null for a new one. */
  readonly property: Property | null;
  /** Called when the caller is not this customer. */
  readonly isApart: boolean;
  readonly onApart: (isApart: boolean) => void;
  readonly onProperty: (propertyId: string | null) => void;
}

/** Adds the lead to a customer who already has a record, and its rooms to a property. */
function KnownCustomer({ match, properties, property, isApart, onApart, onProperty }: KnownCustomerProps) {
  return (
    <div className="stack">
      <CheckRow
        label={`Add to existing customer: ${joined([match.name, match.phone])}`}
        checked={!isApart}
        onChange={(isAdded) => onApart(!isAdded)}
      />
      {!isApart && properties.length > 0 && (
        <SelectField
          label="Property"
          value={property?.id ?? null}
          none="New property"
          options={properties.map((p) => ({ value: p.id, word: propertyName(p) }))}
          onChange={onProperty}
        />
      )}
    </div>
  );
}

interface LeadFieldsProps {
  readonly read: LeadRead;
  readonly now: string;
  readonly zone: string;
  /** True when the property has a record, so that its address is not asked for. */
  readonly hasProperty: boolean;
  readonly onChange: (change: Partial<LeadRead>) => void;
}

const NEW_ROOM: RoomRead = { name: 'Room', widthM: null, lengthM: null };

const checkFloor = (text: string): string | null =>
  text === '' || readFloor(text) !== null
    ? null
    : 'Enter the layers from the top down, such as “tile over slab” or “carpet over plywood over joists”.';

function LeadFields({ read, now, zone, hasProperty, onChange }: LeadFieldsProps) {
  const { units, locale } = useMeasure();
  const setRoom = (i: number, change: Partial<RoomRead>): void =>
    onChange({ rooms: read.rooms.map((room, k) => (k === i ? { ...room, ...change } : room)) });
  const today = dayOfInstant(now, zone);
  const setNext = (change: Parameters<typeof changedNext>[1]): void =>
    onChange(changedNext(read, change, today) ?? { step: null, day: null, clock: null });
  return (
    <>
      <Fields wide>
        <TextField label="Name" value={read.name} onChange={(name) => onChange({ name })} />
        <TextField label="Phone" kind="tel" value={read.phone} onChange={(phone) => onChange({ phone })} />
        <TextField label="Email" kind="email" value={read.email} onChange={(email) => onChange({ email })} />
        <TextField label="Source" value={read.source} placeholder="Referral, website" onChange={(source) => onChange({ source })} />
        {!hasProperty && <YearField label="Year built" value={read.yearBuilt} onChange={(yearBuilt) => onChange({ yearBuilt })} />}
      </Fields>
      {!hasProperty && (
        <AddressFields
          lineOnly={`${read.address}${read.city}${read.region}${read.zip}` === ''}
          address={{ line: read.address, city: read.city, region: read.region, zip: read.zip, country: '' }}
          onChange={({ line, country: _country, ...change }) => onChange({ ...change, ...(line === undefined ? {} : { address: line }) })}
        />
      )}
      {read.rooms.map((room, i) => (
        // Rooms of a lead have no id yet, so their order is the key.
        <Fields key={i}>
          <TextField
            label={read.rooms.length === 1 ? 'Room' : `Room ${i + 1}`}
            value={room.name}
            onChange={(name) => setRoom(i, { name })}
          />
          <QuantityField label="Width" kind="wall" value={room.widthM} onChange={(widthM) => setRoom(i, { widthM })} />
          <QuantityField label="Length" kind="wall" value={room.lengthM} onChange={(lengthM) => setRoom(i, { lengthM })} />
        </Fields>
      ))}
      <FieldProblem
        text={unlikelySides(
          read.rooms.flatMap(({ widthM, lengthM }) => [widthM, lengthM]).filter((m) => m !== null),
          units,
          locale,
        )}
      />
      <div className="words">
        <TextButton kind="plain" onPress={() => onChange({ rooms: numberedRooms([...read.rooms, NEW_ROOM]) })}>
          Add room
        </TextButton>
        {read.rooms.length > 0 && (
          <TextButton kind="delete" onPress={() => onChange({ rooms: read.rooms.slice(0, -1) })}>
            Delete last room
          </TextButton>
        )}
      </div>
      <Fields wide>
        {read.rooms.length > 0 && (
          <TextField label="Floor, top to bottom" value={read.floor} check={checkFloor} onChange={(floor) => onChange({ floor })} />
        )}
        {read.rooms.length > 0 && (
          <QuantityField
            label="Max gap under a 6 ft level"
            {...(read.gapRoom === null ? {} : { hint: `In ${theRoom(read.gapRoom)}.` })}
            kind="depth"
            value={read.roughGapM}
            onChange={(roughGapM) => onChange({ roughGapM })}
          />
        )}
        <SelectField label="Next step" value={read.step} none="None" options={LEAD_STEP_WORDS} onChange={(step) => setNext({ step })} />
        <DateField label="Date" value={read.day} today={today} onChange={(day) => setNext({ day })} />
        <ClockField label="Time" value={read.clock} onChange={(clock) => setNext({ clock })} />
      </Fields>
      <TextField label="Notes" long value={read.notes} onChange={(notes) => onChange({ notes })} />
    </>
  );
}
