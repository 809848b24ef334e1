import { formatListAnd } from '../../../shared-core/measure/list.ts';
import { countWords } from '../../../shared-core/measure/count-words.ts';
import { useMemo, useState } from 'react';
import { type CellTable, isBlankRow } from '../../../shared-core/table/cell-table.ts';
import { formatPercent } from '../../../shared-core/measure/percent.ts';
import { Fields, TextField } from '../../parts/Fields.tsx';
import type { CureLog, CureReading } from '../../../shared-core/book/cure-record.ts';
import type { LogChoice } from '../../../shared-core/cure/log-choice.ts';
import { type LogKnown, type LogPreview, takeLog } from '../../../shared-core/cure/log-preview.ts';
import { logProblemWords, logQuestionWords, rowProblemWords } from '../../../shared-core/documents/logger-words.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { formatInstant, parseTimeZone } from '../../../shared-core/measure/moment.ts';
import { formatNumber } from '../../../shared-core/measure/number.ts';
import { formatTemperature } from '../../../shared-core/measure/temperature.ts';
import { Dialog, Notice } from '../../parts/Dialog.tsx';
import { DropZone } from '../../parts/DropZone.tsx';
import { ImportPreview, type PreviewChoice, type PreviewField } from '../../parts/ImportPreview.tsx';
import { SelectField } from '../../parts/Choices.tsx';
import { TABLE_FILES } from '../../parts/read-table.ts';
import { TextButton } from '../../parts/Buttons.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import type { LogAsked } from '../../workers/read-log.ts';
import { AT_ONCE_LETTERS, useLog } from '../../workers/use-log.ts';

interface LogDialogProps {
  readonly zone: string;
  /** The end of the room's pour, and its other logs. */
  readonly known: LogKnown;
  readonly units: 'us' | 'metric';
  readonly onTake: (readings: readonly CureReading[], name: string, source: CureLog['source']) => void;
  readonly onClose: () => void;
}

const columnWord = (head: string, i: number): string => `${i + 1}${head.trim() === '' ? '' : `: ${head.trim().slice(0, 28)}`}`;

/** Previews a logger's file or a pasted table: columns to choose and questions about odd values. */
export function LogDialog({ zone, units, known, onTake, onClose }: LogDialogProps) {
  const { locale } = useMeasure();
  // Longer texts are kept but not shown in the field, because typing would be slow.
  const [text, setText] = useState('');
  const [file, setFile] = useState<File | null>(null);
  const [changed, setChanged] = useState<Partial<LogChoice>>({});
  const [answered, setAnswered] = useState<readonly string[]>([]);
  const [problem, setProblem] = useState<string | null>(null);
  const [sheet, setSheet] = useState(0);
  const [loggerName, setLoggerName] = useState<string | null>(null);
  const name = file === null ? null : file.name.slice(0, 200);
  const asked = useMemo(
    (): LogAsked => ({
      home: { unit: units === 'us' ? 'F' : 'C', dateOrder: locale.endsWith('US') ? 'mdy' : 'dmy', timeZone: zone },
      changed,
      known,
      sheet,
    }),
    [units, locale, zone, changed, known, sheet],
  );
  const log = useLog(file ?? (text.trim() === '' ? null : text), asked);
  const choice = log.read === null || log.read.guess === null ? null : { ...log.read.guess, ...changed };
  // While it is read again, the last result is outdated.
  const preview = log.share === null ? (log.read?.preview ?? null) : null;
  const choose = (part: Partial<LogChoice>): void => {
    setChanged({ ...changed, ...part });
    setAnswered([]);
    setProblem(null);
  };
  const take = (): void => {
    if (preview === null || !preview.ok) return;
    const kinds = preview.value.questions.map((q) => q.kind).filter((kind) => answered.includes(kind));
    const imported = takeLog(preview.value, kinds);
    if (imported.ok) onTake(imported.value, loggerName ?? name ?? 'pasted', name === null ? 'pasted' : 'imported');
    else setProblem(logQuestionWords(imported.problem));
  };
  const openSource = (from: { readonly file: File | null; readonly text: string }): void => {
    setFile(from.file);
    setText(from.text);
    setChanged({});
    setAnswered([]);
    setProblem(null);
    setSheet(0);
    setLoggerName(null);
  };
  const wrong =
    problem ??
    log.refused ??
    (log.isEmpty
      ? `${name ?? 'The table'} is empty: export it again from the logger, or paste its rows.`
      : log.isUnreadable
        ? `${name ?? 'The table'} could not be read: export it again from the logger, or paste its rows.`
        : log.read !== null && choice === null
          ? 'No column of times and temperatures was found. A line looks like 2026-05-12 14:00, 66.2, 48.'
          : null);
  return (
    <Dialog wide onClose={onClose} title="Import logger file" onSave={take} saveWord="Import" blocked={preview === null || !preview.ok}>
      <DropZone
        label={name === null ? 'CSV file or workbook from the logger' : name}
        chooseWord={name === null ? 'Choose a file' : 'Choose another file'}
        accept={TABLE_FILES}
        onFiles={([given]) => given !== undefined && openSource({ file: given, text: '' })}
        refuse={(given) => `${given} is not a table. Choose a CSV file or an Excel workbook (.xlsx).`}
      />
      {file === null && text.length <= AT_ONCE_LETTERS && (
        <div className="cure-paste">
          <TextField
            label="Pasted table"
            long
            value={text}
            placeholder="2026-05-12 14:00, 66.2, 48"
            onChange={(pasted) => openSource({ file: null, text: pasted })}
          />
        </div>
      )}
      {wrong !== null && <Notice kind="failure">{wrong}</Notice>}
      {log.read !== null && log.read.sheets.length > 1 && (
        <SelectField
          label="Sheet of the workbook"
          value={String(sheet)}
          options={log.read.sheets.map((word, i) => ({ value: String(i), word }))}
          onChange={(value) => {
            setSheet(Number(value));
            setChanged({});
            setAnswered([]);
          }}
        />
      )}
      {log.share !== null && (
        <p className="words cure-reading">
          <span>Reading {name ?? 'the table'}</span>
          <progress value={log.share} max={1} aria-label="Rows read" />
          <TextButton
            onPress={() => {
              openSource({ file: null, text: '' });
              setProblem('Stopped. Nothing was imported.');
            }}
          >
            Stop
          </TextButton>
        </p>
      )}
      {preview !== null && !preview.ok && <Notice kind="failure">{logProblemWords(preview.problem)}</Notice>}
      {log.read !== null && choice !== null && (
        <>
          <Fields>
            <TextField label="Logger name" value={loggerName ?? name ?? 'pasted'} emptyMessage="Enter a name." onChange={setLoggerName} />
            <TextField
              label="Time zone of the logger"
              value={choice.timeZone}
              emptyMessage="Enter a time zone."
              check={(typed) => {
                const zoneRead = parseTimeZone(typed);
                return zoneRead.ok ? null : zoneRead.message;
              }}
              onChange={(timeZone) => timeZone !== '' && choose({ timeZone })}
            />
          </Fields>
          {preview?.ok === true && <PreviewWords preview={preview.value} zone={zone} />}
          <ImportPreview
            fields={logFields(log.read.top, choice, choose)}
            sample={{
              columns: ['Time', 'Temperature', 'Humidity'],
              rows:
                preview?.ok === true
                  ? preview.value.readings
                      .slice(0, 6)
                      .map((r) => [
                        formatInstant(r.instant, zone, 'short', locale),
                        formatTemperature(r.tempC, units, locale, 1),
                        r.relativeHumidity === null ? '' : formatPercent(r.relativeHumidity, 0, locale),
                      ])
                  : [],
              of: preview?.ok === true ? preview.value.readings.length : 0,
            }}
            leftOut={preview?.ok === true ? preview.value.leftOut.map(({ row, problem }) => ({ row, why: rowProblemWords(problem) })) : []}
            leftOutCount={preview?.ok === true ? preview.value.leftOutCount : 0}
            questions={(preview?.ok === true ? preview.value.questions : []).map((q) => ({
              ...q,
              message: logQuestionWords(q),
              onCorrect: Object.keys(q.suggest).length > 0 ? () => choose(q.suggest) : null,
            }))}
            answered={answered}
            onAnswer={(kind, on) => setAnswered(on ? [...answered, kind] : answered.filter((k) => k !== kind))}
          />
        </>
      )}
    </Dialog>
  );
}

/** The columns, each with its unit and first value. */
function logFields(table: CellTable, choice: LogChoice, onChoose: (part: Partial<LogChoice>) => void): readonly PreviewField[] {
  const head = table.slice(0, choice.headRows).findLast((row) => !isBlankRow(row)) ?? [];
  const width = Math.max(...table.map((row) => row.length));
  const columns = Array.from({ length: width }, (_, i) => ({ value: String(i), word: columnWord(head[i] ?? '', i) }));
  const first = table[choice.headRows] ?? [];
  const example = (column: number | null): string => (column === null ? '' : (first[column] ?? ''));
  const column = (
    label: string,
    key: 'dateColumn' | 'timeColumn' | 'temperatureColumn' | 'humidityColumn',
    none?: string,
  ): PreviewChoice => ({
    label,
    value: choice[key] === null ? null : String(choice[key]),
    options: columns,
    none,
    onChange: (c) => (c !== null || none !== undefined ? onChoose({ [key]: c === null ? null : Number(c) }) : undefined),
  });
  const pick = (label: string, value: string, options: PreviewChoice['options'], onChange: (value: string) => void): PreviewChoice => ({
    label,
    value,
    options,
    onChange: (chosen) => chosen !== null && onChange(chosen),
  });
  return [
    {
      name: 'Date and time',
      column: column('Date column', 'dateColumn'),
      reads: pick('Date order', choice.dateOrder, ORDERS, (v) =>
        onChoose({ dateOrder: ORDERS.find((o) => o.value === v)?.value ?? 'ymd' }),
      ),
      example: example(choice.dateColumn),
    },
    { name: 'Time of day', column: column('Time column', 'timeColumn', 'same as the date'), example: example(choice.timeColumn) },
    {
      name: 'Temperature',
      column: column('Temperature column', 'temperatureColumn'),
      reads: pick('Temperature unit', choice.unit, DEGREES, (v) => onChoose({ unit: v === 'C' ? 'C' : 'F' })),
      example: example(choice.temperatureColumn),
    },
    {
      name: 'Humidity',
      column: column('Humidity column', 'humidityColumn', 'none'),
      reads: pick('Humidity unit', choice.humidityUnit, HUMIDITIES, (v) => onChoose({ humidityUnit: v === 'share' ? 'share' : 'percent' })),
      example: example(choice.humidityColumn),
    },
  ];
}

const ORDERS = [
  { value: 'mdy', word: 'month first' },
  { value: 'dmy', word: 'day first' },
  { value: 'ymd', word: 'year first' },
] as const;
const HUMIDITIES = [
  { value: 'percent', word: 'percent' },
  { value: 'share', word: 'share of 1 (0.55 = 55%)' },
] as const;
const DEGREES = [
  { value: 'F', word: 'Fahrenheit' },
  { value: 'C', word: 'Celsius' },
] as const;

function PreviewWords({ preview, zone }: { readonly preview: LogPreview; readonly zone: string }) {
  const { units, locale } = useMeasure();
  const n = (count: number): string => formatNumber(count, { most: 0 }, locale);
  const timeText = (instant: string): string => formatInstant(instant, zone, 'short', locale);
  const step =
    preview.stepMin === null
      ? ''
      : preview.stepMin === 60
        ? ', one every hour'
        : `, one every ${formatDuration(Math.round(preview.stepMin * 60), locale)}`;
  const gapTexts = preview.gaps
    .slice(0, 3)
    .map((g) => `${timeText(new Date(g.fromMs).toISOString())} to ${timeText(new Date(g.toMs).toISOString())}`);
  return (
    <div className="stack cure-preview">
      <p>
        {n(preview.read)} {preview.read === 1 ? 'reading' : 'readings'} from {timeText(preview.fromAt)} to {timeText(preview.toAt)}
        {step}, {formatTemperature(preview.leastC, units, locale)} to {formatTemperature(preview.mostC, units, locale)}.
        {preview.repeated > 0 && (preview.repeated === 1 ? ' 1 duplicate is skipped.' : ` ${n(preview.repeated)} duplicates are skipped.`)}
        {preview.everyMin !== null &&
          ` They are saved as ${n(preview.readings.length)} averages over ${formatDuration(preview.everyMin * 60, locale)}. The dates stay the same.`}
      </p>
      {preview.gaps.length > 0 && (
        <p>
          {`${countWords(preview.gaps.length, 'gap', locale)}: ${formatListAnd(gapTexts)}. A gap is filled with a straight line between its ends.`}
        </p>
      )}
    </div>
  );
}
