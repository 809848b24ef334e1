import { useRef } from 'react';
import { flushSync } from 'react-dom';
import { formatDay } from '../../../shared-core/measure/day.ts';
import { instantAt } from '../../../shared-core/measure/moment.ts';
import { TextButton } from '../../parts/Buttons.tsx';
import { SelectField } from '../../parts/Choices.tsx';
import { ClockField, NumberField } from '../../parts/Fields.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

/** One line: a number of batches from a batch number on, by a time of day. `first` null continues the line above. */
export type PaperRow = {
  readonly id: string;
  readonly first: number | null;
  readonly batches: number;
  readonly bags: number | null;
  readonly clock: string | null;
  /** Which one, where the clock shows that time twice that day; null until it is chosen. */
  readonly which: 'first' | 'second' | null;
};

interface PaperLinesProps {
  readonly rows: readonly PaperRow[];
  readonly firsts: readonly number[];
  /** The day of each line's time, and the day of the pour. */
  readonly days: readonly string[];
  readonly from: string;
  readonly zone: string;
  readonly onChange: (id: string, part: Partial<PaperRow>) => void;
  readonly onAdd: () => void;
}

const TWICE = { first: 'before the clock change', second: 'after the clock change' };
/** The place of the time among a line's fields. */
const TIME = 2;

/** Whether the clock shows a time twice on a day. */
export function isRepeated(day: string, clock: string, zone: string): boolean {
  const second = instantAt(day, clock, zone, 'second');
  return second.ok && second.value.note !== null;
}

/** The lines of a handwritten log under one row of captions. Enter goes to the time of the next line, which is added where there is none. */
export function PaperLines({ rows, firsts, days, from, zone, onChange, onAdd }: PaperLinesProps) {
  const { locale } = useMeasure();
  const lines = useRef<HTMLOListElement>(null);
  const goTo = (line: number): void => lines.current?.children[line]?.querySelectorAll('input')[TIME]?.focus();
  const add = (): void => {
    flushSync(onAdd);
    goTo(rows.length);
  };
  return (
    <div className="pour-paper">
      <div className="pour-paper-line pour-paper-head caption" aria-hidden="true">
        <span />
        <span>First batch</span>
        <span>Batches</span>
        <span>Placed at</span>
        <span>Bags per batch</span>
      </div>
      <ol ref={lines}>
        {rows.map((row, i) => {
          const day = days[i] ?? from;
          const first = firsts[i] ?? 1;
          const next = (): void => (i === rows.length - 1 ? add() : goTo(i + 1));
          return (
            <li key={row.id} className="pour-paper-line">
              <span className="pour-paper-number" aria-hidden="true">
                {i + 1}
              </span>
              <NumberField
                bare
                label={`Line ${i + 1}: first batch`}
                whole
                least={1}
                most={2000}
                value={first}
                onChange={(to) => onChange(row.id, { first: to })}
              />
              <NumberField
                bare
                label={`Line ${i + 1}: batches`}
                whole
                least={1}
                most={200}
                value={row.batches}
                onChange={(n) => n !== null && onChange(row.id, { batches: n })}
              />
              <ClockField
                bare
                label={`Batch ${first} placed at`}
                value={row.clock}
                onChange={(clock) => onChange(row.id, { clock })}
                onEnter={next}
                hint={row.clock === null || day === from ? undefined : formatDay(day, 'weekday', locale)}
              />
              <NumberField
                bare
                label={`Bags in batch ${first}`}
                least={0.25}
                most={20}
                value={row.bags}
                onChange={(bags) => onChange(row.id, { bags })}
                onEnter={next}
              />
              {row.clock !== null && isRepeated(day, row.clock, zone) && (
                <div className="pour-paper-which">
                  <SelectField
                    label={`Line ${i + 1}: which of the two`}
                    value={row.which}
                    none="Select"
                    options={TWICE}
                    onChange={(which) => onChange(row.id, { which })}
                  />
                </div>
              )}
            </li>
          );
        })}
      </ol>
      <TextButton onPress={add}>Add line</TextButton>
    </div>
  );
}
