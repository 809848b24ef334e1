import { useMemo, useState } from 'react';
import type { Point } from '../../shared-core/book/fields.ts';
import type { Reading, Survey } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { formatDepth, formatLength } from '../../shared-core/measure/length-format.ts';
import type { UnitSystem } from '../../shared-core/measure/unit-system.ts';
import { openQuestion } from '../../shared-core/table/import-check.ts';
import { bareUnit, guessReadings, nextChoice, type ReadingsChoice, UNIT_NAMES } from '../../shared-core/survey/readings-choice.ts';
import { previewReadings } from '../../shared-core/survey/readings-table.ts';
import { newId } from '../book/command.ts';
import type { WhichSurvey } from '../book/plan-commands.ts';
import { Dialog } from '../parts/Dialog.tsx';
import { ImportPreview, type PreviewChoice, settled } from '../parts/ImportPreview.tsx';
import type { NamedTable } from '../parts/read-table.ts';
import { SelectField } from '../parts/Choices.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { changeSurvey } from './reported-changes.ts';
import { theRoom } from '../../shared-core/standing/names.ts';
import { countWords } from '../../shared-core/measure/count-words.ts';

interface ReadingsImportProps {
  readonly tables: readonly NamedTable[];
  readonly room: Room;
  readonly which: WhichSurvey;
  readonly survey: Survey;
  /** Suggested points without a reading, in walking order. */
  readonly unread: readonly Point[];
  readonly onClose: () => void;
  readonly onDone: (message: string) => void;
}

const UNITS = Object.keys(UNIT_NAMES) as (keyof typeof UNIT_NAMES)[];
const METHODS = [
  { value: 'distance-down', word: 'Down from the laser' },
  { value: 'height', word: 'Elevations' },
] as const;
const ORIGINS = [
  { value: 'down', word: 'first corner, down' },
  { value: 'up', word: 'bottom-left corner, up' },
] as const;
const DECIMALS = [
  { value: 'point', word: 'point: 1.5' },
  { value: 'comma', word: 'comma: 1,5' },
] as const;

/** Previews a table of readings before it is imported. */
export function ReadingsImport({ tables, room, which, survey, unread, onClose, onDone }: ReadingsImportProps) {
  const { units, locale } = useMeasure();
  const [sheet, setSheet] = useState(0);
  const [changed, setChanged] = useState<Partial<ReadingsChoice>>({});
  const [answered, setAnswered] = useState<readonly string[]>([]);
  const [problem, setProblem] = useState<string | null>(null);
  const table = tables[sheet];
  const into = useMemo(
    () => ({ units, locale, method: survey.method, readings: survey.readings, plan: room.plan, places: unread }),
    [units, locale, survey, room.plan, unread],
  );
  const guess = useMemo(() => (table === undefined ? null : guessReadings(table, into)), [table, into]);
  const choice = guess === null ? null : { ...guess, ...changed };
  const preview = table === undefined || choice === null ? null : previewReadings(table, choice, into);
  const choose = (part: Partial<ReadingsChoice>): void => {
    setChanged(nextChoice(changed, part));
    setAnswered([]);
  };
  const questions = (preview?.questions ?? []).map((q) => ({
    ...q,
    onCorrect: Object.keys(q.suggest).length === 0 ? null : () => choose(q.suggest),
  }));
  const take = async (): Promise<void> => {
    if (preview === null || choice === null) return;
    const open = openQuestion(preview.questions, answered);
    if (open !== null) return setProblem(open.message);
    const added: Reading[] = preview.rows.map(({ reading }) => ({ id: newId(), ...reading }));
    const words = countWords(added.length, 'reading', locale);
    const outcome = await changeSurvey(room.id, which, `import ${words} in ${theRoom(room.name)}`, (now) => {
      const kept = now.readings.filter(({ id }) => !preview.replaces.includes(id));
      return { ...now, method: kept.length === 0 ? choice.method : now.method, readings: [...kept, ...added] };
    });
    if (!outcome.ok) return setProblem(outcome.message);
    onDone(preview.replaces.length === 0 ? `${words} imported.` : `${words} imported, ${preview.replaces.length} replaced.`);
  };
  const count = preview?.rows.length ?? 0;
  return (
    <Dialog
      wide
      onClose={onClose}
      title={`Import readings: ${room.name}`}
      problem={problem}
      onSave={() => void take()}
      saveWord={count === 1 ? 'Import 1 reading' : `Import ${count} readings`}
      blocked={count === 0}
    >
      {tables.length > 1 && (
        <SelectField
          label="Sheet of the workbook"
          value={String(sheet)}
          options={tables.map(({ name }, i) => ({ value: String(i), word: name }))}
          onChange={(value) => {
            setSheet(Number(value));
            setChanged({});
            setAnswered([]);
          }}
        />
      )}
      {choice === null || preview === null || table === undefined ? (
        <p>This table has no rows. Choose another file.</p>
      ) : (
        <>
          <ImportPreview
            fields={fieldsOf(table, choice, units, choose)}
            sample={{
              columns: ['Row', 'Across', 'Down', 'As written', choice.method === 'height' ? 'Elevation' : 'Down from laser', 'Note'],
              rows: preview.rows.map(({ row, text, reading }) => [
                String(row),
                formatLength(reading.xM - (room.plan.outline[0]?.xM ?? 0), units, locale),
                formatLength(reading.yM - (room.plan.outline[0]?.yM ?? 0), units, locale),
                text,
                formatDepth(reading.valueM, units, locale),
                reading.note ?? '',
              ]),
              of: count,
            }}
            leftOut={preview.leftOut}
            questions={questions}
            answered={answered}
            onAnswer={(kind, on) => setAnswered(on ? [...answered, kind] : answered.filter((k) => k !== kind))}
          />
          {preview.replaces.length > 0 && (
            <p role="status">{`Replaces ${countWords(preview.replaces.length, 'reading', locale)} of this survey.`}</p>
          )}
        </>
      )}
    </Dialog>
  );
}

function fieldsOf({ table }: NamedTable, choice: ReadingsChoice, units: UnitSystem, choose: (part: Partial<ReadingsChoice>) => void) {
  const head = table[choice.headRows - 1] ?? [];
  const width = Math.max(...table.slice(0, 50).map((row) => row.length));
  const columns = Array.from({ length: width }, (_, i) => {
    const heading = (head[i] ?? '').trim();
    return { value: String(i), word: heading === '' ? `Column ${i + 1}` : heading.slice(0, 30) };
  });
  const first = table[choice.headRows] ?? [];
  const column = (label: string, key: 'xColumn' | 'yColumn' | 'valueColumn' | 'noteColumn', none?: string): PreviewChoice => ({
    label: `Column for ${label}`,
    value: choice[key] === null ? null : String(choice[key]),
    options: columns,
    none,
    onChange: (value) => choose({ [key]: value === null ? null : Number(value) }),
  });
  const unit = (label: string, key: 'xUnit' | 'yUnit' | 'valueUnit'): PreviewChoice => ({
    label: `Unit of ${label}`,
    value: choice[key],
    options: [
      { value: 'typed', word: `as written, otherwise ${UNIT_NAMES[bareUnit(key === 'valueUnit' ? 'depth' : 'wall', units)]}` },
      ...UNITS.map((unit) => ({ value: unit, word: UNIT_NAMES[unit] })),
    ],
    onChange: (value) => choose({ [key]: UNITS.find((unit) => unit === value) ?? 'typed' }),
  });
  const example = (column: number | null): string => (column === null ? '' : (first[column] ?? ''));
  return [
    {
      name: choice.fromBelow ? 'Across, from the left' : 'Across, from the first corner',
      column: column('across', 'xColumn', 'walking order'),
      reads: unit('across', 'xUnit'),
      example: example(choice.xColumn),
    },
    {
      name: choice.fromBelow ? 'Up the plan' : 'Down the plan',
      column: column('down', 'yColumn', 'walking order'),
      reads: unit('down', 'yUnit'),
      example: example(choice.yColumn),
    },
    {
      name: 'Origin',
      column: settled(''),
      reads: {
        label: 'Origin of places',
        value: choice.fromBelow ? 'up' : 'down',
        options: ORIGINS,
        onChange: (value: string | null) => choose({ fromBelow: value === 'up' }),
      },
      example: '',
    },
    {
      name: 'Reading',
      column: column('readings', 'valueColumn'),
      reads: unit('readings', 'valueUnit'),
      example: example(choice.valueColumn),
    },
    {
      name: 'Readings are',
      column: settled(''),
      reads: {
        label: 'Sign of readings',
        value: choice.method,
        options: METHODS,
        onChange: (value: string | null) => choose({ method: METHODS.find((m) => m.value === value)?.value ?? 'height' }),
      },
      example: '',
    },
    {
      name: 'Decimals',
      column: settled(''),
      reads: {
        label: 'Decimal sign',
        value: choice.decimal,
        options: DECIMALS,
        onChange: (value: string | null) => choose({ decimal: DECIMALS.find((d) => d.value === value)?.value ?? 'point' }),
      },
      example: '',
    },
    { name: 'Note', column: column('notes', 'noteColumn', 'none'), example: example(choice.noteColumn) },
  ];
}
