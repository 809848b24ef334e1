import { useState } from 'react';
import { nowInstant } from '../book/moment.ts';
import { changeReminderState, useReminderState } from '../book/reminder-commands.ts';
import { CheckRow } from '../parts/CheckRow.tsx';
import { askLeave, showNotice } from '../parts/show-notice.ts';
import { BlockPart } from '../parts/TitleBlock.tsx';

/** Whether this machine speaks up by itself when something comes due. */
export function RemindersPart() {
  const state = useReminderState();
  const [trying, setTrying] = useState(false);
  if (state === undefined) return null;
  const isOn = typeof state.since === 'string';
  const turn = async (on: boolean): Promise<void> => {
    if (!on) return changeReminderState(() => ({ since: null, problem: null }));
    setTrying(true);
    await askLeave();
    const shown = await showNotice(
      'Reminders are on',
      'Pours, primer windows, tests, visits and promises at risk are said here when they come due.',
    );
    setTrying(false);
    return changeReminderState(() => (shown.ok ? { since: nowInstant(), problem: null } : { since: null, problem: shown.why }));
  };
  return (
    <BlockPart heading="Reminders, on this machine">
      <CheckRow label="Remind me on this machine" checked={isOn} disabled={trying} onChange={(on) => void turn(on)} />
      <p className="small">
        {isOn
          ? 'What comes due is said while the book is open, and what was missed when it is opened again. Nothing is said twice.'
          : 'A pour, a primer window, a test, a visit or a promise at risk can be said by a notice of the system when it comes due.'}
      </p>
      {state.problem !== null && (
        <p className="field-problem" role="alert">
          {state.problem}
        </p>
      )}
    </BlockPart>
  );
}
