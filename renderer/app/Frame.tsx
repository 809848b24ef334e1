import { formatInstant } from '../../shared-core/measure/moment.ts';
import { lazy, type ReactNode, Suspense, useCallback, useEffect, useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import { endLooking, useLooking } from '../book/look-book.ts';
import { useLostNews } from '../book/lost-entries.ts';
import { useLittleRoom } from '../book/use-little-room.ts';
import { useOddities } from '../book/use-oddities.ts';
import { useBusiness, useHistory } from '../book/use-records.ts';
import { onOverlap, type Overlap } from '../book/windows.ts';
import { redo, undo } from '../book/write.ts';
import { SheetFrameContext } from '../parts/sheet-frame.ts';
import { useKeys } from '../parts/use-keys.ts';
import { MeasureContext } from '../parts/use-measure.ts';
import { Search } from './Search.tsx';
import { Notices } from './Notices.tsx';

const NewLeadDialog = lazy(() => import('../leads/NewLeadDialog.tsx').then((m) => ({ default: m.NewLeadDialog })));

/** What all sheets share: undo, find, and the bars above the foot. */
export function Frame({ children }: { readonly children: ReactNode }) {
  const history = useHistory();
  const business = useBusiness();
  const units = business?.units ?? 'us';
  const locale = business?.locale ?? 'en-US';
  const measure = useMemo(() => ({ units, locale }), [units, locale]);
  const [route] = useLocation();
  const [finding, setFinding] = useState(false);
  const [isNewLead, setNewLead] = useState(false);
  const isPouring = route.startsWith('/pour/');
  const [said, setSaid] = useState<string | null>(null);
  const back = useCallback(() => void undo().then((o) => setSaid(o.ok ? `Undone: ${o.value}.` : o.message)), []);
  const again = useCallback(() => void redo().then((o) => setSaid(o.ok ? `Done again: ${o.value}.` : o.message)), []);
  const close = useCallback(() => setSaid(null), []);
  const found = useOddities(null)?.length ?? 0;
  const [oddSeen, setOddSeen] = useState(0);
  // The sheet of copies lists it.
  const odd = found === oddSeen || route === '/backup' ? 0 : found;
  const left = useLittleRoom();
  const [roomSeen, setRoomSeen] = useState(false);
  const leftBytes = roomSeen ? null : left;
  const looking = useLooking();
  const lost = useLostNews(looking);
  const copyOf =
    looking === null || business === undefined ? null : formatInstant(looking.madeAt, business.timeZone, 'weekday', business.locale);
  const [overlap, setOverlap] = useState<Overlap | null>(null);
  useEffect(() => onOverlap(setOverlap), []);
  useKeys({
    'mod+z': back,
    'shift+mod+z': again,
    'mod+y': again,
    n: () => setNewLead(!isPouring && looking === null),
    '/': () => setFinding(true),
    'mod+k': () => setFinding(true),
  });
  const what = history?.undo ?? null;
  const frame = useMemo(
    () => ({
      undo: what === null ? null : { what, run: back },
      openSearch: () => setFinding(true),
      openNewLead: () => setNewLead(true),
      notices:
        said === null && overlap === null && copyOf === null && leftBytes === null && odd === 0 && lost.length === 0 ? null : (
          <Notices
            said={said}
            canRedo={(history?.redo ?? null) !== null}
            onRedo={again}
            onClose={close}
            odd={odd}
            onOddSeen={() => setOddSeen(found)}
            overlap={overlap}
            copyOf={copyOf}
            leftBytes={leftBytes}
            onRoomSeen={() => setRoomSeen(true)}
            lost={lost}
            onLooked={() => {
              location.hash = '#/backup';
              void endLooking();
            }}
            onUndo={() => {
              setOverlap(null);
              back();
            }}
            onOverlapSeen={() => setOverlap(null)}
          />
        ),
    }),
    [what, back, again, close, said, history?.redo, odd, found, overlap, copyOf, leftBytes, lost],
  );
  return (
    <SheetFrameContext value={frame}>
      <MeasureContext value={measure}>{children}</MeasureContext>
      {finding && <Search onClose={() => setFinding(false)} commands={{ 'new-lead': () => setNewLead(true), undo: back }} />}
      {isNewLead && (
        <Suspense fallback={null}>
          <NewLeadDialog onClose={() => setNewLead(false)} />
        </Suspense>
      )}
    </SheetFrameContext>
  );
}
