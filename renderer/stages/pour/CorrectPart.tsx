import { FieldProblem } from '../../parts/Field.tsx';
import { useState } from 'react';
import {
  type IncidentKind,
  incidentKindSchema,
  type PourEvent,
  type Defect,
  defectSchema,
  type MarkedState,
} from '../../../shared-core/book/pour-record.ts';
import { dayOfInstant, formatInstantBeside, formatInstantDay, instantNear, instantSince } from '../../../shared-core/measure/moment.ts';
import { entryWords, INCIDENT_WORDS } from '../../../shared-core/documents/log-words.ts';
import type { PourState } from '../../../shared-core/pour/pour-state.ts';
import { CheckRow, SelectField } from '../../parts/Choices.tsx';
import { ClockField, NumberField, TextField } from '../../parts/Fields.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { Form } from '../../parts/Dialog.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { nowInstant } from '../../book/command.ts';
import type { Point } from '../../../shared-core/book/fields.ts';

/** A correction of one entry; `isVoid` strikes it out. */
interface CorrectDraft {
  readonly eventId: string;
  readonly isVoid: boolean;
  readonly toAt: string | null;
  readonly toBags: number | null;
  readonly by: string;
  readonly why: string;
}

/** Problems that the log does not have, as in a handwritten log. */
interface TroubleDraft {
  readonly incident: IncidentKind;
  readonly batch: number | null;
  /** When it happened; null is now. */
  readonly at: string | null;
  /** The batch is not part of the floor: thrown out, scraped out or cut out. */
  readonly isRemoved: boolean;
  readonly by: string;
  readonly why: string;
}

const NEW = 'new';

interface CorrectProps {
  readonly state: PourState;
  readonly startedAt: string;
  readonly zone: string;
  readonly initials: string;
  readonly onSave: (draft: CorrectDraft) => void;
  readonly onAdd: (draft: TroubleDraft) => void;
}

/** Corrects an entry of a finished pour. The log keeps the entry, with the person and the reason. */
export function CorrectPart({ state, startedAt, zone, initials, onSave, onAdd }: CorrectProps) {
  const { locale } = useMeasure();
  const entries = state.entries.filter(({ event, undone }) => !undone && isCorrectable(event));
  const [id, setId] = useState<string | null>(null);
  const [bags, setBags] = useState<number | null>(null);
  const [incident, setIncident] = useState<IncidentKind>('leak');
  const [batch, setBatch] = useState<number | null>(null);
  const [isRemoved, setRemoved] = useState(false);
  const [clock, setClock] = useState<string | null>(null);
  const [why, setWhy] = useState('');
  const [by, setBy] = useState(initials);
  const [problem, setProblem] = useState<string | null>(null);
  const entry = entries.find(({ event }) => event.id === id)?.event;
  const now = nowInstant();
  const instant =
    clock === null ? null : entry === undefined ? instantSince(clock, startedAt, zone, now) : instantNear(clock, entry.instant, zone, now);
  const toAt = instant?.ok === true ? instant.value.instant : null;
  const dayHint =
    toAt === null || dayOfInstant(toAt, zone) === dayOfInstant(now, zone) ? null : formatInstantDay(toAt, zone, 'weekday', locale);
  const save = (isVoid: boolean): void => {
    if (entry === undefined) return;
    if (!isVoid && bags === null && clock === null) return setProblem('Enter the bags or the time.');
    if (by.trim() === '' || why.trim() === '') return setProblem('Enter your initials and a reason.');
    if (instant !== null && !instant.ok) return setProblem(instant.message);
    setProblem(null);
    setId(null);
    setBags(null);
    setClock(null);
    setWhy('');
    return onSave({
      eventId: entry.id,
      isVoid,
      toAt,
      toBags: bags,
      by: by.trim(),
      why: why.trim(),
    });
  };
  const add = (): void => {
    if (by.trim() === '' || why.trim() === '') return setProblem('Enter your initials and a reason.');
    if (instant !== null && !instant.ok) return setProblem(instant.message);
    setProblem(null);
    setId(null);
    setClock(null);
    setWhy('');
    return onAdd({ incident, batch, at: toAt, isRemoved: isRemoved && batch !== null, by: by.trim(), why: why.trim() });
  };
  const reasonFields = <ReasonFields why={why} onWhy={setWhy} by={by} onBy={setBy} problem={problem} />;
  return (
    <BlockPart heading="Correct the log">
      <SelectField
        label="Entry"
        value={id}
        none="Select"
        options={[
          { value: NEW, word: 'add trouble' },
          ...entries.map(({ event }) => ({
            value: event.id,
            word: `${entryWords(event, { layout: null, locale })}, ${formatInstantBeside(startedAt, event.instant, zone, locale)}`,
          })),
        ]}
        onChange={setId}
      />
      {id === NEW && (
        <Form>
          <SelectField label="Trouble" value={incident} options={KINDS} onChange={setIncident} />
          <NumberField
            label="Batch"
            whole
            least={1}
            most={2000}
            value={batch}
            onChange={setBatch}
            hint="Leave empty if no batch is affected."
          />
          <ClockField
            label="Time"
            value={clock}
            onChange={setClock}
            hint={dayHint ?? 'When it happened. Leave empty to use the current time.'}
          />
          {batch !== null && <CheckRow label="The batch was removed" checked={isRemoved} onChange={setRemoved} />}
          {reasonFields}
          <p className="words">
            <TextButton kind="outlined" saves onPress={add}>
              Save trouble
            </TextButton>
          </p>
        </Form>
      )}
      {entry !== undefined && (
        <Form>
          {(entry.kind === 'mixed' || entry.kind === 'placed') && (
            <NumberField label="Bags" least={0.25} most={20} decimals={2} value={bags} onChange={setBags} hint="Leave empty to keep it." />
          )}
          <ClockField label="Time" value={clock} onChange={setClock} {...(dayHint === null ? {} : { hint: dayHint })} />
          {reasonFields}
          <p className="words">
            <TextButton kind="outlined" saves onPress={() => save(false)}>
              Save correction
            </TextButton>
            {entry.kind !== 'finished' && (
              <TextButton kind="plain" onPress={() => save(true)}>
                Void entry
              </TextButton>
            )}
          </p>
        </Form>
      )}
    </BlockPart>
  );
}

const KINDS = incidentKindSchema.options.map((value) => ({ value, word: INCIDENT_WORDS[value].toLowerCase() }));

const isCorrectable = (event: PourEvent): boolean =>
  event.kind === 'mixed' ||
  event.kind === 'placed' ||
  event.kind === 'incident' ||
  event.kind === 'discarded' ||
  event.kind === 'marked' ||
  event.kind === 'lot' ||
  event.kind === 'bags-added' ||
  event.kind === 'counted' ||
  event.kind === 'lane-finished' ||
  event.kind === 'finished';

type Choice = MarkedState | Defect;

const CHOICES: Readonly<Record<Choice, string>> = {
  suspect: 'suspect',
  pinholes: 'pinholes',
  ridge: 'ridge',
  hollow: 'hollow spot',
  'low-spot': 'low spot',
  'not-placed': 'not placed',
  'taken-out': 'removed',
  placed: 'placed or repaired',
};

const isDefect = (choice: Choice): choice is Defect => defectSchema.safeParse(choice).success;

interface MarkDraft {
  readonly state: MarkedState;
  readonly defect?: Defect;
  readonly by: string;
  readonly why: string;
}

interface MarkProps {
  /** Corners tapped so far; null while no area is being marked. */
  readonly corners: readonly Point[] | null;
  readonly onBegin: () => void;
  readonly onCancel: () => void;
  readonly onSave: (draft: MarkDraft) => void;
  /** The initials used last. */
  readonly initials: string;
}

/** Marks an area of the placed floor: corners tapped on the plan, with a reason and initials. */
export function MarkPart({ corners, onBegin, onCancel, onSave, initials }: MarkProps) {
  const [state, setState] = useState<Choice>('suspect');
  const [why, setWhy] = useState('');
  const [by, setBy] = useState(initials);
  const [problem, setProblem] = useState<string | null>(null);
  if (corners === null)
    return (
      <BlockPart heading="Correct the floor">
        <TextButton kind="plain" onPress={onBegin}>
          Mark an area
        </TextButton>
      </BlockPart>
    );
  const save = (): void => {
    if (corners.length < 3) return setProblem('Click or tap at least three corners on the plan.');
    if (by.trim() === '') return setProblem('Enter your initials.');
    if (why.trim() === '') return setProblem('Enter a reason.');
    setProblem(null);
    setWhy('');
    const reason = { by: by.trim(), why: why.trim() };
    return onSave(isDefect(state) ? { state: 'suspect', defect: state, ...reason } : { state, ...reason });
  };
  return (
    <BlockPart heading="Correct the floor">
      <p className="small">
        {corners.length === 0
          ? 'Click or tap the corners of the area on the plan.'
          : corners.length === 1
            ? '1 corner set.'
            : `${corners.length} corners set.`}
      </p>
      <SelectField label="Condition" value={state} options={CHOICES} onChange={setState} />
      <ReasonFields why={why} onWhy={setWhy} by={by} onBy={setBy} problem={problem} />
      <p className="words">
        <TextButton kind="outlined" onPress={save}>
          Save
        </TextButton>
        <TextButton kind="plain" onPress={onCancel}>
          Cancel
        </TextButton>
      </p>
    </BlockPart>
  );
}

interface ReasonFieldsProps {
  readonly why: string;
  readonly onWhy: (why: string) => void;
  readonly by: string;
  readonly onBy: (by: string) => void;
  /** What is missing, in a sentence, or null. */
  readonly problem: string | null;
}

function ReasonFields({ why, onWhy, by, onBy, problem }: ReasonFieldsProps) {
  return (
    <>
      <TextField label="Reason" value={why} onChange={onWhy} />
      <TextField label="Initials" value={by} onChange={onBy} />
      <FieldProblem text={problem} />
    </>
  );
}
