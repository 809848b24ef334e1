import { type KeyboardEvent, type ReactNode, useEffect, useId, useState } from 'react';
import { Dialog, Modal, ModalOverlay } from 'react-aria-components';
import './FindPanel.css';

export interface FindResult {
  readonly id: string;
  /** What sort of thing: `person`, `job`, `room`. */
  readonly kind: string;
  readonly title: ReactNode;
  readonly detail?: ReactNode;
  readonly href: string;
}

interface FindPanelProps {
  readonly open: boolean;
  readonly onClose: () => void;
  /** The matches for what was typed, best first. */
  readonly find: (query: string) => readonly FindResult[] | Promise<readonly FindResult[]>;
  readonly onPick: (result: FindResult) => void;
  /** Shown before anything is typed. */
  readonly recent?: readonly FindResult[];
}

/** Find, over any sheet: type a few letters, move with the arrow keys, go with Enter. */
export function FindPanel({ open, onClose, find, onPick, recent = [] }: FindPanelProps) {
  return (
    <ModalOverlay className="find-ground" isOpen={open} onOpenChange={(now) => !now && onClose()} isDismissable>
      <Modal className="find-panel">
        <Dialog aria-label="Find" className="find-inner">
          <FindInner find={find} onPick={onPick} recent={recent} />
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

function FindInner({ find, onPick, recent }: Pick<FindPanelProps, 'find' | 'onPick'> & { readonly recent: readonly FindResult[] }) {
  const id = useId();
  const [query, setQuery] = useState('');
  const [found, setFound] = useState<{ readonly query: string; readonly results: readonly FindResult[] } | null>(null);
  const [at, setAt] = useState(0);
  const asked = query.trim();
  useEffect(() => {
    let current = true;
    if (asked === '') return undefined;
    void Promise.resolve(find(asked)).then((results) => {
      if (!current) return;
      setFound({ query: asked, results });
      setAt(0);
    });
    return () => {
      current = false;
    };
  }, [asked, find]);
  const results = asked === '' ? recent : (found?.results ?? []);
  const picked = results[at];

  const press = (event: KeyboardEvent) => {
    if (event.key === 'Enter' && picked !== undefined) onPick(picked);
    const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
    if (step === 0 || results.length === 0) return;
    event.preventDefault();
    const next = (at + step + results.length) % results.length;
    setAt(next);
    document.getElementById(`${id}-${next}`)?.scrollIntoView({ block: 'nearest' });
  };
  return (
    <>
      <div className="find-line">
        <input
          role="combobox"
          aria-label="Find a person, a place, a job, a room or a material"
          aria-expanded={results.length > 0}
          aria-controls={`${id}-list`}
          aria-activedescendant={picked === undefined ? undefined : `${id}-${at}`}
          aria-autocomplete="list"
          placeholder="Name, place, job or material"
          value={query}
          onChange={(event) => {
            setQuery(event.target.value);
            setAt(0);
          }}
          onKeyDown={press}
          autoFocus
          autoComplete="off"
          spellCheck={false}
        />
      </div>
      <ul role="listbox" aria-label="Found" id={`${id}-list`} className="find-list">
        {results.map((result, i) => (
          <li
            key={result.id}
            id={`${id}-${i}`}
            role="option"
            aria-selected={i === at}
            className="find-result"
            onPointerMove={() => setAt(i)}
            onClick={() => onPick(result)}
          >
            <i>{result.kind}</i>
            <span className="find-result-title">{result.title}</span>
            {result.detail !== undefined && <span className="second small">{result.detail}</span>}
          </li>
        ))}
      </ul>
      <p className="find-said" role="status">
        {asked === ''
          ? recent.length === 0
            ? 'Type a few letters of a name, a street, a job’s number or a room.'
            : 'Opened lately. Type to find anything else.'
          : found?.query === asked && results.length === 0
            ? `Nothing here is called “${asked}”. Try fewer letters, or a part of the street.`
            : `${results.length} found`}
      </p>
    </>
  );
}
