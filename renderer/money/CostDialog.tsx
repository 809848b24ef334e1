import { useState, type ReactNode } from 'react';
import type { Hours, LedgerEntry } from '../../shared-core/book/ledger.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { ChoiceRow, SelectField } from '../parts/Choices.tsx';
import { PurchaseDialog } from './PurchaseDialog.tsx';
import { recordEntry } from '../book/ledger-commands.ts';
import { DateField, DistanceField, Fields, TextField, DurationField, MoneyField } from '../parts/Fields.tsx';
import { SaveDialog } from '../parts/Dialog.tsx';
import { payOf } from '../../shared-core/ledger/worked-hours.ts';
import { TASK_NAMES } from '../../shared-core/price/hours-words.ts';

type Kind = 'purchase' | 'hours' | 'drive';
const KINDS: Readonly<Record<Kind, string>> = { purchase: 'Purchase', hours: 'Hours', drive: 'Drive' };

interface FormProps {
  readonly whole: WholeJob;
  readonly today: string;
  readonly head: ReactNode;
  readonly onClose: () => void;
}

interface CostDialogProps extends Omit<FormProps, 'head'> {
  /** Hours read from a log, to be checked and saved. */
  readonly hours?: Pick<Hours, 'who' | 'task' | 'minutes' | 'onDay' | 'readFrom'> | undefined;
}

export function CostDialog({ whole, today, hours, onClose }: CostDialogProps) {
  const [kind, setKind] = useState<Kind>(hours === undefined ? 'purchase' : 'hours');
  const head = hours === undefined ? <ChoiceRow label="Type" options={KINDS} value={kind} onChange={setKind} /> : null;
  const { business, job, materials } = whole;
  if (kind === 'hours') return <HoursForm whole={whole} today={today} start={hours} head={head} onClose={onClose} />;
  if (kind === 'drive') return <DriveForm whole={whole} today={today} head={head} onClose={onClose} />;
  return <PurchaseDialog business={business} materials={materials} jobId={job.id} today={today} head={head} onClose={onClose} />;
}

/** One drive: date, reason and distance. Starts from the round trip to the property. */
function DriveForm({ whole, today, head, onClose }: FormProps) {
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

const PAID_AS: Readonly<Record<Hours['paidAs'], string>> = { owner: 'Owner', employee: 'Employee', contractor: 'Contractor' };
const OTHER = 'other';
const TASKS: readonly string[] = Object.values(TASK_NAMES);
const MINUTE_S = 60;

function HoursForm({ whole, today, start, head, onClose }: FormProps & { readonly start: CostDialogProps['hours'] }) {
  const { business, job, ledger } = whole;
  const people = [...new Set([business.ownerName, ...job.crewNames, ...whoWorked(ledger)])].filter((name) => name !== '');
  const [onDay, setOnDay] = useState<string | null>(start?.onDay ?? today);
  const [worker, setWorker] = useState(start?.who ?? business.ownerName);
  const [isOther, setOther] = useState(!people.includes(start?.who ?? business.ownerName));
  const [task, setTask] = useState(start?.task ?? TASK_NAMES.pour);
  const [isOtherTask, setOtherTask] = useState(!TASKS.includes(start?.task ?? TASK_NAMES.pour));
  const [seconds, setSeconds] = useState<number | null>(start === undefined ? null : start.minutes * MINUTE_S);
  const [pay, setPay] = useState(payOf(worker, business, ledger));
  const choose = (name: string): void => {
    setWorker(name);
    setPay(payOf(name, business, ledger));
  };
  const save = async () => {
    if (onDay === null) return 'Enter the date.';
    if (worker.trim() === '') return 'Enter who worked.';
    if (task.trim() === '') return 'Enter the task.';
    if (seconds === null || seconds < MINUTE_S) return 'Enter the time worked.';
    const minutes = Math.round(seconds / MINUTE_S);
    const own = { jobId: job.id, onDay, note: '', readFrom: start?.readFrom ?? '' };
    return recordEntry({ ...own, ...pay, kind: 'hours', who: worker.trim(), task: task.trim(), minutes });
  };
  return (
    <SaveDialog title={start === undefined ? 'Add cost' : 'Record hours'} save={save} onClose={onClose}>
      {head}
      <Fields>
        <DateField label="Date" value={onDay} onChange={setOnDay} today={today} latest={today} />
        <SelectField
          label="Worker"
          value={isOther ? OTHER : worker}
          options={[...people.map((name) => ({ value: name, word: name })), { value: OTHER, word: 'Someone else' }]}
          onChange={(value) => {
            setOther(value === OTHER);
            choose(value === OTHER ? '' : value);
          }}
        />
        {isOther && <TextField label="Name" value={worker} onChange={choose} />}
        <SelectField
          label="Task"
          value={isOtherTask ? OTHER : task}
          options={[...TASKS.map((name) => ({ value: name, word: name })), { value: OTHER, word: 'Another task' }]}
          onChange={(value) => {
            setOtherTask(value === OTHER);
            setTask(value === OTHER ? '' : value);
          }}
        />
        {isOtherTask && <TextField label="Task name" value={task} onChange={setTask} />}
        <DurationField label="Time" typedIn="hour" value={seconds} onChange={setSeconds} />
        {pay.paidAs !== 'owner' && (
          <MoneyField label="Pay per hour" value={pay.hourMinor} onChange={(hourMinor) => setPay({ ...pay, hourMinor: hourMinor ?? 0 })} />
        )}
      </Fields>
      <ChoiceRow
        label="Paid as"
        captioned
        options={PAID_AS}
        value={pay.paidAs}
        onChange={(paidAs) =>
          setPay({ paidAs, hourMinor: paidAs === 'owner' ? business.costs.ownHourMinor : business.costs.helperHourMinor })
        }
      />
    </SaveDialog>
  );
}

const whoWorked = (ledger: readonly LedgerEntry[]): string[] => ledger.flatMap((entry) => (entry.kind === 'hours' ? [entry.who] : []));
