import { useState } from 'react';
import type { LedgerEntry } from '../../shared-core/book/ledger.ts';
import type { Material } from '../../shared-core/book/material.ts';
import { reserve, type Reserved } from '../../shared-core/ledger/shopping-day.ts';
import { isExpired, onHand, usableOn } from '../../shared-core/ledger/stock.ts';
import { formatDay } from '../../shared-core/measure/day.ts';
import { formatNumber } from '../../shared-core/measure/number.ts';
import { type StockReading, useJobNeeds, useStock } from '../book/use-stock.ts';
import { useWhere } from '../book/use-records.ts';
import { ActionButton, LinkWord, TextButton } from '../parts/Buttons.tsx';
import { Sheet, SheetHeading } from '../parts/Sheet.tsx';
import { Table } from '../parts/Table.tsx';
import { type LineDraft, PurchaseDialog } from './PurchaseDialog.tsx';
import { ShoppingPart } from './ShoppingPart.tsx';
import { lotWords, STOCK_WORDS, StockDialog } from './StockDialog.tsx';
import { VoidDialog } from './VoidDialog.tsx';
import './money.css';

type Asking =
  | { readonly kind: 'stock'; readonly materialId: string | null }
  | { readonly kind: 'purchase'; readonly supplier: string; readonly lines: readonly LineDraft[] }
  | { readonly kind: 'void'; readonly entry: LedgerEntry };

const SHOWN = 8;

/** Materials on hand by lot, what jobs reserve of them, and the shopping list for a day. */
export function StockScreen() {
  const reading = useStock();
  const needs = useJobNeeds();
  if (reading === undefined) return <p className="app-opening caption">Loading…</p>;
  const reserved = needs === null ? null : reserve(needs, reading.stock);
  return <StockShown reading={reading} reserved={reserved} />;
}

function StockShown({ reading, reserved }: { readonly reading: StockReading; readonly reserved: readonly Reserved[] | null }) {
  const { business, materials, stock, entries, today } = reading;
  const [asking, setAsking] = useState<Asking | null>(null);
  const [all, setAll] = useState(false);
  const jobs = useWhere('jobs', 'state', 'open') ?? [];
  const close = (): void => setAsking(null);
  const purchases = entries.filter((e) => e.kind === 'stock' || e.lines.some((line) => line.materialId !== null));
  return (
    <Sheet
      page="Materials"
      who={{ name: 'Stock', where: 'Materials on hand' }}
      block={
        <ShoppingPart reading={reading} reserved={reserved} onBuy={(supplier, lines) => setAsking({ kind: 'purchase', supplier, lines })} />
      }
      foot={<p className="speech">{footWords(reading, reserved)}</p>}
      action={<ActionButton onPress={() => setAsking({ kind: 'purchase', supplier: '', lines: [] })}>Record purchase</ActionButton>}
    >
      <SheetHeading under="By lot, with what accepted jobs need">Stock</SheetHeading>
      <OnHandTable reading={reading} reserved={reserved} onPick={(material) => setAsking({ kind: 'stock', materialId: material.id })} />
      <p>
        <TextButton onPress={() => setAsking({ kind: 'stock', materialId: null })}>Record stock</TextButton>{' '}
        <LinkWord href="/materials">Go to data sheets</LinkWord>
      </p>
      {purchases.length > 0 && (
        <section className="money-part">
          <h2 className="speech">Purchases and stock entries</h2>
          <Table
            label="Purchases and stock entries, newest first"
            rows={all ? purchases : purchases.slice(0, SHOWN)}
            rowKey={(entry) => entry.id}
            columns={[
              {
                key: 'date',
                caption: 'Date',
                cell: (entry) => <span className="money-number">{formatDay(entry.onDay, 'short', business.locale)}</span>,
              },
              {
                key: 'what',
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
          {purchases.length > SHOWN && (
            <TextButton kind="plain" expanded={all} onPress={() => setAll(!all)}>
              {all ? 'Show fewer' : `Show ${purchases.length - SHOWN} more`}
            </TextButton>
          )}
        </section>
      )}
      {asking?.kind === 'stock' && (
        <StockDialog materials={materials} stock={stock} materialId={asking.materialId} today={today} onClose={close} />
      )}
      {asking?.kind === 'purchase' && (
        <PurchaseDialog
          business={business}
          materials={materials}
          jobId={null}
          jobs={jobs.map((job) => ({ id: job.id, word: `${job.number} ${job.title}`.trim() }))}
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
  const count = (value: number): string => formatNumber(value, { most: 1 }, locale);
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
        { key: 'material', caption: 'Material', heads: true, cell: ({ material }) => material.name },
        {
          key: 'lots',
          caption: 'Lots',
          wideOnly: true,
          cell: ({ lots, missing }) =>
            [
              ...lots.map(
                (lot) =>
                  `${lotWords(lot.lot)}: ${count(lot.containers)}${lot.expiresOn === null ? '' : `, ${isExpired(lot, today) ? 'expired' : 'expires'} ${formatDay(lot.expiresOn, 'dated', locale)}`}`,
              ),
              ...(missing === 0 ? [] : [`${count(missing)} used without a purchase. Record it, or count.`]),
            ].join('. '),
        },
        { key: 'on-hand', caption: 'On hand', align: 'right', cell: ({ material }) => count(onHand(stock, material.id)) },
        { key: 'reserved', caption: 'Reserved', align: 'right', cell: (row) => (reserved === null ? '' : count(row.reserved)) },
        {
          key: 'free',
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
  const nameOf = (id: string | null): string => materials.find((m) => m.id === id)?.name ?? 'Archived material';
  const count = (value: number): string => formatNumber(value, { most: 1 }, locale);
  if (entry.kind === 'stock')
    return `${STOCK_WORDS[entry.what]}: ${nameOf(entry.materialId)}, ${count(entry.containers)}, ${lotWords(entry.lot).toLowerCase()}`;
  const lines = entry.lines
    .filter((line) => line.materialId !== null)
    .map((line) => `${nameOf(line.materialId)}, ${count(line.quantity)}${line.lot === '' ? '' : `, lot ${line.lot}`}`);
  return `Bought from ${entry.supplier}: ${lines.join('; ')}`;
}

function footWords({ stock, today }: StockReading, reserved: readonly Reserved[] | null): string {
  const expired = stock.lots.filter((lot) => isExpired(lot, today));
  if (expired.length > 0)
    return expired.length === 1
      ? '1 lot has expired and is not reserved for any job.'
      : `${expired.length} lots have expired and are not reserved for any job.`;
  if (reserved === null) return 'Loading…';
  const short = new Set(reserved.filter((need) => need.missing > 1e-9).map((need) => need.jobNumber));
  if (reserved.length === 0) return 'No accepted job needs material.';
  return short.size === 0
    ? 'Everything for the accepted jobs is on hand.'
    : short.size === 1
      ? `Material is missing for job ${[...short].join(', ')}.`
      : `Material is missing for ${short.size} jobs: ${[...short].join(', ')}.`;
}
