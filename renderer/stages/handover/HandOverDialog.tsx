import { useState } from 'react';
import type { HandoverRoom } from '../../../shared-core/documents/handover-rooms.ts';
import { isCleared } from '../../../shared-core/standing/room-cure.ts';
import { nowInstant } from '../../book/command.ts';
import { CheckRow } from '../../parts/Choices.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { Fields, MomentField, TextField } from '../../parts/Fields.tsx';

interface HandOverDialogProps {
  /** Finished rooms that are not handed over. */
  readonly rooms: readonly HandoverRoom[];
  readonly customerName: string;
  readonly now: string;
  readonly zone: string;
  readonly onHandOver: (roomIds: readonly string[], instant: string, to: string) => void;
  readonly onClose: () => void;
}

/** Records which floors are handed over, the date, and the recipient. */
export function HandOverDialog({ rooms, customerName, now, zone, onHandOver, onClose }: HandOverDialogProps) {
  const [picked, setPicked] = useState<readonly string[]>(rooms.map((handoverRoom) => handoverRoom.room.id));
  const [instant, setInstant] = useState<string | null>(null);
  const [to, setTo] = useState(customerName);
  const isAhead = instant !== null && instant > nowInstant();
  return (
    <Dialog
      onClose={onClose}
      title="Record handover"
      onSave={() => onHandOver(picked, instant ?? nowInstant(), to.trim())}
      blocked={picked.length === 0 || to.trim() === '' || isAhead}
    >
      {rooms.map((room) => (
        <CheckRow
          key={room.room.id}
          label={room.room.name}
          right={
            isCleared(room, now) ? 'Cleared' : room.schedule.clearance?.requirement.byHours === false ? 'Curing until its test' : 'Curing'
          }
          checked={picked.includes(room.room.id)}
          onChange={(on) => setPicked(on ? [...picked, room.room.id] : picked.filter((id) => id !== room.room.id))}
        />
      ))}
      <Fields>
        <TextField label="Received by" value={to} emptyMessage="Enter who received it." onChange={setTo} />
        <MomentField label="Handed over" zone={zone} now={now} past value={instant} placeholder="now" onChange={setInstant} />
      </Fields>
      {isAhead && <p className="late">Enter a time that is not in the future.</p>}
    </Dialog>
  );
}
