import Papa from 'papaparse';
import { useMemo, useState } from 'react';
import type { CureReading } from '../../../shared-core/book/cure-record.ts';
import { guessLogChoice, type LogChoice } from '../../../shared-core/cure/log-choice.ts';
import { previewLog, takeLog } from '../../../shared-core/cure/log-preview.ts';
import { formatInstant } from '../../../shared-core/measure/moment.ts';
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

interface LogDialogProps {
  readonly zone: string;
  readonly today: string;
  readonly units: 'us' | 'metric';
  readonly onTake: (readings: readonly CureReading[], name: string) => void;
  readonly onClose: () => void;
}

/** A logger's file or a pasted table: columns chosen, everything odd asked, previewed before it is taken. */
export function LogDialog({ zone, units, onTake, onClose }: LogDialogProps) {
  const { locale } = useMeasure();
  const [text, setText] = useState('');
  const [name, setName] = useState('pasted');
  const [changed, setChanged] = useState<Partial<LogChoice>>({});
  const [answered, setAnswered] = useState<readonly string[]>([]);
  const [problem, setProblem] = useState<string | null>(null);
  const table = useMemo(() => (text.trim() === '' ? [] : Papa.parse<string[]>(text.trim(), { skipEmptyLines: true }).data), [text]);
  const guess = useMemo(
    () =>
      table.length === 0
        ? null
        : guessLogChoice(table, { unit: units === 'us' ? 'F' : 'C', dateOrder: locale.endsWith('US') ? 'mdy' : 'dmy', timeZone: zone }),
    [table, units, locale, zone],
  );
  const choice: LogChoice | null = guess === null ? null : { ...guess, ...changed };
  const preview = choice === null ? null : previewLog(table, choice, Date.now());
  const columns = (table[0] ?? []).map((cell, i) => ({ value: String(i), word: `${i + 1}: ${cell.slice(0, 24)}` }));
  const take = (): void => {
    if (preview === null || !preview.ok) return;
    const taken = takeLog(
      preview.value,
      preview.value.questions.map((q) => q.kind).filter((kind) => answered.includes(kind)),
    );
    if (taken.ok) onTake(taken.value, name);
    else setProblem(taken.message);
  };
  const load = (files: readonly File[]): void => {
    const [file] = files;
    if (file === undefined) return;
    void file.text().then((content) => {
      setText(content);
      setName(file.name.slice(0, 200));
    });
  };
  return (
    <Dialog
      open
      wide
      onClose={onClose}
      title="A logger’s readings"
      actions={
        <>
          <TextButton onPress={onClose}>Back</TextButton>
          <TextButton kind="outlined" disabled={preview === null || !preview.ok} onPress={take}>
            Take the readings
          </TextButton>
        </>
      }
    >
      <DropZone
        label="A CSV file from the logger"
        chooseWord="Choose a file"
        accept={['.csv', '.txt', 'text/csv', 'text/plain']}
        onFiles={load}
        refuse={(given) => `${given} is no table: use the logger’s CSV file.`}
      />
      <TextField
        label="Or paste the table"
        long
        value={text.length > 4000 ? '' : text}
        placeholder="time, temperature, humidity"
        onChange={setText}
      />
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      {text.trim() !== '' && choice === null && (
        <Notice kind="failure">No column of times and temperatures was found. A line looks like 2026-05-12 14:00, 66.2, 48.</Notice>
      )}
      {choice !== null && (
        <Fields>
          <SelectField
            label="Times in"
            value={String(choice.dateColumn)}
            options={columns}
            onChange={(c) => c !== null && setChanged({ ...changed, dateColumn: Number(c) })}
          />
          <SelectField
            label="Temperature in"
            value={String(choice.temperatureColumn)}
            options={columns}
            onChange={(c) => c !== null && setChanged({ ...changed, temperatureColumn: Number(c) })}
          />
          <SelectField
            label="Degrees"
            value={choice.unit}
            options={[
              { value: 'F', word: 'Fahrenheit' },
              { value: 'C', word: 'Celsius' },
            ]}
            onChange={(unit) => unit !== null && setChanged({ ...changed, unit })}
          />
          <SelectField
            label="Humidity in"
            value={choice.humidityColumn === null ? null : String(choice.humidityColumn)}
            none="none"
            options={columns}
            onChange={(c) => setChanged({ ...changed, humidityColumn: c === null ? null : Number(c) })}
          />
        </Fields>
      )}
      {preview !== null && !preview.ok && <Notice kind="failure">{preview.message}</Notice>}
      {preview !== null && preview.ok && (
        <>
          <p>
            {preview.value.readings.length} readings from {formatInstant(preview.value.fromAt, zone, 'short', locale)} to{' '}
            {formatInstant(preview.value.toAt, zone, 'short', locale)}, {formatTemperature(preview.value.leastC, units, locale)} to{' '}
            {formatTemperature(preview.value.mostC, units, locale)}.
            {preview.value.leftOutCount > 0 && ` ${preview.value.leftOutCount} rows are left out.`}
            {preview.value.repeated > 0 && ` ${preview.value.repeated} are repeats.`}
            {preview.value.gaps.length > 0 &&
              ` ${preview.value.gaps.length === 1 ? 'One gap' : `${preview.value.gaps.length} gaps`} in the log.`}
          </p>
          {preview.value.questions.map((q) => (
            <CheckRow
              key={q.kind}
              label={q.message}
              checked={answered.includes(q.kind)}
              onChange={(on) => setAnswered(on ? [...answered, q.kind] : answered.filter((k) => k !== q.kind))}
            />
          ))}
        </>
      )}
    </Dialog>
  );
}
