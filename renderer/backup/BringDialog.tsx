import { useEffect, useId, useState } from 'react';
import type { BringLine } from '../../shared-core/book/bring-in.ts';
import { formatInstantDay } from '../../shared-core/measure/moment.ts';
import { useBusiness } from '../book/use-records.ts';
import { CheckRow } from '../parts/CheckRow.tsx';
import { Dialog } from '../parts/Dialog.tsx';
import { FieldShell } from '../parts/FieldShell.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { type Bringable, bringIn, readBringable } from './bring-in.ts';
import type { OpenedCopy } from './open-copy.ts';

interface BringDialogProps {
  readonly copy: OpenedCopy;
  /** When it was made, in words. */
  readonly made: string;
  readonly onClose: () => void;
  readonly onSay: (good: boolean, words: string) => void;
}

const SHOWN = 200;

/** Choosing customers and jobs of a copy, each with what the book has of it. */
export function BringDialog({ copy, made, onClose, onSay }: BringDialogProps) {
  const business = useBusiness();
  const [bringable, setBringable] = useState<Bringable | null>(null);
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const seekId = useId();
  const [sought, setSought] = useState('');
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => {
    let gone = false;
    const read = async (): Promise<void> => {
      const read = await readBringable(copy);
      if (gone) return;
      if (read.ok) setBringable(read.value);
      else setProblem(read.message);
    };
    void read();
    return () => {
      gone = true;
    };
  }, [copy]);
  if (business === undefined) return null;
  const day = (instant: string): string =>
    instant === '' ? 'never' : formatInstantDay(instant, business.timeZone, 'long', business.locale);
  const state = (line: BringLine): string => {
    if (line.state === 'new') return 'not in the book';
    if (line.state === 'same') return 'the same in the book';
    return `differs: changed ${day(line.inCopy)} in the copy, ${day(line.inBook ?? '')} in the book`;
  };
  const found = (bringable?.lines ?? []).filter((line) => line.name.toLocaleLowerCase().includes(sought.trim().toLocaleLowerCase()));
  const clashes = (bringable?.lines ?? []).filter((line) => line.state === 'clash' && chosen.has(line.id)).length;
  const bring = async (): Promise<void> => {
    if (bringable === null) return;
    setBusy(true);
    const outcome = await bringIn(
      copy,
      bringable.brief,
      bringable.lines.filter((line) => chosen.has(line.id)),
    );
    onClose();
    onSay(outcome.ok, outcome.ok ? `${outcome.value} Undo takes it all out again.` : outcome.message);
  };
  const part = (kind: BringLine['kind'], heading: string) => {
    const lines = found.filter((line) => line.kind === kind);
    return (
      <section>
        <h3 className="caption">{heading}</h3>
        {lines.slice(0, SHOWN).map((line) => (
          <CheckRow
            key={line.id}
            dense
            label={line.name === '' ? 'without a name' : line.name}
            checked={chosen.has(line.id)}
            disabled={line.state === 'same' || busy}
            because={state(line)}
            onChange={(on) => setChosen((before) => new Set(on ? [...before, line.id] : [...before].filter((id) => id !== line.id)))}
          />
        ))}
        {lines.length === 0 && <p className="small second">None.</p>}
        {lines.length > SHOWN && <p className="small">And {lines.length - SHOWN} more: seek them by name.</p>}
      </section>
    );
  };
  return (
    <Dialog
      open
      wide
      firm
      onClose={onClose}
      title={`Bring in some of the copy of ${made}`}
      actions={
        <>
          <TextButton disabled={busy} onPress={onClose}>
            Go back
          </TextButton>
          <TextButton kind="outlined" disabled={busy || chosen.size === 0} onPress={() => void bring()}>
            {busy ? 'Bringing in…' : 'Bring these in'}
          </TextButton>
        </>
      }
    >
      {bringable === null ? (
        <p className="caption" role={problem === null ? 'status' : 'alert'}>
          {problem ?? 'Reading the copy…'}
        </p>
      ) : (
        <div className="backup-bring">
          <p className="small">
            A customer comes with houses and rooms, a job with everything of its own. What a job stands on is added where the book lacks it.
          </p>
          <FieldShell id={seekId} label="Seek by name or number" problem={null}>
            <input id={seekId} type="search" value={sought} autoComplete="off" onChange={(event) => setSought(event.target.value)} />
          </FieldShell>
          {part('job', 'Jobs')}
          {part('customer', 'Customers')}
          {clashes > 0 && (
            <p role="status">
              {clashes === 1 ? 'One of these differs' : `${clashes} of these differ`} from the book: what the copy has takes the place of
              what the book has. The book is copied first.
            </p>
          )}
        </div>
      )}
    </Dialog>
  );
}
