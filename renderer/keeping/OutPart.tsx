import { useState } from 'react';
import { useAll } from '../book/use-records.ts';
import { SelectField } from '../parts/SelectField.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { keepJobFolder, keepLists } from './keep-out.ts';

interface OutPartProps {
  readonly onSay: (good: boolean, words: string) => void;
}

/** The book's contents as files for others: lists for the accounts, a whole job as a folder. */
export function OutPart({ onSay }: OutPartProps) {
  const jobs = useAll('jobs');
  const [jobId, setJobId] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const run = async (work: () => Promise<{ readonly ok: boolean; readonly says: string }>): Promise<void> => {
    setBusy(true);
    const kept = await work();
    setBusy(false);
    onSay(kept.ok, kept.says);
  };
  return (
    <section className="keeping-out">
      <h2 className="speech">Out of the book</h2>
      <div className="keeping-out-row">
        <p>Customers, jobs, quotes, batches and readings as lists that any spreadsheet opens, for whoever keeps the accounts.</p>
        <TextButton disabled={busy} onPress={() => void run(keepLists)}>
          Save the lists
        </TextButton>
      </div>
      <div className="keeping-out-row">
        <SelectField
          label="A whole job as a folder: its papers, photos and lists"
          value={jobId}
          none="which job"
          options={(jobs ?? [])
            .map((job) => ({ value: job.id, word: `${job.number} ${job.title}`.trim() }))
            .sort((a, b) => (a.word < b.word ? 1 : -1))}
          onChange={setJobId}
        />
        <TextButton disabled={busy || jobId === null} onPress={() => void run(() => keepJobFolder(jobId ?? ''))}>
          Save the folder
        </TextButton>
      </div>
    </section>
  );
}
