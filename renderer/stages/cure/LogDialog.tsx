import { useMemo, useState } from 'react';
import type { CureLog, CureReading } from '../../../shared-core/book/cure-record.ts';
import type { LogChoice, LogTable } from '../../../shared-core/cure/log-choice.ts';
import { type LogPreview, takeLog } from '../../../shared-core/cure/log-preview.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatInstant, parseTimeZone } from '../../../shared-core/measure/moment.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { formatTemperature } from '../../../shared-core/measure/temperature.ts';
import { CheckRow } from '../../parts/CheckRow.tsx';
import { Dialog } from '../../parts/Dialog.tsx';
import { DropZone } from '../../parts/DropZone.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { Notice } from '../../parts/Notice.tsx';
import { SelectField } from '../../parts/SelectField.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import type { LogAsked } from '../../workers/read-log.ts';
import { AT_ONCE_LETTERS, useLog } from '../../workers/use-log.ts';

interface LogDialogProps {
  readonly zone: string;
  readonly today: string;
  readonly units: 'us' | 'metric';
  readonly onTake: (readings: readonly CureReading[], name: string, source: CureLog['source']) => void;
  readonly onClose: () => void;
}

/** Rows shown before they are taken. */
const ROWS_SHOWN = 3;

const columnWord = (head: string, i: number): string => `${i + 1}${head.trim() === '' ? '' : `: ${head.trim().slice(0, 28)}`}`;

/** A logger's file or a pasted table: columns chosen, everything odd asked, previewed before it is taken. */
export function LogDialog({ zone, units, onTake, onClose }: LogDialogProps) {
  const { locale } = useMeasure();
  // Longer texts are kept, but not set in the field: it would be slow to type in.
  const [text, setText] = useState('');
  const [file, setFile] = useState<File | null>(null);
  const [changed, setChanged] = useState<Partial<LogChoice>>({});
  const [answered, setAnswered] = useState<readonly string[]>([]);
  const [problem, setProblem] = useState<string | null>(null);
  const name = file === null ? null : file.name.slice(0, 200);
  const asked = useMemo(
    (): LogAsked => ({
      home: { unit: units === 'us' ? 'F' : 'C', dateOrder: locale.endsWith('US') ? 'mdy' : 'dmy', timeZone: zone },
      changed,
    }),
    [units, locale, zone, changed],
  );
  const log = useLog(file ?? (text.trim() === '' ? null : text), asked);
  const choice = log.read === null || log.read.guess === null ? null : { ...log.read.guess, ...changed };
  // While it is read anew, what it said before no longer holds.
  const preview = log.share === null ? (log.read?.preview ?? null) : null;
  const choose = (part: Partial<LogChoice>): void => {
    setChanged({ ...changed, ...part });
    setAnswered([]);
    setProblem(null);
  };
  const take = (): void => {
    if (preview === null || !preview.ok) return;
    const kinds = preview.value.questions.map((q) => q.kind).filter((kind) => answered.includes(kind));
    const taken = takeLog(preview.value, kinds);
    if (taken.ok) onTake(taken.value, name ?? 'pasted', name === null ? 'pasted' : 'imported');
    else setProblem(taken.message);
  };
  const begin = (from: { readonly file: File | null; readonly text: string }): void => {
    setFile(from.file);
    setText(from.text);
    setChanged({});
    setAnswered([]);
    setProblem(null);
  };
  const wrong =
    problem ??
    (log.isEmpty
      ? `${name ?? 'The table'} is empty: export it again from the logger, or paste its rows.`
      : log.isUnreadable
        ? `${name ?? 'The table'} could not be read: export it again from the logger, or paste its rows.`
        : log.read !== null && choice === null
          ? 'No column of times and temperatures was found. A line looks like 2026-05-12 14:00, 66.2, 48.'
          : null);
  return (
    <Dialog
      open
      wide
      onClose={onClose}
      title="Import logger file"
      actions={
        <>
          <TextButton onPress={onClose}>Cancel</TextButton>
          <TextButton kind="outlined" disabled={preview === null || !preview.ok} onPress={take}>
            Import
          </TextButton>
        </>
      }
    >
      <DropZone
        label={name === null ? 'CSV file from the logger' : name}
        chooseWord={name === null ? 'Choose a file' : 'Choose another file'}
        accept={['.csv', '.txt', '.tsv', 'text/csv', 'text/plain', 'text/tab-separated-values']}
        onFiles={([given]) => given !== undefined && begin({ file: given, text: '' })}
        refuse={(given) => `${given} is not a table. Choose the logger’s CSV file.`}
      />
      {file === null && text.length <= AT_ONCE_LETTERS && (
        <div className="cure-paste">
          <TextField
            label="Or paste the table"
            long
            value={text}
            placeholder="2026-05-12 14:00, 66.2, 48"
            onChange={(pasted) => begin({ file: null, text: pasted })}
          />
        </div>
      )}
      {wrong !== null && <Notice kind="failure">{wrong}</Notice>}
      {log.read !== null && choice !== null && <ChoiceFields table={log.read.top} choice={choice} onChoose={choose} />}
      {log.share !== null && (
        <p className="cure-reading">
          <span>Reading {name ?? 'the table'}</span>
          <progress value={log.share} max={1} aria-label="Rows read" />
          <TextButton
            onPress={() => {
              begin({ file: null, text: '' });
              setProblem('Stopped. Nothing was imported.');
            }}
          >
            Stop
          </TextButton>
        </p>
      )}
      {preview !== null && !preview.ok && <Notice kind="failure">{preview.message}</Notice>}
      {preview !== null && preview.ok && choice !== null && (
        <>
          <PreviewWords preview={preview.value} zone={zone} units={units} locale={locale} />
          {preview.value.questions.map((q) => (
            <div key={q.kind} className="cure-question">
              <CheckRow
                label={q.message}
                checked={answered.includes(q.kind)}
                right="keep as is"
                onChange={(on) => setAnswered(on ? [...answered, q.kind] : answered.filter((k) => k !== q.kind))}
              />
              {Object.keys(q.suggest).length > 0 && <TextButton onPress={() => choose(q.suggest)}>Correct it</TextButton>}
            </div>
          ))}
        </>
      )}
    </Dialog>
  );
}

function ChoiceFields({
  table,
  choice,
  onChoose,
}: {
  readonly table: LogTable;
  readonly choice: LogChoice;
  readonly onChoose: (part: Partial<LogChoice>) => void;
}) {
  const head = table[choice.headRows - 1] ?? [];
  const width = Math.max(...table.map((row) => row.length));
  const columns = Array.from({ length: width }, (_, i) => ({ value: String(i), word: columnWord(head[i] ?? '', i) }));
  return (
    <Fields wide>
      <SelectField
        label="Times"
        value={String(choice.dateColumn)}
        options={columns}
        onChange={(c) => c !== null && onChoose({ dateColumn: Number(c) })}
      />
      <SelectField
        label="Hour of the day"
        value={choice.timeColumn === null ? null : String(choice.timeColumn)}
        none="in the same"
        options={columns}
        onChange={(c) => onChoose({ timeColumn: c === null ? null : Number(c) })}
      />
      <SelectField
        label="Temperature"
        value={String(choice.temperatureColumn)}
        options={columns}
        onChange={(c) => c !== null && onChoose({ temperatureColumn: Number(c) })}
      />
      <SelectField
        label="Degrees"
        value={choice.unit}
        options={[
          { value: 'F', word: 'Fahrenheit' },
          { value: 'C', word: 'Celsius' },
        ]}
        onChange={(unit) => unit !== null && onChoose({ unit })}
      />
      <SelectField
        label="Humidity"
        value={choice.humidityColumn === null ? null : String(choice.humidityColumn)}
        none="none"
        options={columns}
        onChange={(c) => onChoose({ humidityColumn: c === null ? null : Number(c) })}
      />
      <SelectField
        label="Dates have"
        value={choice.dateOrder}
        options={[
          { value: 'mdy', word: 'month first' },
          { value: 'dmy', word: 'day first' },
          { value: 'ymd', word: 'year first' },
        ]}
        onChange={(dateOrder) => dateOrder !== null && onChoose({ dateOrder })}
      />
      <TextField
        label="Its time zone"
        value={choice.timeZone}
        emptyMessage="A time zone is needed."
        check={(typed) => {
          const known = parseTimeZone(typed);
          return known.ok ? null : known.message;
        }}
        onChange={(timeZone) => timeZone !== '' && onChoose({ timeZone })}
      />
    </Fields>
  );
}

/** What would be imported. */
function PreviewWords({
  preview,
  zone,
  units,
  locale,
}: {
  readonly preview: LogPreview;
  readonly zone: string;
  readonly units: 'us' | 'metric';
  readonly locale: string;
}) {
  const n = (count: number): string => formatNumber(count, { most: 0 }, locale);
  const at = (instant: string): string => formatInstant(instant, zone, 'short', locale);
  const step =
    preview.stepMin === null
      ? ''
      : preview.stepMin === 60
        ? ', one every hour'
        : `, one every ${formatDuration(Math.round(preview.stepMin * 60), locale)}`;
  return (
    <div className="cure-preview">
      <p>
        {n(preview.read)} {preview.read === 1 ? 'reading' : 'readings'} from {at(preview.fromAt)} to {at(preview.toAt)}
        {step}, {formatTemperature(preview.leastC, units, locale)} to {formatTemperature(preview.mostC, units, locale)}.
        {preview.repeated > 0 && (preview.repeated === 1 ? ' 1 duplicate is skipped.' : ` ${n(preview.repeated)} duplicates are skipped.`)}
        {preview.everyMin !== null &&
          ` They are saved as ${n(preview.readings.length)} averages over ${formatDuration(preview.everyMin * 60, locale)}. The dates stay the same.`}
      </p>
      <ul>
        {preview.readings.slice(0, ROWS_SHOWN).map((r) => (
          <li key={r.at}>
            {at(r.at)}: {formatTemperature(r.tempC, units, locale, 1)}
          </li>
        ))}
        {preview.readings.length > ROWS_SHOWN && <li>and so on</li>}
      </ul>
      {preview.gaps.length > 0 && (
        <p>
          {preview.gaps.length === 1 ? '1 gap' : `${n(preview.gaps.length)} gaps`}:{' '}
          {preview.gaps
            .slice(0, 3)
            .map((g) => `${at(new Date(g.fromMs).toISOString())} to ${at(new Date(g.toMs).toISOString())}`)
            .join('; ')}
          . A gap is filled with a straight line between its ends.
        </p>
      )}
      {preview.leftOutCount > 0 && (
        <p>
          {n(preview.leftOutCount)} of {n(preview.rows)} rows are skipped:{' '}
          {preview.leftOut
            .slice(0, 3)
            .map((l) => `row ${l.row}, ${l.why}`)
            .join('; ')}
          .
        </p>
      )}
    </div>
  );
}
