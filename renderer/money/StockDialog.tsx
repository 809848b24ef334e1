import { useState } from 'react';
import type { StockChange } from '../../shared-core/book/ledger.ts';
import type { Material } from '../../shared-core/book/material.ts';
import type { Stock } from '../../shared-core/ledger/stock.ts';
import { recordEntry } from '../book/ledger-commands.ts';
import { ChoiceRow, SelectField } from '../parts/Choices.tsx';
import { DateField, Fields, NumberField, TextField } from '../parts/Fields.tsx';
import { SaveDialog } from '../parts/Dialog.tsx';

type What = StockChange['what'];
export const STOCK_WORDS: Readonly<Record<What, string>> = { counted: 'Counted', used: 'Used', returned: 'Returned', spoiled: 'Spoiled' };
const NEW_LOT = 'new lot';
/** A higher count of one lot is a typo. */
const MAX_CONTAINERS = 5000;

interface StockDialogProps {
  readonly materials: readonly Material[];
  readonly stock: Stock;
  readonly materialId: string | null;
  readonly today: string;
  readonly onClose: () => void;
}

/** Records a count of one lot, or containers used, returned or spoiled. */
export function StockDialog({ materials, stock, materialId: first, today, onClose }: StockDialogProps) {
  const [change, setChange] = useState<What>('counted');
  const [materialId, setMaterialId] = useState(first ?? materials[0]?.id ?? null);
  const lotsOf = (id: string | null) => stock.lots.filter((lot) => lot.materialId === id);
  const [picked, setPicked] = useState<string>(lotsOf(materialId)[0]?.lot ?? NEW_LOT);
  const [lot, setLot] = useState('');
  const [expiresOn, setExpiresOn] = useState<string | null>(null);
  const [containers, setContainers] = useState<number | null>(null);
  const [onDay, setOnDay] = useState<string | null>(today);
  const lots = lotsOf(materialId);
  const known = lots.find((one) => one.lot === picked);
  const isNew = known === undefined;
  const save = async () => {
    if (materialId === null) return 'Choose the material.';
    if (containers === null || (containers === 0 && change !== 'counted')) return 'Enter how many.';
    if (onDay === null) return 'Enter the date.';
    const of = isNew ? { lot: lot.trim(), expiresOn } : { lot: known.lot, expiresOn: known.expiresOn };
    return recordEntry({ kind: 'stock', jobId: null, onDay, note: '', what: change, materialId, containers, ...of });
  };
  return (
    <SaveDialog title="Record stock" save={save} onClose={onClose}>
      <ChoiceRow label="Type" options={STOCK_WORDS} value={change} onChange={setChange} />
      <Fields>
        <SelectField
          label="Material"
          value={materialId}
          options={materials.map((m) => ({ value: m.id, word: m.name }))}
          onChange={(id) => {
            setMaterialId(id);
            setPicked(lotsOf(id)[0]?.lot ?? NEW_LOT);
          }}
        />
        {lots.length > 0 && (
          <SelectField
            label="Lot"
            value={picked}
            options={[...lots.map((one) => ({ value: one.lot, word: lotWords(one.lot) })), { value: NEW_LOT, word: 'Another lot' }]}
            onChange={setPicked}
          />
        )}
        {isNew && <TextField label="Lot number" hint="As printed on the bag. Leave it empty if unknown." value={lot} onChange={setLot} />}
        {isNew && change === 'counted' && <DateField label="Expires" value={expiresOn} onChange={setExpiresOn} today={today} />}
        <NumberField
          label={change === 'counted' ? 'On hand now' : 'Quantity'}
          unit={materials.find((m) => m.id === materialId)?.container.name ?? ''}
          hint="Count part containers too: 0.5 is half of one."
          least={0}
          most={MAX_CONTAINERS}
          value={containers}
          onChange={setContainers}
        />
        <DateField label="Date" value={onDay} onChange={setOnDay} today={today} latest={today} />
      </Fields>
    </SaveDialog>
  );
}

/** The lot number, or that it is unknown. */
export function lotWords(lot: string): string {
  return lot === '' ? 'Lot unknown' : `Lot ${lot}`;
}
