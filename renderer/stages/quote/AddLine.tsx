import { useState, useMemo, useRef } from 'react';
import type { Material } from '../../../shared-core/book/material.ts';
import { containerOf } from '../../../shared-core/material/containers.ts';
import type { Job } from '../../../shared-core/book/job.ts';
import type { TaxRate } from '../../../shared-core/book/business.ts';
import { BOUGHT_BY_HAND } from '../../../shared-core/material/shopping.ts';
import { formatMoney, parseMoney } from '../../../shared-core/price/money.ts';
import { priceOnDay } from '../../../shared-core/price/price-on-day.ts';
import { ChoiceRow, SelectField, CheckRow } from '../../parts/Choices.tsx';
import { Notice, SaveDialog } from '../../parts/Dialog.tsx';
import { Field } from '../../parts/Field.tsx';
import { Fields, NumberField, TextField } from '../../parts/Fields.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import type { Quote } from '../../../shared-core/book/quote.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { orderWork } from '../../../shared-core/documents/order-work.ts';
import { enteredPrice, proposeOrder } from '../../../shared-core/price/change-order.ts';
import { issueChangeOrder } from '../../book/quote-commands.ts';
import { storePhoto } from '../../book/photo-commands.ts';
import { PhotoDrop } from '../../parts/photo/PhotoDrop.tsx';
import { theRoom } from '../../../shared-core/standing/names.ts';

type Added = Job['estimate']['added'][number];

interface AddLineProps {
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
export function AddLine({ rooms, taxes, materials, today, onAdd, onClose }: AddLineProps) {
  const { currency, locale } = useMeasure();
  const [name, setName] = useState('');
  const [kind, setKind] = useState<Added['kind']>('other');
  const [roomId, setRoomId] = useState<string | null>(null);
  const [costMinor, setCost] = useState<number | null>(null);
  const [taxId, setTaxId] = useState<string | null>(null);
  const [bought, setBought] = useState<Added['bought']>(undefined);
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
  const save = (): string | undefined => {
    if (name.trim() === '') return 'Enter a description.';
    if (costMinor === null) return 'Enter your cost. The price adds your usual markup.';
    onAdd({ name: name.trim(), kind, roomId, costMinor, taxId, ...(bought === undefined ? {} : { bought }) });
    return undefined;
  };
  return (
    <SaveDialog title="Add line" saveWord="Add" save={save} onClose={onClose}>
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
              label={`Quantity (${containerOf(sheet).name})`}
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
    </SaveDialog>
  );
}

interface ChangeOrderDialogProps {
  readonly whole: WholeJob;
  readonly quote: Quote;
  /** The current room, for an order that names no other. */
  readonly roomId: string;
  /** The latest day of a lab result. */
  readonly today: string;
  readonly onDone: (outcome: { readonly ok: boolean; readonly text: string } | null) => void;
}

/** A change order: reason, rooms, and a price that starts from the job's changes. */
export function ChangeOrderDialog({ whole, quote, roomId, today, onDone }: ChangeOrderDialogProps) {
  const { locale, units } = useMeasure();
  const { business, job, rooms } = whole;
  const currency = quote.currency;
  const [reason, setReason] = useState('');
  const [work, setWork] = useState<string | null>(null);
  const [net, setNet] = useState<number | null>(null);
  const [taxId, setTaxId] = useState<string | null>(business.pricing.laborTaxId);
  const [days, setDays] = useState<number | null>(null);
  const [touched, setTouched] = useState<readonly string[] | null>(null);
  const [withdrawn, setWithdrawn] = useState<readonly string[]>([]);
  const [photoIds, setPhotoIds] = useState<readonly string[]>([]);
  const [problem, setProblem] = useState<string | null>(null);
  const issued = useRef<Parameters<typeof onDone>[0]>(null);
  const proposal = useMemo(
    () => proposeOrder(quote, whole, withdrawn, { currency, locale, units }, today),
    [quote, whole, withdrawn, currency, locale, units, today],
  );
  const proposedWork = useMemo(() => orderWork(quote, proposal).join('\n'), [quote, proposal]);
  const format = (minor: number): string => formatMoney(minor, currency, locale);
  const price = net === null ? proposal : enteredPrice(net, business.taxRates.find((tax) => tax.id === taxId) ?? null);
  // A change entered by hand is taken to be of the room on screen; one of the whole job is of none.
  const isProposed = proposal.roomIds.length > 0 || proposal.netMinor !== 0;
  const proposedRooms = isProposed ? proposal.roomIds : [roomId];
  const roomIds = [...new Set([...(touched ?? proposedRooms), ...withdrawn])];
  const toggle = (list: readonly string[], id: string, on: boolean): string[] => (on ? [...list, id] : list.filter((one) => one !== id));
  const issue = async () => {
    const [stop] = proposal.stops;
    if (stop !== undefined) return stop;
    const { netMinor, taxes, totalMinor } = price;
    const outcome = await issueChangeOrder(whole, quote, {
      reason,
      work: work ?? proposedWork,
      roomIds,
      withdrawnIds: [...withdrawn],
      photoIds: [...photoIds],
      netMinor,
      taxes,
      totalMinor,
      addedDays: days ?? proposal.addedDays,
      priced: proposal.priced,
    });
    if (outcome.documentId === null) return outcome.text;
    issued.current = outcome;
    return { ok: true } as const;
  };
  return (
    <SaveDialog title="Change order" saveWord="Issue change order" wide firm save={issue} onClose={() => onDone(issued.current)}>
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      <TextField label="Reason" long value={reason} onChange={setReason} />
      <TextField label="Work" long value={work ?? proposedWork} onChange={setWork} />
      {rooms.map((room) => (
        <div key={room.id} className="words">
          <CheckRow
            label={`Affects ${theRoom(room.name)}`}
            checked={roomIds.includes(room.id)}
            onChange={(on) => setTouched(toggle(roomIds, room.id, on))}
          />
          {job.rooms.length > 1 && (
            <CheckRow
              label={`Remove ${theRoom(room.name)} from the contract`}
              checked={withdrawn.includes(room.id)}
              onChange={(on) => setWithdrawn(toggle(withdrawn, room.id, on))}
            />
          )}
        </div>
      ))}
      <Fields>
        <Field
          label="Price before tax"
          value={net}
          placeholder={format(proposal.netMinor)}
          hint="From what changed in the job. Enter a minus for a deduction."
          parse={(text) => parseMoney(text, currency, locale)}
          format={format}
          onChange={setNet}
        />
        {net !== null && business.taxRates.length > 0 && (
          <SelectField
            label="Tax"
            value={taxId}
            none="none"
            options={business.taxRates.map((tax) => ({ value: tax.id, word: tax.name }))}
            onChange={setTaxId}
          />
        )}
        <NumberField
          label="Added days"
          whole
          least={-365}
          most={365}
          value={days}
          placeholder={String(proposal.addedDays)}
          onChange={setDays}
        />
      </Fields>
      <p>{`Total with tax: ${format(price.totalMinor)}.`}</p>
      <PhotoDrop
        label={photoIds.length === 0 ? 'Photo of the reason' : `${photoIds.length} added`}
        onPhoto={(photo) =>
          void storePhoto({ ...photo, jobId: job.id, roomId, caption: 'Reason for the change', takenAt: null }).then((stored) => {
            if (stored.ok) setPhotoIds((now) => [...now, stored.value]);
            else setProblem(stored.message);
          })
        }
      />
    </SaveDialog>
  );
}
