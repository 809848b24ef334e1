import { useState } from 'react';
import { nowInstant } from '../book/now-instant.ts';
import { changeReminderState, useReminderState } from '../book/reminder-commands.ts';
import { CheckRow } from '../parts/Choices.tsx';
import { askLeave, showNotice } from '../parts/show-notice.ts';
import { BlockPart } from '../parts/Sheet.tsx';

export function RemindersPart() {
  const state = useReminderState();
  const [trying, setTrying] = useState(false);
  if (state === undefined) return null;
  const isOn = typeof state.since === 'string';
  const turn = async (on: boolean): Promise<void> => {
    if (!on) {
      await changeReminderState(() => ({ since: null, problem: null }));
      return;
    }
    setTrying(true);
    await askLeave();
    const shown = await showNotice(
      'Reminders are on',
      'Pours, primer windows, tests, visits, and promised dates at risk appear here when they are due.',
    );
    setTrying(false);
    await changeReminderState(() => (shown.ok ? { since: nowInstant(), problem: null } : { since: null, problem: shown.why }));
  };
  return (
    <BlockPart heading="Reminders on this computer">
      <CheckRow label="Show reminders on this computer" checked={isOn} disabled={trying} onChange={(on) => void turn(on)} />
      <p className="small">
        {isOn
          ? 'Reminders appear while Straightedge is open. Missed ones appear the next time you open it.'
          : 'Get a notification when a pour, primer window, test, visit, or promised date at risk is due.'}
      </p>
      {state.problem !== null && (
        <p className="field-problem" role="alert">
          {state.problem}
        </p>
      )}
    </BlockPart>
  );
}
