import { useState } from 'react';
import type { Job } from '../../../shared-core/book/job.ts';
import { isAdded, type PricedLine } from '../../../shared-core/price/line.ts';
import type { PricedJob } from '../../../shared-core/price/price-job.ts';
import { formatMoney, parseMoney } from '../../../shared-core/price/money.ts';
import { SaveDialog } from '../../parts/Dialog.tsx';
import { CheckRow } from '../../parts/Choices.tsx';
import { Field } from '../../parts/Field.tsx';
import { Fields, TextField } from '../../parts/Fields.tsx';
import { Reason } from '../../parts/Reason.tsx';
import { Table } from '../../parts/Table.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

type Override = Job['estimate']['overrides'][number];

interface LinesTableProps {
  readonly price: PricedJob;
  /** False while a room has no volume, so that the lines have no total. */
  readonly hasTotal: boolean;
  readonly roomNames: ReadonlyMap<string, string>;
  /** Null restores the calculated figures. */
  readonly onOverride: (lineKey: string, override: Override | null) => void;
  /** Deletes a line that was added by hand. */
  readonly onDelete: (lineKey: string) => void;
}

const SOURCES: Readonly<Record<PricedLine['source'], string>> = {
  bag: 'From the data sheet',
  typical: 'Typical',
  measured: 'Measured by your business',
  business: 'Settings',
  planned: 'Pour plan',
  simulated: 'Pour simulation',
  entered: 'Entered by hand',
};

/** All lines with their reasons; Edit overrides the figures, with a note. */
export function LinesTable({ price, hasTotal, roomNames, onOverride, onDelete }: LinesTableProps) {
  const { locale } = useMeasure();
  const [open, setOpen] = useState<PricedLine | null>(null);
  const money = (minor: number): string => formatMoney(minor, price.currency, locale, 'bare');
  return (
    <>
      <Table
        label="Line items"
        dense
        // A minimum charge is counted up to a total: without one there is none yet.
        rows={hasTotal ? price.lines : price.lines.filter(({ key }) => key !== 'least-charge')}
        rowKey={(line) => line.key}
        empty={<p>No line items yet. Finish the estimate first.</p>}
        isBold={(line) => line.override !== null}
        columns={[
          {
            caption: 'Description',
            heads: true,
            cell: (line) => (
              <Reason
                why={{
                  figureName: line.name,
                  inputs: [
                    { name: 'Quantity', value: line.quantityWords },
                    { name: 'Cost', value: money(line.costMinor) },
                    ...(line.override === null ? [] : [{ name: 'Overridden', value: line.override.note }]),
                  ],
                  formula: line.reason,
                  source: SOURCES[line.source],
                  range:
                    line.leastCostMinor === line.mostCostMinor
                      ? null
                      : { leastText: money(line.leastCostMinor), mostText: money(line.mostCostMinor), value: null },
                }}
              >
                {line.name}
              </Reason>
            ),
          },
          { caption: 'Room', wideOnly: true, cell: (line) => (line.roomId === null ? '' : (roomNames.get(line.roomId) ?? '')) },
          { caption: 'Quantity', align: 'right', wideOnly: true, cell: (line) => line.quantityWords },
          { caption: 'Cost', align: 'right', wideOnly: true, cell: (line) => money(line.costMinor) },
          { caption: 'Price', align: 'right', cell: (line) => (line.leftOut ? 'excluded' : money(line.priceMinor)) },
          {
            key: 'change',
            caption: '',
            cell: (line) => (
              <TextButton kind="plain" label={`Edit ${line.name}`} onPress={() => setOpen(line)}>
                Edit
              </TextButton>
            ),
          },
        ]}
        {...(hasTotal
          ? {
              foot: {
                Description: price.discountMinor > 0 ? 'Before the discount' : 'Subtotal',
                Cost: money(price.costMinor),
                Price: money(price.netMinor + price.discountMinor),
              },
            }
          : {})}
      />
      {open !== null && (
        <ChangeLine
          key={open.key}
          line={open}
          currency={price.currency}
          onClose={() => setOpen(null)}
          onDelete={
            open.source === 'entered' && isAdded(open.key)
              ? () => {
                  onDelete(open.key);
                  setOpen(null);
                }
              : null
          }
          onSave={(override) => {
            onOverride(open.key, override);
            setOpen(null);
          }}
        />
      )}
    </>
  );
}

interface ChangeLineProps {
  readonly line: PricedLine;
  readonly currency: string;
  readonly onSave: (override: Override | null) => void;
  readonly onDelete: (() => void) | null;
  readonly onClose: () => void;
}

function ChangeLine({ line, currency, onSave, onDelete, onClose }: ChangeLineProps) {
  const { locale } = useMeasure();
  const [cost, setCost] = useState<number | null>(line.override?.costMinor ?? null);
  const [price, setPrice] = useState<number | null>(line.override?.priceMinor ?? null);
  const [leftOut, setLeftOut] = useState(line.leftOut);
  const [note, setNote] = useState(line.override?.note ?? '');
  const money = {
    parse: (text: string) => parseMoney(text, currency, locale),
    format: (minor: number) => formatMoney(minor, currency, locale, 'bare'),
  };
  const save = (): string | undefined => {
    if (note.trim() === '') return 'Enter a reason for the change.';
    if (cost === null && price === null && !leftOut) return 'Enter a cost or a price, or exclude the line.';
    onSave({ lineKey: line.key, costMinor: cost, priceMinor: price, leftOut, note: note.trim() });
    return undefined;
  };
  return (
    <SaveDialog
      title={line.name}
      save={save}
      onClose={onClose}
      extra={
        <>
          {onDelete !== null && <TextButton onPress={onDelete}>Delete line</TextButton>}
          {line.override !== null && <TextButton onPress={() => onSave(null)}>Use calculated</TextButton>}
        </>
      }
    >
      <p>{line.reason}</p>
      <Fields>
        <Field label="Cost" value={cost} placeholder={money.format(line.calculatedCostMinor)} onChange={setCost} {...money} />
        <Field label="Price" value={price} placeholder={money.format(line.calculatedPriceMinor)} onChange={setPrice} {...money} />
      </Fields>
      <CheckRow label="Exclude this line" checked={leftOut} onChange={setLeftOut} />
      <TextField label="Reason" value={note} onChange={setNote} />
    </SaveDialog>
  );
}
