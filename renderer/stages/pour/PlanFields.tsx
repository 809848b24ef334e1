import type { PourMove } from '../../../shared-core/agenda/move-pour.ts';
import type { PourReading } from '../../../shared-core/standing/read-pour.ts';
import type { RoomReading } from '../../../shared-core/standing/read-job.ts';
import type { Crew, Job, JobRoom, PourPlan } from '../../../shared-core/book/job.ts';
import { formatDuration } from '../../../shared-core/measure/duration.ts';
import { cartProblem } from '../../../shared-core/pour/cart.ts';
import { withStation } from '../../../shared-core/pour/crew-names.ts';
import { tryMove } from '../../book/move-pour-commands.ts';
import { useNow } from '../../book/use-job-reading.ts';
import { ChoiceRow } from '../../parts/ChoiceRow.tsx';
import { Fields } from '../../parts/Fields.tsx';
import { CrewFields } from '../../parts/job/CrewFields.tsx';
import { PourMomentField } from '../../parts/job/PourMomentField.tsx';
import { NumberField } from '../../parts/NumberField.tsx';
import { QuantityField } from '../../parts/QuantityField.tsx';
import { SelectField } from '../../parts/SelectField.tsx';
import { BlockPart } from '../../parts/TitleBlock.tsx';
import { useMeasure } from '../../parts/use-measure.ts';
import { CrewNamesPart } from './CrewNamesPart.tsx';
import { CrewTimesPart } from './CrewTimesPart.tsx';

interface PlanFieldsProps {
  readonly jobId: string;
  readonly at: RoomReading;
  readonly read: PourReading;
  readonly plan: PourPlan;
  readonly zone: string;
  readonly onPlan: (label: string, how: (plan: PourPlan) => PourPlan) => void;
  readonly onRoom: (label: string, how: (jobRoom: JobRoom) => JobRoom) => void;
  readonly onMove: (move: PourMove) => void;
  /** Who is on site by name. */
  readonly names: Job['crewNames'];
  readonly onNames: (label: string, how: (names: Job['crewNames']) => Job['crewNames']) => void;
}

/** When it is poured, how the strips lie, and who does what. */
export function PlanFields({ jobId, at, read, plan, zone, onPlan, onRoom, onMove, names, onNames }: PlanFieldsProps) {
  const { units, locale } = useMeasure();
  const now = useNow();
  const { room, jobRoom } = at;
  const { crew } = plan;
  const part = (label: string, to: Partial<PourPlan>) => onPlan(label, (was) => ({ ...was, ...to }));
  const setCrew = (label: string, to: Partial<Crew>) => onPlan(label, (was) => ({ ...was, crew: { ...was.crew, ...to } }));
  const loaded = read.layout.ok ? cartProblem(crew, read.layout.value.batchM3, units, locale) : null;
  const angle = ((Math.round(plan.angleDeg) % 180) + 180) % 180;
  return (
    <>
      <BlockPart>
        <Fields>
          <PourMomentField
            label="Poured at"
            zone={zone}
            now={now}
            value={jobRoom.pourAt}
            onSet={(pourAt) => onRoom('day and time of the pour', (r) => ({ ...r, pourAt }))}
            onTry={(toAt) => tryMove(jobId, room.id, toAt)}
            onMove={onMove}
          />
          <QuantityField
            kind="temperature"
            label="Air in the room"
            value={plan.airTempC}
            onChange={(airTempC) => airTempC !== null && part('air at the pour', { airTempC })}
            check={(tempC) => (tempC < -10 || tempC > 50 ? 'That is no temperature to pour in: type the air of the room.' : null)}
            under={`Edges heal ${formatDuration(read.clocks.healingMin * 60, locale)}, a batch flows ${formatDuration(read.clocks.flowLifeMin * 60, locale)}.`}
          />
        </Fields>
      </BlockPart>
      <BlockPart heading="Lanes">
        <Fields>
          <QuantityField
            kind="length"
            label="Strip width"
            value={plan.laneWidthM}
            onChange={(laneWidthM) => laneWidthM !== null && part('strip width', { laneWidthM })}
            check={(m) => (m < 0.2 || m > 6 ? 'Strips are from about 8 inches to 20 feet wide (0.2 m to 6 m).' : null)}
          />
          <SelectField
            label="Way out"
            value={plan.wayOutId ?? ''}
            options={[
              { value: '', word: 'as drawn' },
              ...room.plan.openings.map((o) => ({ value: o.id, word: o.name === '' ? 'opening' : o.name })),
            ]}
            onChange={(id) => part('way out', { wayOutId: id === null || id === '' ? null : id })}
          />
        </Fields>
        <ChoiceRow
          label="Strips run"
          captioned
          options={[
            { value: '0', word: 'along' },
            { value: '90', word: 'across' },
          ]}
          value={angle === 0 ? '0' : angle === 90 ? '90' : null}
          onChange={(value) => part('direction of the strips', { angleDeg: Number(value) })}
        />
        <Fields>
          <NumberField
            label="Turned, degrees"
            least={0}
            most={180}
            decimals={0}
            value={angle}
            onChange={(n) => n !== null && part('direction of the strips', { angleDeg: n % 180 })}
            hint="0 along, 90 across, 45 corner to corner."
          />
        </Fields>
        <ChoiceRow
          label="Filled"
          captioned
          options={[
            { value: 'back-and-forth', word: 'back and forth' },
            { value: 'one-way', word: 'one way' },
          ]}
          value={plan.pattern}
          onChange={(pattern) => part('how the strips are filled', { pattern })}
        />
      </BlockPart>
      <BlockPart heading="Crew">
        <CrewFields crew={crew} onCrew={setCrew} cartProblem={loaded} />
      </BlockPart>
      <CrewNamesPart
        crew={crew}
        names={names}
        onNames={onNames}
        onStation={(who, at) => onPlan(`station of ${who}`, (was) => ({ ...was, crew: withStation(was.crew, who, at) }))}
      />
      <CrewTimesPart crew={crew} onCrew={setCrew} />
    </>
  );
}
