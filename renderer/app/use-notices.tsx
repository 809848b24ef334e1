import { useEffect, useState } from 'react';
import { formatDataSize } from '../../shared-core/measure/data-size.ts';
import { type LostNews, closeLostNews } from '../book/lost-entries.ts';
import type { Overlap } from '../book/windows.ts';
import { LinkWord, TextButton } from '../parts/Buttons.tsx';
import { Notice, ResultNotice } from '../parts/Dialog.tsx';
import { pageFailure } from './page-failures.ts';
import { discardUnsaved, retryUnsaved, useUnsaved } from '../book/pending.ts';
import { leaveEntries, recoverEntries, recoveredWords } from '../book/recovery-log.ts';

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
  /** Why photos of the read-only backup are missing. */
  readonly photosProblem: string | null;
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

/** The bars above the foot that every screen shares. */
export function Notices(props: NoticesProps) {
  const { historyMessage, canRedo, onRedo, onClose, problems, overlap, backupOf, photosProblem, freeBytes, lost } = props;
  useEffect(() => {
    if (historyMessage === null) return undefined;
    const timer = setTimeout(onClose, SHOWN_MS);
    return () => clearTimeout(timer);
  }, [historyMessage, onClose]);
  return (
    <>
      {backupOf !== null && (
        <Notice action={{ word: 'Close backup', run: props.onCloseBackup }}>
          The backup of {backupOf} is open read-only. Close it to make changes. {photosProblem}
        </Notice>
      )}
      <ResultNotice message={pageFailure.use()} onClose={pageFailure.set} />
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

/** Edits that could not be saved, listed until they are saved or discarded. */
function UnsavedNotices() {
  const unsaved = useUnsaved();
  return unsaved.map((one) => (
    <Notice
      key={one.id}
      kind="failure"
      onClose={() => discardUnsaved(one)}
      closeWord={one.retry === null ? 'Close' : 'Discard'}
      {...(one.retry === null ? {} : { action: { word: 'Try again', run: retryUnsaved } })}
    >
      Not saved: {one.label}. {one.message} {one.retry === null ? '' : 'Straightedge tries again every 10 seconds.'}
    </Notice>
  ));
}

/** Pour log entries that the recovery log has and the database has not. */
function LostNotice({ news }: { readonly news: LostNews }) {
  const [problem, setProblem] = useState<string | null>(null);
  const { lost } = news;
  const close = (): void => closeLostNews(news);
  if (news.kind === 'recovered')
    return (
      <Notice onClose={close}>
        {recoveredWords(news.many, lost.rooms)} Review the log. <LinkWord href={`/pour/${lost.pourId}`}>Go to Pour</LinkWord>
      </Notice>
    );
  const recover = async (): Promise<void> => {
    const recovered = await recoverEntries(lost);
    if (recovered.ok) close();
    else setProblem(recovered.message);
  };
  const isJobMissing = lost.place === 'nothing';
  const found =
    lost.missing === 1
      ? 'The recovery log holds 1 pour log entry that was not saved.'
      : `The recovery log holds ${lost.missing} pour log entries that were not saved.`;
  return (
    <Notice kind="failure" onClose={close} {...(isJobMissing ? {} : { action: { word: 'Recover entries', run: () => void recover() } })}>
      {found}
      {lost.rooms.length > 0 && ` Pour: ${lost.rooms.join(', ')}.`}{' '}
      {isJobMissing && (
        <>
          Their job is not in your data. Restore your latest backup first. <LinkWord href="/backup">Go to Backup</LinkWord>{' '}
        </>
      )}
      {problem}{' '}
      <TextButton
        kind="plain"
        onPress={() => {
          void leaveEntries(lost.pourId);
          close();
        }}
      >
        Discard entries
      </TextButton>
    </Notice>
  );
}
