import { useMemo, useRef, useState } from 'react';
import type { Quote } from '../../../shared-core/book/quote.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { enteredPrice, proposeOrder } from '../../../shared-core/price/change-order.ts';
import { formatMoney, parseMoney } from '../../../shared-core/price/money.ts';
import { issueChangeOrder } from '../../book/order-commands.ts';
import { storePhoto } from '../../book/photo-commands.ts';
import { CheckRow, SelectField } from '../../parts/Choices.tsx';
import { Field } from '../../parts/Field.tsx';
import { Fields, NumberField, TextField } from '../../parts/Fields.tsx';
import { Notice } from '../../parts/Notice.tsx';
import { PhotoDrop } from '../../parts/photo/PhotoDrop.tsx';
import { SaveDialog } from '../../parts/Dialog.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

interface ChangeOrderDialogProps {
  readonly whole: WholeJob;
  /** The accepted quote. */
  readonly quote: Quote;
  /** The current room, for an order that names no other. */
  readonly roomId: string;
  readonly onDone: (outcome: { readonly ok: boolean; readonly text: string } | null) => void;
}

/** A change order: reason, rooms, and a price that starts from the job's changes. */
export function ChangeOrderDialog({ whole, quote, roomId, onDone }: ChangeOrderDialogProps) {
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
    () => proposeOrder(quote, whole, withdrawn, { currency, locale, units }),
    [quote, whole, withdrawn, currency, locale, units],
  );
  const format = (minor: number): string => formatMoney(minor, currency, locale);
  const price = net === null ? proposal : enteredPrice(net, business.taxRates.find((tax) => tax.id === taxId) ?? null);
  const proposedRooms = proposal.roomIds.length > 0 ? proposal.roomIds : [roomId];
  const roomIds = [...new Set([...(touched ?? proposedRooms), ...withdrawn])];
  const toggle = (list: readonly string[], id: string, on: boolean): string[] => (on ? [...list, id] : list.filter((one) => one !== id));
  const issue = async () => {
    const { netMinor, taxes, totalMinor } = price;
    const outcome = await issueChangeOrder(whole, quote, {
      reason,
      work: work ?? proposal.differences.join('\n'),
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
      <TextField label="Work" long value={work ?? proposal.differences.join('\n')} onChange={setWork} />
      {rooms.map((room) => (
        <div key={room.id} className="words">
          <CheckRow
            label={`Affects the ${room.name}`}
            checked={roomIds.includes(room.id)}
            onChange={(on) => setTouched(toggle(roomIds, room.id, on))}
          />
          {job.rooms.length > 1 && (
            <CheckRow
              label={`Remove the ${room.name} from the contract`}
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
