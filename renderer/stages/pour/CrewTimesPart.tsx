import { useState } from 'react';
import { withTaskTime } from '../../../shared-core/standing/edit-pour-plan.ts';
import type { Crew } from '../../../shared-core/book/job.ts';
import { taskTimesOf, type Triangular } from '../../../shared-core/book/task-times.ts';
import { formatRunningClock, parseDuration } from '../../../shared-core/measure/duration.ts';
import { TYPICAL_CREW } from '../../../shared-core/pour/typical-crew.ts';
import { changeBusiness } from '../../book/business-commands.ts';
import { useBusiness } from '../../book/use-records.ts';
import { Field, FieldProblem } from '../../parts/Field.tsx';
import { Fields, NumberField } from '../../parts/Fields.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';

const TASKS = [
  { key: 'measureMin', word: 'Measuring water and powder', by: null },
  { key: 'mixMin', word: 'Mixing a batch', by: null },
  { key: 'scrapeMin', word: 'Scraping out the bucket', by: null },
  { key: 'carryMin', word: 'Round trip', by: null },
  { key: 'spreadMin', word: 'Spreading a batch', by: 'by-hand' },
  { key: 'emptyMin', word: 'Emptying a full cart', by: 'cart' },
  { key: 'stoppageMin', word: 'Stoppage', by: null },
] as const;
type TaskKey = (typeof TASKS)[number]['key'];
const PARTS = ['least', 'usual', 'most'] as const;

const isSame = (a: Triangular, b: Triangular): boolean => a.least === b.least && a.usual === b.usual && a.most === b.most;
const isTypical = (crew: Crew, key: TaskKey): boolean => isSame(crew[key], TYPICAL_CREW[key]);

interface TimesProps {
  readonly crew: Crew;
  readonly onCrew: (label: string, to: Partial<Crew>) => void;
}

/** Time per task, as minimum, usual and maximum; typical until the company's own are entered. */
export function CrewTimesPart({ crew, onCrew }: TimesProps) {
  const { locale } = useMeasure();
  const [isOpen, setOpen] = useState(false);
  const business = useBusiness();
  const [problem, setProblem] = useState<string | null>(null);
  const own = TASKS.filter((task) => !isTypical(crew, task.key));
  const ownTimes = business?.ownTimes;
  const isKept = ownTimes !== undefined && TASKS.every(({ key }) => isSame(ownTimes[key], crew[key]));
  return (
    <BlockPart heading="Task times">
      <p className="small">
        {own.length === 0
          ? 'All typical. Time your own crew for a better simulation.'
          : `Your own: ${own.map((t) => t.word.toLowerCase()).join(', ')}.${isKept ? ' New plans use them.' : ''}`}
      </p>
      <p className="words">
        <TextButton kind="plain" expanded={isOpen} onPress={() => setOpen(!isOpen)}>
          {isOpen ? 'Hide times' : 'Set your own times'}
        </TextButton>
        {own.length > 0 && (
          <TextButton
            kind="plain"
            onPress={() => onCrew('Reset to typical times', Object.fromEntries(TASKS.map(({ key }) => [key, { ...TYPICAL_CREW[key] }])))}
          >
            Reset to typical
          </TextButton>
        )}
        {own.length > 0 && !isKept && (
          <TextButton
            kind="plain"
            onPress={() =>
              void changeBusiness('Own task times', { ownTimes: taskTimesOf(crew) }).then((outcome) =>
                setProblem(outcome.ok ? null : outcome.message),
              )
            }
          >
            Use for new plans
          </TextButton>
        )}
      </p>
      <FieldProblem text={problem} />
      {isOpen && (
        <>
          {TASKS.filter((task) => task.by === null || task.by === crew.carry).map(({ key, word }) => (
            <fieldset key={key} className="below">
              <legend className="small">{`${word}, min:s`}</legend>
              <Fields>
                {PARTS.map((part) => (
                  <Field
                    key={part}
                    label={part === 'least' ? 'Minimum' : part === 'usual' ? 'Usual' : 'Maximum'}
                    parse={(text) => parseDuration(text, 'minute', locale)}
                    format={formatRunningClock}
                    value={crew[key][part] * 60}
                    typical={isTypical(crew, key)}
                    onChange={(seconds) =>
                      seconds !== null && seconds >= 0 && onCrew(`${word} time`, { [key]: withTaskTime(crew[key], part, seconds / 60) })
                    }
                  />
                ))}
              </Fields>
            </fieldset>
          ))}
          <Fields>
            <NumberField
              label="Stoppages per hour"
              least={0}
              most={30}
              value={crew.stoppagesPerHour}
              onChange={(n) => n !== null && onCrew('Stoppages per hour', { stoppagesPerHour: n })}
            />
          </Fields>
        </>
      )}
    </BlockPart>
  );
}
