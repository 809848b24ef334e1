import { useEffect, useId, useMemo, useRef, useState } from 'react';
import { type ImportLine, type RecordClash, suggestedFields } from '../../shared-core/book/import-plan.ts';
import { formatInstantDay } from '../../shared-core/measure/moment.ts';
import { useBusiness } from '../book/use-records.ts';
import { CheckRow } from '../parts/Choices.tsx';
import { Dialog } from '../parts/Dialog.tsx';
import { FieldShell } from '../parts/Field.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { ClashList } from './ClashList.tsx';
import { type Importable, importLinesFrom, type NamedRows, readClashes, readImportable } from './import-from-backup.ts';
import type { BackupWatch, OpenedBackup } from './open-backup.ts';

interface ImportDialogProps {
  readonly backup: OpenedBackup;
  /** When the backup was made, in words. */
  readonly madeText: string;
  readonly onClose: () => void;
  readonly onSay: (good: boolean, words: string) => void;
}

const SHOWN = 200;

/** Lists the customers and jobs of a backup with how each compares with your data. */
export function ImportDialog({ backup, madeText, onClose, onSay }: ImportDialogProps) {
  const business = useBusiness();
  const [importable, setImportable] = useState<Importable | null>(null);
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const searchId = useId();
  const [query, setQuery] = useState('');
  const [busy, setBusy] = useState(false);
  const [share, setShare] = useState(0);
  const isCanceled = useRef(false);
  const watch = useMemo((): BackupWatch => ({ onProgress: setShare, isCanceled: () => isCanceled.current }), []);
  const [problem, setProblem] = useState<string | null>(null);
  /** Records that differ; null until they are compared. */
  const [compared, setCompared] = useState<{ readonly clashes: readonly RecordClash[]; readonly names: NamedRows } | null>(null);
  const [fields, setFields] = useState<ReadonlyMap<string, ReadonlySet<string>>>(new Map());
  useEffect(() => {
    let isUnmounted = false;
    isCanceled.current = false;
    const read = async (): Promise<void> => {
      const read = await readImportable(backup, watch);
      if (isUnmounted) return;
      if (read.ok) setImportable(read.value);
      else setProblem(read.message);
    };
    void read();
    return () => {
      isUnmounted = true;
      isCanceled.current = true;
    };
  }, [backup, watch]);
  if (business === undefined) return null;
  const day = (instant: string): string =>
    instant === '' ? 'never changed' : formatInstantDay(instant, business.timeZone, 'field', business.locale);
  const state = (line: ImportLine): string => {
    if (line.state === 'new') return 'New';
    if (line.state === 'same') return 'Same as your data';
    return `Different. Backup: ${day(line.inCopy)}. Your data: ${day(line.inBook ?? '')}.`;
  };
  const found = (importable?.lines ?? []).filter((line) => line.name.toLocaleLowerCase().includes(query.trim().toLocaleLowerCase()));
  const lines = (importable?.lines ?? []).filter((line) => chosen.has(line.id));
  const runImport = async (chosenFields: ReadonlyMap<string, ReadonlySet<string>>): Promise<void> => {
    if (importable === null) return;
    setBusy(true);
    const outcome = await importLinesFrom(backup, importable.brief, lines, chosenFields, watch);
    onClose();
    onSay(outcome.ok, outcome.ok ? outcome.value : outcome.message);
  };
  const compare = async (): Promise<void> => {
    if (importable === null) return;
    setBusy(true);
    const read = await readClashes(backup, importable, lines, watch);
    if (isCanceled.current) return onClose();
    if (!read.ok) {
      setBusy(false);
      return setProblem(read.message);
    }
    if (read.value.clashes.length === 0) return runImport(new Map());
    setFields(new Map(read.value.clashes.map((clash) => [clash.key, suggestedFields(clash)])));
    setCompared(read.value);
    setBusy(false);
  };
  const cancel = (): void => {
    isCanceled.current = true;
    if (!busy) onClose();
  };
  const part = (kind: ImportLine['kind'], heading: string) => {
    const lines = found.filter((line) => line.kind === kind);
    return (
      <section>
        <h3 className="caption">{heading}</h3>
        {lines.slice(0, SHOWN).map((line) => (
          <CheckRow
            key={line.id}
            dense
            label={line.name === '' ? 'No name' : line.name}
            checked={chosen.has(line.id)}
            disabled={line.state === 'same' || busy}
            because={state(line)}
            onChange={(on) => setChosen((before) => new Set(on ? [...before, line.id] : [...before].filter((id) => id !== line.id)))}
          />
        ))}
        {lines.length === 0 && <p className="small second">None.</p>}
        {lines.length > SHOWN && <p className="small">{lines.length - SHOWN} more not shown. Search by name.</p>}
      </section>
    );
  };
  return (
    <Dialog
      wide
      firm
      onClose={cancel}
      title={`Import from the backup of ${madeText}`}
      onSave={() => void (compared === null ? compare() : runImport(fields))}
      saveWord={busy ? 'Importing…' : compared === null && lines.some((line) => line.state === 'clash') ? 'Next: Compare' : 'Import'}
      blocked={busy || chosen.size === 0}
      extra={
        compared !== null && (
          <TextButton disabled={busy} onPress={() => setCompared(null)}>
            Back
          </TextButton>
        )
      }
    >
      {problem === null && (busy || importable === null) && (
        <progress className="backup-progress" max={1} value={share} aria-label="Import progress" />
      )}
      {compared !== null && problem === null ? (
        <ClashList
          clashes={compared.clashes}
          names={compared.names}
          fields={fields}
          setting={{ ...business, zone: business.timeZone }}
          onFields={(key, chosenFields) => setFields(new Map([...fields, [key, chosenFields]]))}
        />
      ) : importable === null || problem !== null ? (
        <p className="caption" role={problem === null ? 'status' : 'alert'}>
          {problem ?? 'Reading the backup…'}
        </p>
      ) : (
        <div className="backup-import">
          <p className="small">
            A customer is imported with properties, rooms, and open leads, a job with all of its records. The customer, property, and
            materials of a job are added if you do not have them.
          </p>
          <FieldShell id={searchId} label="Search by name or number" problem={null}>
            <input id={searchId} type="search" value={query} autoComplete="off" onChange={(event) => setQuery(event.target.value)} />
          </FieldShell>
          {part('job', 'Jobs')}
          {part('customer', 'Customers')}
          {lines.some((line) => line.state === 'clash') && (
            <p role="status">Next, choose a value for each field that differs. Nothing is deleted. Your data is backed up first.</p>
          )}
        </div>
      )}
    </Dialog>
  );
}
