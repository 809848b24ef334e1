import { useState } from 'react';
import { useCalendarState } from '../book/calendar-commands.ts';
import { saveCalendars } from '../book/calendar-files.ts';
import { gatherAgenda } from '../book/gather-agenda.ts';
import { LinkWord } from '../parts/LinkWord.tsx';
import { Notice } from '../parts/Notice.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { BlockPart } from '../parts/TitleBlock.tsx';

/** The whole book as a calendar file; and what is wrong with the files that should follow it by themselves. */
export function CalendarPart() {
  const state = useCalendarState();
  const [said, setSaid] = useState<string | null>(null);
  const save = async (): Promise<void> => {
    setSaid(null);
    const gathered = await gatherAgenda(null);
    if (gathered === null || state === undefined) return;
    const kept = await saveCalendars(gathered, true, state.following === 'jobs');
    // What went wrong is kept, and stands here until it goes right.
    setSaid(kept.ok ? kept.says : null);
  };
  const failed = state?.failed ?? null;
  return (
    <BlockPart>
      <TextButton onPress={() => void save()}>
        {failed === null ? 'Save every date as a calendar file' : 'Save the calendar files again'}
      </TextButton>
      {failed !== null && (
        <Notice kind="failure">
          {state?.following === 'off' ? '' : 'The calendar files no longer follow the book. '}
          {failed} <LinkWord href="/business">Where they go</LinkWord>
        </Notice>
      )}
      {said !== null && failed === null && (
        <Notice kind="told" onClose={() => setSaid(null)}>
          {said}
        </Notice>
      )}
    </BlockPart>
  );
}
