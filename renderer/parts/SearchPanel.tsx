import { type KeyboardEvent, type ReactNode, useEffect, useId, useState } from 'react';
import { Dialog, Modal, ModalOverlay } from 'react-aria-components';
import { countWords } from '../../shared-core/measure/count-words.ts';
import './SearchPanel.css';

export interface SearchResult {
  readonly id: string;
  /** The kind of result: `customer`, `job`, `command`. */
  readonly kind: string;
  readonly title: ReactNode;
  readonly detail?: ReactNode;
  readonly href: string;
}

interface SearchPanelProps {
  readonly onClose: () => void;
  /** Matches, best first. */
  readonly find: (query: string) => readonly SearchResult[] | Promise<readonly SearchResult[]>;
  readonly onPick: (result: SearchResult) => void;
}

/** Search over any screen; arrow keys move, Enter opens. */
export function SearchPanel({ onClose, find, onPick }: SearchPanelProps) {
  return (
    <ModalOverlay className="search-ground" isOpen onOpenChange={(now) => !now && onClose()} isDismissable>
      <Modal className="search-panel">
        <Dialog aria-label="Search" className="search-inner">
          <SearchInner find={find} onPick={onPick} />
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

function SearchInner({ find, onPick }: Pick<SearchPanelProps, 'find' | 'onPick'>) {
  const id = useId();
  const [query, setQuery] = useState('');
  const [found, setFound] = useState<{ readonly query: string; readonly results: readonly SearchResult[] } | null>(null);
  const [activeIndex, setActiveIndex] = useState(0);
  const asked = query.trim();
  useEffect(() => {
    let current = true;
    if (asked === '') return undefined;
    void Promise.resolve(find(asked)).then((results) => {
      if (!current) return;
      setFound({ query: asked, results });
      setActiveIndex(0);
    });
    return () => {
      current = false;
    };
  }, [asked, find]);
  const results = asked === '' ? [] : (found?.results ?? []);
  const picked = results[activeIndex];

  const press = (event: KeyboardEvent) => {
    if (event.key === 'Enter' && picked !== undefined) onPick(picked);
    const step = event.key === 'ArrowDown' ? 1 : event.key === 'ArrowUp' ? -1 : 0;
    if (step === 0 || results.length === 0) return;
    event.preventDefault();
    const next = (activeIndex + step + results.length) % results.length;
    setActiveIndex(next);
    document.getElementById(`${id}-${next}`)?.scrollIntoView({ block: 'nearest' });
  };
  return (
    <>
      <div className="search-line">
        <input
          role="combobox"
          aria-label="Search records, screens, and commands"
          aria-expanded={results.length > 0}
          aria-controls={`${id}-list`}
          aria-activedescendant={picked === undefined ? undefined : `${id}-${activeIndex}`}
          aria-autocomplete="list"
          placeholder="Name, address, job, material, or command"
          value={query}
          onChange={(event) => {
            setQuery(event.target.value);
            setActiveIndex(0);
          }}
          onKeyDown={press}
          autoFocus
          autoComplete="off"
          spellCheck={false}
        />
      </div>
      <ul role="listbox" aria-label="Results" id={`${id}-list`} className="search-list">
        {results.map((result, i) => (
          <li
            key={result.id}
            id={`${id}-${i}`}
            role="option"
            aria-selected={i === activeIndex}
            className="search-result"
            onPointerMove={() => setActiveIndex(i)}
            onClick={() => onPick(result)}
          >
            <i>{result.kind}</i>
            <span className="search-result-title">{result.title}</span>
            {result.detail !== undefined && <span className="second small">{result.detail}</span>}
          </li>
        ))}
      </ul>
      <p className="search-status" role="status">
        {asked === ''
          ? 'Enter a name, street, job number, room, or a word such as backup or tax.'
          : found?.query === asked && results.length === 0
            ? `No results for “${asked}”. Try fewer letters.`
            : countWords(results.length, 'result', 'en-US')}
      </p>
    </>
  );
}
