import { useState } from 'react';
import { jobOfNumber } from '../book/out-rows.ts';
import { TextButton } from '../parts/TextButton.tsx';
import { TextField } from '../parts/TextField.tsx';
import { keepJobFolder, keepLists } from './keep-out.ts';

interface OutPartProps {
  readonly onSay: (good: boolean, words: string) => void;
}

/** The book's contents as files for others: lists for the accounts, a whole job as a folder. */
export function OutPart({ onSay }: OutPartProps) {
  const [number, setNumber] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const run = async (work: () => Promise<{ readonly ok: boolean; readonly says: string }>): Promise<void> => {
    setBusy(true);
    const kept = await work();
    setBusy(false);
    onSay(kept.ok, kept.says);
  };
  const saveJob = async (): Promise<void> => {
    const jobId = number.trim() === '' ? null : await jobOfNumber(number.trim());
    if (jobId === null)
      return setProblem(
        number.trim() === ''
          ? 'Type the job’s number first: it stands on each of its sheets.'
          : `No job has the number ${number.trim()}. It stands on each of the job’s sheets.`,
      );
    await run(() => keepJobFolder(jobId));
  };
  return (
    <section className="backup-out">
      <h2 className="speech">Out of the book</h2>
      <div className="backup-out-row">
        <p>Customers, jobs, quotes, batches and readings as lists that any spreadsheet opens, for whoever keeps the accounts.</p>
        <TextButton disabled={busy} onPress={() => void run(keepLists)}>
          Save the lists
        </TextButton>
      </div>
      <div className="backup-out-row">
        <TextField
          label="A whole job as a folder: its papers, photos and lists"
          placeholder="the job’s number"
          value={number}
          problem={problem}
          onChange={(typed) => {
            setNumber(typed);
            setProblem(null);
          }}
          onEnter={() => void saveJob()}
        />
        <TextButton disabled={busy} onPress={() => void saveJob()}>
          Save the folder
        </TextButton>
      </div>
    </section>
  );
}
