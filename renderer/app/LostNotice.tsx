import { useState } from 'react';
import { closeLostNews, type LostNews } from '../book/lost-entries.ts';
import { entriesWords, leaveEntries, takeUpEntries } from '../book/pour-journal.ts';
import { LinkWord } from '../parts/LinkWord.tsx';
import { Notice } from '../parts/Notice.tsx';
import { TextButton } from '../parts/TextButton.tsx';

/** Entries of a pour that stand in its journal and not in the book. */
export function LostNotice({ news }: { readonly news: LostNews }) {
  const [problem, setProblem] = useState<string | null>(null);
  const { lost } = news;
  const close = (): void => closeLostNews(news);
  if (news.kind === 'taken')
    return (
      <Notice onClose={close}>
        {entriesWords(news.many, lost.rooms)} stood in the pour’s journal and not in the book: taken up.{' '}
        <LinkWord href={`/pour/${lost.pourId}`}>To the pour</LinkWord>
      </Notice>
    );
  const takeUp = async (): Promise<void> => {
    const taken = await takeUpEntries(lost);
    if (taken.ok) close();
    else setProblem(taken.message);
  };
  const isHomeless = lost.stands === 'nothing';
  return (
    <Notice kind="failure" onClose={close} {...(isHomeless ? {} : { action: { word: 'Take them up', run: () => void takeUp() } })}>
      {entriesWords(lost.missing, lost.rooms)} {lost.missing === 1 ? 'stands' : 'stand'} in the pour’s journal and not in the book.{' '}
      {isHomeless && (
        <>
          Their job is not in the book either: take back the last copy of the book first. <LinkWord href="/backup">
            To the copies
          </LinkWord>{' '}
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
        Leave them out
      </TextButton>
    </Notice>
  );
}
