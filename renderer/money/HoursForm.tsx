import { type ReactNode, useState } from 'react';
import type { Hours, LedgerEntry } from '../../shared-core/book/ledger.ts';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { payOf } from '../../shared-core/ledger/worked-hours.ts';
import { TASK_NAMES } from '../../shared-core/material/crew-hours.ts';
import { recordEntry } from '../book/ledger-commands.ts';
import { ChoiceRow, SelectField } from '../parts/Choices.tsx';
import { DateField, DurationField, Fields, MoneyField, TextField } from '../parts/Fields.tsx';
import { SaveDialog } from '../parts/Dialog.tsx';

const PAID_AS: Readonly<Record<Hours['paidAs'], string>> = { owner: 'Owner', employee: 'Employee', contractor: 'Contractor' };
const OTHER = 'other';
const TASKS: readonly string[] = Object.values(TASK_NAMES);
const MINUTE_S = 60;

interface HoursFormProps {
  readonly whole: WholeJob;
  readonly today: string;
  /** Hours read from a log, to be checked before they are saved. */
  readonly start?: Pick<Hours, 'who' | 'task' | 'minutes' | 'onDay' | 'readFrom'> | undefined;
  readonly head: ReactNode;
  readonly onClose: () => void;
}

export function HoursForm({ whole, today, start, head, onClose }: HoursFormProps) {
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
            choose(value === OTHER || value === null ? '' : value);
          }}
        />
        {isOther && <TextField label="Name" value={worker} onChange={choose} />}
        <SelectField
          label="Task"
          value={isOtherTask ? OTHER : task}
          options={[...TASKS.map((name) => ({ value: name, word: name })), { value: OTHER, word: 'Another task' }]}
          onChange={(value) => {
            setOtherTask(value === OTHER);
            setTask(value === OTHER || value === null ? '' : value);
          }}
        />
        {isOtherTask && <TextField label="Task name" value={task} onChange={setTask} />}
        <DurationField label="Time" typedIn="hour" value={seconds} onChange={setSeconds} />
        {pay.paidAs !== 'owner' && (
          <MoneyField
            label="Pay per hour"
            value={pay.hourMinor}
            onChange={(hourMinor) => setPay({ ...pay, hourMinor: hourMinor ?? 0 })}
            currency={business.currency}
          />
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
