import { useEffect, useSyncExternalStore } from 'react';
import { formatDataSize } from '../../shared-core/measure/data-size.ts';
import type { LostNews } from '../book/lost-entries.ts';
import type { Overlap } from '../book/windows.ts';
import { LinkWord } from '../parts/Buttons.tsx';
import { Notice } from '../parts/Notice.tsx';
import { LostNotice } from './LostNotice.tsx';
import { closePageFailure, onPageFailure, pageFailure } from './page-failures.ts';
import { UnsavedNotices } from './UnsavedNotices.tsx';

interface NoticesProps {
  /** The result of the last undo or redo. */
  readonly historyMessage: string | null;
  readonly canRedo: boolean;
  readonly onRedo: () => void;
  readonly onClose: () => void;
  /** Number of data problems; 0 until they are checked. */
  readonly problems: number;
  readonly onProblemsRead: () => void;
  /** An edit in this window that overwrote one from another window. */
  readonly overlap: Overlap | null;
  /** When the read-only backup was made, in words. */
  readonly backupOf: string | null;
  readonly onCloseBackup: () => void;
  /** Free disk space, once it is read and while it is low. */
  readonly freeBytes: number | null;
  readonly onFreeRead: () => void;
  readonly onUndo: () => void;
  readonly onOverlapRead: () => void;
  /** Entries that recovery logs of pours have and the database has not. */
  readonly lost: readonly LostNews[];
}

const SHOWN_MS = 8000;

const problemsFound = (count: number): string => (count === 1 ? '1 data problem was found.' : `${count} data problems were found.`);

function PageFailureNotice() {
  const failed = useSyncExternalStore(onPageFailure, pageFailure);
  if (failed === null) return null;
  return (
    <Notice kind="failure" onClose={closePageFailure}>
      {failed}
    </Notice>
  );
}

/** The bars above the foot that every screen shares. */
export function Notices(props: NoticesProps) {
  const { historyMessage, canRedo, onRedo, onClose, problems, overlap, backupOf, freeBytes, lost } = props;
  useEffect(() => {
    if (historyMessage === null) return undefined;
    const timer = setTimeout(onClose, SHOWN_MS);
    return () => clearTimeout(timer);
  }, [historyMessage, onClose]);
  return (
    <>
      {backupOf !== null && (
        <Notice action={{ word: 'Close backup', run: props.onCloseBackup }}>
          The backup of {backupOf} is open read-only. Close it to make changes.
        </Notice>
      )}
      <PageFailureNotice />
      <UnsavedNotices />
      {historyMessage !== null && (
        <Notice onClose={onClose} {...(canRedo ? { action: { word: 'Redo', run: onRedo, keys: 'shift+mod+z' } } : {})}>
          {historyMessage}
        </Notice>
      )}
      {overlap !== null && (
        <Notice kind="failure" onClose={props.onOverlapRead} action={{ word: 'Undo my change', run: props.onUndo }}>
          Your change “{overlap.ours}” overwrote a change just made in another window: “{overlap.theirs}”. Undo to restore the other change.
        </Notice>
      )}
      {freeBytes !== null && (
        <Notice kind="failure" onClose={props.onFreeRead}>
          Only {formatDataSize(freeBytes)} free on this disk. Free up space soon. When the disk is full, new entries cannot be saved.
        </Notice>
      )}
      {lost.map((news) => (
        <LostNotice key={news.lost.pourId} news={news} />
      ))}
      {problems > 0 && (
        <Notice kind="failure" onClose={props.onProblemsRead}>
          {problemsFound(problems)} Your data was not changed. <LinkWord href="/backup">Show data problems</LinkWord>
        </Notice>
      )}
    </>
  );
}
