import { useEffect, useState } from 'react';
import type { Gives } from '../../shared-core/desk/calls.ts';
import { formatInstant } from '../../shared-core/measure/moment.ts';
import { type CalendarFollowing, changeCalendarState, useCalendarState } from '../book/calendar-commands.ts';
import { saveCalendars, WHOLE_FILE } from '../book/calendar-files.ts';
import { gatherAgenda } from '../book/gather-agenda.ts';
import { useBusiness } from '../book/use-records.ts';
import { CheckRow } from '../parts/CheckRow.tsx';
import { askDesk } from '../parts/desk-client.ts';
import { TextButton } from '../parts/TextButton.tsx';
import { BlockPart } from '../parts/TitleBlock.tsx';

/** Where the calendar files go, and whether they follow the book by themselves. */
export function CalendarFilesPart() {
  const state = useCalendarState();
  const business = useBusiness();
  const [place, setPlace] = useState<Gives<'calendar.place'> | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [waiting, setWaiting] = useState(false);
  useEffect(() => {
    let gone = false;
    void askDesk('calendar.place', {}).then((answer) => {
      if (gone) return;
      if (answer.ok) setPlace(answer.value);
      else setProblem(answer.error.message);
    });
    return () => {
      gone = true;
    };
  }, []);
  if (state === undefined || business === undefined) return null;
  const { following } = state;
  const save = async (jobsToo: boolean): Promise<void> => {
    const gathered = await gatherAgenda(null);
    // A failure is kept with the state and stands below until it goes right.
    if (gathered !== null) await saveCalendars(gathered, true, jobsToo);
  };
  const follow = async (how: CalendarFollowing): Promise<void> => {
    await changeCalendarState((s) => ({ ...s, following: how, failed: null }));
    if (how !== 'off') await save(how === 'jobs');
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
      <div className="settings-backup">
        <p>
          Saved in <span className="settings-folder">{place?.folder ?? '…'}</span>
        </p>
        <p className="settings-choices">
          {place?.canChoose === true && (
            <TextButton kind="plain" disabled={waiting} onPress={() => void choose('other')}>
              {waiting ? 'Choose it in the window that opened' : 'Choose another folder'}
            </TextButton>
          )}
          {place?.chosen === true && (
            <TextButton kind="plain" disabled={waiting} onPress={() => void choose('usual')}>
              Back to the papers folder
            </TextButton>
          )}
        </p>
        <CheckRow
          label="Write them anew when a date changes"
          checked={following !== 'off'}
          onChange={(on) => void follow(on ? 'book' : 'off')}
        />
        {following !== 'off' && (
          <CheckRow label="One for each job too" checked={following === 'jobs'} onChange={(on) => void follow(on ? 'jobs' : 'book')} />
        )}
        <p className="small">
          {following === 'off'
            ? `Every date goes into ${WHOLE_FILE} when you ask for it, on Today.`
            : `Let your calendar program follow ${WHOLE_FILE} in this folder: what moves there moves with it, and what is called off goes.`}
        </p>
        {state.writtenAt !== null && state.failed === null && (
          <p className="small second">Last written {formatInstant(state.writtenAt, business.timeZone, 'short', business.locale)}.</p>
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
