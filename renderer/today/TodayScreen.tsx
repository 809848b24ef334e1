import { useMemo, useState } from 'react';
import { useLocation } from 'wouter';
import type { AgendaEntry } from '../../shared-core/agenda/agenda-entry.ts';
import { conflicts } from '../../shared-core/agenda/conflicts.ts';
import { ribbonView, summarySentence, type TodayLine, todayList } from '../../shared-core/agenda/today.ts';
import { todayRibbon } from '../../shared-core/drawing/ribbon.ts';
import { addDays, formatInstantDay, formatInstantTime } from '../../shared-core/measure/moment.ts';
import { useBackupWords } from '../book/backup-words.ts';
import { type BookAgenda, useAgenda } from '../book/use-agenda.ts';
import { useJobCount } from '../book/use-whole-job.ts';
import { ActionButton } from '../parts/ActionButton.tsx';
import { Answer } from '../parts/Answer.tsx';
import { DatumDrawing } from '../parts/DatumDrawing.tsx';
import { LetterRow } from '../parts/LetterRow.tsx';
import { LinkWord } from '../parts/LinkWord.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { Sheet } from '../parts/Sheet.tsx';
import { BlockPart, SheetHeading } from '../parts/TitleBlock.tsx';
import { openingStage, roomHref, stageHref } from '../parts/job/stage-words.ts';
import { useKeys } from '../parts/use-keys.ts';
import { useSmall } from '../parts/use-small.ts';
import { DaysPart } from './DaysPart.tsx';
import { EmptyBook } from './EmptyBook.tsx';
import { InkKey } from './InkKey.tsx';
import { CalendarPart } from './CalendarPart.tsx';
import { ribbonInput } from './ribbon-input.ts';
import './today.css';

const DAYS_SHOWN = 42;
const DAYS_SHOWN_SMALL = 14;
/** More than these wait in the list by day. */
const LINES_SHOWN = 5;

/** What needs somebody today, and every room on the weeks to come. */
export function TodayScreen() {
  const all = useAgenda();
  const past = [useJobCount('finished'), useJobCount('declined'), useJobCount('set-aside')];
  if (all === undefined || past.includes(undefined)) return <p className="today-reading caption">Reading the book…</p>;
  if (all.readings.length === 0) return <EmptyBook business={all.business} now={all.now} isUsed={past.some((count) => (count ?? 0) > 0)} />;
  return <Today all={all} />;
}

const openWords = (count: number): string => `${count === 0 ? 'No job' : count === 1 ? 'One job' : `${count} jobs`} open`;

const hrefOf = (entry: AgendaEntry, all: BookAgenda): string => {
  const { jobId, roomId, stage } = entry.opens;
  const first = all.readings.find((r) => r.whole.job.id === jobId)?.rooms[0]?.room.id ?? '';
  return stageHref(jobId, openingStage(stage), roomId ?? first);
};

function Today({ all }: { readonly all: BookAgenda }) {
  const { business, agenda, now } = all;
  const small = useSmall();
  const [, go] = useLocation();
  const { locale, timeZone } = business;
  const copied = useBackupWords(now, timeZone, locale);
  const list = useMemo(() => todayList(agenda, now), [agenda, now]);
  const view = useMemo(
    () => ribbonView(agenda, list, now, timeZone, small ? DAYS_SHOWN_SMALL : DAYS_SHOWN),
    [agenda, list, now, timeZone, small],
  );
  const found = useMemo(() => conflicts(agenda, now, addDays(now, 42, timeZone)), [agenda, now, timeZone]);
  const [daysOpen, setDaysOpen] = useState(false);
  const shown = list.slice(0, LINES_SHOWN);
  const [first] = shown;
  useKeys(Object.fromEntries(shown.map((line) => [line.letter.toLowerCase(), () => go(hrefOf(line.entry, all))])));
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
        name: business.name === '' ? 'Your business' : business.name,
        where: business.address.city,
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
            <p>{summarySentence(agenda, now)}</p>
          </BlockPart>
          {found.length > 0 && (
            <BlockPart heading="Conflicts">
              <ul className="today-conflicts">
                {found.slice(0, 3).map((clash) => (
                  <li key={clash.keys.join()}>{clash.sentence}</li>
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
          label={`Every room on the days from ${formatInstantDay(now, timeZone, 'long', locale)} on`}
          linePx={30}
          draw={(widthPx) => todayRibbon(ribbonInput(view, widthPx, small, locale))}
          onPick={pick}
        />
      }
      below={<DaysPart all={all} open={daysOpen} onOpen={setDaysOpen} hrefOf={(entry) => hrefOf(entry, all)} />}
      {...(small && first !== undefined
        ? { foot: <Answer under={first.late ? undefined : first.entry.place}>{first.when}</Answer>, action: open }
        : {})}
    >
      <SheetHeading right={formatInstantTime(now, timeZone, locale)}>{formatInstantDay(now, timeZone, 'long', locale)}</SheetHeading>
      {shown.length === 0 ? (
        <p className="today-quiet">
          Nothing needs you today. <LinkWord href="/jobs">Every job</LinkWord> stands below on its days.
        </p>
      ) : (
        <ol className="today-list">
          {shown.map((line, i) => (
            <LetterRow
              key={line.entry.key}
              letter={line.letter}
              href={hrefOf(line.entry, all)}
              first={i === 0}
              late={line.late}
              {...(i > 0 || (!small && (line.late || line.entry.promised)) ? { right: line.when } : {})}
              {...(i === 0 && !small ? { action: open } : {})}
              {...(i === 0 && !small && line.entry.note !== null ? { under: line.entry.note } : {})}
            >
              <b>{line.entry.verb}</b> {line.entry.rest}
            </LetterRow>
          ))}
        </ol>
      )}
      {list.length > shown.length && (
        <p className="today-more small">
          And {list.length - shown.length} more within the week:{' '}
          <TextButton
            onPress={() => {
              setDaysOpen(true);
              requestAnimationFrame(() => document.querySelector('.today-days')?.scrollIntoView());
            }}
          >
            see them day by day
          </TextButton>
          .
        </p>
      )}
    </Sheet>
  );
}

const WORDS: Readonly<Partial<Record<TodayLine['entry']['kind'], string>>> = {
  pour: 'Open the pour',
  'finish-quote': 'Finish the quote',
  'quote-lapses': 'Open the quote',
  'lab-result': 'Enter the result',
  'prep-visit': 'Open the prep',
  'primer-window': 'Open the prep',
  'clearance-test': 'Enter the test',
  handover: 'Open the handover',
  promise: 'See what moved',
};

/** The main action in the trade's words. */
function actionWords(line: TodayLine): string {
  return WORDS[line.entry.kind] ?? 'Open the job';
}
