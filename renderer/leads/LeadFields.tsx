import { type LeadRead, readFloor, type RoomRead } from '../../shared-core/lead/read-line.ts';
import { dayOfInstant } from '../../shared-core/measure/moment.ts';
import { ClockField, DateField, Fields, QuantityField, TextField, checkEmail, checkPhone, YearField } from '../parts/Fields.tsx';
import { LEAD_STEP_WORDS } from '../parts/lead-words.ts';
import { SelectField } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';

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

/** The fields read from the line, editable. */
export function LeadFields({ read, now, zone, hasProperty, onChange }: LeadFieldsProps) {
  const setRoom = (i: number, change: Partial<RoomRead>): void =>
    onChange({ rooms: read.rooms.map((room, k) => (k === i ? { ...room, ...change } : room)) });
  return (
    <>
      <Fields wide>
        <TextField label="Name" value={read.name} onChange={(name) => onChange({ name })} />
        <TextField label="Phone" kind="tel" value={read.phone} check={checkPhone} onChange={(phone) => onChange({ phone })} />
        <TextField label="Email" kind="email" value={read.email} check={checkEmail} onChange={(email) => onChange({ email })} />
        <TextField label="Source" value={read.source} placeholder="Referral, website" onChange={(source) => onChange({ source })} />
        {!hasProperty && <TextField label="Street address" value={read.address} onChange={(address) => onChange({ address })} />}
        {!hasProperty && <YearField label="Year built" value={read.yearBuilt} onChange={(yearBuilt) => onChange({ yearBuilt })} />}
      </Fields>
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
      <div className="words">
        <TextButton kind="plain" onPress={() => onChange({ rooms: [...read.rooms, NEW_ROOM] })}>
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
            kind="depth"
            value={read.roughGapM}
            onChange={(roughGapM) => onChange({ roughGapM })}
          />
        )}
        <SelectField label="Next step" value={read.step} none="None" options={LEAD_STEP_WORDS} onChange={(step) => onChange({ step })} />
        <DateField label="Date" value={read.day} today={dayOfInstant(now, zone)} onChange={(day) => onChange({ day })} />
        <ClockField label="Time" value={read.clock} onChange={(clock) => onChange({ clock })} />
      </Fields>
      <TextField label="Notes" long value={read.notes} onChange={(notes) => onChange({ notes })} />
    </>
  );
}
