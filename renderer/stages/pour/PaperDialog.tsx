import { useState } from 'react';
import { dayOfInstant, instantAt } from '../../../shared-core/measure/moment.ts';
import { paperEntries, type PaperLine } from '../../../shared-core/pour/pour-commands.ts';
import type { PourRecordPlan } from '../../../shared-core/pour/pour-state.ts';
import type { PourEvent } from '../../../shared-core/book/pour-record.ts';
import { newId } from '../../book/moment.ts';
import type { Outcome } from '../../book/outcome.ts';
import { ActionButton } from '../../parts/ActionButton.tsx';
import { ClockField } from '../../parts/ClockField.tsx';
import { DateField } from '../../parts/DateField.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { NumberField } from '../../parts/NumberField.tsx';
import { TextButton } from '../../parts/TextButton.tsx';

interface PaperProps {
  readonly plan: PourRecordPlan;
  readonly zone: string;
  readonly now: string;
  readonly onClose: () => void;
  readonly onEnter: (of: {
    readonly id: string;
    readonly events: readonly PourEvent[];
    readonly bagsOnSite: number;
    readonly bagsLeft: number | null;
  }) => Promise<Outcome<unknown>>;
}

type Row = { readonly id: string; readonly bags: number | null; readonly clock: string | null };

/** A pour that was logged on paper, batch by batch; its times count as estimates. */
export function PaperDialog({ plan, zone, now, onClose, onEnter }: PaperProps) {
  const today = dayOfInstant(now, zone);
  const [day, setDay] = useState<string | null>(today);
  const [onSite, setOnSite] = useState<number | null>(null);
  const [left, setLeft] = useState<number | null>(null);
  const empty = (): Row => ({ id: newId(), bags: plan.bagsPerBatch, clock: null });
  const [rows, setRows] = useState<readonly Row[]>(() => [empty(), empty(), empty()]);
  const [problem, setProblem] = useState<string | null>(null);
  const set = (id: string, part: Partial<Row>) => setRows((was) => was.map((row) => (row.id === id ? { ...row, ...part } : row)));
  const enter = (): void => {
    if (day === null) return setProblem('Which day was it? Type the day of the pour.');
    if (onSite === null) return setProblem('Type how many bags were on site before the first batch.');
    const filled = rows.filter((row) => row.clock !== null);
    if (filled.length === 0) return setProblem('Type the time the first batch landed.');
    const lines: PaperLine[] = [];
    for (const [i, row] of filled.entries()) {
      const at = instantAt(day, row.clock ?? '', zone);
      if (!at.ok) return setProblem(`Line ${i + 1}: ${at.message}`);
      lines.push({ batch: i + 1, bags: row.bags ?? 0, placedAt: at.value.at });
    }
    if (lines.some((line) => line.placedAt > now))
      return setProblem('A batch would have landed later than now: look at the day and the times.');
    const id = newId();
    const entries = paperEntries(plan, id, 1, lines, newId);
    if (!entries.ok) return setProblem(entries.message);
    // What was typed stays while it could not be written.
    return void onEnter({ id, events: entries.value, bagsOnSite: onSite, bagsLeft: left }).then((outcome) =>
      outcome.ok ? onClose() : setProblem(outcome.message),
    );
  };
  return (
    <Dialog
      open
      wide
      title="Enter the pour from paper"
      onClose={onClose}
      actions={
        <>
          <TextButton onPress={onClose}>Not now</TextButton>
          <ActionButton onPress={enter}>Enter the pour</ActionButton>
        </>
      }
    >
      <Fields>
        <DateField label="Poured on" today={today} latest={today} value={day} onChange={setDay} />
        <NumberField label="Bags on site at the start" whole least={1} most={2000} value={onSite} onChange={setOnSite} />
        <NumberField label="Bags left over" least={0} most={2000} decimals={1} value={left} onChange={setLeft} />
      </Fields>
      <p className="small">One line a batch, in the order they landed; lines without a time are left out. Times count as estimates.</p>
      <div className="pour-paper">
        {rows.map((row, i) => (
          <div key={row.id} className="pour-paper-line">
            <span>{i + 1}</span>
            <ClockField label={`Batch ${i + 1} landed at`} value={row.clock} onChange={(clock) => set(row.id, { clock })} />
            <NumberField
              label={`Bags in batch ${i + 1}`}
              least={0.25}
              most={20}
              value={row.bags}
              onChange={(bags) => set(row.id, { bags })}
              {...(i === rows.length - 1 ? { onEnter: () => setRows((was) => [...was, empty()]) } : {})}
            />
          </div>
        ))}
      </div>
      <TextButton onPress={() => setRows((was) => [...was, empty()])}>One more line</TextButton>
      {problem !== null && (
        <p className="field-problem" role="alert">
          {problem}
        </p>
      )}
    </Dialog>
  );
}
