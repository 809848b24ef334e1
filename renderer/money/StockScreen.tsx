import { useMemo, useState } from 'react';
import type { LedgerEntry, StockChange } from '../../shared-core/book/ledger.ts';
import type { Material } from '../../shared-core/book/material.ts';
import { reserve, type Reserved } from '../../shared-core/ledger/shopping-day.ts';
import { isExpired, onHand, usableOn } from '../../shared-core/ledger/stock.ts';
import { containerName } from '../../shared-core/material/containers.ts';
import { formatDay } from '../../shared-core/measure/day.ts';
import { type StockReading, useJobNeeds, useStock } from '../book/use-stock.ts';
import { useOfProperties, useWhere } from '../book/use-records.ts';
import { jobTitle } from '../../shared-core/standing/names.ts';
import { ActionButton, LinkWord, TextButton } from '../parts/Buttons.tsx';
import { Sheet, SheetHeading } from '../parts/Sheet.tsx';
import { Table } from '../parts/Table.tsx';
import { type LineDraft, PurchaseDialog } from './PurchaseDialog.tsx';
import { ShoppingPart } from './ShoppingPart.tsx';
import { containerCount, containersTaken, lotWords, moreThanOnHand, stockFoot } from './stock-words.ts';
import { VoidDialog } from './VoidDialog.tsx';
import './money.css';
import { recordEntry } from '../book/ledger-commands.ts';
import { ChoiceRow, SelectField } from '../parts/Choices.tsx';
import { DateField, Fields, NumberField, TextField } from '../parts/Fields.tsx';
import { SaveDialog } from '../parts/Dialog.tsx';
import { sheetOptions } from '../parts/sheet-options.ts';
import { lowerFirst } from '../../shared-core/measure/first-letter.ts';

type Asking =
  | { readonly kind: 'stock'; readonly materialId: string | null }
  | { readonly kind: 'purchase'; readonly supplier: string; readonly lines: readonly LineDraft[]; readonly jobNumber: string | null }
  | { readonly kind: 'void'; readonly entry: LedgerEntry };

const SHOWN = 8;

/** Materials on hand by lot, what jobs reserve of them, and the shopping list for a day. */
export function StockScreen() {
  const reading = useStock();
  return reading === undefined ? <p className="app-opening caption">Loading…</p> : <StockShown reading={reading} />;
}

function StockShown({ reading }: { readonly reading: StockReading }) {
  // Read after the stock shows, because the accepted jobs are estimated for it.
  const needs = useJobNeeds();
  const reserved = useMemo(() => (needs === null ? null : reserve(needs, reading.stock, reading.today)), [needs, reading]);
  const { business, materials, stock, entries, today } = reading;
  const [asking, setAsking] = useState<Asking | null>(null);
  const jobs = useWhere('jobs', 'state', 'open') ?? [];
  const rooms = useOfProperties([...new Set(jobs.map(({ propertyId }) => propertyId))]);
  const close = (): void => setAsking(null);
  const purchases = entries.filter((e) => e.kind === 'stock' || e.lines.some((line) => line.materialId !== null));
  return (
    <Sheet
      page="Materials"
      who={{ name: 'Stock', where: 'Materials on hand' }}
      block={
        <ShoppingPart
          reading={reading}
          reserved={reserved}
          onBuy={(supplier, lines, jobNumber) => setAsking({ kind: 'purchase', supplier, lines, jobNumber })}
        />
      }
      foot={<p className="speech">{stockFoot(stock, reserved, today)}</p>}
      action={
        <ActionButton onPress={() => setAsking({ kind: 'purchase', supplier: '', lines: [], jobNumber: null })}>
          Record purchase
        </ActionButton>
      }
    >
      <SheetHeading under="By lot, with what accepted jobs need">Stock</SheetHeading>
      <OnHandTable reading={reading} reserved={reserved} onPick={(material) => setAsking({ kind: 'stock', materialId: material.id })} />
      <p className="words">
        <TextButton onPress={() => setAsking({ kind: 'stock', materialId: null })}>Record stock</TextButton>
        <LinkWord href="/materials">Go to data sheets</LinkWord>
      </p>
      {purchases.length > 0 && (
        <section className="money-part">
          <h2 className="speech">Purchases and stock entries</h2>
          <Table
            label="Purchases and stock entries, newest first"
            rows={purchases}
            first={SHOWN}
            rowKey={(entry) => entry.id}
            columns={[
              {
                caption: 'Date',
                cell: (entry) => <span className="unbroken">{formatDay(entry.onDay, 'short', business.locale)}</span>,
              },
              {
                caption: 'Description',
                heads: true,
                cell: (entry) => {
                  const words = stockEntryWords(entry, materials, business.locale);
                  return entry.voidedAt === null ? words : <s>{words}</s>;
                },
              },
              {
                key: 'actions',
                caption: '',
                cell: (entry) =>
                  entry.voidedAt === null ? (
                    <TextButton kind="plain" onPress={() => setAsking({ kind: 'void', entry })}>
                      Void…
                    </TextButton>
                  ) : (
                    `Void: ${entry.voidReason}`
                  ),
              },
            ]}
          />
        </section>
      )}
      {asking?.kind === 'stock' && <StockDialog reading={reading} materialId={asking.materialId} onClose={close} />}
      {asking?.kind === 'purchase' && (
        <PurchaseDialog
          business={business}
          materials={materials}
          jobId={jobs.find(({ number }) => number === asking.jobNumber)?.id ?? null}
          jobs={jobs.map((job) => ({ id: job.id, word: `${job.number} ${jobTitle(job, rooms)}`.trim() }))}
          today={today}
          supplier={asking.supplier}
          {...(asking.lines.length === 0 ? {} : { lines: asking.lines })}
          onClose={close}
        />
      )}
      {asking?.kind === 'void' && <VoidDialog entry={asking.entry} onClose={close} />}
    </Sheet>
  );
}

interface OnHandTableProps {
  readonly reading: StockReading;
  readonly reserved: readonly Reserved[] | null;
  readonly onPick: (material: Material) => void;
}

function OnHandTable({ reading, reserved, onPick }: OnHandTableProps) {
  const { business, materials, stock, today } = reading;
  const { locale } = business;
  const count = (value: number): string => containerCount(value, locale);
  const reservedOf = (id: string): number =>
    (reserved ?? []).filter((need) => need.materialId === id).reduce((sum, need) => sum + need.reserved, 0);
  const rows = materials.flatMap((material) => {
    const lots = stock.lots.filter((lot) => lot.materialId === material.id);
    const missing = stock.unrecorded.get(material.id) ?? 0;
    return lots.length === 0 && missing === 0 ? [] : [{ material, lots, missing, reserved: reservedOf(material.id) }];
  });
  return (
    <Table
      label="Materials on hand"
      rows={rows}
      rowKey={({ material }) => material.id}
      onPick={({ material }) => onPick(material)}
      empty={<p>Nothing is recorded as on hand. Record a purchase, or count what you have with Record stock.</p>}
      columns={[
        { caption: 'Material', heads: true, cell: ({ material }) => material.name },
        {
          caption: 'Lots',
          wideOnly: true,
          cell: ({ lots, missing }) =>
            [
              ...lots.map(
                (lot) =>
                  `${lotWords(lot.lot)}: ${count(lot.containers)}${lot.expiresOn === null ? '' : `, ${isExpired(lot, today) ? 'expired' : 'expires'} ${formatDay(lot.expiresOn, 'dated', locale)}`}`,
              ),
              ...(missing === 0 ? [] : [`${count(missing)} more went out than was recorded. Record the purchase, or count`]),
            ].join('. '),
        },
        { caption: 'On hand', align: 'right', cell: ({ material }) => count(onHand(stock, material.id)) },
        { caption: 'Reserved', align: 'right', cell: (row) => (reserved === null ? '' : count(row.reserved)) },
        {
          caption: 'Free',
          align: 'right',
          wideOnly: true,
          cell: (row) => (reserved === null ? '' : count(usableOn(stock, row.material.id, today) - row.reserved)),
        },
      ]}
    />
  );
}

function stockEntryWords(entry: StockReading['entries'][number], materials: readonly Material[], locale: string): string {
  const nameOf = (id: string | null): string => materials.find((m) => m.id === id)?.name ?? 'Data sheet not found';
  const count = (value: number): string => containerCount(value, locale);
  if (entry.kind === 'stock')
    return `${STOCK_WORDS[entry.what]}: ${nameOf(entry.materialId)}, ${count(entry.containers)}, ${lowerFirst(lotWords(entry.lot))}`;
  const lines = entry.lines
    .filter((line) => line.materialId !== null)
    .map((line) => `${nameOf(line.materialId)}, ${count(line.quantity)}${line.lot === '' ? '' : `, lot ${line.lot}`}`);
  return `Bought from ${entry.supplier}: ${lines.join('; ')}`;
}

type What = StockChange['what'];
const STOCK_WORDS: Readonly<Record<What, string>> = { counted: 'Counted', used: 'Used', returned: 'Returned', spoiled: 'Spoiled' };
const NEW_LOT = 'new lot';
/** A higher count of one lot is a typo. */
const MAX_CONTAINERS = 5000;

interface StockDialogProps {
  readonly reading: StockReading;
  readonly materialId: string | null;
  readonly onClose: () => void;
}

/** Records a count of one lot, or containers used, returned or spoiled. */
function StockDialog({ reading, materialId: first, onClose }: StockDialogProps) {
  const { business, materials, stock, today } = reading;
  const [change, setChange] = useState<What>('counted');
  const [materialId, setMaterialId] = useState(first ?? sheetOptions(materials, null)[0]?.value ?? null);
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
    const typed = { what: change, materialId, containers, onDay, ...of };
    const entry = { ...typed, containers: containersTaken(stock, typed, business.locale) };
    return (
      moreThanOnHand(stock, entry, { today, locale: business.locale }) ?? recordEntry({ kind: 'stock', jobId: null, note: '', ...entry })
    );
  };
  return (
    <SaveDialog title="Record stock" save={save} onClose={onClose}>
      <ChoiceRow label="Type" options={STOCK_WORDS} value={change} onChange={setChange} />
      <Fields>
        <SelectField
          label="Material"
          value={materialId}
          options={sheetOptions(materials, materialId)}
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
        {isNew && change === 'counted' && <DateField label="Expires" last value={expiresOn} onChange={setExpiresOn} today={today} />}
        <NumberField
          label={change === 'counted' ? 'On hand now' : 'Quantity'}
          unit={containerName(materials, materialId)}
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
