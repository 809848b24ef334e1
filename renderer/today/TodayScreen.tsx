import { useMemo, useRef, useState } from 'react';
import { useLocation } from 'wouter';
import type { Agenda } from '../../shared-core/agenda/agenda.ts';
import type { AgendaEntry } from '../../shared-core/agenda/agenda-entry.ts';
import { conflicts } from '../../shared-core/agenda/conflicts.ts';
import { firstDate, letteredList, type Letters, ribbonView, summarySentence, type TodayLine } from '../../shared-core/agenda/today.ts';
import { todayRibbon } from '../../shared-core/drawing/ribbon.ts';
import { addDays, formatInstantDay } from '../../shared-core/measure/moment.ts';
import { useBackupWords } from '../book/backup-words.ts';
import { type StoredEntries, useStoredEntries } from '../book/stored-entries.ts';
import { type BookAgenda, useAgenda } from '../book/use-agenda.ts';
import { useNow } from '../book/use-job-reading.ts';
import { useJobCount } from '../book/use-whole-job.ts';
import { ActionButton, LinkWord, TextButton } from '../parts/Buttons.tsx';
import { EntryWords } from './EntryWords.tsx';
import { Answer } from '../parts/Answer.tsx';
import { DatumDrawing } from '../parts/DrawingView.tsx';
import { LetterRow } from '../parts/LetterRow.tsx';
import { Notice } from '../parts/Dialog.tsx';
import { companyWho, Sheet, BlockPart } from '../parts/Sheet.tsx';
import { openingStage, roomHref, stageHref } from '../parts/job/stage-words.ts';
import { isAt, isMovable, moveDate } from '../../shared-core/agenda/move-date.ts';
import { type LeadLine, leadList } from '../../shared-core/agenda/lead-list.ts';
import { saveMove } from '../book/date-commands.ts';
import { useKeys } from '../parts/use-keys.ts';
import { useMedia, useSmall } from '../parts/use-small.ts';
import { DaysPart } from './DaysPart.tsx';
import { EmptyBook } from './EmptyBook.tsx';
import { DayHeading } from './DayHeading.tsx';
import { InkKey } from './InkKey.tsx';
import { ribbonInput } from '../parts/job/ribbon-input.ts';
import { UnitText } from '../parts/UnitText.tsx';
import { useCalendarState } from '../book/calendar-commands.ts';
import { saveCalendars } from '../book/calendar-files.ts';
import { gatherAgenda } from '../book/gather-agenda.ts';
import { useOpenBackup } from '../book/open-read-only.ts';
import './today.css';

const DAYS_SHOWN = 42;
const DAYS_SHOWN_SMALL = 14;
/** Lines shown before the list by day; fewer beside a narrow block, so that the ribbon below begins on the screen. */
const LINES_SHOWN = 5;
const LINES_SHOWN_NARROW = 3;

/** Today's and this week's tasks, leads, and every room over the next weeks. */
export function TodayScreen() {
  const stored = useStoredEntries();
  return stored === undefined ? LOADING : <LiveToday stored={stored} />;
}

const LOADING = <p className="today-reading caption">Loading…</p>;

function LiveToday({ stored }: { readonly stored: StoredEntries | null }) {
  const [letters] = useState<Letters>(() => ({ day: null, byKey: new Map() }));
  const all = useAgenda();
  const past = [useJobCount('finished'), useJobCount('declined'), useJobCount('set-aside')];
  if (all === undefined || past.includes(undefined)) return stored === null ? LOADING : <FirstToday stored={stored} letters={letters} />;
  const { timeZone, locale } = all.business;
  const leads = leadList({ ...all.leads, timeZone, locale, now: all.now });
  if (all.readings.length === 0 && leads.length === 0)
    return <EmptyBook business={all.business} now={all.now} isUsed={past.some((count) => (count ?? 0) > 0)} />;
  return <Today all={all} leads={leads} letters={letters} />;
}

/** A move that was tried. `to` is null where it was not saved. */
type Moved = {
  readonly to: Parameters<typeof isAt>[1] | null;
  readonly text: string;
  readonly conflicts: readonly string[];
};

/** `Hand over the floors at 117 Sallow Lane to Abara and Finch`. */
const sentenceOf = ({ verb, rest }: AgendaEntry): string => `${verb} ${rest}`.replace(/\.$/, '');

const openWords = (count: number): string => (count === 1 ? '1 open job' : `${count} open jobs`);

const entryHref = ({ customerId, opens: { jobId, roomId, stage, pourId } }: AgendaEntry, firstRoom: string | undefined): string =>
  customerId !== undefined
    ? `/customers/${customerId}`
    : pourId !== undefined
      ? `/pour/${pourId}`
      : stage === 'money'
        ? `/jobs/${jobId}/money`
        : stageHref(jobId, openingStage(stage), roomId ?? firstRoom ?? '');

const hrefOf = (entry: AgendaEntry, all: BookAgenda): string =>
  entryHref(entry, all.readings.find((r) => r.whole.job.id === entry.opens.jobId)?.rooms[0]?.room.id);

/** The list alone, while the open jobs are read for the rest of the screen. */
function FirstToday({ stored: { business, entries, firstRooms }, letters }: { readonly stored: StoredEntries; readonly letters: Letters }) {
  const now = useNow();
  const small = useSmall();
  const isNarrow = useMedia('narrow');
  const { timeZone } = business;
  const lines = useMemo(() => letteredList({ business, entries, jobs: [] }, now, letters), [business, entries, now, letters]);
  const shown = lines.slice(0, isNarrow && !small ? LINES_SHOWN_NARROW : LINES_SHOWN);
  const [, go] = useLocation();
  const toEntry = ({ entry }: TodayLine): string => entryHref(entry, firstRooms[entry.opens.jobId]);
  useKeys(Object.fromEntries(lines.flatMap((line) => (line.letter === '' ? [] : [[line.letter.toLowerCase(), () => go(toEntry(line))]]))));
  if (shown.length === 0) return LOADING;
  return (
    <Sheet page="Today" who={{ ...companyWho(business), right: '' }}>
      <DayHeading now={now} zone={timeZone} />
      <ol className="below today-list">
        {shown.map((line, i) => (
          <LetterRow key={line.entry.key} letter={line.letter} href={toEntry(line)} first={i === 0} late={line.late} date={line.when}>
            <EntryWords {...line.entry} />
          </LetterRow>
        ))}
      </ol>
    </Sheet>
  );
}

interface TodayProps {
  readonly all: BookAgenda;
  readonly leads: readonly LeadLine[];
  readonly letters: Letters;
}

function Today({ all, leads, letters }: TodayProps) {
  const { business, agenda, now } = all;
  const small = useSmall();
  const isNarrow = useMedia('narrow');
  const [, go] = useLocation();
  const { locale, timeZone } = business;
  const copied = useBackupWords(now, timeZone, locale);
  const list = useMemo(() => letteredList(agenda, now, letters), [agenda, now, letters]);
  const view = useMemo(
    () => ribbonView(agenda, list, now, timeZone, small ? DAYS_SHOWN_SMALL : DAYS_SHOWN),
    [agenda, list, now, timeZone, small],
  );
  const found = useMemo(() => conflicts(agenda, now, addDays(now, 42, timeZone)), [agenda, now, timeZone]);
  const [daysOpen, setDaysOpen] = useState(false);
  const shown = list.slice(0, isNarrow && !small ? LINES_SHOWN_NARROW : LINES_SHOWN);
  const [first] = shown;
  const [moved, setMoved] = useState<Moved | null>(null);
  /** The agenda with the moves that the screen does not show yet. */
  const ahead = useRef<{ readonly shown: Agenda; readonly moved: Agenda } | null>(null);
  const move = ({ key, timeZone: zone }: AgendaEntry): void => {
    const present = ahead.current?.shown === agenda ? ahead.current.moved : agenda;
    const entry = present.entries.find((one) => one.key === key);
    if (entry === undefined || !isMovable(entry)) return;
    const moved = moveDate(present, entry, now);
    if (moved === null) {
      setMoved({ to: null, text: `“${sentenceOf(entry)}” cannot be moved.`, conflicts: [] });
      return;
    }
    ahead.current = { shown: agenda, moved: moved.after };
    // As it reads after the move: a visit says how many days after the pour it is.
    const sentence = sentenceOf(moved.after.entries.find((one) => one.key === key) ?? entry);
    const day = formatInstantDay(moved.instant, zone, 'weekday', locale);
    void saveMove(moved, `move “${sentence}” to ${day}`).then((outcome) => {
      if (!outcome.ok) ahead.current = null;
      const text = outcome.ok ? `Moved to ${day}: ${sentence}.` : outcome.message;
      setMoved({ to: outcome.ok ? { ...entry, instant: moved.instant } : null, text, conflicts: outcome.ok ? moved.conflicts : [] });
    });
  };
  useKeys(
    Object.fromEntries(
      // A letter on the ribbon opens its entry, also one further down this week.
      list
        .filter(({ letter }) => letter !== '')
        .flatMap(({ letter, entry }): [string, () => void][] => [
          [letter.toLowerCase(), () => go(hrefOf(entry, all))],
          [`shift+${letter.toLowerCase()}`, () => move(entry)],
        ]),
    ),
  );
  const open = first === undefined ? undefined : <ActionButton href={hrefOf(first.entry, all)}>{actionWords(first)}</ActionButton>;
  const pick = (name: string): void => {
    const [kind, id] = name.split(':');
    const reading = all.readings.find((r) => (kind === 'job' ? r.whole.job.id === id : r.rooms.some((room) => room.room.id === id)));
    const room = kind === 'job' ? reading?.rooms[0] : reading?.rooms.find((r) => r.room.id === id);
    if (reading !== undefined && room !== undefined) go(roomHref(reading.whole.job.id, room.room.id));
  };
  return (
    <Sheet
      page="Today"
      who={{
        ...companyWho(business),
        right:
          copied === null ? (
            openWords(all.readings.filter(({ whole }) => whole.job.state === 'open').length)
          ) : (
            <LinkWord href="/backup" quiet>
              {copied}
            </LinkWord>
          ),
      }}
      block={
        <>
          <BlockPart>
            <p>{summarySentence(agenda, leads, now)}</p>
          </BlockPart>
          {found.length > 0 && (
            <BlockPart heading="Conflicts">
              <ul className="today-conflicts">
                {found.slice(0, 3).map((conflict) => (
                  <li key={conflict.keys.join()}>{conflict.sentence}</li>
                ))}
              </ul>
            </BlockPart>
          )}
          <BlockPart>
            <InkKey />
          </BlockPart>
          <CalendarPart />
        </>
      }
      datum={
        <DatumDrawing
          label={`Rooms by day from ${formatInstantDay(now, timeZone, 'long', locale)}`}
          linePx={30}
          draw={(widthPx) => todayRibbon(ribbonInput(view, widthPx, small, locale))}
          onPick={pick}
        />
      }
      below={<DaysPart all={all} open={daysOpen} onOpen={setDaysOpen} hrefOf={(entry) => hrefOf(entry, all)} />}
      foot={small && first !== undefined ? <Answer under={first.late ? undefined : first.entry.place}>{first.when}</Answer> : undefined}
      action={small ? open : undefined}
    >
      <DayHeading now={now} zone={timeZone} />
      {shown.length === 0 && !leads.some(({ due }) => due) && (
        <p className="today-quiet">
          Nothing is due this week. <LinkWord href="/jobs">See all jobs</LinkWord>
        </p>
      )}
      {shown.length > 0 && (
        <ol className="below today-list">
          {shown.map((line, i) => (
            <LetterRow
              key={line.entry.key}
              letter={line.letter}
              href={hrefOf(line.entry, all)}
              first={i === 0}
              late={line.late}
              date={i > 0 ? line.when : small ? null : firstDate(line)}
              control={
                isMovable(line.entry) ? (
                  <TextButton
                    kind="plain"
                    label={`Next workday: ${sentenceOf(line.entry)}`}
                    {...(line.letter !== '' && { keys: `Shift+${line.letter}` })}
                    onPress={() => move(line.entry)}
                  >
                    Next workday
                  </TextButton>
                ) : undefined
              }
              action={i === 0 && !small ? open : undefined}
              under={
                ((i === 0 && !small) || line.entry.isUnready) && line.entry.note !== null ? (
                  <UnitText>{line.entry.note}</UnitText>
                ) : undefined
              }
            >
              <EntryWords {...line.entry} />
            </LetterRow>
          ))}
        </ol>
      )}
      {moved !== null && (moved.to === null || isAt(agenda, moved.to)) && (
        <Notice kind={moved.to === null ? 'failure' : 'success'} onClose={() => setMoved(null)}>
          {moved.text} {moved.to !== null && moved.conflicts.length === 0 ? 'No conflicts.' : moved.conflicts.join(' ')}
        </Notice>
      )}
      <LeadsPart lines={leads} />
      {list.length > shown.length && (
        <p className="today-more small">
          <TextButton
            onPress={() => {
              setDaysOpen(true);
              requestAnimationFrame(() => document.querySelector('.today-days')?.scrollIntoView());
            }}
          >
            {`Show ${list.length - shown.length} more this week`}
          </TextButton>
        </p>
      )}
    </Sheet>
  );
}

const WORDS: Readonly<Partial<Record<TodayLine['entry']['kind'], string>>> = {
  pour: 'Go to Pour',
  'finish-quote': 'Go to Quote',
  'quote-waits': 'Go to Quote',
  'quote-expires': 'Go to Quote',
  'quote-expired': 'Go to Quote',
  'order-waits': 'Go to Quote',
  'lab-result': 'Enter lab result',
  'pour-date': 'Set pour date',
  'prep-visit': 'Go to Prep',
  'primer-window': 'Go to Prep',
  'next-lift': 'Go to Pour',
  'clearance-test': 'Go to Cure',
  cover: 'Go to Pour',
  'handover-date': 'Set handover date',
  handover: 'Go to Handover',
  promise: 'Go to Cure',
  visit: 'Go to visit',
};

function actionWords(line: TodayLine): string {
  return WORDS[line.entry.kind] ?? 'Go to job';
}

interface LeadsPartProps {
  readonly lines: readonly LeadLine[];
}

/** Leads without a job, with the next step and its date. */
function LeadsPart({ lines }: LeadsPartProps) {
  if (lines.length === 0) return null;
  return (
    <section className="today-leads" aria-labelledby="today-leads">
      <h2 className="caption" id="today-leads">
        Leads
      </h2>
      <ul>
        {lines.map(({ lead, customerId, verb, rest, when, late }) => (
          <li key={lead.id}>
            <LinkWord href={`/customers/${customerId}`} quiet>
              <EntryWords verb={verb} rest={rest} />
            </LinkWord>
            <span className={late ? 'late' : ''}>{when}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}

/** Saves all dates as a calendar file, and shows why the last automatic save failed. */
function CalendarPart() {
  const isLooking = useOpenBackup() !== null;
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
  if (isLooking) return null;
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
