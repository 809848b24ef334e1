import { type KeyboardEvent, useId, useMemo, useRef, useState } from 'react';
import { useLocation } from 'wouter';
import type { Business } from '../../shared-core/book/business.ts';
import { knownCustomer, leadRecords } from '../../shared-core/lead/lead-records.ts';
import { type LeadRead, readLeadLine } from '../../shared-core/lead/read-line.ts';
import { saveLead } from '../book/lead-commands.ts';
import { newId, nowInstant } from '../book/now-instant.ts';
import { useAll, useBusiness, useWhere } from '../book/use-records.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { FieldShell } from '../parts/Field.tsx';
import { stageHref } from '../parts/job/stage-words.ts';
import { Notice } from '../parts/Notice.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { KnownCustomer } from './KnownCustomer.tsx';
import { LeadFields } from './LeadFields.tsx';
import './leads-screen.css';

const EXAMPLE = {
  us: 'Name 555-0142, kitchen 12x14, tile over slab, about 3/8 out, referred, visit Thu 4pm',
  metric: 'Name 555-0142, kitchen 3.6 x 4.2, tile over slab, about 10 mm out, referred, visit Thu 4pm',
} as const;

/** Reads a call typed in one line into fields to correct. Only a name is required. */
export function NewLeadDialog({ onClose }: { readonly onClose: () => void }) {
  const business = useBusiness();
  return business === undefined ? null : <NewLead business={business} onClose={onClose} />;
}

function NewLead({ business, onClose }: { readonly business: Business; readonly onClose: () => void }) {
  const id = useId();
  const [, go] = useLocation();
  const [now] = useState(nowInstant);
  const [text, setText] = useState('');
  const [corrected, setCorrected] = useState<Partial<LeadRead>>({});
  const [problem, setProblem] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const save = useRef<HTMLDivElement>(null);
  const { timeZone: zone, units, locale } = business;
  const { country } = business.address;
  const read = useMemo(
    (): LeadRead => ({ ...readLeadLine(text, { now, zone, units, locale, country }), ...corrected }),
    [text, corrected, now, zone, units, locale, country],
  );
  const customers = useAll('customers');
  const match = useMemo(() => knownCustomer(read, customers ?? []), [read, customers]);
  const [isApart, setApart] = useState(false);
  const known = isApart ? null : match;
  const properties = useWhere('properties', 'customerId', known?.id ?? null) ?? [];
  const [chosen, setChosen] = useState<string | null>(null);
  const guess = properties.find((p) => p.address.line.toLowerCase() === read.address.toLowerCase()) ?? null;
  const fallback = read.address === '' && properties.length === 1 ? (properties[0] ?? null) : guess;
  const property = chosen === null ? fallback : (properties.find((p) => p.id === chosen) ?? null);
  const isSized = read.rooms.some((room) => room.widthM !== null && room.lengthM !== null);
  const finish = async (hasJob: boolean): Promise<void> => {
    if (read.name.trim() === '' && known === null) {
      setProblem('Enter the customer’s name. Everything else can wait.');
      return;
    }
    setBusy(true);
    const records = leadRecords(read, { now: nowInstant(), newId, zone, country, known, knownProperty: property });
    const saved = await saveLead(records, hasJob);
    setBusy(false);
    if (!saved.ok) {
      setProblem(saved.message);
      return;
    }
    onClose();
    const { customerId, jobId, roomId } = saved.value;
    go(jobId === null || roomId === null ? `/customers/${customerId}` : stageHref(jobId, 'estimate', roomId));
  };
  const press = (event: KeyboardEvent): void => {
    if (event.key !== 'Enter' || text.trim() === '') return;
    event.preventDefault();
    save.current?.querySelector<HTMLButtonElement>('button:last-of-type')?.focus();
  };
  return (
    <Dialog
      wide
      firm
      onClose={onClose}
      title="New lead"
      actions={
        <div className="words" ref={save}>
          <TextButton onPress={onClose}>Cancel</TextButton>
          {isSized && (
            <TextButton kind="outlined" disabled={busy} onPress={() => void finish(true)}>
              Save and price
            </TextButton>
          )}
          <TextButton kind="outlined" disabled={busy} onPress={() => void finish(false)}>
            Save lead
          </TextButton>
        </div>
      }
    >
      <FieldShell
        id={id}
        label="Name, phone, room and size, floor, how far out, source, next step"
        problem={null}
        hint={`For example: ${EXAMPLE[units]}`}
      >
        <input
          id={id}
          value={text}
          autoFocus
          autoComplete="off"
          spellCheck={false}
          onChange={(event) => {
            setText(event.target.value);
            setProblem(null);
          }}
          onKeyDown={press}
        />
      </FieldShell>
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      {match !== null && (
        <KnownCustomer
          match={match}
          properties={properties}
          property={property}
          isApart={isApart}
          onApart={setApart}
          onProperty={(propertyId) => setChosen(propertyId ?? '')}
        />
      )}
      {(text.trim() !== '' || Object.keys(corrected).length > 0) && (
        <LeadFields
          read={read}
          now={now}
          zone={zone}
          hasProperty={property !== null}
          onChange={(change) => setCorrected((c) => ({ ...c, ...change }))}
        />
      )}
    </Dialog>
  );
}
