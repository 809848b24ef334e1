import { useState } from 'react';
import { type FloorTest, testSchema } from '../../../shared-core/book/layer.ts';
import { ChoiceRow } from '../../parts/ChoiceRow.tsx';
import { DateField } from '../../parts/DateField.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { Notice } from '../../parts/Notice.tsx';
import { SelectField } from '../../parts/SelectField.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';

export type LabTest = Extract<FloorTest, { kind: 'laboratory' }>;

interface LabDialogProps {
  readonly test: LabTest;
  /** What can be asked about: the layers, by id. */
  readonly layers: readonly { readonly value: string; readonly word: string }[];
  readonly today: string;
  readonly onKeep: (test: LabTest) => void;
  readonly onClose: () => void;
}

/** What a laboratory can have said. */
export const LAB_STATES = [
  { value: 'sent', word: 'Not back yet' },
  { value: 'none-found', word: 'None found' },
  { value: 'found', word: 'Found' },
] as const;

/** A laboratory's answer: only one with laboratory, sample and date lifts a hold. */
export function LabDialog({ test, layers, today, onKeep, onClose }: LabDialogProps) {
  const [now, setNow] = useState(test);
  const [problem, setProblem] = useState<string | null>(null);
  const keep = (): void => {
    if (now.state !== 'sent' && (now.laboratory.trim() === '' || now.sample.trim() === '' || now.resultOn === null)) {
      setProblem('An answer counts with its laboratory, its sample and its date: write all three from the report.');
      return;
    }
    const read = testSchema.safeParse(now);
    if (read.success && read.data.kind === 'laboratory') onKeep(read.data);
    else setProblem(read.success ? 'This answer cannot be read.' : (read.error.issues[0]?.message ?? 'This answer cannot be read.'));
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title="The laboratory’s answer"
      actions={
        <>
          <TextButton onPress={onClose}>Back</TextButton>
          <TextButton kind="outlined" onPress={keep}>
            Keep the answer
          </TextButton>
        </>
      }
    >
      <p className="caption">
        Sampling is for people who may do it by local rules; the answer comes from an accredited laboratory or a certified inspector.
      </p>
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      <ChoiceRow label="The answer" options={LAB_STATES} value={now.state} onChange={(state) => setNow({ ...now, state })} />
      <Fields>
        <SelectField
          label="Asked about"
          value={now.question}
          options={[
            { value: 'asbestos', word: 'asbestos' },
            { value: 'lead-paint', word: 'lead in paint' },
          ]}
          onChange={(question) => setNow({ ...now, question: question ?? 'asbestos' })}
        />
        <SelectField
          label="In"
          value={now.layerId}
          none="the room’s coatings"
          options={layers}
          onChange={(layerId) => setNow({ ...now, layerId })}
        />
        <TextField label="Laboratory" value={now.laboratory} onChange={(laboratory) => setNow((n) => ({ ...n, laboratory }))} />
        <TextField label="Sample" value={now.sample} onChange={(sample) => setNow((n) => ({ ...n, sample }))} />
        {now.state === 'sent' ? (
          <DateField label="Due" today={today} value={now.dueOn} onChange={(dueOn) => setNow((n) => ({ ...n, dueOn }))} />
        ) : (
          <DateField
            label="Dated"
            today={today}
            latest={today}
            value={now.resultOn}
            onChange={(resultOn) => setNow((n) => ({ ...n, resultOn }))}
          />
        )}
      </Fields>
    </Dialog>
  );
}
