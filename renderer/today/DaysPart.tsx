import { useMemo } from 'react';
import { dayList } from '../../shared-core/agenda/day-list.ts';
import type { AgendaEntry } from '../../shared-core/agenda/agenda-entry.ts';
import type { BookAgenda } from '../book/use-agenda.ts';
import { LinkWord, TextButton } from '../parts/Buttons.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { EntryWords } from './EntryWords.tsx';
import { countWords } from '../../shared-core/measure/count-words.ts';

const DAYS_LISTED = 42;
const LINES_LISTED = 150;

interface DaysPartProps {
  readonly all: BookAgenda;
  readonly open: boolean;
  readonly onOpen: (open: boolean) => void;
  readonly hrefOf: (entry: AgendaEntry) => string;
}

/** Dates of the next six weeks by day: tasks and other events. */
export function DaysPart({ all, open, onOpen, hrefOf }: DaysPartProps) {
  return (
    <section className="today-days" aria-label="Dates by day">
      <TextButton expanded={open} onPress={() => onOpen(!open)}>
        {open ? 'Hide dates' : 'Show all dates by day'}
      </TextButton>
      {open && <Days all={all} hrefOf={hrefOf} />}
    </section>
  );
}

function Days({ all, hrefOf }: Pick<DaysPartProps, 'all' | 'hrefOf'>) {
  const { agenda, now } = all;
  const { locale } = useMeasure();
  const { groups, more } = useMemo(() => dayList(agenda, now, DAYS_LISTED, LINES_LISTED), [agenda, now]);
  if (groups.length === 0) return <p>No dates in the next 6 weeks.</p>;
  return (
    <>
      {groups.map((group) => (
        <section key={group.called} className="today-day">
          <h2 className={group.day === null ? 'caption late' : 'caption'}>{group.called}</h2>
          <ul>
            {group.lines.map(({ entry, time }) => (
              <li key={entry.key}>
                <span className="today-day-time">{time}</span>
                <LinkWord href={hrefOf(entry)} quiet>
                  <EntryWords {...entry} />
                </LinkWord>
              </li>
            ))}
          </ul>
        </section>
      ))}
      {more > 0 && (
        <p className="small">{`${countWords(more, 'more date', locale)} ${more === 1 ? 'is' : 'are'} not shown. See each job.`}</p>
      )}
    </>
  );
}
