import { type ReactNode, useState } from 'react';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { recordEntry } from '../book/ledger-commands.ts';
import { DateField, DistanceField, Fields, TextField } from '../parts/Fields.tsx';
import { SaveDialog } from '../parts/Dialog.tsx';

interface DriveFormProps {
  readonly whole: WholeJob;
  readonly today: string;
  readonly head: ReactNode;
  readonly onClose: () => void;
}

/** One drive: date, reason and distance. Starts from the round trip to the property. */
export function DriveForm({ whole, today, head, onClose }: DriveFormProps) {
  const { business, job, property } = whole;
  const [onDay, setOnDay] = useState<string | null>(today);
  const [purpose, setPurpose] = useState(`Round trip to ${property.address.line === '' ? 'the property' : property.address.line}`);
  const [distanceKm, setDistance] = useState<number | null>(property.travelKm === null ? null : property.travelKm * 2);
  const save = async () => {
    if (onDay === null) return 'Enter the date.';
    if (purpose.trim() === '') return 'Enter the purpose of the drive.';
    if (distanceKm === null || distanceKm === 0) return 'Enter the distance.';
    const kmMinor = business.costs.travelKmMinor;
    return recordEntry({ jobId: job.id, onDay, note: '', kind: 'drive', purpose: purpose.trim(), distanceKm, kmMinor });
  };
  return (
    <SaveDialog title="Add cost" save={save} onClose={onClose}>
      {head}
      <Fields>
        <DateField label="Date" value={onDay} onChange={setOnDay} today={today} latest={today} />
        <DistanceField label="Distance, round trip" value={distanceKm} onChange={setDistance} />
      </Fields>
      <TextField label="Purpose" value={purpose} onChange={setPurpose} />
    </SaveDialog>
  );
}
