import { useState } from 'react';
import type { Crew, Job } from '../../../shared-core/book/job.ts';
import { namesAt, type StationName, stationQuestions } from '../../../shared-core/pour/crew-names.ts';
import { SelectField } from '../../parts/Choices.tsx';
import { TextButton } from '../../parts/Buttons.tsx';
import { TextField, checkName } from '../../parts/Fields.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';

interface CrewNamesProps {
  readonly crew: Crew;
  readonly names: Job['crewNames'];
  readonly onNames: (label: string, update: (names: Job['crewNames']) => Job['crewNames']) => void;
  readonly onStation: (name: string, station: StationName | null) => void;
}

const STATIONS: readonly StationName[] = ['mixing', 'carrying', 'spreading'];
const MOST = 12;

/** Names of the people on site, and their stations. */
export function CrewNamesPart({ crew, names, onNames, onStation }: CrewNamesProps) {
  const [name, setName] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const stationOf = (name: string) => STATIONS.find((station) => namesAt(crew, [name], station).length > 0) ?? null;
  const add = (typed: string): void => {
    const newName = typed.trim();
    const wrong = checkName(newName);
    if (newName === '' || wrong !== null) return setProblem(wrong ?? 'Enter a name.');
    if (names.includes(newName)) return setProblem(`${newName} is already on the crew. Add an initial to tell them apart.`);
    setProblem(null);
    setName('');
    return onNames(`Add ${newName} to crew`, (names) => (names.includes(newName) ? names : [...names, newName]));
  };
  const questions = stationQuestions(crew, names);
  return (
    <BlockPart heading="Crew members">
      {names.length > 0 && (
        <ul className="pour-names">
          {names.map((name) => (
            <li key={name}>
              <SelectField
                label={name}
                value={stationOf(name)}
                none="No station"
                options={STATIONS.map((value) => ({ value, word: value }))}
                onChange={(station) => onStation(name, station)}
              />
              <TextButton
                kind="plain"
                label={`Remove ${name} from crew`}
                onPress={() => onNames(`Remove ${name} from crew`, (crewNames) => crewNames.filter((n) => n !== name))}
              >
                Remove
              </TextButton>
            </li>
          ))}
        </ul>
      )}
      {questions.map((text) => (
        <p key={text} className="field-problem" role="status">
          {text}
        </p>
      ))}
      {names.length < MOST && (
        <form
          className="pour-names-add"
          onSubmit={(event) => {
            event.preventDefault();
            add(name);
          }}
        >
          <TextField label="Crew member" value={name} onChange={setName} placeholder="Name" problem={problem} />
          <TextButton submits>Add</TextButton>
        </form>
      )}
    </BlockPart>
  );
}
