import { useState } from 'react';
import type { LevelRun, Survey } from '../../shared-core/book/plan-fields.ts';
import type { Room } from '../../shared-core/book/room.ts';
import { formatDepth, formatSignedDepth, typedLength } from '../../shared-core/measure/length-format.ts';
import { parseSignedLength } from '../../shared-core/measure/length.ts';
import { badClosing, endOf, levelFloor, surveyFromRuns } from '../../shared-core/survey/level-network.ts';
import { newId } from '../book/command.ts';
import type { WhichSurvey } from '../book/plan-commands.ts';
import { Fields, QuantityField, TextField } from '../parts/Fields.tsx';
import { Notice } from '../parts/Dialog.tsx';
import { LengthEitherWay } from '../parts/PointFields.tsx';
import { SelectField } from '../parts/Choices.tsx';
import { TextButton } from '../parts/Buttons.tsx';
import { BlockPart } from '../parts/Sheet.tsx';
import { useMeasure } from '../parts/use-measure.ts';
import { firstCorner } from '../parts/plan-places.ts';
import { changeSurvey } from './reported-changes.ts';
import { theRoom } from '../../shared-core/standing/names.ts';

interface NoLaserPanelProps {
  readonly room: Room;
  readonly which: WhichSurvey;
  readonly survey: Survey;
}

const TOOLS: Readonly<Record<LevelRun['tool'], string>> = {
  level: 'Level, end over end',
  'level-gaps': 'Gaps under a level held level',
  straightedge: 'Gaps under a straightedge',
  'water-level': 'Water level',
};
const DIRECTIONS = [
  { value: '0', word: 'right' },
  { value: '90', word: 'down' },
  { value: '180', word: 'left' },
  { value: '270', word: 'up' },
] as const;
const HINTS: Readonly<Record<LevelRun['tool'], string>> = {
  level: 'One per line: how much the far end is higher. Minus where it is lower.',
  'level-gaps': 'One per line, both ends included: the gap from the level down to the floor.',
  straightedge: 'One per line, both ends included: the gap under the straightedge.',
  'water-level': 'One per line: from the water down to the floor.',
};
/** A 6 ft level moves by its own length; gaps and water levels are read every 2 ft. Common practice, no source. */
const STEP_M: Readonly<Record<LevelRun['tool'], number>> = {
  level: 1.8288,
  'level-gaps': 0.6096,
  straightedge: 0.6096,
  'water-level': 1.2192,
};

/** Shown in place of laser readings: the next edit of a run calculates all points again. */
export function RunsHere() {
  return (
    <BlockPart>
      <p className="small">
        The points of this survey come from runs. Edit the runs under No laser, or delete them to take laser readings.
      </p>
    </BlockPart>
  );
}

/** Readings with a level, a straightedge or a water level: runs along the floor, and how well they close. */
export function NoLaserPanel({ room, which, survey }: NoLaserPanelProps) {
  const runs = survey.runs ?? [];
  const first = firstCorner(room.plan.outline);
  const change = (label: string, next: readonly LevelRun[]): void =>
    void changeSurvey(room.id, which, `${label} in ${theRoom(room.name)}`, (now) => surveyFromRuns(now, next));
  if (runs.length === 0 && survey.readings.length > 0)
    return (
      <BlockPart heading="Without a laser">
        <p className="small">This survey has laser readings. Delete them under List to enter runs instead.</p>
      </BlockPart>
    );
  const add = (): void => {
    const last = runs.at(-1);
    const tool = last?.tool ?? 'level';
    const from = last === undefined ? first : endOf(last);
    const angleDeg = last === undefined ? 0 : (last.angleDeg + 90) % 360;
    const run: LevelRun = { id: newId(), tool, from, angleDeg, stepM: last?.stepM ?? STEP_M[tool], valuesM: [], againM: null };
    change('add run', [...runs, run]);
  };
  return (
    <>
      <BlockPart heading="Without a laser">
        <p className="small">Enter runs along the floor. Carry a level around and back to its start, so that you see how well it closes.</p>
        {runs.length > 0 && <Closings runs={runs} />}
      </BlockPart>
      {runs.map((run, i) => (
        <RunFields
          key={run.id}
          number={i + 1}
          run={run}
          onChange={(next) =>
            change(
              `run ${i + 1}`,
              runs.map((one) => (one.id === run.id ? next : one)),
            )
          }
          onDelete={() =>
            change(
              `delete run ${i + 1}`,
              runs.filter((one) => one.id !== run.id),
            )
          }
        />
      ))}
      <BlockPart>
        <TextButton onPress={add}>Add run</TextButton>
      </BlockPart>
    </>
  );
}

function Closings({ runs }: { readonly runs: readonly LevelRun[] }) {
  const { units, locale } = useMeasure();
  const solved = levelFloor(runs);
  if (!solved.ok) return <Notice>{solved.message}</Notice>;
  const { closings, readings, readingErrorM } = solved.floor;
  const bad = badClosing(closings);
  const depth = (m: number): string => formatDepth(Math.abs(m), units, locale);
  return (
    <>
      {closings.map(({ runIds, errorM, allowedM, setups }) => (
        <p key={runIds.join()} data-testid="closing">
          {`Closing error ${formatSignedDepth(errorM, units, locale)} over ${setups} ${setups === 1 ? 'setup' : 'setups'}. Up to ${depth(allowedM)} is normal.`}
        </p>
      ))}
      {closings.length === 0 && <p>No loop is closed yet. A mistake in one reading cannot be seen.</p>}
      {bad === null ? (
        <p className="small">{`${readings.length} points, each good to about ${depth(readingErrorM)}.`}</p>
      ) : (
        <Notice kind="failure">The loop does not close. The points are not used until you find the reading that is off.</Notice>
      )}
    </>
  );
}

interface RunFieldsProps {
  readonly number: number;
  readonly run: LevelRun;
  readonly onChange: (run: LevelRun) => void;
  readonly onDelete: () => void;
}

function RunFields({ number, run, onChange, onDelete }: RunFieldsProps) {
  const { units, locale } = useMeasure();
  const [text, setText] = useState(() => run.valuesM.map((value) => typedLength(value, units, locale)).join('\n'));
  const [problem, setProblem] = useState<string | null>(null);
  const read = (typed: string): void => {
    setText(typed);
    const lines = typed
      .split(/[\n;]/)
      .map((line) => line.trim())
      .filter((line) => line !== '');
    const values = lines.map((line) => parseSignedLength(line, units, 'depth', locale));
    const wrong = values.find((value) => !value.ok);
    setProblem(wrong === undefined ? null : wrong.message);
    if (wrong === undefined) onChange({ ...run, valuesM: values.flatMap((value) => (value.ok ? [value.value] : [])) });
  };
  return (
    <BlockPart heading={`Run ${number}`}>
      <Fields>
        <SelectField
          label={`Run ${number}, tool`}
          value={run.tool}
          options={TOOLS}
          onChange={(tool) => onChange({ ...run, tool, stepM: STEP_M[tool] })}
        />
        <SelectField
          label={`Run ${number}, direction`}
          value={String(run.angleDeg)}
          options={DIRECTIONS}
          onChange={(angle) => onChange({ ...run, angleDeg: Number(angle) })}
        />
        <QuantityField
          kind="wall"
          label={run.tool === 'level' ? `Run ${number}, level length` : `Run ${number}, step`}
          value={run.stepM}
          check={(m) => (m > 0 ? null : 'Enter a length greater than 0.')}
          onChange={(stepM) => stepM !== null && onChange({ ...run, stepM })}
        />
        <LengthEitherWay
          label={`Run ${number}, start, across`}
          value={run.from.xM}
          bare={false}
          onChange={(xM) => onChange({ ...run, from: { ...run.from, xM } })}
        />
        <LengthEitherWay
          label={`Run ${number}, start, down`}
          value={run.from.yM}
          bare={false}
          onChange={(yM) => onChange({ ...run, from: { ...run.from, yM } })}
        />
      </Fields>
      {problem !== null && <Notice kind="failure">{problem}</Notice>}
      <TextField label={`Run ${number}, readings`} long hint={HINTS[run.tool]} value={text} onChange={read} />
      {run.tool !== 'level' && (
        <QuantityField
          kind="signed-depth"
          label={`Run ${number}, first point again`}
          value={run.againM}
          onChange={(againM) => onChange({ ...run, againM })}
        />
      )}
      <TextButton kind="delete" onPress={onDelete}>
        {`Delete run ${number}`}
      </TextButton>
    </BlockPart>
  );
}
