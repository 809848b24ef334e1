import { useState } from 'react';
import type { HoldDocument } from '../../shared-core/book/job.ts';
import { type DocumentAsked, DOCUMENT_WORDS } from '../../shared-core/assess/overrides.ts';
import { formatLoad } from '../../shared-core/measure/pressure.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';
import { overridePapers } from '../../shared-core/documents/open-holds.ts';
import type { PourHold } from '../../shared-core/prep/pour-held.ts';
import { capital } from '../../shared-core/measure/first-letter.ts';
import { DateField, Fields, TextField } from './Fields.tsx';
import { Dialog } from './Dialog.tsx';
import { useMeasure } from './use-measure.ts';

interface ConfirmWhyProps {
  /** The hold: `Hold: slab moisture`. */
  readonly hold: string;
  /** The purpose of the rule. */
  readonly because: string;
  readonly source?: string;
  /** What holds the pour; null where the hold is on other work only. */
  readonly by: PourHold['by'] | null;
  readonly isAccepted: boolean;
  /** The document the hold accepts instead of a reason; null where a reason is enough. */
  readonly document?: DocumentAsked | null;
  /** The initials to record; empty to ask for them, undefined while loading. */
  readonly initials: string | undefined;
  /** The reason and the initials, never empty, and the document if one is required. */
  readonly onGoOn: (overridden: { why: string; document: HoldDocument | null; initials: string }) => void;
  readonly onBack: () => void;
}

/** The schema has the same limits. */
const [LEAST_LETTERS, MOST_INITIALS] = [10, 8];

/** Which load a letter is saved for. */
const loadNote = (loadPa: number | null, units: UnitSystem, locale: string): string =>
  loadPa === null
    ? 'The load of the pour is not known yet. Once it is, this hold needs the letter again.'
    : `It is saved for the load of this pour, ${formatLoad(Math.max(0, loadPa), units, locale)}. A heavier pour needs another letter.`;

/** Overrides a hold: stores the reason, or the document that clears it. */
export function ConfirmWhy({ hold, because, source, by, isAccepted, document = null, initials, onGoOn, onBack }: ConfirmWhyProps) {
  const { units, locale } = useMeasure();
  const [why, setWhy] = useState('');
  const [issuedBy, setIssuedBy] = useState('');
  const [number, setNumber] = useState('');
  const [datedOn, setDatedOn] = useState<string | null>(null);
  const [typed, setTyped] = useState('');
  const [asked, setAsked] = useState(false);
  const signedBy = initials === '' ? typed.trim() : (initials ?? '');
  const reason = why.trim();
  const missingReason = document === null && reason.length < LEAST_LETTERS;
  const missing = (value: string): string | null => (asked && value.trim() === '' ? 'Enter this from the document.' : null);
  const save = (): void => {
    setAsked(true);
    if (signedBy === '' || signedBy.length > MOST_INITIALS) return;
    if (document === null) {
      if (!missingReason) onGoOn({ why: reason, document: null, initials: signedBy });
      return;
    }
    if (issuedBy.trim() === '' || number.trim() === '' || datedOn === null) return;
    const named = `${capital(DOCUMENT_WORDS[document.kind])} ${number.trim()} by ${issuedBy.trim()}.`;
    onGoOn({
      why: reason.length < LEAST_LETTERS ? named : reason,
      document: {
        kind: document.kind,
        issuedBy: issuedBy.trim(),
        number: number.trim(),
        datedOn,
        ...(document.loadPa !== undefined && { loadPa: document.loadPa }),
      },
      initials: signedBy,
    });
  };
  return (
    <Dialog onClose={onBack} firm title={capital(hold)} onSave={save} saveWord={document === null ? 'Override hold' : 'Save document'}>
      <p>
        {because}
        {source !== undefined && <cite> {source}</cite>}
      </p>
      {document !== null && (
        <>
          <p className="small">This hold needs the {DOCUMENT_WORDS[document.kind]}. A reason alone does not clear it.</p>
          <Fields>
            <TextField label="Issued by" value={issuedBy} onChange={setIssuedBy} problem={missing(issuedBy)} />
            <TextField label="Number" value={number} onChange={setNumber} problem={missing(number)} />
            <DateField label="Document date" today={document.today} latest={document.today} value={datedOn} onChange={setDatedOn} />
          </Fields>
          {document.loadPa !== undefined && <p className="small">{loadNote(document.loadPa, units, locale)}</p>}
          {asked && datedOn === null && <p className="small">Enter the date of the document.</p>}
        </>
      )}
      <TextField
        label={document === null ? 'Reason' : 'Note'}
        long
        value={why}
        onChange={setWhy}
        hint={`It is kept with your initials and the time, and printed ${overridePapers({ by, isDocument: document !== null, isAccepted })}.`}
        problem={asked && missingReason ? 'Enter a reason in a full sentence.' : null}
      />
      {initials === '' && (
        <TextField
          label="Your initials"
          value={typed}
          onChange={setTyped}
          check={(text) => (text.trim().length > MOST_INITIALS ? `Enter at most ${MOST_INITIALS} letters.` : null)}
          problem={asked && signedBy === '' ? 'Enter your initials.' : null}
        />
      )}
    </Dialog>
  );
}
