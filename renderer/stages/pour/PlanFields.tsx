import type { Update } from '../../book/write.ts';
import { roomAir } from '../../../shared-core/climate/room-air.ts';
import type { PourMove } from '../../../shared-core/agenda/move-pour.ts';
import type { PourReading } from '../../../shared-core/standing/read-pour.ts';
import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { Crew, Job, JobRoom, PourPlan } from '../../../shared-core/book/job.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import type { WholeJob } from '../../../shared-core/book/whole-job.ts';
import { cartOverload } from '../../../shared-core/pour/cart.ts';
import { ALONE_WORDS, cartOverloadWords, stationOverWords } from '../../../shared-core/documents/pour-words.ts';
import { startCrew } from '../../../shared-core/pour/start-crew.ts';
import {
  helperCount,
  helpersIn,
  isTypicalCrew,
  withStation,
  namesAt,
  type StationName,
  stationsOver,
} from '../../../shared-core/pour/crew-names.ts';
import { tryMove } from '../../book/move-pour-commands.ts';
import { useNow } from '../../book/use-job-reading.ts';
import { ChoiceRow, SelectField } from '../../parts/Choices.tsx';
import { Fields, NumberField, QuantityField, TextField, checkName } from '../../parts/Fields.tsx';
import { Folded } from '../../parts/Folded.tsx';
import { airWords } from '../../parts/job/air-words.ts';
import { CrewFields } from '../../parts/job/CrewFields.tsx';
import { PourMomentField } from '../../parts/job/PourMomentField.tsx';
import { BlockPart } from '../../parts/Sheet.tsx';
import { TypicalCrew } from '../../parts/TypicalCrew.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { CrewTimesPart } from './CrewTimesPart.tsx';
import { useState } from 'react';
import { TextButton } from '../../parts/Buttons.tsx';

interface PlanFieldsProps {
  readonly whole: WholeJob;
  readonly roomReading: RoomReading;
  readonly read: PourReading;
  readonly plan: PourPlan;
  readonly onPlan: (label: string, update: Update<PourPlan>) => void;
  readonly onAir: (tempC: number) => void;
  readonly onRoom: (label: string, update: Update<JobRoom>) => void;
  readonly onMove: (move: PourMove) => void;
  readonly onNames: (label: string, update: (names: Job['crewNames']) => Job['crewNames']) => void;
}

export function PlanFields({ whole, roomReading, read, plan, onPlan, onAir, onRoom, onMove, onNames }: PlanFieldsProps) {
  const { units, locale } = useMeasure();
  const now = useNow();
  const { room, jobRoom, nextPourAt } = roomReading;
  const { business } = whole;
  const { crewNames: names } = whole.job;
  const zone = whole.property.timeZone;
  const { crew } = plan;
  const part = (label: string, to: Partial<PourPlan>) => onPlan(label, (stored) => ({ ...stored, ...to }));
  const setCrew = (label: string, to: Partial<Crew>) => onPlan(label, (stored) => ({ ...stored, crew: { ...stored.crew, ...to } }));
  const overload = read.layout.ok ? cartOverload(crew, read.layout.value.batchM3) : null;
  const angle = ((Math.round(plan.angleDeg) % 180) + 180) % 180;
  const isNew = jobRoom.pourPlan === null;
  const isAlone = helpersIn(plan) === 0;
  return (
    <>
      {isNew && !isAlone && (
        <BlockPart heading="Mix transport">
          <ChoiceRow<Crew['carry']>
            label="Carrying method"
            options={{ 'by-hand': 'by hand', cart: 'by cart' }}
            value={null}
            onChange={(carry) =>
              setCrew('Carrying method', startCrew(carry, read.clocks, business.ownTimes, helperCount(null, names, business)))
            }
          />
          <p className="small">The plan assumes buckets carried by hand until you choose.</p>
        </BlockPart>
      )}
      <BlockPart>
        <Fields>
          <PourMomentField
            label="Pour date"
            zone={zone}
            now={now}
            value={nextPourAt}
            onSet={(pourAt) => onRoom('Pour date', { pourAt })}
            onTry={(toAt) => tryMove(whole.job.id, room.id, toAt)}
            onMove={onMove}
          />
          <QuantityField
            kind="temperature"
            label="Air temperature"
            value={read.plannedTempC}
            onChange={(tempC) => tempC !== null && onAir(tempC)}
            check={(tempC) => (tempC < -10 || tempC > 50 ? 'Check this value. Enter the air temperature of the room.' : null)}
            under={`${airWords(roomAir(room, jobRoom), zone, locale)} Healing time ${formatDuration(read.clocks.healingMin * 60, locale)}, working time ${formatDuration(read.clocks.workingTimeMin * 60, locale)}.`}
          />
        </Fields>
      </BlockPart>
      <BlockPart heading="Lanes">
        <Fields>
          <QuantityField
            kind="length"
            label="Lane width"
            value={plan.laneWidthM}
            onChange={(laneWidthM) => laneWidthM !== null && part('Lane width', { laneWidthM })}
            check={(m) => (m < 0.2 || m > 6 ? 'Enter a lane width from 8 in. to 20 ft (0.2 to 6 m).' : null)}
          />
          <SelectField
            label="Exit"
            value={plan.wayOutId ?? ''}
            options={[
              { value: '', word: 'exit on the plan' },
              ...room.plan.openings.map((o) => ({ value: o.id, word: o.name === '' ? 'opening' : o.name })),
            ]}
            onChange={(id) => part('Exit', { wayOutId: id === '' ? null : id })}
          />
        </Fields>
        <Folded label="Direction and fill" holds={directionWords(angle, plan.pattern)}>
          <ChoiceRow
            label="Lane direction"
            captioned
            options={[
              { value: '0', word: 'along' },
              { value: '90', word: 'across' },
            ]}
            value={angle === 0 ? '0' : angle === 90 ? '90' : null}
            onChange={(value) => part('Lane direction', { angleDeg: Number(value) })}
          />
          <Fields>
            <NumberField
              label="Angle, degrees"
              least={0}
              most={180}
              decimals={0}
              value={angle}
              onChange={(n) => n !== null && part('Lane direction', { angleDeg: n % 180 })}
              hint="0 is along, 90 is across."
            />
          </Fields>
          <ChoiceRow
            label="Fill pattern"
            captioned
            options={{ 'back-and-forth': 'back and forth', 'one-way': 'one way' }}
            value={plan.pattern}
            onChange={(pattern) => part('Fill pattern', { pattern })}
          />
        </Folded>
      </BlockPart>
      <BlockPart heading="Crew">
        <CrewFields
          crew={crew}
          onCrew={setCrew}
          cartProblem={overload && cartOverloadWords(overload, units, locale)}
          isCarryAsked={isNew && !isAlone}
        />
        {isTypicalCrew(plan, names, business) && <TypicalCrew />}
        {isAlone && <p className="small">{ALONE_WORDS}</p>}
      </BlockPart>
      <CrewNamesPart
        crew={crew}
        names={names}
        onNames={onNames}
        onStation={(name, station) =>
          onPlan(`Station of ${name}`, (stored) => ({ ...stored, crew: withStation(stored.crew, name, station) }))
        }
      />
      <CrewTimesPart crew={crew} onCrew={setCrew} />
    </>
  );
}

function directionWords(angleDeg: number, pattern: PourPlan['pattern']): string {
  const direction = angleDeg === 0 ? 'along' : angleDeg === 90 ? 'across' : `${angleDeg}°`;
  return `${direction}, ${pattern === 'one-way' ? 'one way' : 'back and forth'}`;
}

interface CrewNamesProps {
  readonly crew: Crew;
  readonly names: Job['crewNames'];
  readonly onNames: (label: string, update: (names: Job['crewNames']) => Job['crewNames']) => void;
  readonly onStation: (name: string, station: StationName | null) => void;
}

const STATIONS: readonly StationName[] = ['mixing', 'carrying', 'spreading'];
const MOST = 12;

/** Names of the people on site, and their stations. */
function CrewNamesPart({ crew, names, onNames, onStation }: CrewNamesProps) {
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
      {stationsOver(crew, names).map((over) => (
        <p key={over.station} className="field-problem" role="status">
          {stationOverWords(over)}
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
