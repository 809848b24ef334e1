import type { ClearanceTest, CureLog, CureReading } from '../../../shared-core/book/cure-record.ts';
import { inTestOrder } from '../../../shared-core/cure/clearance-tests.ts';
import { clearanceWords, METHOD_NAMES, resultHint, valueText } from '../../../shared-core/standing/cure-words.ts';
import { isSealed } from '../../../shared-core/book/flooring.ts';
import { dayOfInstant, formatInstant } from '../../../shared-core/measure/moment.ts';
import { addClearanceTests, addReadings, deleteLog } from '../../book/cure-commands.ts';
import { setFlooringLaid } from '../../book/assessment-commands.ts';
import { type Outcome, nowInstant } from '../../book/command.ts';
import { type CuringRoom, laidWords, openWords, type Saying } from './cure-room.ts';
import { formatListAnd } from '../../../shared-core/measure/list.ts';
import { useMemo, useState } from 'react';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { formatTemperature } from '../../../shared-core/measure/temperature.ts';
import { TextButton } from '../../parts/Buttons.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { LogDialog } from './LogDialog.tsx';
import { DateField, Fields, MomentField, PercentField, QuantityField, ReadingsField, TextField } from '../../parts/Fields.tsx';
import { SelectField } from '../../parts/Choices.tsx';
import { countWords } from '../../../shared-core/measure/count-words.ts';

interface CoverPartProps {
  readonly jobId: string;
  readonly room: CuringRoom;
  readonly tests: readonly ClearanceTest[];
  readonly owner: string;
  readonly say: Saying;
  readonly onOutcome: (outcome: Outcome<unknown>) => void;
}

/** The test required before flooring: its limit, its results, and whether they clear the floor. */
export function CoverPart({ jobId, room, tests, owner, say, onOutcome }: CoverPartProps) {
  const { clearance, cover } = room.schedule;
  if (clearance === null || cover === null) {
    return (
      <section className="cure-part" id="cure-test">
        <h2 className="caption">{`${room.room.name}: clearance for flooring`}</h2>
        <p className="small">
          {room.jobRoom.flooring === null
            ? 'No flooring is chosen. Choose it in Assess.'
            : `${openWords(room)} The test before flooring is for the whole floor.`}
        </p>
      </section>
    );
  }
  const today = dayOfInstant(say.now, say.zone);
  const own = tests.filter((t) => t.roomId === room.id && t.deletedAt === null).sort((a, b) => inTestOrder(b, a));
  return (
    <section className="cure-part" id="cure-test">
      <h2 className="caption">{`${room.room.name}: clearance for flooring`}</h2>
      <p className="small">{laidWords(room, say.locale) ?? clearanceWords(clearance)}</p>
      <ClearanceTestForm
        methods={clearance.requirement.methods.map((m) => ({
          method: m.method,
          unit: m.unit,
          limitWords: resultHint(m),
        }))}
        by={owner}
        now={say.now}
        zone={say.zone}
        notBefore={room.schedule.placedAt}
        onSave={(test, results) =>
          void addClearanceTests({ jobId, roomId: room.id, flooring: clearance.requirement.flooring, ...test }, results).then(onOutcome)
        }
      />
      {own.length > 0 && (
        <ul className="ends lined cure-logs">
          {own.map((t) => (
            <li key={t.id}>
              <span>
                {valueText(t)}, {METHOD_NAMES[t.method]}, {t.by}, {formatInstant(t.takenAt, say.zone, 'short', say.locale)}
                {t.note === '' ? '' : `: ${t.note}`}
              </span>
            </li>
          ))}
        </ul>
      )}
      <Fields>
        <DateField
          label={isSealed(clearance.requirement.flooring) ? 'Floor sealed' : 'Flooring laid'}
          today={today}
          earliest={dayOfInstant(room.schedule.placedAt, say.zone)}
          latest={today}
          value={room.jobRoom.flooringLaidOn ?? null}
          onChange={(day) => void setFlooringLaid(jobId, room.id, day).then(onOutcome)}
        />
      </Fields>
    </section>
  );
}

interface AirPartProps extends Pick<CoverPartProps, 'jobId' | 'room' | 'say' | 'onOutcome'> {
  readonly logs: readonly CureLog[];
}

/** The room's air: a reading by hand, a logger's file, and earlier readings. */
export function AirPart({ jobId, room, logs, say, onOutcome }: AirPartProps) {
  const { units, locale } = useMeasure();
  const [importing, setImporting] = useState(false);
  const own = logs.filter((l) => l.roomId === room.id && l.deletedAt === null);
  const { placedAt } = room.schedule;
  const known = useMemo(
    () => ({
      placedAtMs: Date.parse(placedAt),
      logs: logs
        .filter((l) => l.roomId === room.id && l.deletedAt === null && l.readings.length > 1)
        .map(({ name, readings }) => ({
          name,
          fromMs: Date.parse(readings[0]?.instant ?? ''),
          toMs: Date.parse(readings.at(-1)?.instant ?? ''),
        })),
    }),
    [logs, room.id, placedAt],
  );
  const { gaps } = room.schedule.log;
  const timeText = (ms: number): string => formatInstant(new Date(ms).toISOString(), say.zone, 'short', locale);
  const gapTexts = [
    ...gaps.slice(0, 3).map((g) => `from ${timeText(g.fromMs)} to ${timeText(g.toMs)}`),
    ...(gaps.length > 3 ? [countWords(gaps.length - 3, 'more time', locale)] : []),
  ];
  return (
    <section className="cure-part">
      <h2 className="caption">{`${room.room.name}: air readings`}</h2>
      <ReadingForm
        now={say.now}
        zone={say.zone}
        notBefore={room.schedule.placedAt}
        onSave={(readings) => void addReadings(jobId, room.id, readings, 'by-hand', 'entered by you').then(onOutcome)}
      />
      <TextButton onPress={() => setImporting(true)}>Import logger file</TextButton>
      {own.length > 0 && (
        <ul className="ends lined cure-logs">
          {own.map((log) => (
            <li key={log.id}>
              <span>{logLine(log, say, units, locale)}</span>
              <TextButton
                kind="plain"
                label={`Delete ${log.name}, ${logLine(log, say, units, locale)}`}
                onPress={() => void deleteLog(log).then(onOutcome)}
              >
                Delete
              </TextButton>
            </li>
          ))}
        </ul>
      )}
      {gaps.length > 0 && (
        <p className="small">{`No readings ${formatListAnd(gapTexts)}. A gap is filled with a straight line between its ends.`}</p>
      )}
      {importing && (
        <LogDialog
          zone={say.zone}
          known={known}
          units={units}
          onClose={() => setImporting(false)}
          onTake={(readings, name, source) => {
            setImporting(false);
            void addReadings(jobId, room.id, readings, source, name).then(onOutcome);
          }}
        />
      )}
    </section>
  );
}

/** One log in a line: a reading with its value, a file with its period. */
function logLine(log: CureLog, say: Saying, units: 'us' | 'metric', locale: string): string {
  const [first] = log.readings;
  const last = log.readings.at(-1);
  if (first === undefined || last === undefined) return log.name;
  const timeText = (instant: string): string => formatInstant(instant, say.zone, 'short', locale);
  if (log.readings.length === 1) return `${formatTemperature(first.tempC, units, locale)}, ${timeText(first.instant)}`;
  return `${log.name}: ${formatNumber(log.readings.length, { most: 0 }, locale)} readings, ${timeText(first.instant)} to ${timeText(last.instant)}`;
}

/** Error for a time that is not between the pour and now; null for a valid one. */
function momentProblem(
  instant: string | null,
  notBefore: string,
  now: string,
  say: { readonly zone: string; readonly locale: string },
): string | null {
  if (instant === null) return null;
  if (instant < notBefore) return `Enter a time after the pour, ${formatInstant(notBefore, say.zone, 'short', say.locale)}.`;
  return instant > now && instant > nowInstant() ? 'Enter a time that is not in the future.' : null;
}

interface ReadingFormProps {
  readonly now: string;
  readonly zone: string;
  /** The end of the pour; earlier readings do not affect the floor. */
  readonly notBefore: string;
  readonly onSave: (readings: CureReading[]) => void;
}

function ReadingForm({ now, zone, notBefore, onSave }: ReadingFormProps) {
  const { locale } = useMeasure();
  const [instant, setInstant] = useState<string | null>(null);
  const [tempC, setTempC] = useState<number | null>(null);
  const [humidity, setHumidity] = useState<number | null>(null);
  const problem = momentProblem(instant, notBefore, now, { zone, locale });
  return (
    <div className="cure-form">
      <Fields>
        <MomentField label="Time" zone={zone} now={now} past value={instant} placeholder="Now" onChange={setInstant} />
        <QuantityField kind="temperature" label="Air temperature" value={tempC} onChange={setTempC} />
        <PercentField label="Humidity" value={humidity} onChange={setHumidity} />
      </Fields>
      {problem !== null && <p className="late">{problem}</p>}
      <TextButton
        kind="outlined"
        disabled={tempC === null || problem !== null}
        onPress={() => {
          if (tempC === null) return;
          onSave([{ instant: instant ?? nowInstant(), tempC, relativeHumidity: humidity }]);
          setInstant(null);
          setTempC(null);
          setHumidity(null);
        }}
      >
        Save
      </TextButton>
    </div>
  );
}

type Method = {
  readonly method: ClearanceTest['method'];
  readonly unit: ClearanceTest['unit'];
  readonly limitWords: string;
};
const UNIT_WORDS: Readonly<Record<Exclude<ClearanceTest['unit'], 'share'>, string>> = { lb: 'lb', 'cm-percent': 'CM-%' };

interface ClearanceTestFormProps extends Omit<ReadingFormProps, 'onSave'> {
  readonly methods: readonly Method[];
  readonly by: string;
  readonly onSave: (test: Pick<ClearanceTest, 'method' | 'unit' | 'by' | 'takenAt' | 'note'>, results: readonly number[]) => void;
}

/** The clearance tests of one visit: method, results, tester and date. */
function ClearanceTestForm({ methods, by: owner, now, zone, notBefore, onSave }: ClearanceTestFormProps) {
  const { locale } = useMeasure();
  const [picked, setPicked] = useState<ClearanceTest['method']>(methods[0]?.method ?? 'manufacturer-method');
  const [results, setResults] = useState<number[] | null>(null);
  const [by, setBy] = useState(owner);
  const [instant, setInstant] = useState<string | null>(null);
  const [note, setNote] = useState('');
  const method = methods.find((m) => m.method === picked) ?? methods[0];
  if (method === undefined) return null;
  const problem = momentProblem(instant, notBefore, now, { zone, locale });
  return (
    <div className="cure-form">
      <Fields wide>
        <SelectField
          label="Test method"
          value={method.method}
          options={methods.map((m) => ({ value: m.method, word: METHOD_NAMES[m.method] }))}
          onChange={setPicked}
        />
        <ReadingsField
          label="Results"
          otherUnit={method.unit === 'share' ? null : UNIT_WORDS[method.unit]}
          value={results}
          hint={method.limitWords}
          onChange={setResults}
        />
        <TextField label="Tested by" value={by} emptyMessage="Enter who did the test." onChange={setBy} />
        <MomentField label="Time" zone={zone} now={now} past value={instant} placeholder="Now" onChange={setInstant} />
      </Fields>
      <TextField label="Note" value={note} placeholder="Location of the test" onChange={setNote} />
      {problem !== null && <p className="late">{problem}</p>}
      <TextButton
        kind="outlined"
        disabled={results === null || by.trim() === '' || problem !== null}
        onPress={() => {
          if (results === null) return;
          const test = {
            method: method.method,
            unit: method.unit,
            by: by.trim(),
            takenAt: instant ?? nowInstant(),
            note: note.slice(0, 200),
          };
          onSave(test, results);
          setResults(null);
          setNote('');
          setInstant(null);
        }}
      >
        Save
      </TextButton>
    </div>
  );
}
