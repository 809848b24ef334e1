import { useState } from 'react';
import { type Hours, USUAL_CATEGORIES } from '../../shared-core/book/ledger.ts';
import type { Business } from '../../shared-core/book/business.ts';
import { recordEntry } from '../book/ledger-commands.ts';
import { ChoiceRow } from '../parts/ChoiceRow.tsx';
import { DateField } from '../parts/DateField.tsx';
import { Dialog } from '../parts/Dialog.tsx';
import { DistanceField } from '../parts/DistanceField.tsx';
import { DurationField } from '../parts/DurationField.tsx';
import { Fields } from '../parts/Fields.tsx';
import { MoneyField } from '../parts/MoneyField.tsx';
import { Notice } from '../parts/Notice.tsx';
import { SelectField } from '../parts/SelectField.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { TextField } from '../parts/TextField.tsx';

type Kind = 'purchase' | 'hours' | 'drive';
const KINDS: readonly { readonly value: Kind; readonly word: string }[] = [
  { value: 'purchase', word: 'Purchase' },
  { value: 'hours', word: 'Hours' },
  { value: 'drive', word: 'Drive' },
];
const PAID_AS: readonly { readonly value: Hours['paidAs']; readonly word: string }[] = [
  { value: 'owner', word: 'Owner' },
  { value: 'employee', word: 'Employee' },
  { value: 'contractor', word: 'Contractor' },
];

interface CostDialogProps {
  readonly business: Business;
  /** The job it belongs to; a drive or a purchase may belong to none. */
  readonly jobId: string;
  readonly today: string;
  readonly onClose: () => void;
}

/** Records what a job cost: a purchase, hours worked, or a drive. */
export function CostDialog({ business, jobId, today, onClose }: CostDialogProps) {
  const [kind, setKind] = useState<Kind>('purchase');
  const [onDay, setOnDay] = useState<string | null>(today);
  const [who, setWho] = useState('');
  const [what, setWhat] = useState('');
  const [category, setCategory] = useState<string>(USUAL_CATEGORIES[0] ?? 'Materials');
  const [amountMinor, setAmount] = useState<number | null>(null);
  const [taxMinor, setTax] = useState<number | null>(0);
  const [seconds, setSeconds] = useState<number | null>(null);
  const [paidAs, setPaidAs] = useState<Hours['paidAs']>('owner');
  const [distanceKm, setDistance] = useState<number | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const save = async (): Promise<void> => {
    if (onDay === null) return setProblem('Enter the date.');
    if (what.trim() === '') return setProblem(kind === 'drive' ? 'Enter the purpose of the drive.' : 'Enter a description.');
    const own = { jobId, onDay, note: '' };
    const saved = await (async () => {
      if (kind === 'drive') {
        if (distanceKm === null || distanceKm === 0) return 'Enter the distance.';
        return recordEntry({ ...own, kind, purpose: what.trim(), distanceKm, kmMinor: business.costs.travelKmMinor });
      }
      if (who.trim() === '') return kind === 'hours' ? 'Enter who worked.' : 'Enter the supplier.';
      if (kind === 'hours') {
        if (seconds === null || seconds < 60) return 'Enter the time worked.';
        const hourMinor = paidAs === 'owner' ? business.costs.ownHourMinor : business.costs.helperHourMinor;
        return recordEntry({ ...own, kind, who: who.trim(), paidAs, task: what.trim(), minutes: Math.round(seconds / 60), hourMinor });
      }
      if (amountMinor === null || amountMinor === 0) return 'Enter an amount greater than 0.';
      const line = { text: what.trim(), quantity: 1, unit: '', amountMinor, materialId: null, lot: '' };
      const paid = { method: 'card' as const, reference: '', photoIds: [] };
      return recordEntry({ ...own, ...paid, kind, supplier: who.trim(), category, lines: [line], taxMinor: taxMinor ?? 0 });
    })();
    if (typeof saved === 'string') setProblem(saved);
    else if (saved.ok) onClose();
    else setProblem(saved.message);
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title="Add cost"
      actions={
        <>
          <TextButton onPress={onClose}>Cancel</TextButton>
          <TextButton kind="outlined" onPress={() => void save()}>
            Save
          </TextButton>
        </>
      }
    >
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      <ChoiceRow label="Type" options={KINDS} value={kind} onChange={setKind} />
      <Fields>
        <DateField label="Date" value={onDay} onChange={setOnDay} today={today} latest={today} />
        {kind !== 'drive' && <TextField label={kind === 'hours' ? 'Who worked' : 'Supplier'} value={who} onChange={setWho} />}
        <TextField label={kind === 'drive' ? 'Purpose' : kind === 'hours' ? 'Task' : 'Description'} value={what} onChange={setWhat} />
        {kind === 'hours' && <DurationField label="Time" typedIn="hour" value={seconds} onChange={setSeconds} />}
        {kind === 'drive' && <DistanceField label="Distance, round trip" value={distanceKm} onChange={setDistance} />}
        {kind === 'purchase' && (
          <>
            <SelectField
              label="Category"
              value={category}
              options={USUAL_CATEGORIES.map((value) => ({ value, word: value }))}
              onChange={(value) => setCategory(value ?? category)}
            />
            <MoneyField label="Amount before tax" value={amountMinor} onChange={setAmount} currency={business.currency} />
            <MoneyField label="Tax" value={taxMinor} onChange={setTax} currency={business.currency} />
          </>
        )}
      </Fields>
      {kind === 'hours' && <ChoiceRow label="Paid as" captioned options={PAID_AS} value={paidAs} onChange={setPaidAs} />}
    </Dialog>
  );
}
