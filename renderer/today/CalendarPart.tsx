import { useState } from 'react';
import { useCalendarState } from '../book/calendar-commands.ts';
import { saveCalendars } from '../book/calendar-files.ts';
import { gatherAgenda } from '../book/gather-agenda.ts';
import { LinkWord, TextButton } from '../parts/Buttons.tsx';
import { Notice } from '../parts/Dialog.tsx';
import { BlockPart } from '../parts/Sheet.tsx';

/** Saves all dates as a calendar file, and shows why the last automatic save failed. */
export function CalendarPart() {
  const state = useCalendarState();
  const [message, setMessage] = useState<string | null>(null);
  const save = async (): Promise<void> => {
    setMessage(null);
    const gathered = await gatherAgenda(null);
    if (gathered === null || state === undefined) return;
    const saved = await saveCalendars(gathered, true, state.following === 'jobs');
    // The error is stored and shown until a save succeeds.
    setMessage(saved.ok ? saved.text : null);
  };
  const failed = state?.failed ?? null;
  return (
    <BlockPart>
      <TextButton onPress={() => void save()}>{failed === null ? 'Save calendar file' : 'Save calendar files again'}</TextButton>
      {failed !== null && (
        <Notice kind="failure">
          {state?.following === 'off' ? '' : 'The calendar files are not up to date. '}
          {failed} <LinkWord href="/business">Calendar folder</LinkWord>
        </Notice>
      )}
      {message !== null && failed === null && (
        <Notice kind="success" onClose={() => setMessage(null)}>
          {message}
        </Notice>
      )}
    </BlockPart>
  );
}
