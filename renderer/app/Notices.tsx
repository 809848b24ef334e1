import { useEffect } from 'react';
import { formatDataSize } from '../../shared-core/measure/data-size.ts';
import type { LostNews } from '../book/lost-entries.ts';
import type { Overlap } from '../book/windows.ts';
import { LinkWord } from '../parts/LinkWord.tsx';
import { Notice } from '../parts/Notice.tsx';
import { LostNotice } from './LostNotice.tsx';

interface NoticesProps {
  /** What undo or redo just did, or why it did not. */
  readonly said: string | null;
  readonly canRedo: boolean;
  readonly onRedo: () => void;
  readonly onClose: () => void;
  /** How much in the book is odd; none once it was said. */
  readonly odd: number;
  readonly onOddSeen: () => void;
  /** An edit here that wrote over one of another window. */
  readonly overlap: Overlap | null;
  /** When the copy was made that one is looking around in. */
  readonly copyOf: string | null;
  readonly onLooked: () => void;
  /** The room left for the book, when it is little and was not said yet. */
  readonly leftBytes: number | null;
  readonly onRoomSeen: () => void;
  readonly onUndo: () => void;
  readonly onOverlapSeen: () => void;
  /** Entries that pours' journals hold beyond the book. */
  readonly lost: readonly LostNews[];
}

const SHOWN_MS = 8000;

/** The bars above the foot that belong to no screen. */
export function Notices({
  said,
  canRedo,
  onRedo,
  onClose,
  odd,
  onOddSeen,
  overlap,
  copyOf,
  onLooked,
  leftBytes,
  onRoomSeen,
  onUndo,
  onOverlapSeen,
  lost,
}: NoticesProps) {
  useEffect(() => {
    if (said === null) return undefined;
    const timer = setTimeout(onClose, SHOWN_MS);
    return () => clearTimeout(timer);
  }, [said, onClose]);
  return (
    <>
      {copyOf !== null && (
        <Notice action={{ word: 'Back to the book', run: onLooked }}>
          You are looking around in the copy of {copyOf}. Nothing here can be changed.
        </Notice>
      )}
      {said !== null && (
        <Notice onClose={onClose} {...(canRedo ? { action: { word: 'Do it again', run: onRedo, keys: 'shift+mod+z' } } : {})}>
          {said}
        </Notice>
      )}
      {overlap !== null && (
        <Notice kind="failure" onClose={onOverlapSeen} action={{ word: 'Undo mine', run: onUndo }}>
          “{overlap.ours}” wrote over what another window changed a moment ago ({overlap.theirs}). Undo brings theirs back.
        </Notice>
      )}
      {leftBytes !== null && (
        <Notice kind="failure" onClose={onRoomSeen}>
          Only {formatDataSize(leftBytes)} are left for the book on this disk. Make room on it: a full disk stops new entries, and loses
          none.
        </Notice>
      )}
      {lost.map((news) => (
        <LostNotice key={news.lost.pourId} news={news} />
      ))}
      {odd > 0 && (
        <Notice kind="failure" onClose={onOddSeen}>
          {odd === 1 ? 'One thing in the book is odd' : `${odd} things in the book are odd`} and kept as {odd === 1 ? 'it is' : 'they are'}.{' '}
          <LinkWord href="/backup">See what, and what to do</LinkWord>
        </Notice>
      )}
    </>
  );
}
