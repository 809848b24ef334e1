import { useState } from 'react';
import type { Reading, Survey } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { formatDepth, formatLength } from '../../shared-core/measure/length-format.ts';
import { newId } from '../book/command.ts';
import type { WhichSurvey } from '../book/plan-commands.ts';
import { named } from '../desk/working.ts';
import { askDesk } from '../desk/desk-client.ts';
import { DropZone } from '../parts/DropZone.tsx';
import { QuantityField, TextField } from '../parts/Fields.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { firstCorner } from '../parts/plan-places.ts';
import { LengthEitherWay } from '../parts/PointFields.tsx';
import { changedReading } from '../../shared-core/survey/reading-entry.ts';
import { hasColumns, parseTable } from '../../shared-core/table/cell-table.ts';
import type { Point } from '../../shared-core/book/fields.ts';
import { type NamedTable, readTables, TABLE_FILES } from '../parts/read-table.ts';
import { ImportPreview } from '../parts/ImportPreview.tsx';
import { base64OfText } from '../desk/base64.ts';
import { RunsHere } from './NoLaserPanel.tsx';
import { ReadingsImport } from './ReadingsImport.tsx';
import { readingsCsv } from './reading-csv.ts';
import { changeSurvey } from './reported-changes.ts';
import type { PastedColumn } from './use-pasted-column.ts';
import { theRoom } from '../../shared-core/standing/names.ts';
import { countWords } from '../../shared-core/measure/count-words.ts';

interface ReadingsListProps {
  readonly room: Room;
  readonly which: WhichSurvey;
  readonly survey: Survey;
  readonly picked: string | null;
  readonly onPick: (id: string) => void;
  readonly pasted: PastedColumn;
  /** Suggested points without a reading, in walking order. */
  readonly unread: readonly Point[];
}

/** All readings, editable; also pasting a column, import and export. */
export function ReadingsList(props: ReadingsListProps) {
  const { room, which, survey, picked, onPick } = props;
  const first = firstCorner(room.plan.outline);
  const isDown = survey.method === 'distance-down';
  if (survey.runs !== undefined)
    return (
      <>
        <RunsHere />
        <TableInOut {...props} />
      </>
    );
  const change = (label: string, update: (readings: readonly Reading[]) => Reading[]) =>
    void changeSurvey(room.id, which, `${label} in ${theRoom(room.name)}`, (now) => ({ ...now, readings: update(now.readings) }));
  return (
    <>
      <BlockPart heading={`${survey.readings.length} ${survey.readings.length === 1 ? 'reading' : 'readings'}: across, down, reading`}>
        {survey.readings.length === 0 ? (
          <p className="small">Readings appear here as you take them. You can edit them.</p>
        ) : (
          <ol className="readings-scroll" aria-label="Readings">
            {survey.readings.map((reading, i) => {
              const changeReading = (values: Partial<Reading>) =>
                change(`reading ${i + 1}`, (readings) => readings.map((r) => (r.id === reading.id ? changedReading(r, values) : r)));
              return (
                <li key={reading.id} className="readings-row" onFocus={() => picked !== reading.id && onPick(reading.id)}>
                  <span className="plan-side-figure" aria-hidden="true">
                    {i + 1}
                  </span>
                  <LengthEitherWay
                    label={`Reading ${i + 1}, across`}
                    value={reading.xM - first.xM}
                    onChange={(m) => changeReading({ xM: m + first.xM })}
                  />
                  <LengthEitherWay
                    label={`Reading ${i + 1}, down`}
                    value={reading.yM - first.yM}
                    onChange={(m) => changeReading({ yM: m + first.yM })}
                  />
                  <QuantityField
                    bare
                    kind={isDown ? 'depth' : 'signed-depth'}
                    label={`Reading ${i + 1}, value`}
                    value={reading.valueM}
                    emptyMessage="Enter the reading, or delete it."
                    onChange={(valueM) => changeReading({ valueM })}
                  />
                  <TextButton
                    kind="plain"
                    label={`Delete reading ${i + 1}`}
                    onPress={() => change(`delete reading ${i + 1}`, (readings) => readings.filter((r) => r.id !== reading.id))}
                  >
                    Delete
                  </TextButton>
                  {(picked === reading.id || reading.note !== null || reading.confirmed) && (
                    <div className="readings-row-note">
                      <TextField
                        bare
                        label={`Note at reading ${i + 1}`}
                        placeholder="note"
                        value={reading.note ?? ''}
                        onChange={(note) => changeReading({ note: note === '' ? null : note })}
                      />
                      {reading.confirmed && <p className="small">Confirmed</p>}
                    </div>
                  )}
                </li>
              );
            })}
          </ol>
        )}
      </BlockPart>
      <PasteColumn {...props} />
      <TableInOut {...props} />
    </>
  );
}

function PasteColumn(props: ReadingsListProps) {
  const { room, which, pasted, survey } = props;
  const { units, locale } = useMeasure();
  const [asTable, setAsTable] = useState(false);
  const { column, problems, places, text } = pasted;
  const isTable = hasColumns(text);
  const good = column.lines.flatMap((line, i) => {
    const point = places[i];
    return line.read.ok && point !== undefined ? [{ line, point, valueM: line.read.value }] : [];
  });
  const canTake = good.length > 0 && problems.length === 0;
  const take = () => {
    const readings = good.map(({ point, valueM }) => ({ id: newId(), ...point, valueM, note: null, confirmed: false }));
    void changeSurvey(room.id, which, `paste ${countWords(readings.length, 'reading', locale)} in ${theRoom(room.name)}`, (now) => ({
      ...now,
      readings: [...now.readings, ...readings],
    })).then((outcome) => outcome.ok && pasted.onText(''));
  };
  const first = firstCorner(room.plan.outline);
  const blank = (column.lines.at(-1)?.place ?? -1) + 1 - column.lines.length;
  return (
    <BlockPart heading="Paste a column in walking order, or a table">
      <TextField
        long
        bare
        label="Column of readings"
        value={text}
        onChange={pasted.onText}
        placeholder={units === 'us' ? '40 1/4\n40 3/8\n40 1/2' : '1022\n1025\n1029'}
      />
      {!isTable &&
        problems.map(({ line, message }) => (
          <p key={`${line} ${message}`} className="field-problem" role="alert">
            {message}
          </p>
        ))}
      {!isTable && good.length > 0 && (
        <ImportPreview
          fields={[]}
          sample={{
            columns: ['Line', 'Across, down', 'As written', survey.method === 'height' ? 'Elevation' : 'Down from laser'],
            rows: good.map(({ line, point, valueM }) => [
              String(line.line),
              `${formatLength(point.xM - first.xM, units, locale)}, ${formatLength(point.yM - first.yM, units, locale)}`,
              line.text,
              formatDepth(valueM, units, locale),
            ]),
            of: good.length,
          }}
        />
      )}
      {!isTable && blank > 0 && (
        <p className="small">{blank === 1 ? '1 blank line leaves its point unread.' : `${blank} blank lines leave their points unread.`}</p>
      )}
      <div className="words">
        {!isTable && problems.some(({ line }) => line === column.mixedAt?.line) && (
          <TextButton onPress={pasted.onMeant}>Units are correct</TextButton>
        )}
        {isTable ? (
          <TextButton onPress={() => setAsTable(true)}>Preview table</TextButton>
        ) : (
          <TextButton disabled={!canTake} onPress={take}>
            {canTake
              ? `Import ${good.length}, ${formatDepth(good[0]?.valueM ?? 0, units, locale)} to ${formatDepth(good.at(-1)?.valueM ?? 0, units, locale)}`
              : 'Add readings'}
          </TextButton>
        )}
      </div>
      {asTable && (
        <ReadingsImport
          {...props}
          tables={[{ ...parseTable(text), name: 'pasted' }]}
          onClose={() => setAsTable(false)}
          onDone={() => {
            setAsTable(false);
            pasted.onText('');
          }}
        />
      )}
    </BlockPart>
  );
}

function TableInOut(props: ReadingsListProps) {
  const { room, survey } = props;
  const [message, setMessage] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [tables, setTables] = useState<readonly NamedTable[] | null>(null);
  const exportCsv = async () => {
    const name = `${room.name.replace(/[^\p{L}\p{N} ._,()-]/gu, '-').slice(0, 80)} readings.csv`;
    const saved = await askDesk('file.save', { name, base64: base64OfText(readingsCsv(survey, room.plan.outline[0])) });
    setMessage(saved.ok ? `Saved as ${saved.value.name} in ${saved.value.folder}.` : saved.error.message);
  };
  const open = async (file: File) => {
    setMessage(null);
    const read = await named(`Reading ${file.name}…`, readTables(file));
    const isEmpty = read.ok && read.value.every(({ table }) => table.length === 0);
    setProblem(isEmpty ? 'This file has no rows.' : read.ok ? null : read.message);
    if (read.ok && !isEmpty) setTables(read.value);
  };
  return (
    <BlockPart heading="As a table">
      {survey.runs === undefined && (
        <DropZone
          label="Table of readings: across, down, reading"
          chooseWord="Choose a CSV file or workbook"
          accept={TABLE_FILES}
          refuse={(name) => `${name} is not a table. Choose a CSV file or an Excel workbook (.xlsx).`}
          problem={problem}
          onFiles={([file]) => {
            if (file !== undefined) void open(file);
          }}
        />
      )}
      <div className="words">
        <TextButton disabled={survey.readings.length === 0} onPress={() => void exportCsv()}>
          Export CSV
        </TextButton>
      </div>
      <p role="status" className="small">
        {message}
      </p>
      {tables !== null && (
        <ReadingsImport
          {...props}
          tables={tables}
          onClose={() => setTables(null)}
          onDone={(done) => {
            setTables(null);
            setMessage(done);
          }}
        />
      )}
    </BlockPart>
  );
}
