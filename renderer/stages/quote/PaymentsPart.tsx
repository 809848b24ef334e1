import { useState } from 'react';
import type { EstimateChoices } from '../../../shared-core/book/job.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { formatPercent } from '../../../shared-core/measure/percent.ts';
import { DUE_WORDS } from '../../../shared-core/documents/quote-table.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import type { PricedJob } from '../../../shared-core/price/price-job.ts';
import { checkStages, type PaymentStage } from '../../../shared-core/price/stages.ts';
import { SaveDialog } from '../../parts/Dialog.tsx';
import { Fields, NumberField, PercentField, TextField, checkName } from '../../parts/Fields.tsx';
import { SelectField } from '../../parts/Choices.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

type Stage = EstimateChoices['stages'][number];

interface PaymentsPartProps {
  readonly price: PricedJob;
  /** The payments of the contract, which stay as they are; null while none is accepted. */
  readonly agreed: readonly PaymentStage[] | null;
  /** The job's own payments; none means the company's deposit and the balance. */
  readonly own: readonly Stage[];
  /** Days that the quote is valid; null for the company's default. */
  readonly validDays: number | null;
  readonly usualDays: number;
  readonly onStages: (stages: Stage[]) => void;
  /** Days on site: entered for this job, or calculated. */
  readonly days: { readonly own: number | null; readonly calculated: number };
  readonly onDays: (days: number | null) => void;
  readonly onValidDays: (days: number | null) => void;
  /** Whether the quote prints the notice of the right to cancel; null outside the US, which has none. */
  readonly hasNotice: boolean | null;
  readonly onNotice: (hasNotice: boolean) => void;
}

/** Payments that add up to the total, the quote's validity, days on site, and the notice of the right to cancel. */
export function PaymentsPart(props: PaymentsPartProps) {
  const { price, agreed, own, validDays, usualDays, days, onDays, onStages, onValidDays, hasNotice, onNotice } = props;
  const { locale } = useMeasure();
  const [open, setOpen] = useState(false);
  return (
    <BlockPart heading="Payments">
      <dl className="figures">
        {(agreed ?? price.stages).map((stage, i) => (
          // Payments can share a name, so their order is part of the key.
          <div key={`${i} ${stage.name}`}>
            <dt>
              {stage.name}, {agreed === null && formatPercent(stage.share, 1, locale)} {DUE_WORDS[stage.due]}
            </dt>
            <dd>{formatMoney(stage.amountMinor, price.currency, locale)}</dd>
          </div>
        ))}
      </dl>
      {agreed === null && (
        <div className="words">
          <TextButton kind="plain" onPress={() => setOpen(true)}>
            Edit payments
          </TextButton>
          {own.length > 0 && (
            <TextButton kind="plain" onPress={() => onStages([])}>
              Use the usual payments
            </TextButton>
          )}
        </div>
      )}
      <Fields>
        <NumberField
          label="Quote validity, days"
          whole
          least={1}
          most={365}
          value={validDays}
          placeholder={String(usualDays)}
          hint={validDays === null ? 'usual' : 'This job only. Clear it for the usual.'}
          onChange={onValidDays}
        />
        <NumberField
          label="Days on site"
          least={0.5}
          most={365}
          decimals={1}
          value={days.own}
          placeholder={formatNumber(days.calculated, { most: 1 }, locale)}
          hint={days.own === null ? 'The days of the prep hours, and 1 per lift' : 'This job only. Clear it for the calculated days.'}
          onChange={onDays}
        />
      </Fields>
      {hasNotice !== null && agreed === null && (
        <div className="words">
          <p className="small">
            {`${hasNotice ? 'With' : 'Without'} the notice of right to cancel, for a sale at a consumer’s home (16 CFR 429). Not for a business.`}
          </p>
          <TextButton kind="plain" onPress={() => onNotice(!hasNotice)}>
            {hasNotice ? 'Leave out the notice' : 'Print the notice'}
          </TextButton>
        </div>
      )}
      {open && (
        <PaymentsDialog
          first={price.stages.map(({ name, share, due }) => ({ name, share, due }))}
          onClose={() => setOpen(false)}
          onSave={onStages}
        />
      )}
    </BlockPart>
  );
}

const MOST = 8;

/** `Payment 3` for a third payment, or the next number that no other has. */
function nextName(stages: readonly Stage[]): string {
  const numbers = Array.from({ length: MOST }, (_, i) => `Payment ${stages.length + 1 + i}`);
  return numbers.find((name) => !stages.some((stage) => stage.name === name)) ?? 'Payment';
}

interface PaymentsDialogProps {
  readonly first: readonly Stage[];
  readonly onSave: (stages: Stage[]) => void;
  readonly onClose: () => void;
}

function PaymentsDialog({ first, onSave, onClose }: PaymentsDialogProps) {
  const { locale } = useMeasure();
  const [stages, setStages] = useState<readonly Stage[]>(first);
  const set = (index: number, to: Partial<Stage>): void =>
    setStages((now) => now.map((stage, i) => (i === index ? { ...stage, ...to } : stage)));
  const openShare = 1 - stages.reduce((sum, stage) => sum + stage.share, 0);
  return (
    <SaveDialog
      title="Payments"
      save={() => {
        const checked = checkStages(stages, locale);
        if (!checked.ok) return checked.message;
        onSave(checked.value);
        return undefined;
      }}
      onClose={onClose}
    >
      {stages.map((stage, i) => (
        // Rows have no id; they are added at the end and deleted one at a time.
        <section key={`${i}/${stages.length}`} className="quote-stage" aria-label={`Payment ${i + 1}`}>
          <div className="stack">
            <Fields>
              <TextField label="Payment" value={stage.name} check={checkName} onChange={(name) => set(i, { name })} />
              <PercentField label="Share" value={stage.share} onChange={(share) => share !== null && set(i, { share })} />
            </Fields>
            <Fields wide>
              <SelectField label="Due" value={stage.due} options={DUE_WORDS} onChange={(due) => set(i, { due })} />
            </Fields>
          </div>
          {stages.length > 1 && (
            <TextButton kind="plain" label={`Delete ${stage.name}`} onPress={() => setStages((now) => now.filter((_, j) => j !== i))}>
              Delete
            </TextButton>
          )}
        </section>
      ))}
      {stages.length < MOST && (
        <TextButton
          onPress={() =>
            setStages([...stages, { name: nextName(stages), share: Math.max(0, Number(openShare.toFixed(6))), due: 'on-handover' }])
          }
        >
          Add payment
        </TextButton>
      )}
    </SaveDialog>
  );
}
