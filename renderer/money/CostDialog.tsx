import { useState } from 'react';
import type { Hours } from '../../shared-core/book/ledger.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { ChoiceRow } from '../parts/Choices.tsx';
import { DriveForm } from './DriveForm.tsx';
import { HoursForm } from './HoursForm.tsx';
import { PurchaseDialog } from './PurchaseDialog.tsx';

type Kind = 'purchase' | 'hours' | 'drive';
const KINDS: Readonly<Record<Kind, string>> = { purchase: 'Purchase', hours: 'Hours', drive: 'Drive' };

interface CostDialogProps {
  readonly whole: WholeJob;
  readonly today: string;
  /** Hours read from a log, to be checked and saved. */
  readonly hours?: Pick<Hours, 'who' | 'task' | 'minutes' | 'onDay' | 'readFrom'> | undefined;
  readonly onClose: () => void;
}

export function CostDialog({ whole, today, hours, onClose }: CostDialogProps) {
  const [kind, setKind] = useState<Kind>(hours === undefined ? 'purchase' : 'hours');
  const head = hours === undefined ? <ChoiceRow label="Type" options={KINDS} value={kind} onChange={setKind} /> : null;
  const { business, job, materials } = whole;
  if (kind === 'hours') return <HoursForm whole={whole} today={today} start={hours} head={head} onClose={onClose} />;
  if (kind === 'drive') return <DriveForm whole={whole} today={today} head={head} onClose={onClose} />;
  return <PurchaseDialog business={business} materials={materials} jobId={job.id} today={today} head={head} onClose={onClose} />;
}
