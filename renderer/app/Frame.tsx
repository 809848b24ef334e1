import { type ReactNode, useCallback, useEffect, useMemo, useState, useRef } from 'react';
import { useLocation } from 'wouter';
import { useOpenBackup } from '../book/open-read-only.ts';
import { useSetting } from '../book/settings.ts';
import { useBusiness, useHistory } from '../book/use-records.ts';
import { redo, undo } from '../book/write.ts';
import { NoticesContext, SheetFrameContext } from '../parts/sheet-frame.ts';
import { useKeys, useLetterKeys } from '../parts/use-keys.ts';
import { MeasureContext } from '../parts/use-measure.ts';
import { useNotices } from './use-notices.tsx';
import { useArrival, useKeptFocus } from './kept-focus.ts';
import { onDemand } from './on-demand.tsx';
import { useWorking } from '../desk/working.ts';
import './Working.css';
import { SearchPanel, type SearchResult } from '../parts/SearchPanel.tsx';

const NewLeadDialog = onDemand(() => import('../leads/NewLeadDialog.tsx').then((m) => m.NewLeadDialog), null);

/** What all screens share: undo, search, and the bars above the foot. */
export function Frame({ children }: { readonly children: ReactNode }) {
  const history = useHistory();
  const business = useBusiness();
  const units = business?.units ?? 'us';
  const locale = business?.locale ?? 'en-US';
  const country = business?.address.country ?? 'US';
  const currency = business?.currency ?? 'USD';
  const measure = useMemo(() => ({ units, locale, country, currency }), [units, locale, country, currency]);
  const [route] = useLocation();
  const [finding, setFinding] = useState(false);
  const [isNewLead, setNewLead] = useState(false);
  const isPouring = route.startsWith('/pour/');
  const [historyMessage, setHistoryMessage] = useState<{ readonly ok: boolean; readonly text: string } | null>(null);
  const back = useCallback(
    () => void undo().then((o) => setHistoryMessage({ ok: o.ok, text: o.ok ? `Undone: ${o.value}.` : o.message })),
    [],
  );
  const again = useCallback(
    () => void redo().then((o) => setHistoryMessage({ ok: o.ok, text: o.ok ? `Redone: ${o.value}.` : o.message })),
    [],
  );
  const close = useCallback(() => setHistoryMessage(null), []);
  const openBackup = useOpenBackup();
  const newLead = useMemo(() => (openBackup === null ? () => setNewLead(true) : null), [openBackup]);
  const commands = useMemo(() => ({ undo: back, ...(newLead === null ? {} : { 'new-lead': newLead }) }), [back, newLead]);
  useKeys({
    'mod+z': back,
    'shift+mod+z': again,
    'mod+y': again,
    n: () => (isPouring ? undefined : newLead?.()),
    '/': () => setFinding(true),
    'mod+k': () => setFinding(true),
  });
  const letterKeys = useSetting('letter-keys') !== 'off';
  useLetterKeys(letterKeys);
  const notices = useNotices({
    history: historyMessage,
    onRead: close,
    onUndo: back,
    onRedo: (history?.redo ?? null) === null ? null : again,
  });
  const undoLabel = history?.undo ?? null;
  useArrival(route);
  const done = useKeptFocus(history?.seq ?? 0, undoLabel);
  const frame = useMemo(
    () => ({
      undo: undoLabel === null ? null : { label: undoLabel, run: back },
      letterKeys,
      openSearch: () => setFinding(true),
      openNewLead: newLead,
    }),
    [undoLabel, newLead, letterKeys, back],
  );
  return (
    <SheetFrameContext value={frame}>
      <MeasureContext value={measure}>
        <NoticesContext value={notices}>{children}</NoticesContext>
        <Working />
        <p className="hidden-words" role="status">
          {done !== null && <span key={done.seq}>Done: {done.words}.</span>}
        </p>
        {finding && <Search onClose={() => setFinding(false)} commands={commands} />}
        {isNewLead && <NewLeadDialog onClose={() => setNewLead(false)} />}
      </MeasureContext>
    </SheetFrameContext>
  );
}

/** Names what is being made, over the foot. Short work never shows: the words fade in late. */
function Working() {
  const words = useWorking();
  return (
    <p className="working" role="status">
      {words !== null && <span>{words}</span>}
    </p>
  );
}

/** Loaded with the first search. The field is there at once, and what is typed meanwhile is kept. */
const openSearches = async () => {
  const [{ openRecordSearch }, { openPlaceSearch, searchAll }] = await Promise.all([
    import('../book/search.ts'),
    import('./search-places.ts'),
  ]);
  const [records, places] = [await openRecordSearch(), openPlaceSearch()];
  return (query: string, path: string) => searchAll(query, path, places, records);
};

const COMMAND = 'command:';

interface SearchProps {
  readonly onClose: () => void;
  /** Commands without an address, by the name after `command:`; others are not found. */
  readonly commands: Readonly<Record<string, () => void>>;
}

function Search({ onClose, commands }: SearchProps) {
  const [path, go] = useLocation();
  const opened = useRef<ReturnType<typeof openSearches> | null>(null);
  useEffect(() => {
    opened.current ??= openSearches();
  }, []);
  const find = useCallback(
    async (query: string): Promise<readonly SearchResult[]> => {
      opened.current ??= openSearches();
      const search = await opened.current.catch((error: unknown) => {
        // The next letter loads it again.
        opened.current = null;
        throw error;
      });
      const results = await search(query, path);
      return results.filter(({ href }) => !href.startsWith(COMMAND) || href.slice(COMMAND.length) in commands);
    },
    [path, commands],
  );
  return (
    <SearchPanel
      onClose={onClose}
      find={find}
      onPick={({ href }) => {
        onClose();
        if (href.startsWith(COMMAND)) commands[href.slice(COMMAND.length)]?.();
        else go(href);
      }}
    />
  );
}
