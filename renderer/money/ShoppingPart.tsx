import { useState } from 'react';
import { dayShoppingList, lineJobs } from '../../shared-core/documents/day-shopping-list.ts';
import { onlyJob, type Reserved, shoppingBySupplier, type SupplierList } from '../../shared-core/ledger/shopping-day.ts';
import { formatDay } from '../../shared-core/measure/day.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';
import { useMoney } from '../parts/use-measure.ts';
import { priceOnDay } from '../../shared-core/price/price-on-day.ts';
import { nowInstant } from '../book/command.ts';
import type { StockReading } from '../book/use-stock.ts';
import { CheckRow, SelectField } from '../parts/Choices.tsx';
import { saveTree } from '../desk/save-document.ts';
import { ResultNotice, type Said } from '../parts/Dialog.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import type { LineDraft } from './PurchaseDialog.tsx';

const ALL = 'all';

interface ShoppingPartProps {
  readonly reading: StockReading;
  /** Null while the needs are calculated. */
  readonly reserved: readonly Reserved[] | null;
  /** The job is given by its number where every line is for it. */
  readonly onBuy: (supplier: string, lines: readonly LineDraft[], jobNumber: string | null) => void;
}

/** What to buy for a day's pours, by supplier, less materials on hand. Checked lines become a purchase. */
export function ShoppingPart({ reading, reserved, onBuy }: ShoppingPartProps) {
  const { business, materials, today } = reading;
  const { locale } = business;
  const format = useMoney();
  const [chosen, setChosen] = useState<string | null>(null);
  const [checked, setChecked] = useState<ReadonlySet<string>>(new Set());
  const [message, setMessage] = useState<Said>(null);
  if (reserved === null)
    return (
      <BlockPart heading="Shopping list">
        <p className="caption">Loading…</p>
      </BlockPart>
    );
  const days = [...new Set(reserved.flatMap(({ pourDay }) => pourDay ?? []))].sort();
  const day = chosen ?? days.find((one) => one >= today) ?? ALL;
  const lists = shoppingBySupplier(
    reserved.filter(({ pourDay }) => day === ALL || pourDay === day),
    materials,
    (material) => priceOnDay(material, today)?.minor ?? null,
  );
  const toBuy = lists
    .map((list) => ({ ...list, lines: list.lines.filter((line) => line.buy > 0) }))
    .filter(({ lines }) => lines.length > 0);
  const toggle = (id: string, on: boolean): void =>
    setChecked((checkedIds) => new Set(on ? [...checkedIds, id] : [...checkedIds].filter((one) => one !== id)));
  const print = (): void =>
    void saveTree(dayShoppingList(business, materials, lists, day === ALL ? null : day, nowInstant())).then(setMessage);
  const buy = ({ supplier, lines }: SupplierList): void => {
    const picked = lines.filter((line) => checked.has(line.materialId));
    const bought = picked.length === 0 ? lines : picked;
    onBuy(
      supplier,
      bought.map((line) => ({
        ...{ text: line.name, quantity: line.buy, unit: line.container, amountMinor: line.costMinor },
        ...{ materialId: line.materialId, lot: '', expiresOn: null },
      })),
      onlyJob(bought),
    );
  };
  return (
    <BlockPart heading="Shopping list">
      <ResultNotice message={message} onClose={setMessage} />
      {days.length > 0 && (
        <SelectField
          label="Pour date"
          value={day}
          options={[
            ...days.map((one) => ({ value: one, word: formatDay(one, 'dated', locale) })),
            { value: ALL, word: 'Every accepted job' },
          ]}
          onChange={setChosen}
        />
      )}
      {toBuy.length === 0 ? (
        <p>{reserved.length === 0 ? 'Accepted jobs appear here with what they need.' : 'Nothing to buy.'}</p>
      ) : (
        toBuy.map((list) => (
          <section key={list.supplier} className="below" aria-label={list.supplier === '' ? 'No supplier' : list.supplier}>
            <h3>{list.supplier === '' ? 'No supplier' : list.supplier}</h3>
            {list.lines.map((line) => (
              <CheckRow
                key={line.materialId}
                label={`${formatNumber(line.buy, { most: 0 }, locale)} × ${line.container}, ${line.name}`}
                because={lineJobs(line)}
                right={line.costMinor === null ? 'no price' : format(line.costMinor)}
                checked={checked.has(line.materialId)}
                onChange={(on) => toggle(line.materialId, on)}
              />
            ))}
            <p className="ends-line">
              <b>{`Total ${format(list.totalMinor)}`}</b>{' '}
              <TextButton label={`Record purchase from ${list.supplier === '' ? 'no supplier' : list.supplier}`} onPress={() => buy(list)}>
                Record purchase
              </TextButton>
            </p>
          </section>
        ))
      )}
      {lists.length > 0 && (
        <p>
          <TextButton onPress={print}>Save PDF</TextButton>
        </p>
      )}
    </BlockPart>
  );
}
