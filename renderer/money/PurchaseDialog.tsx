import { type ReactNode, useState } from 'react';
import type { Business } from '../../shared-core/book/business.ts';
import { type PaymentMethod, type PurchaseLine } from '../../shared-core/book/ledger.ts';
import type { Material } from '../../shared-core/book/material.ts';
import { METHOD_WORDS } from '../../shared-core/documents/money-papers.ts';
import { purchaseMinor } from '../../shared-core/ledger/job-result.ts';
import { changedPrices } from '../../shared-core/ledger/purchase-prices.ts';
import { containerName, containerOf } from '../../shared-core/material/containers.ts';
import { useMoney } from '../parts/use-measure.ts';
import { recordPurchase } from '../book/ledger-commands.ts';
import { useReceipts } from '../book/use-photos.ts';
import { CheckRow, SelectField } from '../parts/Choices.tsx';
import { DateField, Fields, MoneyField, NumberField, TextField } from '../parts/Fields.tsx';
import { PhotosPart } from '../parts/PhotosPart.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { SaveDialog } from '../parts/Dialog.tsx';
import { sheetOptions } from '../parts/sheet-options.ts';

/** A higher count on one receipt is a typo. */
const MAX_QUANTITY = 5000;

export type LineDraft = Omit<PurchaseLine, 'amountMinor' | 'quantity'> & {
  readonly quantity: number | null;
  readonly amountMinor: number | null;
};
const EMPTY_LINE: LineDraft = { text: '', quantity: 1, unit: '', amountMinor: null, materialId: null, lot: '', expiresOn: null };

interface PurchaseDialogProps {
  readonly business: Business;
  readonly materials: readonly Material[];
  readonly jobId: string | null;
  /** Jobs it can belong to; left out where the job is fixed. */
  readonly jobs?: readonly { readonly id: string; readonly word: string }[];
  readonly today: string;
  readonly head?: ReactNode;
  readonly supplier?: string;
  readonly lines?: readonly LineDraft[];
  readonly onClose: () => void;
}

/** A line that names a data sheet adds to the materials on hand, by lot. */
export function PurchaseDialog({ business, materials, jobId: first, jobs, today, head, onClose, ...start }: PurchaseDialogProps) {
  const format = useMoney();
  const [onDay, setOnDay] = useState<string | null>(today);
  const [supplier, setSupplier] = useState(start.supplier ?? '');
  const [category, setCategory] = useState<string>(business.expenseCategories[0] ?? 'Materials');
  const [lines, setLines] = useState<readonly LineDraft[]>(start.lines ?? [EMPTY_LINE]);
  const [taxMinor, setTax] = useState<number | null>(0);
  const [method, setMethod] = useState<PaymentMethod>('card');
  const [jobId, setJobId] = useState(first);
  const [photoIds, setPhotoIds] = useState<readonly string[]>([]);
  const [updates, setUpdates] = useState(false);
  const album = useReceipts(jobId, photoIds);
  const change = (i: number, part: Partial<LineDraft>): void => {
    const next = { ...(lines[i] ?? EMPTY_LINE), ...part };
    setLines(lines.with(i, next));
    const from = materials.find((m) => m.id === next.materialId)?.supplier ?? '';
    if (supplier === '' && from !== '') setSupplier(from);
  };
  const whole = lines.flatMap((line): PurchaseLine[] => {
    const name = materials.find((m) => m.id === line.materialId)?.name ?? line.text.trim();
    const { quantity, amountMinor } = line;
    return name === '' || quantity === null || quantity <= 0 || amountMinor === null
      ? []
      : [{ ...line, text: name, quantity, amountMinor }];
  });
  const prices = changedPrices(whole, materials, onDay ?? today);
  const totalMinor = purchaseMinor({ lines: whole, taxMinor: taxMinor ?? 0 });
  const save = async () => {
    if (onDay === null) return 'Enter the date.';
    if (supplier.trim() === '') return 'Enter the supplier.';
    if (whole.length < lines.length) return 'Enter what was bought, the quantity, and the amount on each line.';
    if (totalMinor <= 0) return 'Enter an amount greater than 0.';
    return recordPurchase(
      {
        ...{ kind: 'purchase', jobId, onDay, note: '', supplier: supplier.trim(), category, lines: whole, taxMinor: taxMinor ?? 0 },
        ...{ method, reference: '', photoIds: [...photoIds] },
      },
      updates ? prices : [],
    );
  };
  return (
    <SaveDialog title={head === undefined ? 'Record purchase' : 'Add cost'} wide save={save} onClose={onClose}>
      {head}
      <Fields>
        <TextField label="Supplier" value={supplier} onChange={setSupplier} />
        <DateField label="Date" value={onDay} onChange={setOnDay} today={today} latest={today} />
        <SelectField
          label="Category"
          value={category}
          options={business.expenseCategories.map((value) => ({ value, word: value }))}
          onChange={setCategory}
        />
        {jobs !== undefined && (
          <SelectField
            label="Job"
            value={jobId}
            none="No job"
            options={jobs.map(({ id, word }) => ({ value: id, word }))}
            onChange={setJobId}
          />
        )}
      </Fields>
      {lines.map((line, i) => (
        <LineFields
          // Lines have no id; they are only added at the end and deleted one at a time.
          key={`${i}/${lines.length}`}
          line={line}
          materials={materials}
          today={today}
          onChange={(part) => change(i, part)}
          onDelete={lines.length === 1 ? null : () => setLines(lines.filter((_, index) => index !== i))}
        />
      ))}
      <p>
        <TextButton onPress={() => setLines([...lines, EMPTY_LINE])}>Add line</TextButton>
      </p>
      <Fields>
        <MoneyField label="Tax" value={taxMinor} onChange={setTax} />
        <SelectField label="Method" value={method} options={METHOD_WORDS} onChange={setMethod} />
      </Fields>
      <p className="speech">{`Total ${format(totalMinor)}`}</p>
      {prices.length > 0 && (
        <CheckRow
          label={`Use as new ${prices.length === 1 ? 'price' : 'prices'}: ${prices
            .map(({ material, minor }) => `${material.name}, ${format(minor)} per ${containerOf(material).name}`)
            .join('; ')}`}
          checked={updates}
          onChange={setUpdates}
        />
      )}
      <PhotosPart
        album={album}
        zone={business.timeZone}
        label="Photo of the receipt"
        caption="Receipt"
        onSaved={(id) => setPhotoIds((ids) => [...ids, id])}
      />
    </SaveDialog>
  );
}

interface LineFieldsProps {
  readonly line: LineDraft;
  readonly materials: readonly Material[];
  readonly today: string;
  readonly onChange: (part: Partial<LineDraft>) => void;
  readonly onDelete: (() => void) | null;
}

function LineFields({ line, materials, today, onChange, onDelete }: LineFieldsProps) {
  const material = materials.find((m) => m.id === line.materialId) ?? null;
  return (
    <div className="money-line">
      <Fields>
        <SelectField
          label="Item"
          value={line.materialId}
          none="Other item"
          options={sheetOptions(materials, line.materialId)}
          onChange={(materialId) => onChange({ materialId, unit: containerName(materials, materialId) })}
        />
        {material === null ? (
          <TextField label="Description" value={line.text} onChange={(text) => onChange({ text })} />
        ) : (
          <>
            <NumberField
              label="Quantity"
              unit={containerOf(material).name}
              least={0}
              most={MAX_QUANTITY}
              value={line.quantity}
              onChange={(quantity) => onChange({ quantity })}
            />
            <TextField label="Lot" value={line.lot} onChange={(lot) => onChange({ lot: lot.trim() })} />
            <DateField label="Expires" last value={line.expiresOn} onChange={(expiresOn) => onChange({ expiresOn })} today={today} />
          </>
        )}
        <MoneyField label="Amount before tax" value={line.amountMinor} onChange={(amountMinor) => onChange({ amountMinor })} />
      </Fields>
      {onDelete !== null && (
        <TextButton kind="delete" onPress={onDelete}>
          Delete line
        </TextButton>
      )}
    </div>
  );
}
