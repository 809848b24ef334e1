import { useState } from 'react';
import type { WholeJob } from '../../shared-core/book/whole-job.ts';
import { type LoggedHours, loggedHours } from '../../shared-core/learn/logged-hours.ts';
import { payOf } from '../../shared-core/ledger/worked-hours.ts';
import { formatDay } from '../../shared-core/measure/day.ts';
import { formatDuration } from '../../shared-core/measure/duration.ts';
import { recordEntries } from '../book/ledger-commands.ts';
import { Notice } from '../parts/Dialog.tsx';
import { Table } from '../parts/Table.tsx';
import { TextButton } from '../parts/Buttons.tsx';

const SHOWN = 5;
const MINUTE_S = 60;

/** Hours from prep signatures and the pour log that the ledger lacks, to be added as they are or corrected first. */
export function LoggedHoursPart({ whole, onCorrect }: { readonly whole: WholeJob; readonly onCorrect: (hours: LoggedHours) => void }) {
  const [problem, setProblem] = useState<string | null>(null);
  const [all, setAll] = useState(false);
  const rows = loggedHours(whole);
  const { business, job, ledger } = whole;
  if (rows.length === 0) return null;
  const record = async (): Promise<void> => {
    const saved = await recordEntries(
      rows.map((hours) => ({ ...hours, ...payOf(hours.who, business, ledger), kind: 'hours' as const, jobId: job.id, note: '' })),
    );
    setProblem(saved.ok ? null : saved.message);
  };
  return (
    <section className="money-part">
      <div className="ends-line">
        <h2 className="speech">Hours in the logs</h2>
        <TextButton onPress={() => void record()}>{rows.length === 1 ? 'Record hours' : `Record all ${rows.length}`}</TextButton>
      </div>
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      <p className="small">From the times prep lines were signed and the pour log. Not recorded yet. Select a row to correct it first.</p>
      <Table
        label="Hours in the logs that are not recorded"
        dense
        rows={all ? rows : rows.slice(0, SHOWN)}
        rowKey={({ readFrom }) => readFrom}
        onPick={onCorrect}
        columns={[
          { caption: 'Date', cell: ({ onDay }) => <span className="money-number">{formatDay(onDay, 'short', business.locale)}</span> },
          { caption: 'Worker', heads: true, cell: ({ who }) => who },
          { caption: 'Task', cell: ({ task }) => task },
          { caption: 'Time', align: 'right', cell: ({ minutes }) => formatDuration(minutes * MINUTE_S, business.locale) },
        ]}
      />
      {rows.length > SHOWN && (
        <TextButton kind="plain" expanded={all} onPress={() => setAll(!all)}>
          {all ? 'Show fewer' : `Show ${rows.length - SHOWN} more`}
        </TextButton>
      )}
    </section>
  );
}
