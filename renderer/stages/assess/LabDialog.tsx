import { useState } from 'react';
import { type FloorTest, testSchema } from '../../../shared-core/book/layer.ts';
import { ChoiceRow, SelectField } from '../../parts/Choices.tsx';
import { DateField, Fields, TextField } from '../../parts/Fields.tsx';
import { SaveDialog } from '../../parts/Dialog.tsx';

export type LabTest = Extract<FloorTest, { kind: 'lab' }>;

interface LabDialogProps {
  readonly test: LabTest;
  /** Layers a sample can be from, by id. */
  readonly layers: readonly { readonly value: string; readonly word: string }[];
  readonly today: string;
  readonly onSave: (test: LabTest) => void;
  readonly onClose: () => void;
}

export const LAB_STATES = { sent: 'Pending', 'none-found': 'Not detected', found: 'Detected' } as const;

/** A lab result. It clears a hold only with lab, sample number and date. */
export function LabDialog({ test, layers, today, onSave, onClose }: LabDialogProps) {
  const [now, setNow] = useState(test);
  const save = (): string | undefined => {
    if (now.state !== 'sent' && (now.lab.trim() === '' || now.sample.trim() === '' || now.resultOn === null))
      return 'Enter the lab, the sample number and the date from the report. A result does not count without them.';
    const read = testSchema.safeParse(now);
    if (!read.success || read.data.kind !== 'lab')
      return read.error?.issues[0]?.message ?? 'This result cannot be saved. Check each field.';
    onSave(read.data);
    return undefined;
  };
  return (
    <SaveDialog title="Lab result" save={save} onClose={onClose}>
      <p className="caption">
        Asbestos samples are taken by an accredited inspector or industrial hygienist, lead samples by a certified inspector. One sample per
        layer is the minimum, and electron microscopy (TEM) finds fibers in vinyl tile that light microscopy can miss.
      </p>
      <ChoiceRow label="Result" options={LAB_STATES} value={now.state} onChange={(state) => setNow({ ...now, state })} />
      <Fields wide>
        <SelectField
          label="Substance"
          value={now.question}
          options={{ asbestos: 'asbestos', 'lead-paint': 'lead in paint or varnish' }}
          onChange={(question) => setNow({ ...now, question: question })}
        />
        <SelectField
          label="Layer"
          value={now.layerId}
          none="trim paint or wall coating"
          options={layers}
          onChange={(layerId) => setNow({ ...now, layerId })}
        />
        <TextField label="Lab" value={now.lab} onChange={(lab) => setNow((n) => ({ ...n, lab }))} />
        <TextField label="Sample number" value={now.sample} onChange={(sample) => setNow((n) => ({ ...n, sample }))} />
        {now.state === 'sent' ? (
          <DateField label="Due date" today={today} value={now.dueOn} onChange={(dueOn) => setNow((n) => ({ ...n, dueOn }))} />
        ) : (
          <DateField
            label="Report date"
            today={today}
            latest={today}
            value={now.resultOn}
            onChange={(resultOn) => setNow((n) => ({ ...n, resultOn }))}
          />
        )}
      </Fields>
    </SaveDialog>
  );
}
