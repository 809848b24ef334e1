import { useRef, useState } from 'react';
import { SHEET_ROWS_MOST } from '../../shared-core/documents/lists/data-table.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';
import { jobsOfNumber } from '../book/export-rows.ts';
import { TextButton } from '../parts/Buttons.tsx';
import { TextField } from '../parts/Fields.tsx';
import { type Exported, exportJob, exportLists } from './export-lists.ts';

interface ExportPartProps {
  readonly onSay: (good: boolean, words: string) => void;
}

export function ExportPart({ onSay }: ExportPartProps) {
  const [number, setNumber] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const [share, setShare] = useState<number | null>(null);
  const cancel = useRef(new AbortController());
  const run = async (work: () => Promise<Exported>): Promise<void> => {
    setBusy(true);
    const exported = await work();
    setBusy(false);
    onSay(exported.ok, exported.message);
  };
  const saveLists = async (): Promise<void> => {
    cancel.current = new AbortController();
    setShare(0);
    await run(() => exportLists(setShare, cancel.current.signal));
    setShare(null);
  };
  const saveJob = async (): Promise<void> => {
    const wanted = number.trim();
    if (wanted === '') return setProblem('Enter a job number. It is at the top of every job screen.');
    const jobIds = await jobsOfNumber(wanted);
    if (jobIds.length === 0) return setProblem(`No job has the number ${wanted}. Check the number at the top of the job screen.`);
    await run(async () => {
      const exported: Exported[] = [];
      for (const jobId of jobIds) exported.push(await exportJob(jobId));
      return { ok: exported.every(({ ok }) => ok), message: exported.map(({ message }) => message).join(' ') };
    });
  };
  return (
    <section className="stack apart">
      <h2 className="speech">Export</h2>
      <div className="field-row">
        <p>
          All data as CSV files and one workbook (.xlsx), for a spreadsheet or another program. A list of more than{' '}
          {formatNumber(SHEET_ROWS_MOST, { most: 0 })} rows is a CSV file only.
        </p>
        {share === null ? (
          <TextButton disabled={busy} onPress={() => void saveLists()}>
            Export lists
          </TextButton>
        ) : (
          <TextButton onPress={() => cancel.current.abort()}>Cancel</TextButton>
        )}
      </div>
      {share !== null && <progress className="backup-progress" max={1} value={share} aria-label="Export progress" />}
      <div className="field-row">
        <TextField
          label="Job number"
          hint="Exports the documents, photos, and lists of one job to a folder."
          placeholder="26-001"
          value={number}
          problem={problem}
          onChange={(entered) => {
            setNumber(entered);
            setProblem(null);
          }}
          onEnter={() => void saveJob()}
        />
        <TextButton disabled={busy} onPress={() => void saveJob()}>
          Export job
        </TextButton>
      </div>
    </section>
  );
}
