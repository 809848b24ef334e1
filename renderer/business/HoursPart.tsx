import { formatClockTime } from '../../shared-core/measure/clock-time.ts';
import { weekdayName } from '../../shared-core/measure/weekday.ts';
import { CheckRow } from '../parts/Choices.tsx';
import { FieldProblem } from '../parts/Field.tsx';
import { ClockField, Fields } from '../parts/Fields.tsx';
import { type BusinessPart, hoursSummary, SettingsPart } from './SettingsPart.tsx';
import { useState, useEffect } from 'react';
import { nowInstant } from '../book/command.ts';
import { changeReminderState, useReminderState } from '../book/reminder-commands.ts';
import { askLeave, showNotice } from '../parts/show-notice.ts';
import { BlockPart } from '../parts/Sheet.tsx';
import type { Gives } from '../../shared-core/desk/calls.ts';
import { formatInstant } from '../../shared-core/measure/moment.ts';
import { type CalendarFollowing, changeCalendarState, useCalendarState } from '../book/calendar-commands.ts';
import { saveCalendars } from '../book/calendar-files.ts';
import { gatherAgenda } from '../book/gather-agenda.ts';
import { useBusiness } from '../book/use-records.ts';
import { askDesk } from '../desk/desk-client.ts';
import { TextButton } from '../parts/Buttons.tsx';

const WEEK = [1, 2, 3, 4, 5, 6, 7] as const;

export function HoursPart({ business, edit }: BusinessPart) {
  const { hours, locale } = business;
  const clockProblem = (end: 'from' | 'to', time: string): string | null => {
    if (end === 'from' ? time < hours.to : time > hours.from) return null;
    return end === 'from'
      ? `Enter a time before the end of the day, ${formatClockTime(hours.to, locale)}.`
      : `Enter a time after the start of the day, ${formatClockTime(hours.from, locale)}.`;
  };
  return (
    <SettingsPart
      heading="Working hours"
      text="A day that runs past them is flagged."
      fold={{ key: 'hours', summary: hoursSummary(business) }}
    >
      <Fields>
        {(['from', 'to'] as const).map((end) => (
          <ClockField
            key={end}
            label={end === 'from' ? 'Day starts' : 'Day ends'}
            value={hours[end]}
            check={(time) => clockProblem(end, time)}
            emptyMessage="Enter a time, such as 7:30 am."
            onChange={(time) => edit('hours', (b) => ({ ...b, hours: { ...b.hours, [end]: time } }))}
          />
        ))}
      </Fields>
      <fieldset className="settings-days">
        <legend className="caption">Working days</legend>
        {WEEK.map((day) => (
          <CheckRow
            key={day}
            label={weekdayName(day, locale)}
            checked={hours.days.includes(day)}
            onChange={(on) =>
              edit(`${weekdayName(day, locale)}s`, (b) => ({
                ...b,
                hours: { ...b.hours, days: WEEK.filter((d) => (d === day ? on : b.hours.days.includes(d))) },
              }))
            }
          />
        ))}
      </fieldset>
    </SettingsPart>
  );
}

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
      <FieldProblem text={state.problem} />
    </BlockPart>
  );
}

export function CalendarFilesPart() {
  const state = useCalendarState();
  const business = useBusiness();
  const [place, setPlace] = useState<Gives<'calendar.place'> | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [waiting, setWaiting] = useState(false);
  useEffect(() => {
    void askDesk('calendar.place', {}).then((answer) => (answer.ok ? setPlace(answer.value) : setProblem(answer.error.message)));
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
            ? 'Save all dates to a calendar file from Today.'
            : `Subscribe to ${state.file ?? 'the calendar file'} in your calendar program. It then shows changed and canceled dates.`}
        </p>
        {state.writtenAt !== null && state.failed === null && (
          <p className="small second">{`Last saved ${formatInstant(state.writtenAt, business.timeZone, 'short', business.locale)}.`}</p>
        )}
        <FieldProblem text={problem ?? state.failed} />
      </div>
    </BlockPart>
  );
}
