import { useState } from 'react';
import type { Material } from '../../../shared-core/book/material.ts';
import type { Job } from '../../../shared-core/book/job.ts';
import type { TaxRate } from '../../../shared-core/book/business.ts';
import { BOUGHT_BY_HAND } from '../../../shared-core/material/shopping.ts';
import { formatMoney, parseMoney } from '../../../shared-core/price/money.ts';
import { priceOnDay } from '../../../shared-core/price/price-on-day.ts';
import { ChoiceRow, SelectField } from '../../parts/Choices.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { Field } from '../../parts/Field.tsx';
import { Fields, NumberField, TextField } from '../../parts/Fields.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

type Added = Job['estimate']['added'][number];

interface AddLineProps {
  readonly currency: string;
  readonly rooms: readonly { readonly id: string; readonly name: string }[];
  readonly taxes: readonly TaxRate[];
  /** All materials, because tools and moisture mitigation systems can be bought for a job. */
  readonly materials: readonly Material[];
  readonly today: string;
  readonly onAdd: (line: Omit<Added, 'id'>) => void;
  readonly onClose: () => void;
}

const KINDS = { material: 'Material', labor: 'Labor', other: 'Other' };

/** Adds a line by hand: description, room and cost. */
export function AddLine({ currency, rooms, taxes, materials, today, onAdd, onClose }: AddLineProps) {
  const { locale } = useMeasure();
  const [name, setName] = useState('');
  const [kind, setKind] = useState<Added['kind']>('other');
  const [roomId, setRoomId] = useState<string | null>(null);
  const [costMinor, setCost] = useState<number | null>(null);
  const [taxId, setTaxId] = useState<string | null>(null);
  const [bought, setBought] = useState<Added['bought']>(undefined);
  const [problem, setProblem] = useState<string | null>(null);
  const toBuy = materials.filter((m) => BOUGHT_BY_HAND.has(m.kind) && m.deletedAt === null);
  const sheet = toBuy.find((m) => m.id === bought?.materialId);
  const buy = (material: Material | undefined, containers: number): void => {
    setBought(material === undefined ? undefined : { materialId: material.id, containers });
    if (material === undefined) return;
    setName(containers === 1 ? material.name : `${material.name}, ${containers}`);
    setKind('material');
    const price = priceOnDay(material, today);
    if (price !== null) setCost(price.minor * containers);
  };
  return (
    <Dialog
      onClose={onClose}
      title="Add line"
      problem={problem}
      onSave={() => {
        if (name.trim() === '') setProblem('Enter a description.');
        else if (costMinor === null) setProblem('Enter your cost. The price adds your usual markup.');
        else onAdd({ name: name.trim(), kind, roomId, costMinor, taxId, ...(bought === undefined ? {} : { bought }) });
      }}
      saveWord="Add"
    >
      {toBuy.length > 0 && (
        <Fields>
          <SelectField
            label="From Materials"
            value={bought?.materialId ?? null}
            none="none"
            options={toBuy.map((m) => ({ value: m.id, word: m.name }))}
            onChange={(id) =>
              buy(
                toBuy.find((m) => m.id === id),
                bought?.containers ?? 1,
              )
            }
          />
          {sheet !== undefined && (
            <NumberField
              label={`Quantity (${sheet.container.name})`}
              whole
              least={1}
              most={1000}
              value={bought?.containers ?? 1}
              emptyMessage="Enter 1 or more."
              onChange={(n) => buy(sheet, n)}
            />
          )}
        </Fields>
      )}
      <TextField label="Description" value={name} onChange={setName} />
      <ChoiceRow label="Kind" captioned options={KINDS} value={kind} onChange={setKind} />
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
          none="whole job"
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
