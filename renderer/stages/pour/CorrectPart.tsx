import { useState } from 'react';
import { type IncidentKind, incidentKindSchema, type PourEvent } from '../../../shared-core/book/pour-record.ts';
import { dayOfInstant, formatInstantTime, instantAt } from '../../../shared-core/measure/moment.ts';
import { entryWords, INCIDENT_WORDS } from '../../../shared-core/documents/log-words.ts';
import type { PourState } from '../../../shared-core/pour/pour-state.ts';
import { CheckRow, SelectField } from '../../parts/Choices.tsx';
import { ClockField, NumberField } from '../../parts/Fields.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { ReasonFields } from './ReasonFields.tsx';

/** A correction of one entry; `isVoid` strikes it out. */
export interface CorrectDraft {
  readonly eventId: string;
  readonly isVoid: boolean;
  readonly toAt: string | null;
  readonly toBags: number | null;
  readonly by: string;
  readonly why: string;
}

/** Problems that the log does not have, as in a handwritten log. */
export interface TroubleDraft {
  readonly incident: IncidentKind;
  readonly batch: number | null;
  /** The batch is not part of the floor: thrown out, scraped out or cut out. */
  readonly isRemoved: boolean;
  readonly by: string;
  readonly why: string;
}

const NEW = 'new';

interface CorrectProps {
  readonly state: PourState;
  readonly zone: string;
  readonly initials: string;
  readonly onSave: (draft: CorrectDraft) => void;
  readonly onAdd: (draft: TroubleDraft) => void;
}

/** Corrects an entry of a finished pour. The log keeps the entry, with the person and the reason. */
export function CorrectPart({ state, zone, initials, onSave, onAdd }: CorrectProps) {
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
  const save = (isVoid: boolean): void => {
    if (entry === undefined) return;
    if (!isVoid && bags === null && clock === null) return setProblem('Enter the bags or the time.');
    if (by.trim() === '' || why.trim() === '') return setProblem('Enter your initials and a reason.');
    const instant = clock === null ? null : instantAt(dayOfInstant(entry.instant, zone), clock, zone);
    if (instant !== null && !instant.ok) return setProblem(instant.message);
    setProblem(null);
    setId(null);
    setBags(null);
    setClock(null);
    setWhy('');
    return onSave({
      eventId: entry.id,
      isVoid,
      toAt: instant === null ? null : instant.value.instant,
      toBags: bags,
      by: by.trim(),
      why: why.trim(),
    });
  };
  const add = (): void => {
    if (by.trim() === '' || why.trim() === '') return setProblem('Enter your initials and a reason.');
    setProblem(null);
    setId(null);
    setWhy('');
    return onAdd({ incident, batch, isRemoved: isRemoved && batch !== null, by: by.trim(), why: why.trim() });
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
            word: `${entryWords(event, { layout: null, locale })}, ${formatInstantTime(event.instant, zone, locale)}`,
          })),
        ]}
        onChange={setId}
      />
      {id === NEW && (
        <>
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
          {batch !== null && <CheckRow label="The batch was removed" checked={isRemoved} onChange={setRemoved} />}
          {reasonFields}
          <p className="words">
            <TextButton kind="outlined" onPress={add}>
              Save trouble
            </TextButton>
          </p>
        </>
      )}
      {entry !== undefined && (
        <>
          {(entry.kind === 'mixed' || entry.kind === 'placed') && (
            <NumberField label="Bags" least={0.25} most={20} decimals={2} value={bags} onChange={setBags} hint="Leave empty to keep it." />
          )}
          <ClockField label="Time" value={clock} onChange={setClock} />
          {reasonFields}
          <p className="words">
            <TextButton kind="outlined" onPress={() => save(false)}>
              Save correction
            </TextButton>
            <TextButton kind="plain" onPress={() => save(true)}>
              Void entry
            </TextButton>
          </p>
        </>
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
  event.kind === 'lane-finished';
