import { type ReactNode, useEffect, useState } from 'react';
import { useLocation } from 'wouter';
import { formatDataSize } from '../../shared-core/measure/data-size.ts';
import { formatInstant } from '../../shared-core/measure/moment.ts';
import { type LostNews, closeLostNews, useLostNews } from '../book/lost-entries.ts';
import { closeBackup, useOpenBackup } from '../book/open-read-only.ts';
import { useDataProblems } from '../book/use-data-problems.ts';
import { useLowSpace } from '../book/use-low-space.ts';
import { useBusiness } from '../book/use-records.ts';
import { type Overlap, onOverlap } from '../book/windows.ts';
import { LinkWord, TextButton } from '../parts/Buttons.tsx';
import { Notice, ResultNotice } from '../parts/Dialog.tsx';
import { pageFailure } from './page-failures.ts';
import { discardUnsaved, retryUnsaved, useUnsaved } from '../book/pending.ts';
import { leaveEntries, recoverEntries, recoveredWords } from '../book/recovery-log.ts';

/** What undo or redo said last. */
interface HistoryMessage {
  readonly ok: boolean;
  readonly text: string;
}

interface NoticesInput {
  readonly history: HistoryMessage | null;
  readonly onRead: () => void;
  readonly onUndo: () => void;
  /** Null where nothing can be redone. */
  readonly onRedo: (() => void) | null;
}

const SHOWN_MS = 8000;

const problemsFound = (count: number): string => (count === 1 ? '1 data problem was found.' : `${count} data problems were found.`);

/** The bars above the foot that every screen shares; null while there is none. */
export function useNotices({ history, onRead, onUndo, onRedo }: NoticesInput): ReactNode {
  const [route] = useLocation();
  const business = useBusiness();
  const historyWords = history?.text ?? null;
  useEffect(() => {
    if (historyWords === null) return undefined;
    const timer = setTimeout(onRead, SHOWN_MS);
    return () => clearTimeout(timer);
  }, [historyWords, onRead]);
  const found = useDataProblems(null)?.length ?? 0;
  const [problemsRead, setProblemsRead] = useState(0);
  const problems = found === problemsRead || route === '/backup' ? 0 : found;
  const low = useLowSpace();
  const [isFreeRead, setFreeRead] = useState(false);
  const freeBytes = isFreeRead ? null : low;
  const openBackup = useOpenBackup();
  const backup = business === undefined ? null : openBackup;
  const lost = useLostNews(openBackup);
  const [overlap, setOverlap] = useState<Overlap | null>(null);
  useEffect(() => onOverlap(setOverlap), []);
  const unsaved = useUnsaved();
  const failure = pageFailure.use();
  if ([history, overlap, backup, freeBytes, failure].every((one) => one === null) && problems + lost.length + unsaved.length === 0)
    return null;
  return (
    <>
      {backup !== null && business !== undefined && (
        <Notice
          action={{
            word: 'Close backup',
            run: () => {
              location.hash = '#/backup';
              void closeBackup();
            },
          }}
        >
          The backup of {formatInstant(backup.madeAt, business.timeZone, 'field', business.locale)} is open read-only. Close it to make
          changes. {backup.photosProblem}
        </Notice>
      )}
      <ResultNotice message={failure} onClose={pageFailure.set} />
      {unsaved.map((one) => (
        <Notice
          key={one.id}
          kind="failure"
          onClose={() => discardUnsaved(one)}
          closeWord={one.retry === null ? 'Close' : 'Discard'}
          {...(one.retry === null ? {} : { action: { word: 'Try again', run: retryUnsaved } })}
        >
          Not saved: {one.label}. {one.message} {one.retry === null ? '' : 'Straightedge tries again every 10 seconds.'}
        </Notice>
      ))}
      {history !== null && (
        <Notice onClose={onRead} {...(history.ok && onRedo !== null ? { action: { word: 'Redo', run: onRedo, keys: 'shift+mod+z' } } : {})}>
          {history.text}
        </Notice>
      )}
      {overlap !== null && (
        <Notice
          kind="failure"
          onClose={() => setOverlap(null)}
          action={{
            word: 'Undo my change',
            run: () => {
              setOverlap(null);
              onUndo();
            },
          }}
        >
          Your change “{overlap.ours}” overwrote a change just made in another window: “{overlap.theirs}”. Undo to restore the other change.
        </Notice>
      )}
      {freeBytes !== null && (
        <Notice kind="failure" onClose={() => setFreeRead(true)}>
          Only {formatDataSize(freeBytes)} free on this disk. Free up space soon. When the disk is full, new entries cannot be saved.
        </Notice>
      )}
      {lost.map((news) => (
        <LostNotice key={news.lost.pourId} news={news} />
      ))}
      {problems > 0 && (
        <Notice kind="failure" onClose={() => setProblemsRead(found)}>
          {problemsFound(problems)} Your data was not changed. <LinkWord href="/backup">Show data problems</LinkWord>
        </Notice>
      )}
    </>
  );
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
