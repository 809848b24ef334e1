import { useState } from 'react';
import { closeLostNews, type LostNews } from '../book/lost-entries.ts';
import { leaveEntries, recoverEntries, recoveredWords } from '../book/recovery-log.ts';
import { LinkWord, TextButton } from '../parts/Buttons.tsx';
import { Notice } from '../parts/Notice.tsx';

/** Pour log entries that the recovery log has and the database has not. */
export function LostNotice({ news }: { readonly news: LostNews }) {
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
