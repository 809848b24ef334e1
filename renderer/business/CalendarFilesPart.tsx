import { useEffect, useState } from 'react';
import type { Gives } from '../../shared-core/desk/calls.ts';
import { formatInstant } from '../../shared-core/measure/moment.ts';
import { type CalendarFollowing, changeCalendarState, useCalendarState } from '../book/calendar-commands.ts';
import { saveCalendars, WHOLE_FILE } from '../book/calendar-files.ts';
import { gatherAgenda } from '../book/gather-agenda.ts';
import { useBusiness } from '../book/use-records.ts';
import { CheckRow } from '../parts/Choices.tsx';
import { askDesk } from '../desk/desk-client.ts';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';

export function CalendarFilesPart() {
  const state = useCalendarState();
  const business = useBusiness();
  const [place, setPlace] = useState<Gives<'calendar.place'> | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [waiting, setWaiting] = useState(false);
  useEffect(() => {
    let isUnmounted = false;
    void askDesk('calendar.place', {}).then((answer) => {
      if (isUnmounted) return;
      if (answer.ok) setPlace(answer.value);
      else setProblem(answer.error.message);
    });
    return () => {
      isUnmounted = true;
    };
  }, []);
  if (state === undefined || business === undefined) return null;
  const { following } = state;
  const save = async (jobsToo: boolean): Promise<void> => {
    const gathered = await gatherAgenda(null);
    // A failure stays stored and shown until the next success.
    if (gathered !== null) await saveCalendars(gathered, true, jobsToo);
  };
  const follow = async (mode: CalendarFollowing): Promise<void> => {
    await changeCalendarState((s) => ({ ...s, following: mode, failed: null }));
    if (mode !== 'off') await save(mode === 'jobs');
  };
  const choose = async (which: 'other' | 'usual'): Promise<void> => {
    setWaiting(true);
    const answer = await askDesk('calendar.choose', { choose: which });
    setWaiting(false);
    setProblem(answer.ok ? null : answer.error.message);
    if (!answer.ok) return;
    setPlace(answer.value);
    if (answer.value.changed && following !== 'off') await save(following === 'jobs');
  };
  return (
    <BlockPart heading="Calendar files">
      <div className="stack-close">
        <p>
          Folder: <span className="settings-folder">{place?.folder ?? '…'}</span>
        </p>
        <p className="words">
          {place?.canChoose === true && (
            <TextButton kind="plain" disabled={waiting} onPress={() => void choose('other')}>
              {waiting ? 'Choose a folder in the window that opened' : 'Choose folder'}
            </TextButton>
          )}
          {place?.chosen === true && (
            <TextButton kind="plain" disabled={waiting} onPress={() => void choose('usual')}>
              Use the documents folder
            </TextButton>
          )}
        </p>
        <CheckRow label="Update when a date changes" checked={following !== 'off'} onChange={(on) => void follow(on ? 'book' : 'off')} />
        {following !== 'off' && (
          <CheckRow label="Also one file per job" checked={following === 'jobs'} onChange={(on) => void follow(on ? 'jobs' : 'book')} />
        )}
        <p className="small">
          {following === 'off'
            ? `Save all dates to ${WHOLE_FILE} from Today.`
            : `Subscribe to ${WHOLE_FILE} in your calendar program. It then shows changed and canceled dates.`}
        </p>
        {state.writtenAt !== null && state.failed === null && (
          <p className="small second">{`Last saved ${formatInstant(state.writtenAt, business.timeZone, 'short', business.locale)}.`}</p>
        )}
        {(problem ?? state.failed) !== null && (
          <p className="field-problem" role="alert">
            {problem ?? state.failed}
          </p>
        )}
      </div>
    </BlockPart>
  );
}
