import { useState } from 'react';
import { useLocation } from 'wouter';
import type { Business } from '../../shared-core/book/business.ts';
import type { Lead } from '../../shared-core/book/lead.ts';
import { changedNext } from '../../shared-core/lead/read-step.ts';
import { dayOfInstant, formatInstantDay } from '../../shared-core/measure/moment.ts';
import { changeLead, closeLead, reopenLead, setLeadNext, startLeadJob } from '../book/customer-commands.ts';
import { useNow } from '../book/use-job-reading.ts';
import type { Outcome } from '../book/command.ts';
import { ClockField, DateField, Fields, TextField } from '../parts/Fields.tsx';
import { Dialog } from '../parts/Dialog.tsx';
import { stageHref } from '../parts/job/stage-words.ts';
import { LEAD_STEP_WORDS } from '../parts/lead-words.ts';
import { SelectField } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { useBusy } from '../parts/use-busy.ts';

interface LeadPartProps {
  readonly lead: Lead;
  readonly business: Business;
  readonly onSay: (outcome: Outcome<unknown>) => void;
}

/** A lead of a customer: its next step, and its outcome once it is closed. */
export function LeadPart({ lead, business, onSay }: LeadPartProps) {
  const heading = `lead-${lead.id}`;
  const { timeZone, locale } = business;
  const received = formatInstantDay(lead.createdAt, timeZone, 'dated', locale);
  return (
    <section className="stack customer-part" aria-labelledby={heading}>
      <h2 className="caption" id={heading}>
        {lead.source === '' ? `Lead of ${received}` : `Lead of ${received}, source: ${lead.source}`}
      </h2>
      {lead.state === 'open' ? <OpenLead lead={lead} business={business} onSay={onSay} /> : <ClosedLead {...{ lead, business, onSay }} />}
    </section>
  );
}

function NextFields({ lead, business, onSay }: LeadPartProps) {
  const today = dayOfInstant(useNow(), business.timeZone);
  const set = (change: Parameters<typeof changedNext>[1]): void =>
    void setLeadNext(lead.id, (was) => changedNext(was ?? { step: null, day: null, clock: null }, change, today)).then(onSay);
  return (
    <Fields>
      <SelectField
        label="Next step"
        value={lead.next?.step ?? null}
        none="None"
        options={LEAD_STEP_WORDS}
        onChange={(step) => set({ step })}
      />
      <DateField label="Date" value={lead.next?.day ?? null} today={today} onChange={(day) => set({ day })} />
      <ClockField label="Time" value={lead.next?.clock ?? null} disabled={lead.next === null} onChange={(clock) => set({ clock })} />
    </Fields>
  );
}

function ClosedLead({ lead, business, onSay }: LeadPartProps) {
  const closed = lead.closedAt === null ? '' : formatInstantDay(lead.closedAt, business.timeZone, 'dated', business.locale);
  const outcome = lead.state === 'won' ? `Won ${closed}.` : `Lost ${closed}.`;
  return (
    <>
      <p>{lead.reason === '' ? outcome : `${outcome} ${lead.reason}`}</p>
      {lead.next !== null && <NextFields {...{ lead, business, onSay }} />}
      <div className="words">
        <TextButton kind="plain" onPress={() => void reopenLead(lead.id).then(onSay)}>
          Reopen lead
        </TextButton>
      </div>
    </>
  );
}

function OpenLead({ lead, business, onSay }: LeadPartProps) {
  const [, go] = useLocation();
  const [busy, run] = useBusy();
  const [closing, setClosing] = useState<'won' | 'lost' | null>(null);
  const price = async (): Promise<void> => {
    const started = await startLeadJob(lead);
    if (started.ok) go(stageHref(started.value.jobId, 'estimate', started.value.roomId));
    else onSay(started);
  };
  return (
    <>
      <NextFields {...{ lead, business, onSay }} />
      <TextField
        label="Lead notes"
        long
        value={lead.notes}
        onChange={(notes) => void changeLead(lead.id, 'notes on the lead', { notes }).then(onSay)}
      />
      <div className="words">
        {lead.jobId === null && lead.propertyId !== null && (
          <TextButton kind="outlined" disabled={busy} onPress={() => run(price)}>
            Start job and price it
          </TextButton>
        )}
        <TextButton kind="plain" onPress={() => setClosing('won')}>
          Mark as won…
        </TextButton>
        <TextButton kind="plain" onPress={() => setClosing('lost')}>
          Mark as lost…
        </TextButton>
      </div>
      {closing !== null && (
        <CloseDialog
          state={closing}
          onCancel={() => setClosing(null)}
          onClose={(reason) => void closeLead(lead.id, closing, reason, business.timeZone).then(onSay)}
        />
      )}
    </>
  );
}

interface CloseDialogProps {
  readonly state: 'won' | 'lost';
  readonly onCancel: () => void;
  readonly onClose: (reason: string) => void;
}

function CloseDialog({ state, onCancel, onClose }: CloseDialogProps) {
  const [reason, setReason] = useState('');
  return (
    <Dialog onClose={onCancel} title={state === 'won' ? 'Mark this lead as won' : 'Mark this lead as lost'} onSave={() => onClose(reason)}>
      <TextField
        label="Reason"
        value={reason}
        autoFocus
        placeholder={state === 'won' ? 'Price, date, referral' : 'Price, date, no answer'}
        onChange={setReason}
      />
    </Dialog>
  );
}
