import { useState } from 'react';
import type { Reading, Survey } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { formatDepth } from '../../shared-core/measure/length-format.ts';
import { newId } from '../book/moment.ts';
import type { WhichSurvey } from '../book/plan-commands.ts';
import { askDesk } from '../parts/desk-client.ts';
import { DropZone } from '../parts/DropZone.tsx';
import { QuantityField } from '../parts/QuantityField.tsx';
import { TextButton } from '../parts/TextButton.tsx';
import { TextField } from '../parts/TextField.tsx';
import { BlockPart } from '../parts/TitleBlock.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { LengthEitherWay } from '../parts/PointFields.tsx';
import { readText } from '../parts/read-text.ts';
import { parseReadingsCsv, readingsCsv } from './reading-csv.ts';
import { changeSurvey } from './reported-changes.ts';
import type { PastedColumn } from './use-pasted-column.ts';

interface ReadingsListProps {
  readonly room: Room;
  readonly which: WhichSurvey;
  readonly survey: Survey;
  readonly picked: string | null;
  readonly onPick: (id: string) => void;
  readonly pasted: PastedColumn;
}

/** Every reading, to be typed over; a column pasted in, a table out and in. */
export function ReadingsList(props: ReadingsListProps) {
  const { room, which, survey, picked, onPick } = props;
  const first = room.plan.outline[0] ?? { xM: 0, yM: 0 };
  const isDown = survey.method === 'distance-down';
  const change = (label: string, how: (readings: readonly Reading[]) => Reading[]) =>
    void changeSurvey(room.id, which, `${label} in the ${room.name}`, (now) => ({ ...now, readings: how(now.readings) }));
  return (
    <>
      <BlockPart heading={`${survey.readings.length} ${survey.readings.length === 1 ? 'reading' : 'readings'}: across, down, as read`}>
        {survey.readings.length === 0 ? (
          <p className="small">Readings appear here as you take them. You can edit them.</p>
        ) : (
          <ol className="readings-scroll" aria-label="Readings">
            {survey.readings.map((reading, i) => {
              const put = (how: Partial<Reading>) =>
                change(`reading ${i + 1}`, (readings) => readings.map((r) => (r.id === reading.id ? { ...r, ...how } : r)));
              return (
                <li key={reading.id} className="readings-row" onFocus={() => picked !== reading.id && onPick(reading.id)}>
                  <span className="plan-side-figure" aria-hidden="true">
                    {i + 1}
                  </span>
                  <LengthEitherWay
                    label={`Reading ${i + 1}, across`}
                    value={reading.xM - first.xM}
                    onChange={(m) => put({ xM: m + first.xM })}
                  />
                  <LengthEitherWay
                    label={`Reading ${i + 1}, down`}
                    value={reading.yM - first.yM}
                    onChange={(m) => put({ yM: m + first.yM })}
                  />
                  <QuantityField
                    bare
                    kind={isDown ? 'depth' : 'signed-depth'}
                    label={`Reading ${i + 1}, as read`}
                    value={reading.valueM}
                    emptyMessage="Enter the reading, or delete it."
                    onChange={(valueM) => {
                      if (valueM !== null) put({ valueM });
                    }}
                  />
                  <TextButton
                    kind="plain"
                    label={`Delete reading ${i + 1}`}
                    onPress={() => change(`reading ${i + 1} deleted`, (readings) => readings.filter((r) => r.id !== reading.id))}
                  >
                    Delete
                  </TextButton>
                  {(picked === reading.id || reading.note !== null) && (
                    <div className="readings-row-note">
                      <TextField
                        bare
                        label={`Note at reading ${i + 1}`}
                        placeholder="note"
                        value={reading.note ?? ''}
                        onChange={(note) => put({ note: note === '' ? null : note })}
                      />
                    </div>
                  )}
                </li>
              );
            })}
          </ol>
        )}
      </BlockPart>
      <PasteColumn {...props} />
      <TableInOut room={room} which={which} survey={survey} />
    </>
  );
}

function PasteColumn({ room, which, pasted }: ReadingsListProps) {
  const { units, locale } = useMeasure();
  const { column, problems, places } = pasted;
  const good = column.lines.flatMap((line) => (line.read.ok ? [line.read.value] : []));
  const canTake = good.length > 0 && problems.length === 0;
  const take = () => {
    const readings = good.flatMap((valueM, i) => {
      const at = places[i];
      return at === undefined ? [] : [{ id: newId(), ...at, valueM, note: null }];
    });
    void changeSurvey(room.id, which, `${readings.length} readings pasted in the ${room.name}`, (now) => ({
      ...now,
      readings: [...now.readings, ...readings],
    })).then((outcome) => outcome.ok && pasted.onText(''));
  };
  return (
    <BlockPart heading="Paste a column: one reading per line, in walking order">
      <TextField
        long
        bare
        label="Column of readings"
        value={pasted.text}
        onChange={pasted.onText}
        placeholder={units === 'us' ? '40 1/4\n40 3/8\n40 1/2' : '1022\n1025\n1029'}
      />
      {problems.map(({ line, message }) => (
        <p key={`${line} ${message}`} className="field-problem" role="alert">
          {message}
        </p>
      ))}
      <div className="plan-buttons">
        {problems.some(({ line }) => line === column.mixedAt?.line) && <TextButton onPress={pasted.onMeant}>Units are correct</TextButton>}
        <TextButton disabled={!canTake} onPress={take}>
          {canTake
            ? `Import ${good.length}, ${formatDepth(good[0] ?? 0, units, locale)} to ${formatDepth(good.at(-1) ?? 0, units, locale)}`
            : 'Add readings'}
        </TextButton>
      </div>
    </BlockPart>
  );
}

function TableInOut({ room, which, survey }: Pick<ReadingsListProps, 'room' | 'which' | 'survey'>) {
  const { units, locale } = useMeasure();
  const [message, setMessage] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const keep = async () => {
    const name = `${room.name.replace(/[^\p{L}\p{N} ._,()-]/gu, '-').slice(0, 80)} readings.csv`;
    const bytes = new TextEncoder().encode(readingsCsv(survey));
    const base64 = btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
    const kept = await askDesk('file.keep', { name, base64 });
    setMessage(kept.ok ? `Saved as ${kept.value.name} in ${kept.value.folder}.` : kept.error.message);
  };
  const take = async (file: File) => {
    const read = parseReadingsCsv(await readText(file), units, locale, survey.method);
    setProblem(
      read.problems.length === 0 ? null : `${read.problems.slice(0, 3).join(' ')} Nothing was imported. Correct the file and try again.`,
    );
    if (read.problems.length > 0 || read.readings.length === 0) return;
    const added = read.readings.map((reading) => ({ id: newId(), ...reading }));
    const outcome = await changeSurvey(room.id, which, `${added.length} readings from a table in the ${room.name}`, (now) => ({
      ...now,
      readings: [...now.readings, ...added],
    }));
    if (outcome.ok) setMessage(`${added.length} readings imported.`);
    else setProblem(outcome.message);
  };
  return (
    <BlockPart heading="As a table">
      <DropZone
        label="Table of readings: across, down, reading"
        chooseWord="Choose a CSV file"
        accept={['.csv', 'text/csv']}
        refuse={(name) => `${name} is not a CSV table.`}
        problem={problem}
        onFiles={([file]) => {
          if (file !== undefined) void take(file);
        }}
      />
      <div className="plan-buttons">
        <TextButton disabled={survey.readings.length === 0} onPress={() => void keep()}>
          Export CSV
        </TextButton>
      </div>
      <p role="status" className="small">
        {message}
      </p>
    </BlockPart>
  );
}
