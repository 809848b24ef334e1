import { useState } from 'react';
import type { Job } from '../../../shared-core/book/job.ts';
import { isAdded, type PricedLine } from '../../../shared-core/price/line.ts';
import type { PricedJob } from '../../../shared-core/price/price-job.ts';
import { formatMoney, parseMoney } from '../../../shared-core/price/money.ts';
import { Dialog } from '../../parts/Dialog.tsx';
import { CheckRow } from '../../parts/CheckRow.tsx';
import { Field } from '../../parts/Field.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { Notice } from '../../parts/Notice.tsx';
import { Reason } from '../../parts/Reason.tsx';
import { Table } from '../../parts/Table.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

type Override = Job['estimate']['overrides'][number];

interface LinesTableProps {
  readonly price: PricedJob;
  readonly roomNames: ReadonlyMap<string, string>;
  /** Null takes a change by hand back. */
  readonly onOverride: (lineKey: string, override: Override | null) => void;
  /** Takes out a line that was added by hand. */
  readonly onDelete: (lineKey: string) => void;
}

const SOURCES: Readonly<Record<PricedLine['source'], string>> = {
  bag: 'from the bag',
  typical: 'typical, until the sheet or the business says',
  measured: 'weighed by this business',
  business: 'the business’s own rate',
  planned: 'the pour plan',
  simulated: 'the crew simulation',
  entered: 'entered by hand',
};

/** Every line with its reason; a line is pressed to change it by hand, with a note. */
export function LinesTable({ price, roomNames, onOverride, onDelete }: LinesTableProps) {
  const { locale } = useMeasure();
  const [open, setOpen] = useState<PricedLine | null>(null);
  const money = (minor: number): string => formatMoney(minor, price.currency, locale, 'bare');
  return (
    <>
      <Table
        label="Lines of the price"
        dense
        rows={price.lines}
        rowKey={(line) => line.key}
        empty={<p>Nothing is priced yet: the estimate comes first.</p>}
        isBold={(line) => line.override !== null}
        columns={[
          {
            key: 'name',
            caption: 'What',
            heads: true,
            cell: (line) => (
              <Reason
                why={{
                  what: line.name,
                  inputs: [
                    { name: 'How much', value: line.quantityWords },
                    { name: 'Cost', value: money(line.costMinor) },
                    ...(line.override === null ? [] : [{ name: 'Changed by hand', value: line.override.note }]),
                  ],
                  formula: line.reason,
                  source: SOURCES[line.source],
                  range:
                    line.leastCostMinor === line.mostCostMinor
                      ? null
                      : { leastText: money(line.leastCostMinor), mostText: money(line.mostCostMinor), at: null },
                }}
              >
                {line.name}
              </Reason>
            ),
          },
          {
            key: 'room',
            caption: 'Room',
            wideOnly: true,
            cell: (line) => (line.roomId === null ? '' : (roomNames.get(line.roomId) ?? '')),
          },
          { key: 'quantity', caption: 'How much', align: 'right', wideOnly: true, cell: (line) => line.quantityWords },
          { key: 'cost', caption: 'Cost', align: 'right', wideOnly: true, cell: (line) => money(line.costMinor) },
          { key: 'price', caption: 'Price', align: 'right', cell: (line) => (line.leftOut ? 'left out' : money(line.priceMinor)) },
          {
            key: 'change',
            caption: '',
            cell: (line) => (
              <TextButton kind="plain" label={`Change ${line.name}`} onPress={() => setOpen(line)}>
                Change
              </TextButton>
            ),
          },
        ]}
        foot={{ name: 'Before tax', cost: money(price.costMinor), price: money(price.netMinor) }}
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
          onKeep={(override) => {
            onOverride(open.key, override);
            setOpen(null);
          }}
        />
      )}
    </>
  );
}

function ChangeLine({
  line,
  currency,
  onKeep,
  onDelete,
  onClose,
}: {
  readonly line: PricedLine;
  readonly currency: string;
  readonly onKeep: (override: Override | null) => void;
  readonly onDelete: (() => void) | null;
  readonly onClose: () => void;
}) {
  const { locale } = useMeasure();
  const [cost, setCost] = useState<number | null>(line.override?.costMinor ?? null);
  const [price, setPrice] = useState<number | null>(line.override?.priceMinor ?? null);
  const [leftOut, setLeftOut] = useState(line.leftOut);
  const [note, setNote] = useState(line.override?.note ?? '');
  const [problem, setProblem] = useState<string | null>(null);
  const money = {
    parse: (text: string) => parseMoney(text, currency, locale),
    format: (minor: number) => formatMoney(minor, currency, locale, 'bare'),
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title={line.name}
      actions={
        <>
          {onDelete !== null && <TextButton onPress={onDelete}>Take the line out</TextButton>}
          {line.override !== null && <TextButton onPress={() => onKeep(null)}>As reckoned</TextButton>}
          <TextButton onPress={onClose}>Back</TextButton>
          <TextButton
            kind="outlined"
            onPress={() => {
              if (note.trim() === '') setProblem('Say why the figure is changed: the note stays with it.');
              else if (cost === null && price === null && !leftOut)
                setProblem('Nothing is changed: type a cost or a price, or leave the line out.');
              else onKeep({ lineKey: line.key, costMinor: cost, priceMinor: price, leftOut, note: note.trim() });
            }}
          >
            Keep
          </TextButton>
        </>
      }
    >
      <p>{line.reason}</p>
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      <Fields>
        <Field label="Cost" value={cost} placeholder={money.format(line.calculatedCostMinor)} onChange={setCost} {...money} />
        <Field label="Price" value={price} placeholder={money.format(line.calculatedPriceMinor)} onChange={setPrice} {...money} />
      </Fields>
      <CheckRow label="Leave it out" checked={leftOut} onChange={setLeftOut} />
      <TextField label="Why" value={note} onChange={setNote} />
    </Dialog>
  );
}
