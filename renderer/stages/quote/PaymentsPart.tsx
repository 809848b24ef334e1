import { useState } from 'react';
import type { EstimateChoices } from '../../../shared-core/book/job.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { formatPercent } from '../../../shared-core/measure/percent.ts';
import { DUE_WORDS } from '../../../shared-core/documents/quote-words.ts';
import { formatMoney } from '../../../shared-core/price/money.ts';
import type { PricedJob } from '../../../shared-core/price/price-job.ts';
import { checkStages } from '../../../shared-core/price/stages.ts';
import { Dialog } from '../../parts/Dialog.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { Notice } from '../../parts/Notice.tsx';
import { NumberField } from '../../parts/NumberField.tsx';
import { PercentField } from '../../parts/PercentField.tsx';
import { SelectField } from '../../parts/SelectField.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { checkName } from '../../parts/text-checks.ts';
import { BlockPart } from '../../parts/TitleBlock.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

type Stage = EstimateChoices['stages'][number];

interface PaymentsPartProps {
  readonly price: PricedJob;
  /** The job's own payments; none are the business's deposit and the rest. */
  readonly own: readonly Stage[];
  /** Days that the job's quote stands; null for the business's usual. */
  readonly validDays: number | null;
  readonly usualDays: number;
  readonly onStages: (stages: Stage[]) => void;
  /** Days the work takes on site: typed for this job, or as reckoned. */
  readonly days: { readonly own: number | null; readonly calculated: number };
  readonly onDays: (days: number | null) => void;
  readonly onValidDays: (days: number | null) => void;
}

/** When the money is due, in amounts that add to the total, how long the quote stands and the work takes. */
export function PaymentsPart({ price, own, validDays, usualDays, days, onDays, onStages, onValidDays }: PaymentsPartProps) {
  const { locale } = useMeasure();
  const [open, setOpen] = useState(false);
  return (
    <BlockPart heading="Payments">
      <dl className="quote-payments">
        {price.stages.map((stage, i) => (
          // Two payments may have one name: their order is what tells them apart.
          <div key={`${i} ${stage.name}`}>
            <dt>
              {stage.name}, {formatPercent(stage.share, 1, locale)} {DUE_WORDS[stage.due]}
            </dt>
            <dd>{formatMoney(stage.amountMinor, price.currency, locale)}</dd>
          </div>
        ))}
      </dl>
      <div className="quote-ways">
        <TextButton kind="plain" onPress={() => setOpen(true)}>
          Change the payments
        </TextButton>
        {own.length > 0 && (
          <TextButton kind="plain" onPress={() => onStages([])}>
            As usual
          </TextButton>
        )}
      </div>
      <Fields>
        <NumberField
          label="Stands for, days"
          whole
          least={1}
          most={365}
          value={validDays}
          placeholder={String(usualDays)}
          hint={validDays === null ? 'as usual' : 'for this job; empty it for the usual'}
          onChange={onValidDays}
        />
        <NumberField
          label="Days on site"
          least={0.5}
          most={365}
          decimals={1}
          value={days.own}
          placeholder={formatNumber(days.calculated, { most: 1 }, locale)}
          hint={days.own === null ? 'one to prepare, one a lift' : 'for this job; empty it for as reckoned'}
          onChange={onDays}
        />
      </Fields>
      {open && (
        <PaymentsDialog
          first={price.stages.map(({ name, share, due }) => ({ name, share, due }))}
          onClose={() => setOpen(false)}
          onKeep={(stages) => {
            onStages(stages);
            setOpen(false);
          }}
        />
      )}
    </BlockPart>
  );
}

const DUE = (Object.keys(DUE_WORDS) as Stage['due'][]).map((value) => ({ value, word: DUE_WORDS[value] }));
const MOST = 8;

interface PaymentsDialogProps {
  readonly first: readonly Stage[];
  readonly onKeep: (stages: Stage[]) => void;
  readonly onClose: () => void;
}

function PaymentsDialog({ first, onKeep, onClose }: PaymentsDialogProps) {
  const { locale } = useMeasure();
  const [stages, setStages] = useState<readonly Stage[]>(first);
  const [problem, setProblem] = useState<string | null>(null);
  const set = (at: number, to: Partial<Stage>): void => setStages((now) => now.map((stage, i) => (i === at ? { ...stage, ...to } : stage)));
  const left = 1 - stages.reduce((sum, stage) => sum + stage.share, 0);
  return (
    <Dialog
      open
      onClose={onClose}
      title="Payments"
      actions={
        <>
          <TextButton onPress={onClose}>Back</TextButton>
          <TextButton
            kind="outlined"
            onPress={() => {
              const checked = checkStages(stages, locale);
              if (checked.ok) onKeep(checked.value);
              else setProblem(checked.message);
            }}
          >
            Keep the payments
          </TextButton>
        </>
      }
    >
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      {stages.map((stage, i) => (
        // Rows are added at the end and taken out by hand: their place is what they are.
        <section key={i} className="quote-stage" aria-label={`Payment ${i + 1}`}>
          <Fields>
            <TextField label="Payment" value={stage.name} check={checkName} onChange={(name) => set(i, { name })} />
            <PercentField label="Share" value={stage.share} onChange={(share) => share !== null && set(i, { share })} />
            <SelectField label="Due" value={stage.due} options={DUE} onChange={(due) => due !== null && set(i, { due })} />
          </Fields>
          {stages.length > 1 && (
            <TextButton kind="plain" label={`Take out ${stage.name}`} onPress={() => setStages((now) => now.filter((_, j) => j !== i))}>
              Take out
            </TextButton>
          )}
        </section>
      ))}
      {stages.length < MOST && (
        <TextButton
          onPress={() => setStages([...stages, { name: 'Payment', share: Math.max(0, Number(left.toFixed(6))), due: 'on-handover' }])}
        >
          Add a payment
        </TextButton>
      )}
    </Dialog>
  );
}
