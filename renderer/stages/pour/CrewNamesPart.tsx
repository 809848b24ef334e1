import { useState } from 'react';
import type { Crew, Job } from '../../../shared-core/book/job.ts';
import { namesAt, type StationName, stationQuestions } from '../../../shared-core/pour/crew-names.ts';
import { SelectField } from '../../parts/SelectField.tsx';
import { TextButton } from '../../parts/TextButton.tsx';
import { TextField } from '../../parts/TextField.tsx';
import { checkName } from '../../parts/text-checks.ts';
import { BlockPart } from '../../parts/TitleBlock.tsx';

interface CrewNamesProps {
  readonly crew: Crew;
  readonly names: Job['crewNames'];
  readonly onNames: (label: string, how: (names: Job['crewNames']) => Job['crewNames']) => void;
  readonly onStation: (name: string, at: StationName | null) => void;
}

const STATIONS: readonly { readonly value: StationName; readonly word: string }[] = [
  { value: 'mixing', word: 'mixing' },
  { value: 'carrying', word: 'carrying' },
  { value: 'spreading', word: 'spreading' },
];
const MOST = 12;

/** Who is on site on the day, by name, and where each stands. */
export function CrewNamesPart({ crew, names, onNames, onStation }: CrewNamesProps) {
  const [name, setName] = useState('');
  const [problem, setProblem] = useState<string | null>(null);
  const stationOf = (who: string) => STATIONS.find(({ value }) => namesAt(crew, [who], value).length > 0)?.value ?? null;
  const add = (typed: string): void => {
    const who = typed.trim();
    const wrong = checkName(who);
    if (who === '' || wrong !== null) return setProblem(wrong ?? 'Type who comes along.');
    if (names.includes(who)) return setProblem(`${who} is on the list: add an initial to tell two apart.`);
    setProblem(null);
    setName('');
    return onNames(`${who} on site`, (was) => (was.includes(who) ? was : [...was, who]));
  };
  const questions = stationQuestions(crew, names);
  return (
    <BlockPart heading="On site">
      {names.length > 0 && (
        <ul className="pour-names">
          {names.map((who) => (
            <li key={who}>
              <SelectField
                label={who}
                value={stationOf(who)}
                none="no station yet"
                options={STATIONS}
                onChange={(at) => onStation(who, at)}
              />
              <TextButton
                kind="plain"
                label={`Take ${who} off the list`}
                onPress={() => onNames(`${who} not on site`, (was) => was.filter((n) => n !== who))}
              >
                Take off
              </TextButton>
            </li>
          ))}
        </ul>
      )}
      {questions.map((says) => (
        <p key={says} className="field-problem" role="status">
          {says}
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
          <TextField label="One more" value={name} onChange={setName} placeholder="a name" problem={problem} />
          <TextButton submits>Add</TextButton>
        </form>
      )}
    </BlockPart>
  );
}
