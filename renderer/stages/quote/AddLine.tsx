import { useState } from 'react';
import type { Job } from '../../../shared-core/book/job.ts';
import type { TaxRate } from '../../../shared-core/book/business.ts';
import { formatMoney, parseMoney } from '../../../shared-core/price/money.ts';
import { ChoiceRow } from '../../parts/ChoiceRow.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { Field } from '../../parts/Field.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { Notice } from '../../parts/Notice.tsx';
import { SelectField } from '../../parts/SelectField.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

type Added = Job['estimate']['added'][number];

interface AddLineProps {
  readonly currency: string;
  readonly rooms: readonly { readonly id: string; readonly name: string }[];
  readonly taxes: readonly TaxRate[];
  readonly onAdd: (line: Omit<Added, 'id'>) => void;
  readonly onClose: () => void;
}

const KINDS = [
  { value: 'material', word: 'Material' },
  { value: 'labor', word: 'Hours' },
  { value: 'other', word: 'Something else' },
] as const;

/** A line of one's own: what it is, for which room, and what it costs the business. */
export function AddLine({ currency, rooms, taxes, onAdd, onClose }: AddLineProps) {
  const { locale } = useMeasure();
  const [name, setName] = useState('');
  const [kind, setKind] = useState<Added['kind']>('other');
  const [roomId, setRoomId] = useState<string | null>(null);
  const [costMinor, setCost] = useState<number | null>(null);
  const [taxId, setTaxId] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  return (
    <Dialog
      open
      onClose={onClose}
      title="A line of your own"
      actions={
        <>
          <TextButton onPress={onClose}>Back</TextButton>
          <TextButton
            kind="outlined"
            onPress={() => {
              if (name.trim() === '') setProblem('Say what the line is for: the customer reads it.');
              else if (costMinor === null) setProblem('Type what it costs you; the price follows by your usual markup. 0 is allowed.');
              else onAdd({ name: name.trim(), kind, roomId, costMinor, taxId });
            }}
          >
            Add it
          </TextButton>
        </>
      }
    >
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      <TextField label="What" value={name} onChange={setName} />
      <ChoiceRow label="What it is" captioned options={KINDS} value={kind} onChange={setKind} />
      <Fields>
        <Field
          label="Cost"
          value={costMinor}
          parse={(text) => parseMoney(text, currency, locale)}
          format={(minor) => formatMoney(minor, currency, locale, 'bare')}
          onChange={setCost}
        />
        <SelectField
          label="Room"
          value={roomId}
          none="the whole job"
          options={rooms.map((r) => ({ value: r.id, word: r.name }))}
          onChange={setRoomId}
        />
        {taxes.length > 0 && (
          <SelectField
            label="Tax"
            value={taxId}
            none="none"
            options={taxes.map((t) => ({ value: t.id, word: t.name }))}
            onChange={setTaxId}
          />
        )}
      </Fields>
    </Dialog>
  );
}
